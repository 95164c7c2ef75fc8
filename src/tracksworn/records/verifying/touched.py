"""What of a sealed file a later revision wrote over, in words for whoever has to answer for it."""

from collections.abc import Iterator
from typing import Any, Final

from pyhanko.pdf_utils.generic import ArrayObject, IndirectObject
from pyhanko.pdf_utils.reader import PdfFileReader

from tracksworn.inspection.faults import visible
from tracksworn.records.verifying.sealed import Sealed

MOST: Final = 5


def touched(sealed: Sealed, revision: int) -> str:
    """What was written over in that revision: pages, attachments and the like, else what the file itself is made of."""
    own = sealed.seal.signed_revision
    known = {ref.idnum for each in range(own + 1) for ref in sealed.reader.xrefs.explicit_refs_in_revision(each)}
    written = {ref.idnum for ref in sealed.reader.xrefs.explicit_refs_in_revision(revision)}
    found = list(dict.fromkeys(name for name, numbers in _parts(sealed.alone) if written & numbers))
    if not found and written & known:
        found = ["what its pages and files are made of"]
    if not found:
        return "something was added that its seal does not allow"
    more = f" and {len(found) - MOST} more" if len(found) > MOST else ""
    return f"written over: {', '.join(found[:MOST])}{more}"


def _parts(reader: PdfFileReader) -> Iterator[tuple[str, set[int]]]:
    """Parts that have a name for a reader, with the numbers of the objects that they consist of."""
    root = reader.root
    for index, page in enumerate(_leaves(root.raw_get("/Pages")), 1):
        yield f"page {index}", {*_numbers(page), *_held(page.get_object(), "/Contents")}
    for spec in root.get("/AF", ()):
        file = spec.get_object()
        yield f"the attachment {visible(str(file['/UF']))[:80]}", {*_numbers(spec), *_held(file["/EF"], "/F", "/UF")}
    yield "the metadata", {*_held(root, "/Metadata"), *_held(reader.trailer, "/Info")}
    for field in root["/AcroForm"]["/Fields"]:
        yield "a signature field", {*_numbers(field), *_held(field.get_object(), "/V")}
    yield "the list of signature fields", _held(root, "/AcroForm")
    yield "the list of pages", _held(root, "/Pages")
    yield "the document's own entries", _held(reader.trailer, "/Root")


def _leaves(node: Any) -> Iterator[Any]:
    """The pages below a node of their tree, as references."""
    held = node.get_object()
    if "/Kids" not in held:
        yield node
        return
    for kid in held["/Kids"]:
        yield from _leaves(kid)


def _held(dictionary: Any, *keys: str) -> set[int]:
    """The numbers of the objects that some entries refer to, alone or in a list."""
    there = [dictionary.raw_get(key) for key in keys if key in dictionary]
    return {number for one in there for number in _numbers(one)}


def _numbers(held: Any) -> Iterator[int]:
    if isinstance(held, IndirectObject):
        yield held.idnum
    elif isinstance(held, ArrayObject):
        for one in held:
            yield from _numbers(one)
