"""Whom a seal asks for the time (RFC 3161) and for revocation data (RFC 5280, RFC 6960)."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any, Final
from urllib.parse import urlsplit

import requests
from asn1crypto import cms, x509
from pyhanko.sign.general import SigningError
from pyhanko.sign.timestamps.common_utils import TimestampRequestError
from pyhanko.sign.timestamps.requests_client import RequestsHTTPTimeStamper
from pyhanko_certvalidator import ValidationContext
from pyhanko_certvalidator.errors import PathBuildingError, PathValidationError, RevokedError
from pyhanko_certvalidator.fetchers.requests_fetchers import RequestsFetcherBackend

from tracksworn.inspection.faults import Failed, WrongUse, visible
from tracksworn.records.sealing.signer import Signer, UnusableKey

PATIENCE: Final = 20  # seconds for one answer


@dataclass(frozen=True, slots=True)
class Authority:
    """A timestamping authority, by its address. Raises WrongUse for what is no address on the web."""

    url: str

    def __post_init__(self) -> None:
        try:
            parts = urlsplit(self.url)
        except ValueError:
            parts = urlsplit("")
        if parts.scheme not in ("http", "https") or not parts.hostname:
            raise WrongUse(
                f"{visible(self.url)!r} is no address of a timestamping authority; it begins with http:// or https://"
            )

    def __str__(self) -> str:
        parts = urlsplit(self.url)
        return f"{parts.scheme}://{parts.netloc.rpartition('@')[2]}{parts.path}"

    def timestamper(self) -> RequestsHTTPTimeStamper:
        """What asks it over the network."""
        return _Asked(self.url, timeout=PATIENCE)  # type: ignore[no-untyped-call]


class _Asked(RequestsHTTPTimeStamper):
    """Says as its own error what the answer's reader stumbles over."""

    async def async_timestamp(self, message_digest: Any, md_algorithm: Any) -> cms.ContentInfo:
        try:
            return await super().async_timestamp(message_digest, md_algorithm)
        except (ValueError, TypeError, KeyError) as error:
            raise TimestampRequestError("what it answers cannot be read") from error


def validation(signer: Signer, trust: Sequence[bytes]) -> ValidationContext:
    """What gathers certificates and revocation data; roots are those given and those that come with the key."""
    chain = [x509.Certificate.load(each) for each in (signer.certificate, *signer.chain)]
    roots = [each for each in chain if each.self_issued]
    return gathering([*roots, *(x509.Certificate.load(each) for each in trust)], chain)


def gathering(roots: Sequence[Any], others: Sequence[Any]) -> ValidationContext:
    """What gathers certificates and revocation data up to some roots, today."""
    return ValidationContext(
        trust_roots=[*roots],
        other_certs=[*others],
        allow_fetching=True,
        revocation_mode="hard-fail",
        fetcher_backend=RequestsFetcherBackend(per_request_timeout=PATIENCE),
    )


@contextmanager
def telling(
    authority: Authority | None, otherwise: str = "name the root with --trust, or seal at level t"
) -> Iterator[None]:
    """What goes wrong while signing, in one sentence; `otherwise` says what to do without all revocation data."""
    try:
        yield
    except TimestampRequestError as error:
        raise Failed(
            f"the timestamping authority {authority} gives no timestamp: {_reason(error)}; nothing is sealed"
        ) from error
    except (PathBuildingError, PathValidationError) as error:
        raise _told(error, otherwise) from error
    except SigningError as error:
        cause = error.__cause__
        raise (
            _told(cause, otherwise)
            if isinstance(cause, PathBuildingError | PathValidationError)
            else Failed(str(error))
        ) from error


def _reason(error: Exception) -> str:
    cause = error.__cause__
    if isinstance(cause, requests.Timeout):
        return f"no answer within {PATIENCE} seconds"
    if isinstance(cause, requests.RequestException):
        return "no connection to it"
    return str(error.args[0] if error.args else error).rstrip(".")


def _told(error: BaseException, otherwise: str) -> Exception:
    if isinstance(error, RevokedError):
        return UnusableKey(f"a certificate has been revoked: {error}")
    return UnusableKey(
        f"certificates do not lead to a trusted root with all revocation data, as levels lt and lta ask: {error}; "
        f"{otherwise}"
    )
