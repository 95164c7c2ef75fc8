"""The trade's words, as the files use them. Each enumeration is in the order in which a page lists it."""

from collections.abc import Mapping
from enum import StrEnum


class Kind(StrEnum):
    """The kinds of file, named as on the command line."""

    INSPECTION = "inspection"
    CHART = "chart"
    LETTERHEAD = "letterhead"
    PRICES = "prices"
    TERMS = "terms"

    @property
    def header(self) -> str:
        """What `tracksworn:` says in a file of this kind."""
        return "wear chart 1" if self is Kind.CHART else f"{self.value} 1"


class Side(StrEnum):
    """As seen facing the idler end from the sprocket end."""

    LEFT = "left"
    RIGHT = "right"

    @property
    def other(self) -> "Side":
        """The opposite side."""
        return Side.RIGHT if self is Side.LEFT else Side.LEFT


class Layout(StrEnum):
    """How wheels and frame are arranged."""

    ELEVATED_SPROCKET = "elevated sprocket"
    OVAL = "oval"
    EXCAVATOR = "excavator"
    TRACK_LOADER = "track loader"
    RUBBER = "rubber"


class Suspension(StrEnum):
    """How the bottom rollers are carried."""

    SUSPENDED = "suspended"
    RIGID = "rigid"


class Track(StrEnum):
    """What keeps pin and bushing apart, which decides how pitch grows."""

    SEALED_AND_LUBRICATED = "sealed and lubricated"
    GREASED = "greased"
    DRY = "dry"
    ROTATING_BUSHING = "rotating bushing"
    RUBBER = "rubber"


class ShoeKind(StrEnum):
    """The ground side of a shoe."""

    SINGLE_GROUSER = "single grouser"
    DOUBLE_GROUSER = "double grouser"
    TRIPLE_GROUSER = "triple grouser"
    SWAMP = "swamp"
    PAD = "pad"


class Ground(StrEnum):
    """What the machine works on."""

    SOFT = "soft"
    FIRM = "firm"
    ROCK = "rock"
    ABRASIVE = "abrasive"
    WET = "wet"


class Impact(StrEnum):
    """Which limits of a chart apply."""

    LOW = "low"
    HIGH = "high"


class Component(StrEnum):
    """What is measured or judged, in the order of a report."""

    LINK = "link"
    BUSHING = "bushing"
    PITCH = "pitch"
    SHOE = "shoe"
    LUG = "lug"
    DRIVE_LUG = "drive lug"
    SPROCKET = "sprocket"
    FRONT_IDLER = "front idler"
    REAR_IDLER = "rear idler"
    BOTTOM_ROLLER = "bottom roller"
    TOP_ROLLER = "top roller"
    ADJUSTER = "adjuster"
    CUSHION = "cushion"
    SAG = "sag"


CHAINS = frozenset({Component.LINK, Component.BUSHING, Component.SHOE, Component.LUG, Component.DRIVE_LUG})
"""Sampled at several joints or places; the mean is their percent worn."""

ROLLERS = frozenset({Component.BOTTOM_ROLLER, Component.TOP_ROLLER})
"""Several on a side, counted from the front."""

TRAVELS = frozenset({Component.ADJUSTER, Component.CUSHION, Component.SAG})
"""With travel or range, not wear."""

WEARING = tuple(component for component in Component if component not in TRAVELS)


class ObservedPlace(StrEnum):
    """Places that are only observed, never measured."""

    PIN = "pin"
    SEAL = "seal"
    SHOE_BOLT = "shoe bolt"
    TRACK_FRAME = "track frame"
    PIVOT_SHAFT = "pivot shaft"
    EQUALISER_BAR = "equaliser bar"
    BOGIE_PIVOT = "bogie pivot"
    RECOIL_SPRING = "recoil spring"
    ADJUSTER_SEAL = "adjuster seal"
    ADJUSTER_BRACKET = "adjuster bracket"
    GUARD = "guard"
    MASTER_JOINT = "master joint"


class PartPlace(StrEnum):
    """Where on one part."""

    FORWARD_SIDE = "forward side"
    REVERSE_SIDE = "reverse side"
    RIGHT_ANGLES = "right angles"
    INNER_TREAD = "inner tread"
    OUTER_TREAD = "outer tread"
    FORWARD_FACE = "forward face"
    REVERSE_FACE = "reverse face"


class Sign(StrEnum):
    """What an observation may have seen."""

    LEAK = "leak"
    CRACK = "crack"
    BENT = "bent"
    LOOSE = "loose"
    MISSING = "missing"
    SEIZED = "seized"
    FLAT_SPOT = "flat spot"
    END_PLAY = "end play"
    HOT = "hot"
    SIDE_WEAR = "side wear"
    TREAD_GROOVES = "tread grooves"
    FLANGE_WORN = "flange worn"
    FLANGE_CONTACT = "flange contact"
    GROOVE = "groove"
    GUIDE_WORN = "guide worn"
    RAIL_SCALLOPED = "rail scalloped"
    RAIL_SPALLING = "rail spalling"
    WORN_TO_A_POINT = "worn to a point"
    THIN_TOOTH_BASE = "thin tooth base"
    REVERSE_WEAR = "reverse wear"
    TOOTH_FACE_WORN = "tooth face worn"
    CHROME_LOSS = "chrome loss"
    DRY_JOINT = "dry joint"
    PIN_WALK = "pin walk"
    LOOSE_MASTER_JOINT = "loose master joint"
    LINK_TAKEN_OUT = "link taken out"
    SQUEEZED_CUSHION = "squeezed cushion"
    WRONG_PART = "wrong part"
    RE_GROUSERED = "re-grousered"
    BOLT_MISSING = "bolt missing"
    PACKED = "packed"
    CORROSION = "corrosion"
    HEAT_MARK = "heat mark"
    CORD_SHOWING = "cord showing"
    CUT = "cut"
    LUG_TORN = "lug torn"
    TRACK_OFF = "track off"
    OTHER = "other"


class Grade(StrEnum):
    """How much of it; `none` records that one looked and saw nothing."""

    NONE = "none"
    SLIGHT = "slight"
    MARKED = "marked"
    SEVERE = "severe"


class LimitMeans(StrEnum):
    """The economic repair that ends at a chart's limit."""

    TURN = "turn"
    REBUILD = "rebuild"
    REPLACE = "replace"


class Evidence(StrEnum):
    """What a stated hour rests on."""

    METER = "meter"
    TELEMATICS = "telematics"
    INVOICE = "invoice"
    STAMP = "stamp"
    EARLIER_INSPECTION = "earlier inspection"
    OWNERS_WORD = "owner's word"


class Origin(StrEnum):
    """Whose part it is."""

    MAKER = "maker"
    ANOTHER_MAKE = "another make"
    ADAPTED = "adapted"
    UNKNOWN = "unknown"


class Between(StrEnum):
    """How a chart's table is read between its rows."""

    STRAIGHT = "straight"
    MONOTONE = "monotone"


class Unit(StrEnum):
    """Units of length a size may be written in."""

    MILLIMETRE = "mm"
    CENTIMETRE = "cm"
    INCH = "in"
    FOOT = "ft"


MILLIMETRES_PER = {Unit.MILLIMETRE: 1.0, Unit.CENTIMETRE: 10.0, Unit.INCH: 25.4, Unit.FOOT: 304.8}

ROLLERS_A_SIDE: Mapping[Component, tuple[int, int]] = {Component.BOTTOM_ROLLER: (1, 20), Component.TOP_ROLLER: (0, 6)}
"""The fewest and the most that a side may have."""

LINKS_A_SIDE = (20, 120)
"""The fewest and the most links of a chain."""

SAID_OTHERWISE: Mapping[str, str] = {
    "track roller": Component.BOTTOM_ROLLER,
    "lower roller": Component.BOTTOM_ROLLER,
    "carrier roller": Component.TOP_ROLLER,
    "upper roller": Component.TOP_ROLLER,
    "grouser": Component.SHOE,
    "track shoe": Component.SHOE,
    "track pad": Component.SHOE,
    "rail": Component.LINK,
    "chain": Component.LINK,
    "track link": Component.LINK,
    "bush": Component.BUSHING,
    "segment": Component.SPROCKET,
    "tensioner": Component.ADJUSTER,
    "digger": Layout.EXCAVATOR,
    "owner": Evidence.OWNERS_WORD,
}
"""Other words of the trade for the same thing, so that a message can name the one that is written here."""
