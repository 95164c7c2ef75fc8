"""A seal keeps PDF/A-3a and PDF/UA-1: every document that can be sealed, and every level on a small one."""

from collections.abc import Callable
from datetime import timedelta
from io import BytesIO
from pathlib import Path

import pikepdf
import pypdfium2 as pdfium
import pytest
from judges import sheets
from judges.documents import demo
from judges.specimen import sound
from judges.verapdf import ACCESSIBLE, ARCHIVABLE, VeraPdf
from records import authorities
from records.sealed import AT, sealed, signer

from tracksworn.documents.render.files import Sheet
from tracksworn.documents.report import make_report
from tracksworn.records.countersigning import countersign
from tracksworn.records.renewal import renew
from tracksworn.records.sealing.authority import Authority
from tracksworn.records.sealing.field import Field, put_in
from tracksworn.records.sealing.seal import seal
from tracksworn.records.sealing.signer import Level

pytestmark = pytest.mark.slow

MODEST = 2000  # square points: a line of text, of the sheet's width
NUMBERS = {Sheet.FULL: "OXB-0231", Sheet.LISTING: "OXB-0231", Sheet.CERTIFICATE: "MPS-2031-0402"}


@pytest.mark.parametrize("document", list(Sheet))
def test_no_judge_finds_a_fault_in_a_sealed_document(document: Sheet, verapdf: VeraPdf, tmp_path: Path) -> None:
    made = make_report(demo(NUMBERS[document]), formats=["pdf"], document=document, language="de", sealed=True)
    (content,) = made.values()
    file = tmp_path / "sealed.pdf"
    whole = seal(content, signer(), at=AT)
    file.write_bytes(whole)
    assert sheets.faults(file, verapdf) == []
    assert area(whole) > MODEST
    assert seen(whole) == seen(content)


def area(content: bytes) -> float:
    """How large the seal's field is, square points."""
    with pikepdf.open(BytesIO(content)) as pdf:
        left, bottom, right, top = map(float, pdf.Root.AcroForm.Fields[0].Rect)
    return (right - left) * (top - bottom)


def seen(content: bytes) -> list[bytes]:
    """Its pages as PDFium shows them, with every form field drawn."""
    pdf = pdfium.PdfDocument(content)
    pdf.init_forms()
    return [bytes(page.render(scale=0.7, may_draw_forms=True).buffer) for page in pdf]


@pytest.mark.parametrize("room", [False, True])
@pytest.mark.parametrize("level", list(Level))
def test_nor_at_any_level(level: Level, room: bool, verapdf: VeraPdf, tmp_path: Path) -> None:
    file = tmp_path / "sealed.pdf"
    file.write_bytes(sealed(level, countersign=room))
    assert sheets.faults(file, verapdf) == []


def test_nor_after_a_countersignature(verapdf: VeraPdf, tmp_path: Path) -> None:
    file = tmp_path / "both.pdf"
    file.write_bytes(countersign(sealed(countersign=True), signer("client"), at=AT + timedelta(days=1)))
    assert sheets.faults(file, verapdf) == []


def test_nor_after_it_was_renewed_twice(verapdf: VeraPdf, tmp_path: Path) -> None:
    content = sealed(Level.LTA)
    for _ in range(2):
        with authorities.answering():
            content = renew(content, Authority(authorities.TIME), [authorities.certificate("root")])
    file = tmp_path / "renewed.pdf"
    file.write_bytes(content)
    assert sheets.faults(file, verapdf) == []


@pytest.mark.parametrize(
    ("spoil", "flavour", "rule"),
    [
        (lambda field: field.__setitem__("/F", 2), ARCHIVABLE, "6.3.2-2"),
        (lambda field: field.__delitem__("/TU"), ACCESSIBLE, "7.18.1-3"),
        (lambda field: field.__delitem__("/StructParent"), ACCESSIBLE, "7.18.4-1"),
    ],
    ids=["hidden", "told to nobody", "outside the structure tree"],
)
def test_verapdf_refuses_a_field_made_carelessly(
    spoil: Callable[[pikepdf.Object], None], flavour: str, rule: str, verapdf: VeraPdf, tmp_path: Path
) -> None:
    """Of one with an area, since it looks less closely at those without."""
    with pikepdf.open(BytesIO(put_in(sound(), [Field.SEAL]))) as pdf:
        field = pdf.Root.AcroForm.Fields[0]
        field.Rect = pikepdf.Array([100, 100, 200, 200])
        nothing = pikepdf.Stream(pdf, b"", Type=pikepdf.Name.XObject, Subtype=pikepdf.Name.Form, BBox=[0, 0, 100, 100])
        field.AP = pikepdf.Dictionary(N=pdf.make_indirect(nothing))
        pdf.save(tmp_path / "sound.pdf")
        spoil(field)
        pdf.save(tmp_path / "spoiled.pdf")
    assert sheets.faults(tmp_path / "sound.pdf", verapdf) == []
    assert any(one.startswith(rule) for one in verapdf.broken(tmp_path / "spoiled.pdf", flavour))
