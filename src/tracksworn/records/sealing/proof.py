"""What was signed, read again before it is handed over."""

from io import BytesIO
from typing import Any

from pyhanko.pdf_utils.reader import PdfFileReader
from pyhanko.sign.validation import async_validate_pdf_signature
from pyhanko.sign.validation.pdf_embedded import EmbeddedPdfSignature
from pyhanko_certvalidator import ValidationContext

from tracksworn.inspection.faults import Failed


async def prove(content: bytes, field: str | None, *, timestamped: bool) -> None:
    """Raise Failed unless every signature in a file is whole, and that of one field is among them.

    Whom it is by was judged before, and is judged again by whoever verifies it: here each certificate is its own root.
    """
    reader = PdfFileReader(BytesIO(content))
    signatures = {one.field_name: one for one in reader.embedded_regular_signatures}
    if field not in signatures:
        raise Failed("what was signed does not hold its own signature when read again; nothing is sealed")
    for one in signatures.values():
        await _prove(one, timestamped=timestamped and one.field_name == field)


async def _prove(signature: EmbeddedPdfSignature, *, timestamped: bool) -> None:
    roots: list[Any] = [signature.signer_cert]
    context = ValidationContext(
        trust_roots=roots, moment=signature.self_reported_timestamp, revocation_mode="soft-fail"
    )
    of_time = ValidationContext(trust_roots=[])
    status = await async_validate_pdf_signature(signature, context, ts_validation_context=of_time)
    whole = status.intact and status.valid and status.docmdp_ok
    stamped = status.timestamp_validity
    if timestamped and (stamped is None or not (stamped.intact and stamped.valid)):
        raise Failed("the timestamp that the authority gave does not fit the signature; nothing is sealed")
    if not whole:
        raise Failed(
            "what was signed does not check out when read again (do key and certificate belong together?); nothing is "
            "sealed"
        )
