"""Sheets that are nearly empty or end with a heading are refused; running heads and feet do not fill one."""

from pathlib import Path

import pypdfium2 as pdfium
import pytest
from judges import filling
from judges.documents import demo

from tracksworn.documents.render import engine
from tracksworn.documents.report import make_report

STYLE = (
    '@page { size: 100mm 100mm; margin: 10mm; @bottom-left { content: "A foot" } }'
    'body { font: 10pt "Barlow" } h2 { font-size: 12pt } div { height: 40mm; position: relative }'
    "p { margin: 0 } .low { position: absolute; bottom: 0 } .next { break-before: page }"
)
LOW = '<div><p>High.</p><p class="low">Low.</p></div>'
NEXT = '<p class="next">The next sheet.</p>'


@pytest.mark.parametrize(
    ("body", "found"),
    [
        (f"{LOW}{NEXT}", []),
        (f"<p>High.</p>{NEXT}", ["sheet 1 is filled to"]),
        (f"{LOW}<h2>Of what follows</h2>{NEXT}", ["sheet 1 ends with a heading"]),
        (f'{LOW}<p class="next">Second.</p>{NEXT}', ["sheet 2 is filled to"]),
        ('<p>High.</p><h2 style="float: left">Beside</h2>', ["sheet 1 ends with a heading"]),
    ],
)
def test_a_sheet_is_filled_and_ends_with_no_heading(body: str, found: list[str], tmp_path: Path) -> None:
    page = f'<html lang="en"><head><title>A sheet</title></head><body>{body}</body></html>'
    (tmp_path / "sheets.pdf").write_bytes(engine.lay_out(page, [STYLE], {}).write())
    faults = filling.faults(tmp_path / "sheets.pdf")
    assert len(faults) == len(found)
    assert all(fault.startswith(one) for fault, one in zip(faults, found, strict=True))


@pytest.mark.slow
@pytest.mark.parametrize("language", ["es", "fr"])
def test_a_report_has_no_sheet_half_empty_but_the_last(language: str, tmp_path: Path) -> None:
    """Its cautions go on to the next sheet; the last of them stays with the signature."""
    (content,) = make_report(demo("MPS-2031-0418"), formats=["pdf"], language=language).values()
    (tmp_path / "report.pdf").write_bytes(content)
    assert filling.faults(tmp_path / "report.pdf", least=0.75) == []


@pytest.mark.slow
@pytest.mark.parametrize(("number", "language"), [("0418", "de"), ("0433", "de"), ("0433", "es")])
def test_a_certificate_keeps_to_two_sheets_of_letter(number: str, language: str, tmp_path: Path) -> None:
    read = demo(f"MPS-2031-{number}")
    made = make_report(read, document="certificate", formats=["pdf"], language=language, paper="letter")
    (content,) = made.values()
    (tmp_path / "certificate.pdf").write_bytes(content)
    assert len(pdfium.PdfDocument(content)) == 2
    assert filling.faults(tmp_path / "certificate.pdf", least=0.9) == []
