"""What the full report is laid out with. It flows on its sheets by its style alone."""

from typing import Final

from tracksworn.documents.full.view import FullReport
from tracksworn.documents.render.fitting import WIDTH
from tracksworn.documents.render.gate.unseen import wanted_of_unseen
from tracksworn.documents.render.gate.verdict import wanted_of_terms
from tracksworn.documents.render.gate.wanted import wanted
from tracksworn.documents.render.kind import Kind
from tracksworn.documents.render.plates import draw_plates

FULL_REPORT: Final[Kind[FullReport]] = Kind(
    name="full",
    draw=draw_plates,
    width=lambda view: WIDTH,  # noqa: ARG005
    sheet_styles=lambda view: ("print.css", f"{view.branding.paper.lower()}.css"),
    screen_styles=("screen.css",),
    wanted=lambda view: (
        *wanted(view.cautions),
        *wanted_of_terms(view.terms),
        *wanted_of_unseen(view.not_seen),
    ),
)
