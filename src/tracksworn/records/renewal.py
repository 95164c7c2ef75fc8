"""An archive timestamp more, before the last one's certificate ends (ETSI EN 319 142-1, B-LTA).

Each vouches for all that stood before it, so that what was sealed can be checked when the ciphers and certificates of
its day no longer count for anything. It takes no key: whoever keeps a file may have it done.
"""

from collections.abc import Sequence
from io import BytesIO
from typing import Any, Final

from asn1crypto import cms, x509
from pyhanko.pdf_utils.incremental_writer import IncrementalPdfFileWriter
from pyhanko.sign.fields import enumerate_sig_fields
from pyhanko.sign.general import extract_certificate_info
from pyhanko.sign.signers.pdf_signer import PdfTimeStamper, TimestampDSSContentSettings
from pyhanko_certvalidator import CertificateValidator, ValidationContext
from pyhanko_certvalidator.errors import ExpiredError

from tracksworn.inspection.faults import Failed
from tracksworn.records.awaited import awaited
from tracksworn.records.sealing.authority import Authority, gathering, telling
from tracksworn.records.sealing.field import ARCHIVE_TIMES
from tracksworn.records.sealing.quiet import quiet
from tracksworn.records.sealing.seal import DIGEST
from tracksworn.records.sealing.signer import UnusableFile
from tracksworn.records.verifying.envelope import tokens
from tracksworn.records.verifying.integrity import judge_integrity
from tracksworn.records.verifying.people import STAMPING, evidence_in
from tracksworn.records.verifying.sealed import Sealed

TRUST: Final = "name the roots of both authorities, of the last timestamp and of the new one, with --trust"


def renew(content: bytes, authority: Authority, trust: Sequence[bytes]) -> bytes:
    """A sealed file with another archive timestamp, and with what its last timestamp is checked by (today).

    `trust` are certificates (DER) up to which the authorities' must lead. Raises UnusableFile where the file is not as
    it was sealed, has no room, or whose last timestamp's certificate has ended, UnusableKey where one leads to no root,
    and Failed where the authority is out of reach.
    """
    with quiet():
        sealed = _whole(content)
        field = _room(sealed)
        with telling(authority, TRUST):
            renewed = awaited(_stamped(sealed, field, authority, trust))
        answer, found = judge_integrity(renewed)
        if found is None or len(found.stamps) != len(sealed.stamps) + 1:
            raise Failed(f"what was renewed does not check out when read again: {answer.because}; nothing is written")
    return renewed


def _whole(content: bytes) -> Sealed:
    answer, sealed = judge_integrity(content)
    if sealed is None:
        raise UnusableFile(f"only a file that is as it was sealed can be renewed: {answer.because}")
    return sealed


def _room(sealed: Sealed) -> str:
    empty = [name for name, _, _ in enumerate_sig_fields(sealed.reader, filled_status=False)]
    free = [str(each) for each in ARCHIVE_TIMES if each in empty]
    if not free:
        raise UnusableFile(
            "this file has no room for another archive timestamp; what is sealed at level lt has room for "
            f"{len(ARCHIVE_TIMES)}, at level lta for {len(ARCHIVE_TIMES) - 1} beside its own"
        )
    return free[0]


async def _stamped(sealed: Sealed, field: str, authority: Authority, trust: Sequence[bytes]) -> bytes:
    last = _last(sealed)
    held = [each for token in last for each in extract_certificate_info(token).other_certs]
    roots = [x509.Certificate.load(each) for each in trust]
    context = gathering(roots, [*held, *evidence_in(sealed).certificates])
    out = IncrementalPdfFileWriter(BytesIO(sealed.content))
    written: Any = await PdfTimeStamper(authority.timestamper(), field_name=field).async_timestamp_pdf(
        out,
        DIGEST,
        validation_context=context,
        validation_paths=[await _path(token, context) for token in last],
        dss_settings=TimestampDSSContentSettings(include_vri=False, update_before_ts=True),
    )
    return bytes(written.getvalue())


def _last(sealed: Sealed) -> Sequence[cms.SignedData]:
    """The timestamps that nothing vouches for yet: the last one over all, else those of the signatures."""
    if sealed.stamps:
        return (sealed.stamps[-1].signed_data,)
    return [token for one in (sealed.seal, *sealed.later) for token in tokens(one.signed_data)]


async def _path(token: cms.SignedData, context: ValidationContext) -> Any:
    """From a root down to the certificate of a timestamp, none of them ended or revoked today."""
    own = extract_certificate_info(token).signer_cert
    validator = CertificateValidator(own, validation_context=context)
    try:
        return await validator.async_validate_usage(set(), {STAMPING})  # type: ignore[no-untyped-call]
    except ExpiredError as error:
        ended = f"{error.expired_dt:%Y-%m-%d}"
        raise UnusableFile(
            f"the certificate of its last timestamp ended on {ended}: that timestamp vouches for nothing any more, and "
            "none that is added could"
        ) from error
