"""A document signed with its data inside (ETSI EN 319 142-1, PAdES).

The seal is a certification signature (ISO 32000-2, 12.8.2.2): it allows no change at all, or, where room was asked
for, one countersignature. Nothing is handed over that does not check out when it is read again.
"""

from dataclasses import dataclass
from datetime import datetime
from io import BytesIO
from typing import Any, Final

from pyhanko.pdf_utils.incremental_writer import IncrementalPdfFileWriter
from pyhanko.sign.fields import MDPPerm, SigSeedSubFilter
from pyhanko.sign.signers.pdf_cms import PdfCMSSignedAttributes
from pyhanko.sign.signers.pdf_signer import (
    DSSContentSettings,
    PdfSignatureMetadata,
    PdfSigner,
    SigDSSPlacementPreference,
)
from pyhanko.stamp.noop import NoOpStampStyle

from tracksworn.records.awaited import awaited
from tracksworn.records.sealing.authority import Authority, telling, validation
from tracksworn.records.sealing.field import ARCHIVE_TIMES, Field, put_in
from tracksworn.records.sealing.fitness import check_fit
from tracksworn.records.sealing.proof import prove
from tracksworn.records.sealing.quiet import quiet
from tracksworn.records.sealing.signer import Level, Signer

DIGEST: Final = "sha256"


@dataclass(frozen=True, slots=True)
class Manner:
    """How far a seal goes: its level, the authority that levels above B ask for the time, and whom it trusts.

    `trust` are certificates (DER) up to which revocation data are gathered, beside the roots that come with the key.
    """

    level: Level = Level.B
    authority: Authority | None = None
    trust: tuple[bytes, ...] = ()


PLAIN: Final = Manner()


def seal(content: bytes, signer: Signer, *, at: datetime, manner: Manner = PLAIN, countersign: bool = False) -> bytes:
    """A document of ours, sealed at that moment; with `countersign` there is room for one more signature.

    The same input does not give the same bytes: signatures on elliptic curves and a PDF's identifier hold chance.

    Raises UnusableKey for a certificate that cannot seal, UnusableFile for a PDF that cannot be sealed, and Failed
    where an authority is out of reach or says no.
    """
    return awaited(sealed(content, signer, at=at, manner=manner, countersign=countersign))


async def sealed(
    content: bytes, signer: Signer, *, at: datetime, manner: Manner = PLAIN, countersign: bool = False
) -> bytes:
    """As `seal`, for an event loop on which others are sealed while this one waits for an authority."""
    check_fit(signer, at)
    fields = [Field.SEAL]
    if countersign:
        fields.append(Field.COUNTERSIGNATURE)
    if manner.level in (Level.LT, Level.LTA):
        fields += ARCHIVE_TIMES
    allowed = MDPPerm.FILL_FORMS if countersign else MDPPerm.NO_CHANGES
    what = PdfSignatureMetadata(
        **signature_of(Field.SEAL, signer, manner),
        certify=True,
        docmdp_permissions=allowed,
        timestamp_field_name=Field.ARCHIVE_TIME.value,
        use_pades_lta=manner.level is Level.LTA,
    )
    return await signed(put_in(content, fields), signer, what, manner, at)


def signature_of(field: Field, signer: Signer, manner: Manner) -> dict[str, Any]:
    """What every signature of ours has, as pyHanko's metadata take it."""
    long_term = manner.level in (Level.LT, Level.LTA)
    return {
        "field_name": field.value,
        "md_algorithm": DIGEST,
        "subfilter": SigSeedSubFilter.PADES,
        "embed_validation_info": long_term,
        "validation_context": validation(signer, manner.trust) if long_term else None,
        "signer_key_usage": set(),  # judged before, and more than one will do
        "dss_settings": DSSContentSettings(
            include_vri=False, placement=SigDSSPlacementPreference.TOGETHER_WITH_SIGNATURE
        ),
    }


async def signed(content: bytes, signer: Signer, what: PdfSignatureMetadata, manner: Manner, at: datetime) -> bytes:
    """The file with that signature in its field, read again and found whole."""
    authority = manner.authority if manner.level is not Level.B else None
    with quiet():
        with telling(authority):
            done = await _sign(content, signer, what, authority, at)
        await prove(done, what.field_name, timestamped=authority is not None)
    return done


async def _sign(
    content: bytes, signer: Signer, what: PdfSignatureMetadata, authority: Authority | None, at: datetime
) -> bytes:
    """The steps of pyHanko's own signing, but at the moment that is given."""
    out = IncrementalPdfFileWriter(BytesIO(content))
    timestamper = authority.timestamper() if authority is not None else None
    session = PdfSigner(
        what, signer.private, timestamper=timestamper, stamp_style=NoOpStampStyle()
    ).init_signing_session(out, existing_fields_only=True)
    session.system_time = at
    found = await session.perform_presign_validation(out)
    room = await session.estimate_signature_container_size(found, tight=False)
    prepared = session.prepare_tbs_document(validation_info=found, bytes_reserved=room)
    written = BytesIO()
    digest, _ = prepared.digest_tbs_document(output=written)
    said = PdfCMSSignedAttributes(signing_time=at)
    after = await prepared.perform_signature(digest.document_digest, said)
    await after.post_signature_processing(written)
    return written.getvalue()
