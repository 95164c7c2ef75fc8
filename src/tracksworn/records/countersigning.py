"""A second signature under a sealed document, by somebody else, where the seal left room for it."""

from datetime import datetime

from pyhanko.sign.fields import enumerate_sig_fields
from pyhanko.sign.signers.pdf_signer import PdfSignatureMetadata

from tracksworn.inspection.faults import WrongUse
from tracksworn.records.awaited import awaited
from tracksworn.records.sealing.field import Field
from tracksworn.records.sealing.fitness import check_fit
from tracksworn.records.sealing.quiet import quiet
from tracksworn.records.sealing.seal import PLAIN, Manner, signature_of, signed
from tracksworn.records.sealing.signer import Level, Signer, UnusableFile
from tracksworn.records.verifying.integrity import judge_integrity


def countersign(content: bytes, signer: Signer, *, at: datetime, manner: Manner = PLAIN) -> bytes:
    """A sealed document with its countersignature, by somebody else; the seal stays as it is.

    The level is B or T, since the seal allows nothing to be added beside it. Raises UnusableFile where the file is not
    as it was sealed or its seal left no room for one, and what `seal` raises.
    """
    if manner.level not in (Level.B, Level.T):
        raise WrongUse(f"a countersignature is made at level b or t, not {manner.level}")
    check_fit(signer, at)
    _check_room(content)
    what = PdfSignatureMetadata(**signature_of(Field.COUNTERSIGNATURE, signer, manner))
    return awaited(signed(content, signer, what, manner, at))


def _check_room(content: bytes) -> None:
    with quiet():
        answer, sealed = judge_integrity(content)
    if sealed is None:
        raise UnusableFile(f"only a file that is as it was sealed can be countersigned: {answer.because}")
    empty = [name for name, _, _ in enumerate_sig_fields(sealed.reader, filled_status=False)]
    if Field.COUNTERSIGNATURE.value not in empty:
        raise UnusableFile("this file has no room for a countersignature; it must be sealed with --countersign")
