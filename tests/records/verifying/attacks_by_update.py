"""More that somebody may do to a sealed file by appending to it: beside what its seal allows, or by its tables."""

import re
from collections.abc import Callable, Mapping
from io import BytesIO
from typing import Any, Final
from unittest.mock import patch

from judges.specimen import sound
from pyhanko.pdf_utils import generic
from pyhanko.pdf_utils.generic import pdf_name
from pyhanko.pdf_utils.incremental_writer import IncrementalPdfFileWriter
from pyhanko.pdf_utils.reader import PdfFileReader
from pyhanko.sign.fields import SigFieldSpec, SigSeedSubFilter
from pyhanko.sign.signers.pdf_signer import PdfSignatureMetadata, PdfSigner
from pyhanko.stamp.noop import NoOpStampStyle
from records.sealed import sealed, signer
from records.verifying.attacks import CHANGED, NO_PDF, Attack, appended, countersigned, other_words, page_of

from tracksworn.records.sealing.field import Field
from tracksworn.records.sealing.signer import Level

Change = Callable[[IncrementalPdfFileWriter], object]
Place = tuple[int, int, int]  # an entry of a table of objects (ISO 32000-2, 7.5.8.3)


def _dictionary(**entries: Any) -> generic.DictionaryObject:
    return generic.DictionaryObject({pdf_name(f"/{name}"): value for name, value in entries.items()})  # type: ignore[no-untyped-call]


def _with_table(content: bytes, entries: Mapping[int, Place], *, prev: int | None = None) -> bytes:
    """A table of objects alone, which points where it likes; `prev` is the table before it."""
    last = int(content[content.rindex(b"startxref") :].split()[1])
    kept = b" ".join(re.findall(rb"/(?:Info|Root) \d+ \d+ R|/ID \[.*?\]", content[last:]))
    place, number = len(content), len(PdfFileReader(BytesIO(content)).xrefs.explicit_refs_in_revision(0)) + 100
    entries = {**entries, number: (1, place, 0)}
    index = " ".join(f"{each} 1" for each in sorted(entries))
    rows = b"".join(
        kind.to_bytes(1) + second.to_bytes(4) + third.to_bytes(2)
        for _, (kind, second, third) in sorted(entries.items())
    )
    before = last if prev is None else prev
    about = f"/Type /XRef /W [1 4 2] /Size {number + 1} /Prev {before} /Index [{index}] /Length {len(rows)} ".encode()
    stream = b"<< " + about + kept + b" >>\nstream\n" + rows + b"\nendstream\nendobj\n"
    return content + f"{number} 0 obj\n".encode() + stream + f"startxref\n{place}\n%%EOF\n".encode()


def _rolled_back(content: bytes) -> bytes:
    """Shadow content: the table leads back to the objects as they were before the seal."""
    reader = PdfFileReader(BytesIO(content))
    entries: dict[int, Place] = {}
    for ref in reader.xrefs.explicit_refs_in_revision(1):
        old: Any = reader.xrefs.get_historical_ref(ref, 0) if ref in reader.xrefs.explicit_refs_in_revision(0) else None
        if isinstance(old, int):
            entries[ref.idnum] = (1, old, 0)
        elif old is not None:
            entries[ref.idnum] = (2, old.obj_stream_id, old.ix_in_stream)
    assert entries
    return _with_table(content, entries)


def _contents(content: bytes) -> int:
    reader = PdfFileReader(BytesIO(content))
    return int(reader.root["/Pages"]["/Kids"][0].raw_get("/Contents").idnum)


def _shadowed(content: bytes) -> bytes:
    """Shadow content: the words of the page are to be read from elsewhere in the sealed part."""
    return _with_table(content, {_contents(content): (1, content.index(b" 0 obj") - 1, 0)})


def _in_object_stream(writer: IncrementalPdfFileWriter) -> None:
    """An object that is written over, packed away in a stream of objects."""
    hiding = writer.prepare_object_stream()  # type: ignore[no-untyped-call]
    page = page_of(writer)
    page[pdf_name("/Contents")] = writer.add_object(generic.StreamObject(stream_data=b"BT ET"))
    reference = writer.root["/Pages"]["/Kids"].raw_get(0)
    hiding.add_object(reference.idnum, page)


def _store_emptied(writer: IncrementalPdfFileWriter) -> None:
    writer.root[pdf_name("/DSS")] = _dictionary(Certs=generic.ArrayObject())
    writer.update_root()  # type: ignore[no-untyped-call]


def _store_written_over(writer: IncrementalPdfFileWriter) -> None:
    held = writer.root["/DSS"]["/CRLs"].raw_get(0)
    held.get_object()._data = held.get_object()._encoded_data = b""
    writer.mark_update(held)


def _store_of_other_things(writer: IncrementalPdfFileWriter) -> None:
    lists = generic.ArrayObject([writer.add_object(generic.StreamObject(stream_data=b"no revocation list"))])
    writer.root[pdf_name("/DSS")] = _dictionary(CRLs=lists)
    writer.update_root()  # type: ignore[no-untyped-call]


def _checksum(writer: IncrementalPdfFileWriter) -> None:
    held = writer.root["/AF"][0]["/EF"]["/F"]
    held["/Params"][pdf_name("/CheckSum")] = generic.ByteStringObject(bytes(16))
    writer.update_container(held)


def _attachment_named_otherwise(writer: IncrementalPdfFileWriter) -> None:
    spec = writer.root["/AF"][0]
    spec[pdf_name("/UF")] = generic.pdf_string("other.yaml")
    writer.update_container(spec)


def _attachment_added(writer: IncrementalPdfFileWriter) -> None:
    held = writer.add_object(generic.StreamObject(stream_data=b"a: 3"))
    files = _dictionary(F=held)
    spec = writer.add_object(_dictionary(Type=pdf_name("/Filespec"), UF=generic.pdf_string("more.yaml"), EF=files))
    writer.root["/AF"].append(spec)
    writer.update_root()  # type: ignore[no-untyped-call]


def _action_on_the_page(writer: IncrementalPdfFileWriter) -> None:
    page = page_of(writer)
    leads = _dictionary(S=pdf_name("/URI"), URI=generic.pdf_string("http://other.invalid"))
    page[pdf_name("/AA")] = _dictionary(O=leads)
    writer.update_container(page)


def _seals_field(writer: IncrementalPdfFileWriter) -> Any:
    return writer.root["/AcroForm"]["/Fields"][0]


def _look_of_the_field(writer: IncrementalPdfFileWriter) -> None:
    field = _seals_field(writer)
    drawn = generic.StreamObject(stream_data=b"0 0 100 100 re f")
    drawn[pdf_name("/Type")], drawn[pdf_name("/Subtype")] = pdf_name("/XObject"), pdf_name("/Form")
    drawn[pdf_name("/BBox")] = generic.ArrayObject(map(generic.NumberObject, (0, 0, 100, 100)))
    field[pdf_name("/AP")] = _dictionary(N=writer.add_object(drawn))
    field[pdf_name("/Rect")] = generic.ArrayObject(map(generic.NumberObject, (0, 0, 600, 800)))
    writer.update_container(field)


def _field_hidden(writer: IncrementalPdfFileWriter) -> None:
    field = _seals_field(writer)
    field[pdf_name("/F")] = generic.NumberObject(2)  # type: ignore[no-untyped-call]
    writer.update_container(field)


def _words_for_who_listens(writer: IncrementalPdfFileWriter) -> None:
    field = _seals_field(writer)
    field[pdf_name("/TU")] = generic.pdf_string("Approved for work")
    writer.update_container(field)


def _certification_loosened(writer: IncrementalPdfFileWriter) -> None:
    signature = _seals_field(writer)["/V"]
    signature["/Reference"][0]["/TransformParams"][pdf_name("/P")] = generic.NumberObject(3)  # type: ignore[no-untyped-call]
    writer.update_container(signature)


def _language(writer: IncrementalPdfFileWriter) -> None:
    writer.root[pdf_name("/Lang")] = generic.pdf_string("de")
    writer.update_root()  # type: ignore[no-untyped-call]


def _layers(writer: IncrementalPdfFileWriter) -> None:
    """What a layer hides or shows."""
    writer.root[pdf_name("/OCProperties")] = _dictionary(OCGs=generic.ArrayObject(), D=_dictionary())
    writer.update_root()  # type: ignore[no-untyped-call]


def _signed(content: bytes, name: str = "more", *, certify: bool = False) -> bytes:
    """Signed by somebody with a good key, in the field of that name or a new one, whatever the seal says of that."""
    writer = IncrementalPdfFileWriter(BytesIO(content))
    what = PdfSignatureMetadata(name, subfilter=SigSeedSubFilter.PADES, certify=certify, signer_key_usage=set())
    new = None if name == Field.COUNTERSIGNATURE else SigFieldSpec(name)
    by = PdfSigner(what, signer("client").private, new_field_spec=new, stamp_style=NoOpStampStyle())
    with patch("pyhanko.sign.signers.pdf_signer.PdfSigner._enforce_certification_constraints"):
        return bytes(by.sign_pdf(writer).getvalue())


def _room_filled_after(content: bytes, change: Change) -> bytes:
    """A countersignature in the room that was left for it, over something that was changed before."""
    return _signed(appended(content, change), Field.COUNTERSIGNATURE)


def _with_room() -> bytes:
    return sealed(countersign=True)


def _last_table(content: bytes) -> int:
    return len(content)


def _first_table(content: bytes) -> int:
    return int(content[content.index(b"startxref") :].split()[1])


BY_UPDATE: Final[Mapping[str, tuple[Attack, str]]] = {
    "rolled back to before its seal": (_rolled_back, "it bears no signature"),
    "words read from elsewhere": (_shadowed, f"{NO_PDF}|{CHANGED}"),
    "words freed": (lambda one: _with_table(one, {_contents(one): (0, 0, 0)}), f"{NO_PDF}|{CHANGED}"),
    "a table that says nothing": (lambda one: _with_table(one, {}), "it was changed|something was appended|belong"),
    "a table that leads to itself": (lambda one: _with_table(one, {}, prev=_last_table(one)), NO_PDF),
    "a table that leads past the seal": (
        lambda one: _with_table(one, {}, prev=_first_table(one)),
        "it bears no signature",
    ),
    "page written over in a stream of objects": (lambda one: appended(one, _in_object_stream), CHANGED),
    "store of certificates emptied": (lambda _: appended(sealed(Level.LT), _store_emptied), "were taken away"),
    "store of certificates written over": (lambda _: appended(sealed(Level.LT), _store_written_over), CHANGED),
    "store of certificates with other things": (lambda one: appended(one, _store_of_other_things), "cannot be read"),
    "checksum of an attachment": (lambda one: appended(one, _checksum), CHANGED),
    "name of an attachment": (lambda one: appended(one, _attachment_named_otherwise), CHANGED),
    "attachment added": (lambda one: appended(one, _attachment_added), CHANGED),
    "action on the page": (lambda one: appended(one, _action_on_the_page), CHANGED),
    "look of the seal's field": (lambda one: appended(one, _look_of_the_field), CHANGED),
    "seal's field hidden": (lambda one: appended(one, _field_hidden), CHANGED),
    "what the field is read aloud as": (lambda one: appended(one, _words_for_who_listens), CHANGED),
    "certification loosened": (lambda one: appended(one, _certification_loosened), "."),
    "language": (lambda one: appended(one, _language), CHANGED),
    "layers": (lambda one: appended(one, _layers), CHANGED),
    "signed again without room": (_signed, "a second signature was added, for which its seal left no room"),
    "certified again": (lambda one: _signed(one, certify=True), "."),
    "signed beside its room": (lambda _: _signed(_with_room()), "beside the room that its seal left"),
    "signed again after its countersignature": (lambda one: _signed(countersigned(one)), "left no room"),
    "changed before its countersignature": (lambda _: _room_filled_after(_with_room(), other_words), CHANGED),
    "note before its countersignature": (lambda _: _room_filled_after(_with_room(), _field_hidden), CHANGED),
    "changed after its archive timestamp": (lambda _: appended(sealed(Level.LTA), other_words), CHANGED),
    "signed by somebody before": (lambda _: _signed(sound()), "it is no seal|its first signature is no seal"),
}
"""By name: what is done, and what is said of it (a regular expression)."""
