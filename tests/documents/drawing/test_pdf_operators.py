"""A drawing as PDF operators: exact, and the same picture as the drawing's SVG."""

from io import BytesIO
from pathlib import Path as File

import numpy as np
import pikepdf
import pypdfium2 as pdfium
from documents.render.tools import run
from PIL import Image

from tracksworn.documents.drawing.pdf import UNITS, Run, operators
from tracksworn.documents.drawing.plain import Circle, Curve, Drawing, Line, Path, Shape, Stroke, Text
from tracksworn.documents.drawing.svg import svg
from tracksworn.documents.render.engine import Part, lay_out
from tracksworn.documents.render.pictures import stand_in, swap

STYLE = (
    "@page { size: 110mm 60mm; margin: 5mm } body { margin: 0 }"
    " img, svg { display: block; width: 100mm; height: 50mm; image-rendering: crisp-edges }"
)
SQUARE = Line(((10, 10), (40, 10), (40, 30), (10, 30)), closed=True)


def no_type(text: Text) -> tuple[Run, ...]:
    return ()


def written(*marks: Path | Text) -> list[str]:
    return operators(Drawing(100, 50, marks, "words"), no_type).decode("ascii").split("\n")


def test_the_y_axis_points_down_and_joins_are_round() -> None:
    assert written() == ["1 0 0 -1 0 5000 cm 1 j"]


def test_a_square_is_filled_by_the_even_odd_rule_and_stroked_in_one() -> None:
    lines = written(Path((SQUARE,), fill="#ff0000", stroke=Stroke(0.5, "#1b2329")))
    assert lines[1:] == [
        "1 0 0 rg",
        "0.106 0.137 0.161 RG",
        "50 w",
        "1000 1000 m 4000 1000 l 4000 3000 l 1000 3000 l h",
        "B*",
    ]


def test_state_that_stays_is_not_said_again() -> None:
    pen = Stroke(0.3, "#000000", dash=(1, 0.5), cap="round")
    lines = written(Path((SQUARE,), stroke=pen), Path((SQUARE,), stroke=pen))
    assert [line for line in lines if line.endswith((" w", " d", " J"))] == ["30 w", "[100 50] 0 d", "1 J"]


def test_coordinates_are_whole_hundredths_of_a_millimetre() -> None:
    assert "123 200 m 300 457 l" in written(Path((Line(((1.2345, 2.0), (3.0, 4.5678))),), stroke=Stroke(1, "#000000")))


def test_what_has_neither_fill_nor_stroke_is_not_written() -> None:
    assert len(written(Path((SQUARE,)))) == 1


def test_a_circle_is_four_beziers_that_stay_within_a_thousandth_of_its_radius() -> None:
    (outline,) = written(Path((Circle((0, 0), 100),), fill="#000000"))[1:2]
    numbers = [int(part) / UNITS for part in outline.split() if part[-1].isdigit()]
    points = np.array(numbers).reshape(-1, 2)
    pieces = [points[k : k + 4] for k in range(0, 12, 3)]
    for a, b, c, d in pieces:
        for t in np.linspace(0, 1, 20):
            x, y = (1 - t) ** 3 * a + 3 * (1 - t) ** 2 * t * b + 3 * (1 - t) * t**2 * c + t**3 * d
            assert abs(np.hypot(x, y) - 100) < 0.1


def test_the_picture_is_that_of_the_svg(tmp_path: File) -> None:
    shapes: tuple[Shape, ...] = (SQUARE, Circle((25, 20), 6))
    wave = Curve((50, 25), (((60, 5), (70, 45), (90, 25)),))
    drawing = Drawing(
        100,
        50,
        (
            Path(shapes, fill="#94712a", stroke=Stroke(0.5)),
            Path((wave,), stroke=Stroke(0.8, "#6d1f33", dash=(2, 1))),
            Path((Line(((5, 45), (95, 45))),), stroke=Stroke(1.2, cap="round")),
        ),
        "a square with a hole, a wave and a line",
    )
    page = '<html lang="en"><head><title>t</title></head><body>{}</body></html>'
    drawn = lay_out(page.format(svg(drawing)), [STYLE], {}).write()
    shown = page.format('<img src="part:0" alt="a square"/>')
    laid_out = lay_out(shown, [STYLE], {"part:0": Part(stand_in(0), "image/png")}).write()
    out = BytesIO()
    with pikepdf.open(BytesIO(laid_out)) as pdf:
        swap(pdf, {0: drawing})
        pdf.save(out)
    one, other = (pixels(content, tmp_path) for content in (drawn, out.getvalue()))
    assert one.min() < 60
    assert np.abs(one - other).mean() < 0.5  # edges may differ by a shade
    assert (np.abs(one - other) > 100).mean() < 0.001


def pixels(content: bytes, folder: File) -> np.ndarray[tuple[int, ...], np.dtype[np.int16]]:
    file = folder / "page.pdf"
    file.write_bytes(content)
    run("pdftoppm", "-r", "100", "-gray", "-singlefile", file, folder / "page")
    with Image.open(folder / "page.pgm") as image:
        return np.asarray(image, dtype=np.int16)


def put_on_a_page(drawing: Drawing, out: File) -> File:
    page = '<html lang="en"><head><title>t</title></head><body><img src="part:0" alt="words"/></body></html>'
    with pikepdf.open(BytesIO(lay_out(page, [STYLE], {"part:0": Part(stand_in(0), "image/png")}).write())) as pdf:
        swap(pdf, {0: drawing})
        pdf.save(out)
    return out


def test_words_can_be_searched_and_stand_where_they_should(tmp_path: File) -> None:
    text = Text((50, 25), "8\u202f412 h ± Ärger", size=9, weight=600, anchor="middle", halo=True)
    drawing = Drawing(100, 50, (text, Text((10, 10), "upright", turn=-90)), "words")
    out = put_on_a_page(drawing, tmp_path / "page.pdf")
    said = run("pdftotext", "-bbox", out, "-")
    assert all(word in said for word in (">412<", ">Ärger<", ">upright<")) or "8\u202f412" in said
    assert " yes yes yes " in run("pdffonts", out)


def test_lines_of_type_read_as_lines(tmp_path: File) -> None:
    # a reader that compares the size of type with distances on the page, as PDFium does, must not join them
    words = ("Track links", "Bushings", "Sprocket")
    texts = tuple(Text((10, 10 + 5 * index), one, size=8) for index, one in enumerate(words))
    pdf = pdfium.PdfDocument(put_on_a_page(Drawing(100, 50, texts, "words"), tmp_path / "page.pdf"))
    assert pdf[0].get_textpage().get_text_range().split("\r\n") == list(words)
    pdf.close()
