"""The head and foot of every sheet but their changing words, as drawings: each sheet would pay anew for type."""

from collections.abc import Iterator, Sequence
from typing import Final

from tracksworn.documents.drawing.inks import HAIRLINE, INK, LABEL
from tracksworn.documents.drawing.plain import Drawing, Line, Path, Stroke, Text
from tracksworn.documents.drawing.type import width_mm
from tracksworn.documents.render.fitting import Fitted, Row, places

HEAD_HEIGHT: Final = 18.7
FOOT_HEIGHT: Final = 9.0
MASTHEAD_HEIGHT: Final = 23.6
MASTHEAD_MARK: Final = 9.2
MASTHEAD_INDENT: Final = 12.0
MARK: Final = 6.6
"""The side of the square for the firm's mark, mm."""
_INDENT: Final = 9.0
"""Where firm and title stand beside the mark, mm."""
_RULE: Final = Stroke(0.6)
_THIN: Final = Stroke(0.3)
_HAIR: Final = Stroke(0.12, HAIRLINE)


def draw_head(fitted: Fitted) -> Drawing:
    """Firm, title, number and the identification strip; the mark and the section that goes on are set beside it."""
    branding, head, width = fitted.view.branding, fitted.first, fitted.width
    beside = _INDENT if branding.mark else 0.0
    texts = (
        Text((beside, 2.3), head.firm, 8.4, 600, branding.accent),
        Text((beside, 5.6), head.title, 8.4, 400),
        Text((width, 2.3), head.number, 8.4, 600, anchor="end"),
        *_labelled(fitted.strip, (11.1, 15.0), width),
    )
    lines = (Path((_across(7.7, width),), stroke=_RULE), Path((_across(HEAD_HEIGHT - 0.3, width),), stroke=_THIN))
    return Drawing(width, HEAD_HEIGHT, (*lines, *texts), f"{head.firm}, {head.number}")


def draw_masthead(fitted: Fitted, firm: str, at_right: Sequence[Text], *, alternative: str) -> Drawing:
    """Firm, what stands at the right and the strip of a document's one sheet; title and mark are set over it."""
    branding, width = fitted.view.branding, fitted.width
    beside = MASTHEAD_INDENT if branding.mark else 0.0
    lines = (Path((_across(12.6, width),), stroke=_RULE), Path((_across(MASTHEAD_HEIGHT - 0.15, width),), stroke=_THIN))
    name = Text((beside, 3.01), firm, 8.4, 600, branding.accent)
    texts = (name, *at_right, *_labelled(fitted.strip, (17.03, 20.83), width))
    return Drawing(width, MASTHEAD_HEIGHT, (*lines, *texts), alternative)


def number_at_right(fitted: Fitted) -> tuple[Text, Text]:
    """A document's number, with whom it is addressed to under it."""
    right, head = fitted.width, fitted.first
    beside = Text((right, 8.67), head.beside, 8.4, 400, LABEL, "end")
    return Text((right, 3.01), head.number, 8.4, 600, anchor="end"), beside


def lot_at_right(label: str, lot: str, size: float, right: float) -> tuple[Text, Text]:
    """A lot's number in type of `size` points, its label before it."""
    number = Text((right, 11.02), lot, size, 600, INK, "end")
    before = right - width_mm(lot, size, weight=600) - 2.6
    return Text((before, 11.02), label, 11.0, 400, LABEL, "end"), number


def draw_foot(fitted: Fitted, sheet: str = "") -> Drawing:
    """Document, arithmetic, chart, fingerprint, who answers for it, and which sheet: given, or else set over it."""
    row, width = fitted.foot, fitted.width
    label = fitted.view.headings.sheet
    starts = places(row, width - 14.0)
    texts = (*_labelled(row, (3.6, 7.3), width - 14.0), Text((width, 3.6), label, 6.4, 400, LABEL, "end"))
    number = (Text((width, 7.3), sheet, 8.2, 600, INK, "end"),) if sheet else ()
    marks = Path(tuple(Line(((x - 2.2, 1.6), (x - 2.2, 8.2))) for x in starts[1:]), stroke=_HAIR)
    return Drawing(
        width, FOOT_HEIGHT, (Path((_across(0.3, width),), stroke=_THIN), marks, *texts, *number), row.labelled[0].value
    )


def _across(height: float, width: float) -> Line:
    return Line(((0.0, height), (width, height)))


def _labelled(row: Row, baselines: tuple[float, float], room: float) -> Iterator[Text]:
    for one, x in zip(row.labelled, places(row, room), strict=True):
        yield Text((x, baselines[0]), one.label, 6.4, 400, LABEL)
        yield Text((x, baselines[1]), one.value, row.size, 500, INK)
