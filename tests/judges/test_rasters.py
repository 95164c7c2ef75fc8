"""A picture that is not of its sheet is refused."""

from pathlib import Path

import pypdfium2 as pdfium
import pytest
from judges import rasters
from PIL import Image

from tracksworn.documents.render import engine

STYLE = '@page { size: 100mm 100mm; margin: 0 } body { font: 10pt "Barlow" } .black { background: black; height: 20mm }'
PAGE = '<html lang="en"><head><title>A sheet</title></head><body><p class="{}">Words</p></body></html>'
DOTS = 72


@pytest.fixture(scope="module")
def sheet(tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("sheet") / "sheet.pdf"
    file.write_bytes(engine.lay_out(PAGE.format("black"), [STYLE], {}).write())
    return file


def drawn(sheet: Path) -> Image.Image:
    pdf = pdfium.PdfDocument(sheet)
    try:
        picture: Image.Image = pdf[0].render().to_pil().convert("RGB")
        return picture
    finally:
        pdf.close()


def test_a_picture_of_its_sheet_has_no_fault(sheet: Path, tmp_path: Path) -> None:
    drawn(sheet).save(tmp_path / "sheet.png", dpi=(DOTS, DOTS))
    assert rasters.faults(tmp_path / "sheet.png", sheet) == []


def test_another_is_refused(sheet: Path, tmp_path: Path) -> None:
    ours, file = drawn(sheet), tmp_path / "sheet.png"
    Image.new("RGB", ours.size, "white").save(file, dpi=(DOTS, DOTS))
    assert "greys from the sheet" in rasters.faults(file, sheet)[0]
    ours.crop((0, 0, 200, 200)).save(file, dpi=(DOTS, DOTS))
    assert "dots, the sheet" in rasters.faults(file, sheet)[0]
    ours.save(file)
    assert "it is PNG of 0.0 dots an inch" in rasters.faults(file, sheet)
