"""A file's signatures, told apart: the seal, what was signed after it, and the timestamps of the whole.

Nothing is believed here but what the signature's digest covers: `part` is the file as it was when it was sealed.
"""

import re
from dataclasses import dataclass
from io import BytesIO
from typing import Any, Final

from pyhanko.pdf_utils.reader import PdfFileReader
from pyhanko.sign.validation.pdf_embedded import EmbeddedPdfSignature
from pyhanko.sign.validation.status import SignatureCoverageLevel

from tracksworn.records.plainly import plainly

_HEXADECIMAL: Final = re.compile(rb"<(?:[0-9a-f]*|[0-9A-F]*)>")
SEAL_KINDS: Final = ("/ETSI.CAdES.detached",)
STAMP_KINDS: Final = ("/ETSI.RFC3161",)


class Broken(Exception):  # noqa: N818 - named for the file
    """A file is not as it was sealed; the text is a sentence that says by what this shows."""


@dataclass(frozen=True, slots=True)
class Sealed:
    """A file that bears a seal, not proven in any way."""

    content: bytes
    part: bytes  # as far as the seal reaches
    reader: PdfFileReader  # of all of it
    alone: PdfFileReader  # of that part
    seal: EmbeddedPdfSignature
    later: tuple[EmbeddedPdfSignature, ...]  # signatures by persons, in their order
    stamps: tuple[EmbeddedPdfSignature, ...]  # archive timestamps, in their order

    @property
    def everything(self) -> tuple[EmbeddedPdfSignature, ...]:
        """Every signature and timestamp."""
        return (self.seal, *self.later, *self.stamps)


def find_seal(content: bytes) -> Sealed:
    """Tell the signatures of a file apart. Raises Broken where there is none, or one is not laid out soundly."""
    reader = opened(content)
    signatures = sorted(reader.embedded_signatures, key=lambda one: one.signed_revision)
    for one in signatures:
        _check_layout(one, content)
    own = [one for one in signatures if one.sig_object_type == "/Sig"]
    if not own:
        raise Broken("it bears no signature")
    seal, *later = own
    if seal is not signatures[0]:
        raise Broken("something was signed before the seal")
    part = content[: end_of(seal)]
    alone = reader if part == content else opened(part)
    _check_last(alone, seal)
    stamps = tuple(one for one in signatures if one.sig_object_type != "/Sig")
    return Sealed(content, part, reader, alone, seal, tuple(later), stamps)


def opened(content: bytes) -> PdfFileReader:
    """A file read strictly. Raises Broken where it is no sound PDF."""
    try:
        reader = PdfFileReader(BytesIO(content), strict=True)
        encrypted = reader.encrypted
        _ = reader.embedded_signatures
    except RecursionError as error:
        raise Broken("it is nested too deeply to be read") from error
    except Exception as error:  # what a damaged file makes its reader raise is of no one kind
        raise Broken(f"it cannot be read as a PDF: {plainly(error)}") from error
    if encrypted:
        raise Broken("it is encrypted")
    return reader


def end_of(signature: EmbeddedPdfSignature) -> int:
    """Where what a signature covers ends."""
    return int(signature.byte_range[2]) + int(signature.byte_range[3])


def _check_layout(signature: EmbeddedPdfSignature, content: bytes) -> None:
    """The ranges cover all from the first byte on but the signature itself, which is written in one way only."""
    ranges: Any = signature.byte_range
    numbers = [int(each) for each in ranges] if all(isinstance(each, int) for each in ranges) else []
    if len(numbers) != 4 or numbers[0] != 0 or min(numbers[1:]) <= 0 or end_of(signature) > len(content):
        raise Broken("the ranges of its signature are not those of a whole file")
    gap = content[numbers[1] : numbers[2]]
    if not _HEXADECIMAL.fullmatch(gap) or bytes.fromhex(gap[1:-1].decode("ascii")) != signature.pkcs7_content:
        raise Broken("the ranges of its signature leave out more than the signature")
    kinds = SEAL_KINDS if signature.sig_object_type == "/Sig" else STAMP_KINDS
    if (
        signature.sig_object_type not in ("/Sig", "/DocTimeStamp")
        or signature.sig_object.get("/SubFilter") not in kinds
    ):
        raise Broken("its signature is of a kind that no seal has")


def _check_last(alone: PdfFileReader, seal: EmbeddedPdfSignature) -> None:
    """What the seal covers is by itself a whole file, which ends with the seal's own revision."""
    signatures = alone.embedded_signatures
    if len(signatures) != 1 or alone.total_revisions != seal.signed_revision + 1:
        raise Broken("what its seal covers is not one whole file")
    (own,) = signatures
    own.compute_integrity_info()
    if own.coverage != SignatureCoverageLevel.ENTIRE_FILE or own.field_name != seal.field_name:
        raise Broken("what its seal covers is not one whole file")
