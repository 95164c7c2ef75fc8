"""The drawings of a machine against its terms, for any document that states conformity."""

from dataclasses import dataclass

from tracksworn.documents.drawing.allowance import WIDTH, draw_allowance, draw_allowance_scale
from tracksworn.documents.drawing.plain import Drawing
from tracksworn.documents.full.terms_view import TermsSide, TermsView


@dataclass(frozen=True, slots=True)
class TermsPlates:
    """A scale for the head of a column, and for each row its left and its right bar."""

    scale: Drawing
    rows: tuple[tuple[Drawing | None, Drawing | None], ...]


def draw_terms(view: TermsView, width: float = WIDTH) -> TermsPlates:
    """Every bar of them, to one scale."""
    scale = draw_allowance_scale(view.most, alternative=view.words.percent_worn, width=width)
    rows = ((_bar(row.left, view.most, width), _bar(row.right, view.most, width)) for row in view.rows)
    return TermsPlates(scale, tuple(rows))


def _bar(side: TermsSide | None, most: float, width: float) -> Drawing | None:
    return draw_allowance(side.allowance, most, alternative=side.alternative, width=width) if side else None
