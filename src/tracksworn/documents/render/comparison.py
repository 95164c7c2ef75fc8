"""How machines side by side go on to their sheets, which lie on their side."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from tracksworn.documents.comparison.measures import GUTTER, LABELS, WIDTHS
from tracksworn.documents.comparison.view import CellView, Comparison, HalfView
from tracksworn.documents.drawing.axis import draw_axis
from tracksworn.documents.drawing.plain import Drawing
from tracksworn.documents.drawing.rule import BAR, OUTER, draw_compact_rule, draw_twin_rule, words_inside
from tracksworn.documents.render.gate.unseen import wanted_of_unseen
from tracksworn.documents.render.gate.wanted import Piece, wanted
from tracksworn.documents.render.kind import Kind, LayOut, Sheets
from tracksworn.documents.render.pair import Pair

FIGURES: Final = 21.6
"""What two figures and a delta take of a column, mm."""
BEYOND: Final = 0.13
"""How far a bar or its whisker reaches past the limit, of its length."""
POINTER: Final = 0.8
TIGHTNESS: Final = ("roomy", "tight", "tightest")
"""How close the columns are set, as a class for their style."""


@dataclass(frozen=True, slots=True)
class ComparisonPlates:
    """The drawings of a comparison; `rules` by row, and within it by machine."""

    axes: tuple[Drawing, ...]
    rules: tuple[tuple[Pair, ...], ...]
    twins: tuple[tuple[Drawing | None, ...], ...]  # both halves in one, where a page has no columns
    bar: float
    column: float

    def across(self, count: int) -> str:
        """How wide a table of so many machines is, for a style."""
        return f"{LABELS + count * self.column:.2f}mm"

    def reason_beneath(self, half: HalfView) -> str:
        """Why a part was not seen, where the bar had no room for it."""
        return "" if not half.reason or half.reason in words_inside(half.gauge, self.bar) else half.reason


def draw_comparison(view: Comparison) -> ComparisonPlates:
    """Draw everything but the elevations, which the view holds drawn."""
    half = (view.column - GUTTER - FIGURES) / 2
    bar = min((half - OUTER - POINTER) / (1 + BEYOND), BAR)
    inner = BEYOND * bar + POINTER
    return ComparisonPlates(
        axes=tuple(draw_axis(machine.overall.axis) for machine in view.machines),
        rules=tuple(
            tuple(Pair(_rule(cell.left, bar, inner), _rule(cell.right, bar, inner)) for cell in row.cells)
            for row in view.rows
        ),
        twins=tuple(tuple(_twin(cell) for cell in row.cells) for row in view.rows),
        bar=bar,
        column=view.column,
    )


def _rule(half: HalfView | None, bar: float, inner: float) -> Drawing | None:
    if half is None:
        return None
    return draw_compact_rule(half.gauge, half.side, alternative=half.alternative, bar=bar, inner=inner)


def _twin(cell: CellView) -> Drawing | None:
    halves = [half for half in (cell.left, cell.right) if half]
    if not halves:
        return None
    left, right = (half.gauge if half else None for half in (cell.left, cell.right))
    return draw_twin_rule(left, right, alternative=" ".join(half.alternative for half in halves))


def _arrange(view: Comparison, lay_out: LayOut) -> Sheets:
    """The loosest way in which each set of machines stands whole on its own sheet, the key with the last of them."""
    ends = [*((f"columns-end-{index}", index) for index in range(len(view.sets))), ("key", len(view.sets) - 1)]
    for tightness in TIGHTNESS:
        sheets = lay_out({"sets": view.sets, "tightness": tightness})
        if all((place := sheets.place(end)) is not None and place[0] == sheet for end, sheet in ends):
            break
    return sheets


def _unpaged(view: Comparison) -> Mapping[str, object]:
    """All machines in one table, which scrolls sideways."""
    return {"sets": (tuple(range(len(view.machines))),), "tightness": TIGHTNESS[0]}


def _wanted(view: Comparison) -> tuple[Piece, ...]:
    unseen = (piece for machine in view.machines for piece in wanted_of_unseen(machine.not_seen, machine.name))
    return (*wanted(view.cautions), *unseen)


COMPARISON: Final[Kind[Comparison]] = Kind(
    name="compare",
    draw=draw_comparison,
    width=lambda view: WIDTHS[view.branding.paper],
    sheet_styles=lambda view: ("print.css", f"{view.branding.paper.lower()}-wide.css", "compare-print.css"),
    screen_styles=("screen.css", "compare-screen.css"),
    arrange=_arrange,
    unpaged=_unpaged,
    wanted=_wanted,
)
