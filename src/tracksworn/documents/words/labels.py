"""The trade's words as a reader meets them: names of components, places, sides, stages, signs and the like."""

from collections.abc import Iterable, Mapping
from enum import StrEnum
from typing import Final

from tracksworn.assessment.model import AssumedValue, Basis, Bound, SharesFrom, Stage
from tracksworn.assessment.sayings import Severity, Subject, Topic
from tracksworn.documents.words.language import C_, N_, Language
from tracksworn.inspection.model import Spot
from tracksworn.inspection.vocabulary import (
    CHAINS,
    ROLLERS,
    Component,
    Evidence,
    Grade,
    Ground,
    Impact,
    Layout,
    LimitMeans,
    ObservedPlace,
    Origin,
    PartPlace,
    ShoeKind,
    Side,
    Sign,
    Suspension,
    Track,
)

ONE: Final[Mapping[StrEnum, str]] = {
    Component.LINK: N_("link"),
    Component.BUSHING: N_("bushing"),
    Component.PITCH: N_("pitch"),
    Component.SHOE: N_("shoe"),
    Component.LUG: N_("lug"),
    Component.DRIVE_LUG: N_("drive lug"),
    Component.SPROCKET: N_("sprocket"),
    Component.FRONT_IDLER: N_("front idler"),
    Component.REAR_IDLER: N_("rear idler"),
    Component.BOTTOM_ROLLER: N_("bottom roller"),
    Component.TOP_ROLLER: N_("top roller"),
    Component.ADJUSTER: N_("adjuster"),
    Component.CUSHION: N_("cushion"),
    Component.SAG: N_("sag"),
    ObservedPlace.PIN: N_("pin"),
    ObservedPlace.SEAL: N_("seal"),
    ObservedPlace.SHOE_BOLT: N_("shoe bolt"),
    ObservedPlace.TRACK_FRAME: N_("track frame"),
    ObservedPlace.PIVOT_SHAFT: N_("pivot shaft"),
    ObservedPlace.EQUALISER_BAR: N_("equaliser bar"),
    ObservedPlace.BOGIE_PIVOT: N_("bogie pivot"),
    ObservedPlace.RECOIL_SPRING: N_("recoil spring"),
    ObservedPlace.ADJUSTER_SEAL: N_("adjuster seal"),
    ObservedPlace.ADJUSTER_BRACKET: N_("adjuster bracket"),
    ObservedPlace.GUARD: N_("guard"),
    ObservedPlace.MASTER_JOINT: N_("master joint"),
    Topic.JOINT_TEMPERATURE: N_("joint temperature"),
    Topic.LINK_COUNT: N_("link count"),
    Topic.CHAIN: N_("chain"),
    Topic.MACHINE: N_("machine"),
    Topic.CHART: N_("chart"),
}
"""One of each, in the middle of a sentence."""

MANY: Final[Mapping[StrEnum, str]] = {
    Component.LINK: N_("links"),
    Component.BUSHING: N_("bushings"),
    Component.SHOE: N_("shoes"),
    Component.LUG: N_("lugs"),
    Component.DRIVE_LUG: N_("drive lugs"),
    Component.SPROCKET: N_("sprockets"),
    Component.FRONT_IDLER: N_("front idlers"),
    Component.REAR_IDLER: N_("rear idlers"),
    Component.BOTTOM_ROLLER: N_("bottom rollers"),
    Component.TOP_ROLLER: N_("top rollers"),
    Component.ADJUSTER: N_("adjusters"),
    Component.CUSHION: N_("cushions"),
    ObservedPlace.PIN: N_("pins"),
    ObservedPlace.SEAL: N_("seals"),
    ObservedPlace.SHOE_BOLT: N_("shoe bolts"),
    Topic.JOINT_TEMPERATURE: N_("joint temperatures"),
}
"""Several of each; what is not here has no plural of its own."""

HEADINGS: Final[Mapping[Component, str]] = {
    Component.LINK: N_("Track links"),
    Component.BUSHING: N_("Bushings"),
    Component.PITCH: N_("Pitch"),
    Component.SHOE: N_("Shoes"),
    Component.LUG: N_("Lugs"),
    Component.DRIVE_LUG: N_("Drive lugs"),
    Component.SPROCKET: N_("Sprocket"),
    Component.FRONT_IDLER: N_("Front idler"),
    Component.REAR_IDLER: N_("Rear idler"),
    Component.BOTTOM_ROLLER: N_("Bottom rollers"),
    Component.TOP_ROLLER: N_("Top rollers"),
    Component.ADJUSTER: N_("Adjuster"),
    Component.CUSHION: N_("Bogie cushion"),
    Component.SAG: N_("Sag"),
}
"""The head of a component's row: a chain in the plural, a wheel in the singular, as one a side."""

WORDS: Final[Mapping[type[StrEnum], Mapping[StrEnum, str]]] = {
    Side: {
        Side.LEFT: N_("left"),
        Side.RIGHT: N_("right"),
    },
    PartPlace: {
        PartPlace.FORWARD_SIDE: N_("forward side"),
        PartPlace.REVERSE_SIDE: N_("reverse side"),
        PartPlace.RIGHT_ANGLES: N_("at right angles"),
        PartPlace.INNER_TREAD: N_("inner tread"),
        PartPlace.OUTER_TREAD: N_("outer tread"),
        PartPlace.FORWARD_FACE: N_("forward face"),
        PartPlace.REVERSE_FACE: N_("reverse face"),
    },
    Layout: {
        Layout.ELEVATED_SPROCKET: N_("crawler tractor, elevated sprocket"),
        Layout.OVAL: N_("crawler tractor, oval track"),
        Layout.EXCAVATOR: N_("excavator"),
        Layout.TRACK_LOADER: N_("crawler loader"),
        Layout.RUBBER: N_("rubber track machine"),
    },
    Suspension: {
        Suspension.SUSPENDED: N_("suspended rollers"),
        Suspension.RIGID: N_("rigid rollers"),
    },
    Track: {
        Track.SEALED_AND_LUBRICATED: N_("sealed and lubricated track"),
        Track.GREASED: N_("greased track"),
        Track.DRY: N_("dry track"),
        Track.ROTATING_BUSHING: N_("rotating bushing track"),
        Track.RUBBER: N_("rubber track"),
    },
    ShoeKind: {
        ShoeKind.SINGLE_GROUSER: N_("single grouser"),
        ShoeKind.DOUBLE_GROUSER: N_("double grouser"),
        ShoeKind.TRIPLE_GROUSER: N_("triple grouser"),
        ShoeKind.SWAMP: N_("swamp"),
        ShoeKind.PAD: N_("pad"),
    },
    Ground: {
        Ground.SOFT: N_("soft"),
        Ground.FIRM: N_("firm"),
        Ground.ROCK: N_("rock"),
        Ground.ABRASIVE: N_("abrasive"),
        Ground.WET: N_("wet"),
    },
    Impact: {
        Impact.LOW: N_("low impact"),
        Impact.HIGH: N_("high impact"),
    },
    Sign: {
        Sign.LEAK: N_("leak"),
        Sign.CRACK: N_("crack"),
        Sign.BENT: N_("bent"),
        Sign.LOOSE: N_("loose"),
        Sign.MISSING: N_("missing"),
        Sign.SEIZED: N_("seized"),
        Sign.FLAT_SPOT: N_("flat spot"),
        Sign.END_PLAY: N_("end play"),
        Sign.HOT: N_("hot"),
        Sign.SIDE_WEAR: N_("side wear"),
        Sign.TREAD_GROOVES: N_("tread grooves"),
        Sign.FLANGE_WORN: N_("flange worn"),
        Sign.FLANGE_CONTACT: N_("flange contact"),
        Sign.GROOVE: N_("groove"),
        Sign.GUIDE_WORN: N_("guide worn"),
        Sign.RAIL_SCALLOPED: N_("rail scalloped"),
        Sign.RAIL_SPALLING: N_("rail spalling"),
        Sign.WORN_TO_A_POINT: N_("worn to a point"),
        Sign.THIN_TOOTH_BASE: N_("thin tooth base"),
        Sign.REVERSE_WEAR: N_("reverse wear"),
        Sign.TOOTH_FACE_WORN: N_("tooth face worn"),
        Sign.CHROME_LOSS: N_("chrome loss"),
        Sign.DRY_JOINT: N_("dry joint"),
        Sign.PIN_WALK: N_("pin walk"),
        Sign.LOOSE_MASTER_JOINT: N_("loose master joint"),
        Sign.LINK_TAKEN_OUT: N_("link taken out"),
        Sign.SQUEEZED_CUSHION: N_("squeezed cushion"),
        Sign.WRONG_PART: N_("wrong part"),
        Sign.RE_GROUSERED: N_("re-grousered"),
        Sign.BOLT_MISSING: N_("bolt missing"),
        Sign.PACKED: N_("packed"),
        Sign.CORROSION: N_("corrosion"),
        Sign.HEAT_MARK: N_("heat mark"),
        Sign.CORD_SHOWING: N_("cord showing"),
        Sign.CUT: N_("cut"),
        Sign.LUG_TORN: N_("lug torn"),
        Sign.TRACK_OFF: N_("track off"),
        Sign.OTHER: N_("see the note"),
    },
    Grade: {
        Grade.NONE: N_("looked for, none seen"),
        Grade.SLIGHT: N_("slight"),
        Grade.MARKED: N_("marked"),
        Grade.SEVERE: N_("severe"),
    },
    LimitMeans: {
        LimitMeans.TURN: N_("turn"),
        LimitMeans.REBUILD: N_("rebuild"),
        LimitMeans.REPLACE: N_("replace"),
    },
    Evidence: {
        Evidence.METER: N_("from the meter"),
        Evidence.TELEMATICS: N_("from telematics"),
        Evidence.INVOICE: N_("by invoice"),
        Evidence.STAMP: N_("by stamp"),
        Evidence.EARLIER_INSPECTION: N_("from an earlier inspection"),
        Evidence.OWNERS_WORD: N_("told by the owner, no evidence"),
    },
    Origin: {
        Origin.MAKER: N_("the maker's own"),
        Origin.ANOTHER_MAKE: N_("another make"),
        Origin.ADAPTED: N_("adapted from another place"),
        Origin.UNKNOWN: N_("origin unknown"),
    },
    Basis: {
        Basis.MEASURED: N_("measured"),
        Basis.BY_EYE: N_("by eye"),
        Basis.NOT_SEEN: N_("not seen"),
    },
    Stage: {
        Stage.FIRST_HALF: N_("first half"),
        Stage.SECOND_HALF: N_("second half"),
        Stage.NEAR_LIMIT: N_("near limit"),
        Stage.PAST_LIMIT: N_("past limit"),
    },
    Severity: {
        Severity.ACT: N_("act"),
        Severity.WATCH: N_("watch"),
        Severity.NOTE: N_("note"),
    },
    SharesFrom: {
        SharesFrom.CHART: N_("shares of cost from the chart"),
        SharesFrom.TYPICAL: N_("typical shares of cost of this layout, assumed"),
    },
    Bound: {
        Bound.AT_LEAST: N_("at least"),
    },
    AssumedValue: {
        AssumedValue.IMPACT: N_("impact"),
        AssumedValue.INSPECTOR: N_("inspector"),
        AssumedValue.INSTRUMENT: N_("instrument"),
        AssumedValue.SEAT: N_("seat of the gauge"),
        AssumedValue.SPREAD: N_("joint to joint"),
    },
}
"""Every other word of the trade, by its kind: members of two kinds may be written alike."""

What = Component | ObservedPlace | Topic
Alike = tuple[What, PartPlace | None, tuple[int, ...]]
"""What parts of one name, place and numbers have in common on either side."""
Lone = frozenset[Component]
"""Rollers of which a side has only one, which needs no number."""

JOINTED: Final = frozenset({Component.LINK, Component.BUSHING, Component.PITCH, ObservedPlace.PIN, ObservedPlace.SEAL})
"""Where a number is a joint counted from the master joint."""

SIDED: Final[Mapping[Side, str]] = {Side.LEFT: N_("left {part}"), Side.RIGHT: N_("right {part}")}
BOTH: Final = N_("left and right {part}")
SIDES: Final[Mapping[Side, str]] = {Side.LEFT: N_("left side"), Side.RIGHT: N_("right side")}


def word(value: StrEnum, language: Language) -> str:
    """A word of the trade in the reader's language, as in the middle of a sentence."""
    return language.say(WORDS.get(type(value), ONE)[value])


def one(what: StrEnum, language: Language) -> str:
    """The name of one such part: `bottom roller`."""
    return language.say(ONE[what])


def many(what: StrEnum, language: Language) -> str:
    """The name of several: `bottom rollers`; that of one where there is no other."""
    return language.say(MANY.get(what) or ONE[what])


def heading(component: Component, language: Language) -> str:
    """The name at the head of a component's row."""
    return language.say(HEADINGS[component])


def part(subject: Subject | Spot, language: Language, lone: Lone = frozenset()) -> str:
    """Which part is spoken of, as in the middle of a sentence: `left bottom roller 3`, `right links`.

    A chain and a set of rollers without a number are spoken of in the plural, those `lone` on their side without one.
    """
    what = subject.what if isinstance(subject, Subject) else subject.part
    if what is None:
        return language.say(SIDES[subject.side]) if subject.side else language.say(N_("machine"))
    name = one(what, language) if what in lone else _numbered(what, subject.number, language)
    return _placed(_sided(name, subject.side, language), subject.place, language)


def _sided(name: str, side: Side | None, language: Language) -> str:
    return name if side is None else language.say(SIDED[side], part=name)


def _placed(name: str, place: PartPlace | None, language: Language) -> str:
    return name if place is None else language.say(N_("{part}, {place}"), part=name, place=word(place, language))


def _numbered(what: StrEnum, number: int | None, language: Language) -> str:
    if number is None:
        several = what in CHAINS or what in ROLLERS or what is Topic.JOINT_TEMPERATURE
        return many(what, language) if several else one(what, language)
    pattern = N_("{part} at joint {number}") if what in JOINTED else N_("{part} {number}")
    return language.say(pattern, part=one(what, language), number=str(number))


def parts(subjects: Iterable[Subject], language: Language, lone: Lone = frozenset()) -> str:
    """Several parts as one list: `left bottom rollers 1 and 3 to 6`, `left and right links`."""
    numbers: dict[tuple[What, PartPlace | None, Side | None], set[int]] = {}
    for subject in subjects:
        there = numbers.setdefault((subject.what, subject.place, subject.side), set())
        there.update(() if subject.number is None or subject.what in lone else (subject.number,))
    sides: dict[Alike, list[Side | None]] = {}
    for (what, place, side), there in numbers.items():
        sides.setdefault((what, place, tuple(sorted(there))), []).append(side)
    if len(sides) > 1 and (together := _same_sides(sides)):
        return _on_the_same(together, [what for what, _, _ in sides], language, lone)
    return listed([_alike(*alike, on, language, lone) for alike, on in sides.items()], language)


def _same_sides(sides: Mapping[Alike, list[Side | None]]) -> list[Side]:
    """Left, right or both, where all parts are whole sets on just these, so that it is said once; else nothing."""
    whole = all(place is None and not numbers for _, place, numbers in sides)
    first = next(iter(sides.values()))
    alike = all(set(on) == set(first) for on in sides.values())
    return [side for side in first if side is not None] if whole and alike else []


def _on_the_same(sides: list[Side], parts: list[What], language: Language, lone: Lone) -> str:
    if len(sides) > 1:
        return language.say(BOTH, part=listed([many(what, language) for what in parts], language))
    names = [one(what, language) if what in lone else _numbered(what, None, language) for what in parts]
    return _sided(listed(names, language), sides[0], language)


def _alike(
    what: What,
    place: PartPlace | None,
    numbers: tuple[int, ...],
    sides: list[Side | None],
    language: Language,
    lone: Lone,
) -> str:
    if len(sides) == 1 and len(numbers) <= 1:
        return part(Subject(what, sides[0], numbers[0] if numbers else None, place), language, lone)
    if len(numbers) == 1:
        name = _numbered(what, numbers[0], language)
    elif numbers:
        pattern = N_("{part} at joints {numbers}") if what in JOINTED else N_("{part} {numbers}")
        name = language.say(pattern, part=many(what, language), numbers=runs(numbers, language))
    else:
        name = many(what, language)
    name = _sided(name, sides[0], language) if len(sides) == 1 else language.say(BOTH, part=name)
    return _placed(name, place, language)


def runs(numbers: Iterable[int], language: Language) -> str:
    """Numbers in ascending order with runs of three and more drawn together: `1, 3 to 6 and 8`."""
    together: list[list[int]] = []
    for number in sorted(numbers):
        if together and number == together[-1][-1] + 1:
            together[-1].append(number)
        else:
            together.append([number])
    names: list[str] = []
    for run in together:
        if len(run) > 2:
            names.append(language.say(N_("{low} to {high}"), low=str(run[0]), high=str(run[-1])))
        else:
            names += [str(number) for number in run]
    return listed(names, language)


def opening(sentence: str) -> str:
    """The same words with a capital, as a heading or sentence begins."""
    return sentence[:1].upper() + sentence[1:]


def listed(names: tuple[str, ...] | list[str], language: Language) -> str:
    """Names in a row: `a`, `a and b`, `a, b and c`."""
    *first, last = names
    return language.say(N_("{first} and {last}"), first=", ".join(first), last=last) if first else last


def clauses(said: Iterable[str], language: Language) -> str:
    """What is said after one another in one sentence: `a; b; c`. What is empty is left out."""
    first, *further = [one for one in said if one] or [""]
    for one in further:
        first = language.say(N_("{first}; {next}"), first=first, next=one)
    return first


def within(sentence: str, language: Language) -> str:
    """A sentence, or a name as a heading has it, inside another."""
    pattern = C_("a sentence inside another: {small} begins small, {kept} as it stands", "{small}")
    return language.say(pattern, small=sentence[:1].lower() + sentence[1:], kept=sentence)
