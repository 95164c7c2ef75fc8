"""What a side elevation is drawn from, and what comes back. All texts arrive translated; lengths are mm."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.drawing.plain import Drawing, Point
from tracksworn.inspection.chart import Geometry
from tracksworn.inspection.model import Spot
from tracksworn.inspection.vocabulary import Component, Layout, ShoeKind, Side, Suspension


@dataclass(frozen=True, slots=True)
class Pin:
    """An observation by its number in the list, named at the end of a leader to its place."""

    number: int
    title: str  # "Side wear, slight"
    subtitle: str  # "idler rim, inner face"; may be empty
    at: Spot
    rank: int = 0  # how much it matters: where room is short the higher keeps its words


@dataclass(frozen=True, slots=True)
class AdjusterTravel:
    """How far the adjuster is out, in percent of its travel, and the words beside its line."""

    text: str  # "adjuster, 54 % of travel used"
    percent_used: float | None  # None: not seen, or no travel in the chart


@dataclass(frozen=True, slots=True)
class ElevationWords:
    """The words on the drawing. Empty ones are left out."""

    title: str = ""  # "Left side"; empty where the page sets the heading itself
    note: str = ""  # "front of the machine at left"
    chain: str = ""  # over the chain's bars: "Chain, percent worn"
    bars: Mapping[Component, str] = field(default_factory=dict)  # the chain's bars, in this order: "Links"
    parts: Mapping[Component, str] = field(default_factory=dict)  # names at the parts: "front idler"
    by_eye: str = "by eye"
    not_seen: str = "not seen"
    as_new: str = "as new"  # beside a figure under nought, within its uncertainty
    better_than_new: str = "better than new"  # and beyond it
    scale_bars: tuple[tuple[float, str], ...] = ()  # lengths of the machine in mm and what they are called: "1 m"


@dataclass(frozen=True, slots=True)
class SideElevation:
    """One side of one machine, as found.

    `worn` holds the gauges of all that is not counted: link, bushing, pitch, shoe, lug, drive lug, sprocket, idlers.
    A part without a gauge is drawn plain. As many rollers are drawn as have a gauge, numbered from the front.
    """

    side: Side
    layout: Layout
    worn: Mapping[Component, Gauge]
    bottom_rollers: tuple[Gauge, ...]
    top_rollers: tuple[Gauge, ...]
    alternative: str
    words: ElevationWords = field(default_factory=ElevationWords)
    suspension: Suspension | None = None
    geometry: Geometry | None = None
    links: int | None = None  # as counted on this side; else the chart's, else the nearest whole
    shoe: ShoeKind | None = None
    adjuster: AdjusterTravel | None = None
    pins: tuple[Pin, ...] = ()
    width: float = 182.0
    height: float = 92.0  # at most
    small: bool = False  # for the listing sheet: no bars, no parts' names, no roller numbers
    denominator: int | None = None  # of the scale, at least that which fits; None: the largest scale that fits


@dataclass(frozen=True, slots=True)
class Disc:
    """Where a pin's number stands on the drawing, mm from its left and its top."""

    number: int
    centre: Point
    radius: float


@dataclass(frozen=True, slots=True)
class ElevationResult:
    """The drawing and what a page must say beside it."""

    drawing: Drawing
    placed: tuple[int, ...]  # pins with their words
    bare: tuple[int, ...]  # pins with their number alone: on the lower run, or as their words found no room
    denominator: int  # one millimetre of the drawing is so many of the machine's
    to_scale: bool  # whether that may be stated: the chart gives the pitch and the places of the wheels
    typical: frozenset[str]  # fields of Geometry that are typical proportions; all where there is no geometry
    links: int | None  # links drawn; None where no pitch is known and the chain is a plain band
    discs: tuple[Disc, ...] = ()  # all pins that are drawn

    @property
    def scale(self) -> str | None:
        """`1 : 27`, or None where the drawing has no scale to state."""
        return f"1 : {self.denominator}" if self.to_scale else None
