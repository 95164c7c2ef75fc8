"""When a file was sealed, as far as a trusted authority attests it (RFC 3161, ETSI EN 319 142-1).

Each timestamp is judged at the moment that the one after it attests, the last at the moment of verifying.
"""

from dataclasses import dataclass
from datetime import UTC, datetime

from asn1crypto import cms
from pyhanko.sign.validation.pdf_embedded import EmbeddedPdfSignature

from tracksworn.records.verifying.envelope import tokens
from tracksworn.records.verifying.people import STAMPING, Evidence, NotTrusted, check_trusted, name_of
from tracksworn.records.verifying.sealed import Sealed, end_of
from tracksworn.records.verifying.trust import Trust
from tracksworn.records.verifying.verdict import Answer, Name, State


@dataclass(frozen=True, slots=True)
class Instant:
    """The earliest moment at which a signature is known to have been there, by whom, and what is not relied on."""

    known: datetime  # that of verifying, where no authority attests an earlier one
    by: str
    doubts: tuple[str, ...]


def known_since(
    signature: EmbeddedPdfSignature, sealed: Sealed, trust: Trust, evidence: Evidence, at: datetime
) -> Instant:
    """Since when one signature of a file is known to have been there: its own timestamp, and those over all of it."""
    over = [one.signed_data for one in reversed(sealed.stamps) if end_of(one) > end_of(signature)]
    known, by, doubts = at, "", []
    for token in (*over, *tokens(signature.signed_data)):
        moment = _moment(token)
        try:
            _check(token, moment, trust, evidence, known, at)
        except NotTrusted as error:
            doubts.append(f"the timestamp of {_written(moment)} by {name_of(token)} is not relied on: {error}")
            continue
        known, by = min(known, moment), name_of(token)
    return Instant(known, by, tuple(doubts))


def judge_time(sealed: Sealed, since: Instant) -> Answer:
    """When the file was sealed: attested, or only said by who sealed it."""
    if since.by:
        return Answer(Name.TIME, State.PASSED, f"sealed by {_written(since.known)}, as {since.by} attests")
    said = sealed.seal.self_reported_timestamp
    because = f"nobody attests it; who sealed it says {_written(said)}" if said else "nobody says when it was sealed"
    return Answer(Name.TIME, State.CANNOT_TELL, "; ".join([because, *since.doubts]))


def _check(
    token: cms.SignedData, moment: datetime, trust: Trust, evidence: Evidence, known: datetime, at: datetime
) -> None:
    if not trust.roots:
        raise NotTrusted("no trusted certificate was given")
    if moment > at:
        raise NotTrusted("that is still to come")
    check_trusted(token, trust, evidence, known, STAMPING)


def _moment(token: cms.SignedData) -> datetime:
    moment = token["encap_content_info"]["content"].parsed["gen_time"].native
    assert isinstance(moment, datetime)
    return moment


def _written(moment: datetime) -> str:
    if moment.tzinfo is None:
        return f"{moment:%Y-%m-%d %H:%M:%S}, of no zone"
    return f"{moment.astimezone(UTC):%Y-%m-%d %H:%M:%S} UTC"
