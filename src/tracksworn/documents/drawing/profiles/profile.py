"""What a wear profile is drawn from. Lengths are mm for drawing and text for reading; words are already translated."""

from dataclasses import dataclass
from enum import Enum, auto
from typing import Literal

from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.inspection.vocabulary import Component, PartPlace, ShoeKind, Side


class Measure(Enum):
    """What the size of a section runs across. It decides where on the section wear is drawn, and how deep."""

    HEIGHT = auto()  # link rail, grouser, lug: foot to working face
    DIAMETER = auto()  # rollers, idlers, bushing
    WALL = auto()  # bushing, by ultrasonic gauge
    DEPTH = auto()  # idler or roller: tread to top of flange; grows as the tread wears
    THICKNESS = auto()  # sprocket tooth, drive lug
    GAP = auto()  # sprocket, between teeth; grows
    SPAN = auto()  # pitch over several links


@dataclass(frozen=True, slots=True)
class Size:
    """A length and how it is printed, without its unit."""

    mm: float
    text: str


@dataclass(frozen=True, slots=True)
class Worn:
    """One reading in the drawing: a side, or a place on the part. `size` is None by eye and not seen."""

    gauge: Gauge
    size: Size | None = None
    word: str = ""  # `left`, `forward`, `inner`; empty where there is only one
    gone: str = ""  # `forward, 4.8 gone`: stands at its place on idlers, sprockets and bushings; may be empty
    side: Side | None = None
    place: PartPlace | None = None


@dataclass(frozen=True, slots=True)
class Flank:
    """Wear of a flank that the size of the part does not tell: an idler's side wear, a tooth's at either face."""

    text: str  # `reverse, 2.3 gone`, `side wear: seen, not measured`
    size: Size | None = None  # what has gone there; None: seen, not measured
    place: PartPlace | None = None


@dataclass(frozen=True, slots=True)
class ProfileWords:
    """The words that every profile of a document shares."""

    as_new: str
    now: str
    limit: str
    destroyed: str
    typical: str  # stands in the place of the scale where there are no sizes: `typical section, not to scale`
    pin: str
    tread: str
    flange: str
    middle: str  # `middle of the roller`
    bushing: str
    cords: str
    not_drawn: str = "not drawn"
    colon: str = ": "
    semicolon: str = "; "
    decimal: str = "."  # the decimal mark, for the scale


@dataclass(frozen=True, slots=True)
class Profile:
    """One part in section. `now` holds one or two sides (link, pitch, shoe, lugs), or the places on one part.

    `new` and `limit` are both set or both None; without them the section is typical and has no dimensions.
    """

    component: Component
    title: str  # `Roller tread and flange`
    about: str  # `left bottom roller 3`; may be empty
    section: str  # `half section`; the scale is added to it, for pitch where `{scale}` and `{ruler}` stand
    now: tuple[Worn, ...]
    words: ProfileWords
    alternative: str
    new: Size | None = None
    limit: Size | None = None
    destroyed: Size | None = None
    measure: Measure | None = None  # None: as is usual for the component, see `usual_measure`
    notes: tuple[str, ...] = ()  # below the key, each broken into lines where it needs them
    dimension: str = ""  # pitch: `869 mm, pin centre to pin centre`
    shoe: ShoeKind | None = None
    flanges: Literal[1, 2] | None = None
    segment: bool = False  # a sprocket of bolted segments
    above_root: Size | None = None  # sprocket: at which height above the root the tooth is measured
    over_links: int = 4  # pitch: how many links a span covers
    flanks: tuple[Flank, ...] = ()  # idler: one; sprocket: forward and reverse, or reverse without a size
    unit_mm: float = 1.0  # pitch: mm in one of the printed unit, for the ruler's figures
    width: float = 92.0
    height: float = 46.0  # at most, but for notes

    @property
    def grows(self) -> bool:
        """Whether the size grows as the part wears."""
        return self.new is not None and self.limit is not None and self.limit.mm > self.new.mm


USUAL_MEASURES = {
    Component.LINK: Measure.HEIGHT,
    Component.BUSHING: Measure.DIAMETER,
    Component.PITCH: Measure.SPAN,
    Component.SHOE: Measure.HEIGHT,
    Component.LUG: Measure.HEIGHT,
    Component.DRIVE_LUG: Measure.THICKNESS,
    Component.SPROCKET: Measure.THICKNESS,
    Component.FRONT_IDLER: Measure.DIAMETER,
    Component.REAR_IDLER: Measure.DIAMETER,
    Component.BOTTOM_ROLLER: Measure.DIAMETER,
    Component.TOP_ROLLER: Measure.DIAMETER,
}


_THICKEST_WALL = 32.0  # mm; common practice, no source: no bushing is as thin as the thickest wall


def usual_measure(
    component: Component, described: str = "", *, grows: bool = False, new: float | None = None
) -> Measure:
    """What a component's size runs across, from a chart's description where it says so, else as is usual.

    A description of two ways names both wall and diameter of a bushing; then the new size in mm tells them apart.
    """
    text = described.casefold()
    wheels = (Component.FRONT_IDLER, Component.REAR_IDLER, Component.BOTTOM_ROLLER, Component.TOP_ROLLER)
    if component in wheels and (grows or "flange" in text):
        return Measure.DEPTH
    if component is Component.BUSHING and "wall" in text:
        return Measure.DIAMETER if "diameter" in text and (new is None or new > _THICKEST_WALL) else Measure.WALL
    if component is Component.SPROCKET and grows:
        return Measure.GAP
    if component is Component.DRIVE_LUG and "height" in text:
        return Measure.HEIGHT
    return USUAL_MEASURES[component]
