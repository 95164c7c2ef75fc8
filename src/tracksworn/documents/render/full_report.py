"""How the full report goes on to its sheets: what begins a sheet of its own, and what goes on where it is."""

from collections.abc import Mapping
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


def _arrange(view: FullReport, lay_out: LayOut) -> Sheets:
    """Where a section would leave half a sheet empty before it, it goes on there instead."""
    flowing = frozenset({"record"}) | _absent(view)
    legend_after = len(view.strips)
    sheets = lay_out(_values(flowing, legend_after))
    while (fewer := _strips_before_legend(sheets, legend_after)) < legend_after:
        legend_after = fewer
        sheets = lay_out(_values(flowing, legend_after))
    for names in (("parts", "findings"), ("ahead",), ("verdict",), ("record",)):
        # what comes later stands elsewhere once the first have moved
        better = flowing.difference(names) | {name for name in names if _goes_on(sheets, name, name in flowing)}
        if better != flowing:
            further = _gone_on(better, better.difference(flowing), legend_after, lay_out)
            if further is not None:
                flowing, sheets = better, further
    return sheets


def _gone_on(flowing: frozenset[str], newly: frozenset[str], legend_after: int, lay_out: LayOut) -> Sheets | None:
    """The sheets with some sections newly going on where they are; None where one of them found no room there.

    Hours left and shop visits stay together, unless a sheet would be left half empty for it.
    """
    for together in (True, False) if "ahead" in newly else (True,):
        sheets = lay_out(_values(flowing, legend_after, together=together))
        if not any(_came_to_a_top(sheets, name) for name in newly):
            return sheets
    return None


def _absent(view: FullReport) -> frozenset[str]:
    """Sections that a report does not have."""
    there = {"ahead": view.has_sheet_ahead, "verdict": view.terms is not None}
    return frozenset(name for name, is_there in there.items() if not is_there)


def _came_to_a_top(sheets: Sheets, name: str) -> bool:
    """Whether a section that was to go on where it is found no room there."""
    start, end = sheets.place(name), sheets.place(ENDS[name])
    return start is not None and end is not None and start[0] != end[0]


def _values(flowing: frozenset[str], legend_after: int, *, together: bool = True) -> Mapping[str, object]:
    return {
        "flowing": flowing,
        "legend_after": legend_after,
        "together": together,
        "pages": _page_names(flowing),
    }


def _unpaged(view: FullReport) -> Mapping[str, object]:
    names = dict.fromkeys(SECTIONS, "")
    return {"flowing": frozenset(), "legend_after": len(view.strips), "together": True, "pages": names}


def _page_names(flowing: frozenset[str]) -> dict[str, str]:
    """Which kind of sheet each section stands on: its own, or that of the section it follows on."""
    names, latest = {}, "whole"
    for name in SECTIONS:
        latest = latest if name in flowing else name
        names[name] = f"on-{latest}"
    return names


def _strips_before_legend(sheets: Sheets, strips: int) -> int:
    """How many strips of rollers may stand before the legend: one fewer if it came to a later sheet than the rows."""
    rows, legend = sheets.place("end-rows"), sheets.place("legend")
    if rows is None or legend is None or rows[0] == legend[0]:
        return strips
    return max(strips - 1, 0)


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
