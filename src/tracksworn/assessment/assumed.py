"""Every value that the program assumes rather than was told: judgement, without source. It stands nowhere else."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import StrEnum

from tracksworn.inspection.letterhead import Assumed
from tracksworn.inspection.vocabulary import Component, Layout


class Threshold(StrEnum):
    """An assumed value at which something is concluded, by its name in the table."""

    DIFFERENCE = "least_difference"  # and several_compared
    OUT_OF_STEP = "out_of_step"
    LONG_SPAN = "long_span"
    EVEN_GROWTH = "even_growth"
    HOT_JOINT = "hot_joint"
    NEAR_END_OF_TRAVEL = "near_end_of_travel"
    ADJUSTER_OFF_PITCH = "adjuster_off_pitch"
    FLANGE_CLEARANCE = "flange_clearance"
    SOON_AFTER = "soon_after"
    LIVES_APART = "lives_apart"


@dataclass(frozen=True, slots=True)
class Assumptions:
    """The table of assumed values. Points are points of percent worn; a firm may set the first four."""

    inspector: float = 2.0  # points, standard uncertainty of how one inspector measures one component
    seat: float = 1.0  # points, standard uncertainty of setting the gauge on one spot
    spread: float = 3.0  # points, standard deviation from joint to joint where the chart has no `spread`
    instrument: float = 0.5  # mm, half-width of a gauge of which nothing is known
    prior_dof: float = 3.0  # degrees of freedom of a spread or seat known beforehand
    about: float = 10.0  # points, half-width of `by eye about A`
    least_difference: float = 5.0  # points, below which sides are never said to differ
    several_compared: float = 1.5  # factor on the uncertainty where two or more components are compared
    out_of_step: float = 15.0  # points between two components that wear together
    long_span: float = 15.0  # points above the median of all other spans
    beside_long_span: float = 0.5  # part of that by which it must also stand above those of its own side
    even_growth: float = 25.0  # points that every span of a side has grown where even growth is spoken of
    hot_joint: float = 15.0  # °C above the median of its side
    near_end_of_travel: float = 90.0  # percent of travel used
    adjuster_off_pitch: float = 15.0  # mm between the rod as found and as the pitch explains it
    flange_clearance: float = 3.0  # mm between a roller flange and the pin bosses, at and under which it is near
    soon_after: float = 100.0  # machine hours between two inspections, up to which no wear explains what they differ by
    lives_apart: float = 250.0  # machine hours, up to which two lives end together, and beyond which one ends first
    basis: str | None = None  # what the firm's own values rest on

    @classmethod
    def set_by(cls, firm: Assumed) -> "Assumptions":
        """The table with the values that a firm's letterhead sets in their place."""
        own = {name: getattr(firm, name) for name in ("inspector", "seat", "spread", "instrument")}
        return replace(cls(basis=firm.basis), **{name: value for name, value in own.items() if value is not None})


@dataclass(frozen=True, slots=True)
class AnotherLook:
    """From where on a lot of a sale needs another look before it is relied on. No firm sets them."""

    wide: float = 25.0  # points from low to high of the whole's interval: more than the 20 of an ordinary estimate
    unseen: float = 0.25  # part of the cost that was not seen
    above: float = 30.0  # points by which a worst part near its limit or past it exceeds the whole


C = Component
_OVAL = {
    C.LINK: 25.0,
    C.BUSHING: 16.0,
    C.SHOE: 15.0,
    C.SPROCKET: 8.0,
    C.FRONT_IDLER: 9.0,
    C.BOTTOM_ROLLER: 22.0,
    C.TOP_ROLLER: 5.0,
}

TYPICAL_SHARES: Mapping[Layout, Mapping[Component, float]] = {
    Layout.ELEVATED_SPROCKET: {
        C.LINK: 24.0,
        C.BUSHING: 16.0,
        C.SHOE: 14.0,
        C.SPROCKET: 8.0,
        C.FRONT_IDLER: 6.0,
        C.REAR_IDLER: 6.0,
        C.BOTTOM_ROLLER: 22.0,
        C.TOP_ROLLER: 4.0,
    },
    Layout.OVAL: _OVAL,
    Layout.EXCAVATOR: {
        C.LINK: 27.0,
        C.BUSHING: 13.0,
        C.SHOE: 18.0,
        C.SPROCKET: 8.0,
        C.FRONT_IDLER: 10.0,
        C.BOTTOM_ROLLER: 20.0,
        C.TOP_ROLLER: 4.0,
    },
    Layout.TRACK_LOADER: _OVAL,
    Layout.RUBBER: {
        C.LUG: 40.0,
        C.DRIVE_LUG: 10.0,
        C.SPROCKET: 8.0,
        C.FRONT_IDLER: 12.0,
        C.BOTTOM_ROLLER: 26.0,
        C.TOP_ROLLER: 4.0,
    },
}
"""What each component weighs in the cost of a whole undercarriage, both sides together, in percent."""
