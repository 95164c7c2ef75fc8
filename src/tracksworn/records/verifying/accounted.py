"""Whether every byte that was appended to a sealed file belongs to what a reader of it finds there."""

import re
from collections.abc import Iterator
from typing import Any, Final

from pyhanko.pdf_utils import generic
from pyhanko.pdf_utils.reader import PdfFileReader
from pyhanko.pdf_utils.xref import read_object_header

from tracksworn.records.verifying.sealed import Broken, Sealed

_TAIL: Final = re.compile(rb"\s{0,2}startxref\r?\n\d+\r?\n%%EOF\r?\n?")
_BETWEEN: Final = re.compile(rb"[\r\n ]{0,2}")


def check_bytes(sealed: Sealed) -> None:
    """Every appended byte belongs to an object, a table of them, or the end of a revision."""
    place = len(sealed.part)
    for start, end in sorted(_spans(sealed.reader, sealed.seal.signed_revision + 1)):
        between = sealed.content[place:start]
        if start < place or not (_BETWEEN.fullmatch(between) or _TAIL.fullmatch(between.rstrip(b" \r\n") + b"\n")):
            raise Broken("bytes were appended to it that belong to nothing")
        place = end
    if not _TAIL.fullmatch(sealed.content[place:]):
        raise Broken("bytes were appended to it that belong to nothing")


def _spans(reader: PdfFileReader, first: int) -> Iterator[tuple[int, int]]:
    for number in range(first, reader.total_revisions):
        about = reader.xrefs.get_xref_container_info(number)
        if about.stream_ref is None:
            yield about.start_location, _end_of_trailer(reader, about.end_location)
        for ref in {*reader.xrefs.explicit_refs_in_revision(number), *filter(None, [about.stream_ref])}:
            place: Any = reader.xrefs.get_historical_ref(ref, number)
            if about.stream_ref == ref:
                place = about.start_location
            if isinstance(place, int):
                yield place, _end_of_object(reader, place)


def _end_of_object(reader: PdfFileReader, place: int) -> int:
    stream = reader.stream
    stream.seek(place)
    number, generation = read_object_header(stream, strict=True)  # type: ignore[no-untyped-call]
    generic.read_object(stream, generic.Reference(number, generation, reader))
    return _behind(stream, rb"\s*endobj")


def _end_of_trailer(reader: PdfFileReader, place: int) -> int:
    stream = reader.stream
    stream.seek(place)
    generic.DictionaryObject.read_from_stream(stream, generic.TrailerReference(reader))  # type: ignore[no-untyped-call]
    return int(stream.tell())


def _behind(stream: Any, wanted: bytes) -> int:
    place = int(stream.tell())
    found = re.match(wanted, stream.read(16))
    if found is None:
        raise Broken("an object was appended to it that has no end")
    return place + found.end()
