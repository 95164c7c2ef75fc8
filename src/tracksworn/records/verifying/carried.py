"""What a sealed file carries, read out of the part that its seal covers."""

import errno
import json
import zlib
from collections.abc import Mapping
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path, PurePosixPath
from typing import Any, Final

import pikepdf

from tracksworn.documents.attached import ASSESSMENT, FINGERPRINT
from tracksworn.documents.making import MAKING, read_making
from tracksworn.inspection.reading import INSPECTION_NAME
from tracksworn.records.plainly import plainly

MOST_FILES: Final = 200
MOST_BYTES: Final = 50_000_000
LONGEST_NUMBER: Final = 64  # as an inspection may have it
LAST_REVISION: Final = 999
_OF_ITS_NAMES: Final = (errno.ENAMETOOLONG, errno.EEXIST, errno.ENOTDIR, errno.EISDIR, errno.EILSEQ)
"""What a machine refuses for the names that a file carries, rather than for want of room or permission."""


class NotCarried(Exception):  # noqa: N818
    """A file does not carry what a sealed document does; the text is a sentence that says what it lacks."""


@dataclass(frozen=True, slots=True)
class Carried:
    """The files that a document carries, by name, and what three of them say."""

    files: Mapping[str, bytes]
    assessment: Mapping[str, Any]
    digests: Mapping[str, str]

    @property
    def number(self) -> str:
        """The record's number."""
        return self.assessment["number"]  # type: ignore[no-any-return]

    @property
    def revision(self) -> int:
        """Its revision."""
        return self.assessment["revision"]  # type: ignore[no-any-return]

    @property
    def document(self) -> str:
        """Which document it is; empty where it does not say, or not in a word."""
        try:
            document = read_making(self.files[MAKING]).document
        except (KeyError, ValueError):
            return ""
        return document if document.isprintable() else ""

    def lay_out(self, folder: Path) -> Path:
        """Write the files as they lay to each other; the inspection's path.

        Raises NotCarried where there is none or names do not go together, OSError where the machine refuses.
        """
        inspection = self._inspection()
        for name, content in self.files.items():
            path = folder.joinpath(*PurePosixPath(name).parts)
            try:
                path.parent.mkdir(parents=True, exist_ok=True)
                path.write_bytes(content)
            except OSError as error:
                if error.errno not in _OF_ITS_NAMES:
                    raise
                raise NotCarried(f"a file that it carries cannot be laid out: {plainly(error)}") from error
        return folder.joinpath(*PurePosixPath(inspection).parts)

    def _inspection(self) -> str:
        """The inspection that the document is of: the first source that it names."""
        sources = [name for name in self.files if name not in (ASSESSMENT, FINGERPRINT, MAKING)]
        if not sources or PurePosixPath(sources[0]).suffix not in (".yaml", ".yml"):
            raise NotCarried(f"it carries no {INSPECTION_NAME}")
        return sources[0]


def read_carried(part: bytes) -> Carried:
    """What a file carries. Raises NotCarried where that is not what a sealed document carries."""
    try:
        files = _files(part)
    except (pikepdf.PdfError, AttributeError, KeyError, TypeError, ValueError, zlib.error) as error:
        raise NotCarried(f"what it carries cannot be read: {plainly(error)}") from error
    for name in (ASSESSMENT, FINGERPRINT):
        if name not in files:
            raise NotCarried(f"it carries no {name}")
    try:
        assessment, fingerprinted = json.loads(files[ASSESSMENT]), json.loads(files[FINGERPRINT])
        digests = {str(name): str(digits) for name, digits in fingerprinted["files"].items()}
        _check_record(assessment["number"], assessment["revision"])
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
        raise NotCarried("its assessment.json and fingerprint.json are not those of one inspection") from error
    return Carried(files, assessment, digests)


def _check_record(number: Any, revision: Any) -> None:
    """Raise ValueError where they are none that an inspection may have."""
    is_number = isinstance(number, str) and number.isprintable() and 0 < len(number) <= LONGEST_NUMBER
    if not is_number or type(revision) is not int or not 0 <= revision <= LAST_REVISION:
        raise ValueError("no record has that number and revision")


def _files(part: bytes) -> dict[str, bytes]:
    """In the order in which the document names them (ISO 32000-2, 14.13), each once, none of them elsewhere."""
    with pikepdf.open(BytesIO(part)) as pdf:
        listed = list(pdf.Root.AF)
        named = {str(name) for name in pdf.attachments}
        if len(listed) > MOST_FILES:
            raise ValueError(f"more than {MOST_FILES} files")
        files: dict[str, bytes] = {}
        left = MOST_BYTES
        for one in listed:
            name = _safe(str(one.UF))
            if name in files:
                raise ValueError(f"two files have the name {name!r}")
            files[name] = _unpacked(one.EF.F, left)
            left -= len(files[name])
        if named != set(files):
            raise ValueError("the files that it lists are not those that belong to it")
        return files


def _unpacked(stream: Any, most: int) -> bytes:
    """The bytes of a stream, without ever holding more than so many of them."""
    packed = stream.read_raw_bytes()
    filters = stream.get("/Filter")
    if isinstance(filters, pikepdf.Array):
        filters = filters[0] if len(filters) == 1 else None if not len(filters) else "several"
    if filters is None:
        content = packed
    elif str(filters) == "/FlateDecode" and "/DecodeParms" not in stream:
        content = zlib.decompressobj().decompress(packed, most + 1)
    else:
        raise ValueError("a file is packed in an unusual way")
    if len(content) > most:
        raise ValueError(f"more than {MOST_BYTES} bytes")
    return bytes(content)


def _safe(name: str) -> str:
    """A name that leads nowhere but down from a folder."""
    parts = name.split("/")
    if any(part in ("", ".", "..") or "\\" in part or ":" in part or not part.isprintable() for part in parts):
        raise ValueError(f"a file has the name {name[:80]!r}")
    return name
