"""A seal keeps PDF/A-3a and PDF/UA-1: every document that can be sealed, and every level on a small one."""

from datetime import timedelta
from io import BytesIO
from pathlib import Path

import pikepdf
import pytest
from judges import sheets
from judges.documents import demo
from judges.verapdf import ACCESSIBLE, ARCHIVABLE, VeraPdf
from records.sealed import AT, sealed, signer

from tracksworn.documents.render.files import Sheet
from tracksworn.documents.report import make_report
from tracksworn.records.sealing.seal import countersign, seal
from tracksworn.records.sealing.signer import Level

pytestmark = pytest.mark.slow

NUMBERS = {Sheet.FULL: "OXB-0231", Sheet.LISTING: "OXB-0231", Sheet.CERTIFICATE: "MPS-2031-0402"}


@pytest.mark.parametrize("document", list(Sheet))
def test_no_judge_finds_a_fault_in_a_sealed_document(document: Sheet, verapdf: VeraPdf, tmp_path: Path) -> None:
    made = make_report(demo(NUMBERS[document]), formats=["pdf"], document=document, language="de", sealed=True)
    (content,) = made.values()
    file = tmp_path / "sealed.pdf"
    file.write_bytes(seal(content, signer(), at=AT))
    assert sheets.faults(file, verapdf) == []


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


@pytest.mark.parametrize(
    ("key", "value", "flavour", "rule"),
    [
        ("/F", 2, ARCHIVABLE, "6.3.2-2"),
        ("/TU", None, ACCESSIBLE, "7.18.4-"),
        ("/StructParent", None, ACCESSIBLE, "7.18."),
    ],
)
def test_verapdf_refuses_a_field_made_carelessly(
    key: str, value: int | None, flavour: str, rule: str, verapdf: VeraPdf, tmp_path: Path
) -> None:
    with pikepdf.open(BytesIO(sealed())) as pdf:
        field = pdf.Root.AcroForm.Fields[0]
        if value is None:
            del field[key]
        else:
            field[key] = value
        pdf.save(tmp_path / "spoiled.pdf")
    broken = verapdf.broken(tmp_path / "spoiled.pdf", flavour)
    assert any(one.startswith(rule) for one in broken), broken
