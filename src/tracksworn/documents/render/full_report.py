"""How the full report goes on to its sheets: what begins a sheet of its own, and what goes on where it is."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Final

from tracksworn.documents.full.view import FullReport
from tracksworn.documents.render.fitting import WIDTH
from tracksworn.documents.render.gate.verdict import wanted_of_terms
from tracksworn.documents.render.gate.wanted import wanted
from tracksworn.documents.render.kind import Kind, LayOut, Sheets
from tracksworn.documents.render.plates import draw_plates

SECTIONS: Final = ("parts", "findings", "ahead", "verdict", "record")
ENDS: Final = {
    "parts": "end-whole",
    "findings": "end-parts",
    "ahead": "end-findings",
    "verdict": "end-ahead",
    "record": "end-verdict",
}
"""What may begin a sheet of its own, and where that which stands before it ends."""
ENOUGH: Final = 0.55
"""How far down a sheet must be filled for the next section to begin a new one."""
NEARLY_FULL: Final = 0.75
"""How far down a sheet is filled when the next section had better not begin on it."""


@dataclass(frozen=True, slots=True)
class Flow:
    """How a report goes on to its sheets."""

    flowing: frozenset[str]  # sections that begin no sheet of their own
    legend_after: int  # strips of rollers before the legend
    together: bool = True  # whether hours left and shop visits stay on one sheet

    @property
    def values(self) -> Mapping[str, object]:
        """What the templates go by."""
        return {
            "flowing": self.flowing,
            "legend_after": self.legend_after,
            "together": self.together,
            "pages": _page_names(self.flowing),
        }


def _arrange(view: FullReport, lay_out: LayOut) -> Sheets:
    """Where a section would leave half a sheet empty before it, it goes on there instead."""
    flow = Flow(frozenset({"record"}) | _absent(view), len(view.strips))
    sheets = lay_out(flow.values)
    while (better := _begun(flow, sheets)) != flow:
        flow, sheets = better, lay_out(better.values)
    for names in (("parts", "findings"), ("ahead",), ("verdict",), ("record",)):
        # what comes later stands elsewhere once the first have moved
        kept = flow.flowing.difference(names)
        better = replace(flow, flowing=kept | {one for one in names if _goes_on(sheets, one, one in flow.flowing)})
        if better != flow:
            flow, sheets = _gone_on(flow, sheets, better, lay_out)
    return sheets


def _begun(flow: Flow, sheets: Sheets) -> Flow:
    """What the first sheets show of the rest: where the legend belongs, and whether hours and visits are one sheet."""
    together = flow.together and not _lies_apart(sheets, "ahead", "hours-and-visits")
    return replace(flow, legend_after=_strips_before_legend(sheets, flow.legend_after), together=together)


def _gone_on(flow: Flow, sheets: Sheets, better: Flow, lay_out: LayOut) -> tuple[Flow, Sheets]:
    """Sections newly going on where they are, unless one of them finds no room there.

    Hours left and shop visits part before a sheet is left half empty for them.
    """
    newly = better.flowing.difference(flow.flowing)
    tries = (better, replace(better, together=False)) if "ahead" in newly and better.together else (better,)
    for tried in tries:
        further = lay_out(tried.values)
        if not any(_lies_apart(further, name, ENDS[name]) for name in newly):
            return tried, further
    return flow, sheets


def _absent(view: FullReport) -> frozenset[str]:
    """Sections that a report does not have."""
    there = {"ahead": view.has_sheet_ahead, "verdict": view.terms is not None}
    return frozenset(name for name, is_there in there.items() if not is_there)


def _lies_apart(sheets: Sheets, one: str, other: str) -> bool:
    """Whether two elements are there and stand on different sheets."""
    first, second = sheets.place(one), sheets.place(other)
    return first is not None and second is not None and first[0] != second[0]


def _unpaged(view: FullReport) -> Mapping[str, object]:
    return {**Flow(frozenset(), len(view.strips)).values, "pages": dict.fromkeys(SECTIONS, "")}


def _page_names(flowing: frozenset[str]) -> dict[str, str]:
    """Which kind of sheet each section stands on: its own, or that of the section it follows on."""
    names, latest = {}, "whole"
    for name in SECTIONS:
        latest = latest if name in flowing else name
        names[name] = f"on-{latest}"
    return names


def _strips_before_legend(sheets: Sheets, strips: int) -> int:
    """How many strips of rollers may stand before the legend: one fewer if it came to a later sheet than the rows."""
    return max(strips - 1, 0) if _lies_apart(sheets, "end-rows", "legend") else strips


def _goes_on(sheets: Sheets, name: str, flowing: bool) -> bool:
    """Not where it came to the top of a sheet anyway; surely where the sheet before would be left half empty."""
    start, end = sheets.place(name), sheets.place(ENDS[name])
    if start is None or end is None:
        return flowing
    if start[0] == end[0]:
        return end[1] < NEARLY_FULL
    return not flowing and end[1] < ENOUGH


FULL_REPORT: Final[Kind[FullReport]] = Kind(
    name="full",
    draw=draw_plates,
    width=lambda view: WIDTH,  # noqa: ARG005
    sheet_styles=lambda view: ("print.css", f"{view.branding.paper.lower()}.css"),
    screen_styles=("screen.css",),
    arrange=_arrange,
    unpaged=_unpaged,
    wanted=lambda view: (*wanted(view.cautions), *wanted_of_terms(view.terms)),
)
