"""A drawing as SVG text, for HTML, for Markdown and for the texts that stand over a picture in PDF."""

from html import escape

from tracksworn.documents.drawing.plain import Circle, Curve, Drawing, Line, Path, Point, Shape, Stroke, Text
from tracksworn.documents.drawing.type import further, text_width

MM_PER_POINT = 25.4 / 72
HALO, HALO_WIDTH = "#ffffff", 0.9
"""What stands behind type where a line passes beneath, mm."""
INSTEAD = "Arial Narrow, Liberation Sans Narrow, Arial, Liberation Sans, sans-serif"
"""Faces that a viewer may have, the narrow ones first, as most type of drawings is narrow."""


OTHER_SCRIPTS = "Other Scripts"
"""The family under which a page for a browser has its faces for further scripts."""


def number(value: float) -> str:
    """To two decimals, without needless digits."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def svg(
    drawing: Drawing,
    *,
    title_id: str | None = None,
    marks_id: str | None = None,
    only_texts: bool = False,
    fitted: bool = False,
) -> str:
    """The whole drawing, or only its type, as one `svg` element with the alternative as its title.

    With `fitted` every text says how long it is, so that a viewer without the program's fonts sets another face to
    the same length and no words collide. By `marks_id` a page may show all marks a second time.
    """
    marks = drawing.texts if only_texts else drawing.marks
    body = "".join(_text(mark, fitted=fitted) if isinstance(mark, Text) else _path(mark) for mark in marks)
    if marks_id:
        body = f'<g id="{escape(marks_id)}">{body}</g>'
    name = f' id="{title_id}"' if title_id else ""
    labelled = f' aria-labelledby="{title_id}"' if title_id else ""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img"{labelled} width="{number(drawing.width)}mm" '
        f'height="{number(drawing.height)}mm" viewBox="0 0 {number(drawing.width)} {number(drawing.height)}">'
        f"<title{name}>{escape(drawing.alternative)}</title>{body}</svg>"
    )


def _path(path: Path) -> str:
    data = "".join(_data(shape) for shape in path.shapes)
    fill = f'fill="{path.fill}" fill-rule="evenodd"' if path.fill else 'fill="none"'
    return f'<path d="{data}" {fill}{_stroke(path.stroke)}/>'


def _stroke(stroke: Stroke | None) -> str:
    if stroke is None:
        return ""
    dash = f' stroke-dasharray="{" ".join(map(number, stroke.dash))}"' if stroke.dash else ""
    cap = ' stroke-linecap="round"' if stroke.cap == "round" else ""
    return f' stroke="{stroke.colour}" stroke-width="{number(stroke.width)}" stroke-linejoin="round"{dash}{cap}'


def _data(shape: Shape) -> str:
    if isinstance(shape, Circle):
        (x, y), r = shape.centre, number(shape.radius)
        width = number(2 * shape.radius)
        return f"M{number(x - shape.radius)} {number(y)}a{r} {r} 0 1 0 {width} 0a{r} {r} 0 1 0 -{width} 0z"
    if isinstance(shape, Curve):
        pieces = "".join("C" + " ".join(map(_point, piece)) for piece in shape.pieces)
        return f"M{_point(shape.start)}{pieces}{'z' if shape.closed else ''}"
    return _line(shape)


def _line(line: Line) -> str:
    start, *rest = map(_point, line.points)
    return f"M{start}L{' '.join(rest)}{'z' if line.closed else ''}" if rest else ""


def _point(point: Point) -> str:
    return f"{number(point[0])} {number(point[1])}"


def _text(text: Text, *, fitted: bool) -> str:
    x, y = map(number, text.at)
    turn = f' transform="rotate({number(text.turn)} {x} {y})"' if text.turn else ""
    anchor = f' text-anchor="{text.anchor}"' if text.anchor != "start" else ""
    family = f"{text.family}, {INSTEAD if fitted else OTHER_SCRIPTS}" if fitted or further(text) else text.family
    length = f' textLength="{number(text_width(text))}" lengthAdjust="spacingAndGlyphs"' if fitted else ""
    style = f'font-family="{family}" font-size="{number(text.size * MM_PER_POINT)}" font-weight="{text.weight}"{length}'
    content = escape(text.content)
    halo = ""
    if text.halo:
        halo = (
            f'<text x="{x}" y="{y}"{anchor}{turn} {style} fill="none" stroke="{HALO}" stroke-width="{HALO_WIDTH}" '
            f'stroke-linejoin="round" aria-hidden="true">{content}</text>'
        )
    return f'{halo}<text x="{x}" y="{y}"{anchor}{turn} {style} fill="{text.colour}">{content}</text>'
