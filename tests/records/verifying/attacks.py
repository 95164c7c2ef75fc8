"""What somebody may do to a sealed file who does not have its key: each by name, and what is said of it."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from io import BytesIO
from typing import Any, Final

import pikepdf
from asn1crypto import cms, core, parser, x509
from judges.specimen import sound
from pyhanko.pdf_utils import generic
from pyhanko.pdf_utils.generic import pdf_name
from pyhanko.pdf_utils.incremental_writer import IncrementalPdfFileWriter
from records import authorities
from records.sealed import AT, sealed, signer

from tracksworn.records.countersigning import countersign

Attack = Callable[[bytes], bytes]
RANGES: Final = re.compile(rb"/ByteRange \[([0-9 ]+)\] *")


@dataclass(frozen=True)
class Gap:
    """Where the signature stands in a sealed file: from its first angle bracket to behind its last."""

    start: int
    end: int


def gap(content: bytes) -> Gap:
    found = RANGES.search(content)
    assert found is not None
    _, first, second, _ = map(int, found[1].split())
    return Gap(first, second)


def envelope(content: bytes) -> bytes:
    """The signature itself, DER."""
    place = gap(content)
    packed = bytes.fromhex(content[place.start + 1 : place.end - 1].decode())
    return packed[: parser.peek(packed)]


def with_envelope(content: bytes, der: bytes) -> bytes:
    """The file with another signature in the same place."""
    place = gap(content)
    room = place.end - place.start - 2
    return content[: place.start] + b"<" + der.hex().upper().encode().ljust(room, b"0") + b">" + content[place.end :]


def flipped(content: bytes, place: int, bits: int = 1) -> bytes:
    return content[:place] + bytes([content[place] ^ bits]) + content[place + 1 :]


def _instead(content: bytes, signature: bytes) -> bytes:
    """Something else of the same length in the signature's place."""
    place = gap(content)
    return content[: place.start] + signature.ljust(place.end - place.start) + content[place.end :]


def _ranges(content: bytes, said: bytes) -> bytes:
    """Other ranges, in the same room."""
    found = RANGES.search(content)
    assert found is not None
    return content[: found.start()] + (b"/ByteRange " + said).ljust(len(found[0])) + content[found.end() :]


def _saved(content: bytes, change: Callable[[pikepdf.Pdf], object]) -> bytes:
    """Written anew as a whole by a general-purpose library."""
    out = BytesIO()
    with pikepdf.open(BytesIO(content)) as pdf:
        change(pdf)
        pdf.save(out, static_id=True)
    return out.getvalue()


def appended(content: bytes, change: Callable[[IncrementalPdfFileWriter], object]) -> bytes:
    """An incremental update, as any editor writes it."""
    out = BytesIO()
    writer = IncrementalPdfFileWriter(BytesIO(content))
    writer._update_meta = lambda: None  # type: ignore[method-assign] # the change that is meant, and no other
    change(writer)
    writer.write(out)  # type: ignore[no-untyped-call]
    return out.getvalue()


def page_of(writer: IncrementalPdfFileWriter) -> Any:
    return writer.root["/Pages"]["/Kids"][0]


def other_words(writer: IncrementalPdfFileWriter) -> None:
    page = page_of(writer)
    page[pdf_name("/Contents")] = writer.add_object(generic.StreamObject(stream_data=b"BT ET"))
    writer.update_container(page)


def _words_changed_in_their_place(writer: IncrementalPdfFileWriter) -> None:
    contents = page_of(writer)["/Contents"]
    contents._data = b"BT ET"
    contents._encoded_data = None
    writer.update_container(contents)


def _another_page(writer: IncrementalPdfFileWriter) -> None:
    pages = writer.root["/Pages"]
    new = generic.DictionaryObject(  # type: ignore[no-untyped-call]
        {pdf_name("/Type"): pdf_name("/Page"), pdf_name("/Parent"): writer.root.raw_get("/Pages")}
    )
    pages["/Kids"].append(writer.add_object(new))
    pages[pdf_name("/Count")] = generic.NumberObject(2)  # type: ignore[no-untyped-call]
    writer.update_container(pages)


def _replaced_page(writer: IncrementalPdfFileWriter) -> None:
    pages = writer.root["/Pages"]
    new = generic.DictionaryObject(dict(page_of(writer)))  # type: ignore[no-untyped-call]
    new[pdf_name("/Contents")] = writer.add_object(generic.StreamObject(stream_data=b"BT ET"))
    pages[pdf_name("/Kids")] = generic.ArrayObject([writer.add_object(new)])
    writer.update_container(pages)


def _note_on_the_page(writer: IncrementalPdfFileWriter) -> None:
    page = page_of(writer)
    note = generic.DictionaryObject({pdf_name("/Type"): pdf_name("/Annot"), pdf_name("/Subtype"): pdf_name("/Square")})  # type: ignore[no-untyped-call]
    page[pdf_name("/Annots")] = generic.ArrayObject([*page.get("/Annots", ()), writer.add_object(note)])
    writer.update_container(page)


def _script(writer: IncrementalPdfFileWriter) -> None:
    action = {pdf_name("/S"): pdf_name("/JavaScript"), pdf_name("/JS"): generic.pdf_string("app.alert(1)")}
    writer.root[pdf_name("/OpenAction")] = generic.DictionaryObject(action)  # type: ignore[no-untyped-call]
    writer.update_root()  # type: ignore[no-untyped-call]


def _swapped_attachment(writer: IncrementalPdfFileWriter) -> None:
    spec = writer.root["/AF"][0]
    spec["/EF"][pdf_name("/F")] = writer.add_object(generic.StreamObject(stream_data=b"a: 2"))
    writer.update_container(spec)


def _metadata(writer: IncrementalPdfFileWriter) -> None:
    held = writer.prev.get_object(writer.root.get_value_as_reference("/Metadata"), revision=0)  # type: ignore[no-untyped-call]
    other = generic.StreamObject(stream_data=held.data.replace(b"A small sheet", b"Another sheet"))
    other[pdf_name("/Type")], other[pdf_name("/Subtype")] = pdf_name("/Metadata"), pdf_name("/XML")
    writer.root[pdf_name("/Metadata")] = writer.add_object(other)
    writer.update_root()  # type: ignore[no-untyped-call]


def _title(writer: IncrementalPdfFileWriter) -> None:
    info = writer.trailer["/Info"]
    info[pdf_name("/Title")] = generic.pdf_string("Another sheet")
    writer.update_container(info)


def _unused_object(writer: IncrementalPdfFileWriter) -> None:
    writer.add_object(generic.StreamObject(stream_data=b"nobody refers to this"))


def _field(writer: IncrementalPdfFileWriter) -> None:
    form = writer.root["/AcroForm"]
    new = generic.DictionaryObject({pdf_name("/FT"): pdf_name("/Tx"), pdf_name("/T"): generic.pdf_string("more")})  # type: ignore[no-untyped-call]
    form["/Fields"].append(writer.add_object(new))
    writer.update_container(form)


def _signature_taken_out(writer: IncrementalPdfFileWriter) -> None:
    field = writer.root["/AcroForm"]["/Fields"][0]
    field[pdf_name("/V")] = generic.NullObject()
    writer.update_container(field)


def _store_with_more(writer: IncrementalPdfFileWriter) -> None:
    more = writer.add_object(generic.StreamObject(stream_data=b"anything"))
    writer.root[pdf_name("/DSS")] = generic.DictionaryObject({pdf_name("/More"): more})  # type: ignore[no-untyped-call]
    writer.update_root()  # type: ignore[no-untyped-call]


def _signature_written_again(writer: IncrementalPdfFileWriter) -> None:
    """Signature wrapping: the same signature over the same bytes, in an object of a later revision."""
    other_words(writer)
    signature = writer.root["/AcroForm"]["/Fields"][0]["/V"]
    writer.update_container(signature)


def _without_form(content: bytes) -> bytes:
    def change(pdf: pikepdf.Pdf) -> None:
        del pdf.Root["/AcroForm"], pdf.pages[0]["/Annots"]

    return _saved(content, change)


def _without_docmdp(pdf: pikepdf.Pdf) -> None:
    del pdf.Root["/Perms"]


def _gap_made_wider(content: bytes) -> bytes:
    """Signature wrapping: the ranges are told to leave out what is put between."""
    place = gap(content)
    more = b"\n7 0 obj\n<< /Type /Page >>\nendobj\n"
    said = f"[0 {place.start} {place.end + len(more)} {len(content) - place.end}]".encode()
    wider = content[: place.end] + more + content[place.end :]
    return _ranges(wider, said)


def _foreign_signature(content: bytes) -> bytes:
    return with_envelope(content, envelope(sealed(name="nowhere")))


def _more_certificates(content: bytes) -> bytes:
    """A certificate of somebody else, put beside the signer's."""
    signature = cms.ContentInfo.load(envelope(content))
    held = signature["content"]["certificates"]
    held.append(cms.CertificateChoices("certificate", x509.Certificate.load(authorities.certificate("authority"))))
    return with_envelope(content, signature.dump(force=True))


def _beside_the_signature(content: bytes) -> bytes:
    """Something in the signature that nobody signed."""
    signature = cms.ContentInfo.load(envelope(content))
    (own,) = signature["content"]["signer_infos"]
    own["unsigned_attrs"] = cms.CMSAttributes([{"type": "1.2.3.4", "values": [core.Null()]}])
    return with_envelope(content, signature.dump(force=True))


def _behind_the_signature(content: bytes) -> bytes:
    return with_envelope(content, envelope(content) + b"\0\0anything")


def _other_case(content: bytes) -> bytes:
    place = gap(content)
    first = re.search(rb"[A-F]", content[place.start : place.end])
    assert first is not None
    return flipped(content, place.start + first.start(), 0x20)


def _shorter_second_range(content: bytes) -> bytes:
    place = gap(content)
    return _ranges(content, f"[0 {place.start} {place.end} {len(content) - place.end - 1}]".encode())


def countersigned(_: bytes) -> bytes:
    return countersign(sealed(countersign=True), signer("client"), at=AT)


def _encrypted(content: bytes) -> bytes:
    out = BytesIO()
    with pikepdf.open(BytesIO(content)) as pdf:
        pdf.save(out, encryption=pikepdf.Encryption(owner="x", user=""))
    return out.getvalue()


NOT_WHOLE: Final = "the ranges of its signature"
CHANGED: Final = "it was changed after it was sealed"
OTHER_BYTES: Final = "its bytes are not those that were signed"
NO_PDF: Final = "it cannot be read"

ATTACKS: Final[Mapping[str, tuple[Attack, str]]] = {
    "never sealed": (lambda _: sound(), "it bears no signature"),
    "nothing at all": (lambda _: b"", NO_PDF),
    "no PDF": (lambda _: b"%PDF-1.7 and then nothing\n", NO_PDF),
    "form removed": (_without_form, "it bears no signature"),
    "signature removed by an update": (lambda one: appended(one, _signature_taken_out), "it bears no signature"),
    "signature of noughts": (lambda one: with_envelope(one, b""), NO_PDF),
    "signature empty": (lambda one: _instead(one, b"<>"), NO_PDF),
    "signature null": (lambda one: _instead(one, b"null"), NO_PDF),
    "signature a text": (lambda one: _instead(one, b"(signed)"), NO_PDF),
    "signature from another file": (_foreign_signature, OTHER_BYTES),
    "certificate put beside it": (_more_certificates, "nothing to do with it"),
    "something unsigned in it": (_beside_the_signature, "nobody signed"),
    "something behind it": (_behind_the_signature, "something stands behind its signature"),
    "a letter of other case": (_other_case, NOT_WHOLE),
    "ranges null": (lambda one: _ranges(one, b"null"), NO_PDF),
    "ranges empty": (lambda one: _ranges(one, b"[]"), NOT_WHOLE),
    "ranges of nothing": (lambda one: _ranges(one, b"[0 0 0 0]"), NOT_WHOLE),
    "ranges negative": (lambda one: _ranges(one, b"[0 -1 1 1]"), NOT_WHOLE),
    "ranges not of numbers": (lambda one: _ranges(one, b"[/a /b /c /d]"), NOT_WHOLE),
    "ranges of three": (lambda one: _ranges(one, b"[0 10 20]"), NOT_WHOLE),
    "ranges past the end": (lambda one: _ranges(one, b"[0 10 20 9999999]"), NOT_WHOLE),
    "ranges begin late": (lambda one: _ranges(one, b"[1 10 20 10]"), NOT_WHOLE),
    "ranges one byte short": (_shorter_second_range, "not one whole file|not those that were signed"),
    "ranges that leave out more": (_gap_made_wider, NO_PDF),
    "cut off": (lambda one: one[:-1], NOT_WHOLE),
    "a line appended": (lambda one: one + b"\n", "something was appended"),
    "a comment appended": (lambda one: one + b"% more\n", "something was appended"),
    "a file appended": (lambda one: one + sound(), NO_PDF),
    "something before it": (lambda one: b"\n" + one, "its signature|cannot be read"),
    "other words on the page": (lambda one: appended(one, other_words), CHANGED),
    "words changed in their place": (lambda one: appended(one, _words_changed_in_their_place), CHANGED),
    "page replaced": (lambda one: appended(one, _replaced_page), CHANGED),
    "page added": (lambda one: appended(one, _another_page), CHANGED),
    "note on the page": (lambda one: appended(one, _note_on_the_page), CHANGED),
    "script added": (lambda one: appended(one, _script), CHANGED),
    "attachment swapped": (lambda one: appended(one, _swapped_attachment), CHANGED),
    "metadata edited": (lambda one: appended(one, _metadata), "the metadata were changed"),
    "title edited": (lambda one: appended(one, _title), "the information about the document was changed"),
    "object that nobody refers to": (lambda one: appended(one, _unused_object), CHANGED),
    "field added": (lambda one: appended(one, _field), CHANGED),
    "store of certificates with more in it": (lambda one: appended(one, _store_with_more), CHANGED),
    "signature wrapped": (lambda one: appended(one, _signature_written_again), "not one whole file"),
    "saved anew": (lambda one: _saved(one, lambda _: None), "its signature|cannot be read"),
    "saved anew without its certification": (lambda one: _saved(one, _without_docmdp), "its signature|cannot be read"),
    "encrypted": (_encrypted, "it is encrypted|cannot be read"),
    "changed after its countersignature": (
        lambda one: appended(countersigned(one), other_words),
        CHANGED,
    ),
    "bytes after its countersignature": (lambda one: countersigned(one) + b"\n", "belong to nothing"),
}
"""By name: what is done, and what is said of it (a regular expression)."""
