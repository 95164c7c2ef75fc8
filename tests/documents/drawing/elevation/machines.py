"""Invented sides to draw: every layout, with and without geometry."""

from dataclasses import replace

from tracksworn.assessment.model import Basis, Stage
from tracksworn.documents.drawing.elevation import AdjusterTravel, ElevationWords, Pin, SideElevation
from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.inspection.chart import Geometry
from tracksworn.inspection.model import Spot
from tracksworn.inspection.vocabulary import Component, Layout, ShoeKind, Side, Suspension

HOLLIN = Geometry(
    idler_centres=3280, sprocket_back=2540, sprocket_height=830, front_idler=720, rear_idler=720, sprocket=800,
    teeth=23, bottom_roller=256, top_roller=190, pitch=216, links=45,
)  # fmt: skip
PITCHES = {
    Layout.ELEVATED_SPROCKET: 216.0, Layout.OVAL: 190.0, Layout.EXCAVATOR: 190.0, Layout.TRACK_LOADER: 171.0,
    Layout.RUBBER: 86.0,
}  # fmt: skip
NOT_SEEN = Gauge(Basis.NOT_SEEN, "–")
NAMES = {
    Component.FRONT_IDLER: "front idler", Component.REAR_IDLER: "rear idler", Component.SPROCKET: "sprocket",
    Component.TOP_ROLLER: "top roller",
}  # fmt: skip
LONG_NAMES = {
    Component.FRONT_IDLER: "vorderes Leitrad", Component.REAR_IDLER: "hinteres Leitrad",
    Component.SPROCKET: "Antriebsturas", Component.TOP_ROLLER: "Stützrolle",
}  # fmt: skip
"""Names as long as those of other languages are."""
LONG_BARS = {
    Component.LINK: "Maillons de chaîne", Component.BUSHING: "Kettenbuchsen", Component.PITCH: "Kettenteilung",
    Component.SHOE: "Bodenplatten", Component.LUG: "Gummistollen", Component.DRIVE_LUG: "Crampons d’entraînement",
}  # fmt: skip
BARS = {Component.LINK: "Links", Component.BUSHING: "Bushings", Component.PITCH: "Pitch", Component.SHOE: "Shoes"}


def measured(percent: float) -> Gauge:
    stages = [(50, Stage.FIRST_HALF), (80, Stage.SECOND_HALF), (100, Stage.NEAR_LIMIT)]
    stage = next((stage for end, stage in stages if percent < end), Stage.PAST_LIMIT)
    return Gauge(Basis.MEASURED, f"{percent:.0f}", percent, percent - 4, percent + 4, stage)


def by_eye(low: float | None, high: float | None) -> Gauge:
    figure = (
        f"{low}–{high}"
        if low is not None and high is not None
        else f"at least {low}"
        if high is None
        else f"at most {high}"
    )
    return Gauge(Basis.BY_EYE, figure, None, low, high)


def side_of(
    layout: Layout,
    *,
    bottom: int = 6,
    top: int = 1,
    side: Side = Side.LEFT,
    percent: float = 40.0,
    pitch_known: bool = True,
) -> SideElevation:
    """A side worn evenly, drawn in the layout's typical proportions."""
    gauge = measured(percent)
    parts = [*BARS, Component.LUG, Component.DRIVE_LUG, Component.SPROCKET, Component.FRONT_IDLER, Component.REAR_IDLER]
    return SideElevation(
        side, layout, dict.fromkeys(parts, gauge), (gauge,) * bottom, (gauge,) * top, "A side, worn evenly.",
        ElevationWords("Left side", "front of the machine at left", "Chain, percent worn", BARS, NAMES),
        geometry=Geometry(pitch=PITCHES[layout]) if pitch_known else None,
    )  # fmt: skip


def hollin(side: Side = Side.LEFT) -> SideElevation:
    """The machine of the report, to scale."""
    rollers = tuple(map(measured, (80, 71, 107, 65, 60, 66, 73, 81)))
    return replace(
        side_of(Layout.ELEVATED_SPROCKET, side=side),
        bottom_rollers=rollers,
        suspension=Suspension.SUSPENDED,
        geometry=HOLLIN,
        links=45,
        shoe=ShoeKind.SINGLE_GROUSER,
        adjuster=AdjusterTravel("adjuster, 54 % of travel used", 54),
        pins=(
            Pin(
                1,
                "Oil at inner seal, marked",
                "bottom roller 3, past its limit",
                Spot(Component.BOTTOM_ROLLER, None, 3),
            ),
            Pin(2, "Side wear, slight", "idler rim, inner face", Spot(Component.FRONT_IDLER)),
            Pin(3, "Reverse wear, slight", "sprocket teeth", Spot(Component.SPROCKET)),
        ),
    )
