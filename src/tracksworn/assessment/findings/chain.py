"""The joints of a chain: dry ones, hot ones, and how its pitch grows."""

from collections.abc import Iterator
from dataclasses import dataclass
from statistics import median
from typing import Final

from tracksworn.assessment.assumed import Threshold
from tracksworn.assessment.boundaries import exceeds, reaches
from tracksworn.assessment.findings.telling import (
    Part,
    Seen,
    finding,
    observations,
    seen,
    several,
)
from tracksworn.assessment.model import Basis, Row, Single
from tracksworn.assessment.sayings import Amount, Celsius, Finding, Length, Percent, Saying, Severity, Subject, Topic
from tracksworn.assessment.so_far import SoFar, once
from tracksworn.inspection.vocabulary import Component, ObservedPlace, Side, Sign, Track

JOINT_PARTS: Final[frozenset[Part]] = frozenset(
    {
        Component.LINK,
        Component.BUSHING,
        Component.PITCH,
        ObservedPlace.PIN,
        ObservedPlace.SEAL,
        ObservedPlace.MASTER_JOINT,
    }
)
"""Where a sign speaks of a joint."""

OILED: Final = frozenset({Track.SEALED_AND_LUBRICATED, Track.ROTATING_BUSHING})
"""Tracks whose joints run in oil behind seals."""

SIDES: Final = (Side.LEFT, Side.RIGHT, None)
"""Both sides, and what was seen without saying on which."""

WEARS_INSIDE: Final = frozenset({Track.DRY, Track.GREASED})


@dataclass(frozen=True, slots=True)
class JointSigns:
    """What tells of dry or hot joints on one side."""

    long_spans: tuple[Single, ...]
    hot: tuple[tuple[int | None, float, float], ...]  # joint, its temperature, the median of its side
    seen: tuple[Seen, ...]

    @property
    def found(self) -> bool:
        """Whether there is any."""
        return bool(self.long_spans or self.hot or self.seen)

    @property
    def decided_by(self) -> tuple[Threshold, ...]:
        """The assumed values that made long spans long and hot joints hot."""
        by = ((Threshold.LONG_SPAN, self.long_spans), (Threshold.HOT_JOINT, self.hot))
        return tuple(threshold for threshold, found in by if found)


def dry_joint(so_far: SoFar) -> Iterator[Finding]:
    """On sealed and lubricated track one long span, one hot joint or a blued pin end is a joint that has lost its oil.

    Source: TM 5-2410-237-23, WP 0130, read: a sealed joint that keeps its oil shows no internal wear, so its pitch
    stays; and common practice, no source: one that has lost it runs hot and stretches alone.
    """
    for side in (side for side in SIDES if side in dry_sides(so_far)):
        signs = joint_signs(so_far, side)
        because = (*_spans(so_far, side, signs), *_temperatures(so_far, side, signs), *observations(signs.seen))
        because += (*_joints_in_spans(so_far, side, signs), *_slack(so_far, side))
        yield finding(
            "dry-joint",
            Severity.ACT,
            because,
            amounts={"chain": Subject(Topic.CHAIN, side)},
            seen_there=signs.seen,
            decided_by=signs.decided_by,
        )


def hot_joint(so_far: SoFar) -> Iterator[Finding]:
    """A joint much hotter than the others of its side, on a track that has no oil to lose or of an unknown kind.

    Common practice, no source: friction that wears also heats; a joint that binds or has lost its grease stands out
    by hand or thermometer a good while after work.
    """
    for side in SIDES:
        signs = joint_signs(so_far, side)
        if side not in dry_sides(so_far) and (signs.hot or signs.seen):
            because = (*_temperatures(so_far, side, signs), *observations(signs.seen))
            yield finding(
                "hot-joint",
                Severity.ACT,
                because,
                amounts={"chain": Subject(Topic.CHAIN, side)},
                seen_there=signs.seen,
                decided_by=[Threshold.HOT_JOINT] if signs.hot else [],
            )


def long_span(so_far: SoFar) -> Iterator[Finding]:
    """One span longer than the others on dry or greased track, or track of an unknown kind.

    Common practice, no source: such track grows evenly; a span that does not was rebuilt, is cracked, or was misread.
    """
    for side in Side:
        spans = long_spans(so_far, side)
        if spans and side not in dry_sides(so_far):
            signs = JointSigns(spans, (), ())
            yield finding(
                "long-span",
                Severity.NOTE,
                _spans(so_far, side, signs),
                amounts={"chain": Subject(Topic.CHAIN, side)},
                decided_by=signs.decided_by,
            )


def even_growth(so_far: SoFar) -> Iterator[Finding]:
    """All spans grown alike: on dry or greased track that is the wear, on sealed and lubricated track it is a doubt.

    Source: TM 5-2410-237-23, WP 0130, read: oiled joints that keep their oil do not stretch, so even growth there
    speaks against the chart (another chain, another span) or the method (bushing edge to bushing edge, slack left in).
    Common practice, no source: pins and bushings that run dry wear at every joint alike.
    """
    rows = [row for side in Side for row in so_far.rows(Component.PITCH, side) if has_grown_evenly(so_far, row)]
    if not rows:
        return
    about = several(Subject(Component.PITCH, row.side) for row in rows)
    track = so_far.inspection.machine.track
    because = [_even(row) for row in rows]
    by = [Threshold.EVEN_GROWTH]
    if track in OILED:
        yield finding("even-growth-doubtful", Severity.NOTE, because, amounts={"parts": about}, decided_by=by)
    elif track in WEARS_INSIDE:
        amounts: dict[str, Amount] = {"parts": about, "track": track}
        advice = "even-growth-no-turn" if _all_turned(so_far) else "even-growth"
        yield finding("even-growth", Severity.NOTE, because, advice=advice, amounts=amounts, decided_by=by)


@once
def dry_sides(so_far: SoFar) -> frozenset[Side | None]:
    """The sides with signs of a dry joint: any sign on oiled track, elsewhere a joint called dry by who saw it."""
    oiled = so_far.inspection.machine.track in OILED
    return frozenset(side for side in SIDES if _is_dry(joint_signs(so_far, side), oiled))


@once
def joint_signs(so_far: SoFar, side: Side | None) -> JointSigns:
    """Long spans, hot joints, and what was seen of dry and hot joints on a side."""
    told = seen(so_far, {Sign.DRY_JOINT, Sign.HOT, Sign.HEAT_MARK}, JOINT_PARTS)
    there = tuple(one for one in told if one.side is side)
    if side is None:
        return JointSigns((), (), there)
    return JointSigns(long_spans(so_far, side), hot_joints(so_far, side), there)


@once
def long_spans(so_far: SoFar, side: Side) -> tuple[Single, ...]:
    """The spans of a side that stand out from the median of all others, and from that of its own side.

    A side whose spans are all long has not one dry joint but has grown evenly.
    """
    spans = [(row.side, single) for row in so_far.rows(Component.PITCH) for single in _spans_of(row)]
    found = []
    for index, (where, single) in enumerate(spans):
        others = [other for other_index, other in enumerate(spans) if other_index != index]
        beside = [other for other in others if other[0] is side]
        if where is side and others and _stands_out(so_far, single, others, beside or others):
            found.append(single)
    return tuple(found)


def hot_joints(so_far: SoFar, side: Side) -> tuple[tuple[int | None, float, float], ...]:
    """The joints of a side hotter than its median by the threshold, each with its temperature and that median."""
    told = so_far.inspection.joint_temperatures
    temperatures = told.sides[side] if told else None
    if told is None or temperatures is None:
        return ()
    values = temperatures.values
    measured = [value for value in values if value is not None]
    if len(measured) < 2:
        return ()
    middle = median(measured)
    joints: tuple[int | None, ...] = told.joints[side] or (None,) * len(values)
    return tuple(
        (joint, value, middle)
        for joint, value in zip(joints, values, strict=False)
        if value is not None and reaches(value - middle, so_far.assumed.hot_joint)
    )


def has_grown_evenly(so_far: SoFar, row: Row) -> bool:
    """Whether every span has grown by the threshold, beyond doubt, and none stands out."""
    spans = _spans_of(row)
    if row.basis is not Basis.MEASURED or len(spans) < 2 or long_spans(so_far, row.side):
        return False
    least = min(single.percent_worn or 0.0 for single in spans)
    return reaches(least, so_far.assumed.even_growth) and exceeds(least, row.uncertainty or 0.0)


def _stands_out(
    so_far: SoFar, single: Single, others: list[tuple[Side, Single]], beside: list[tuple[Side, Single]]
) -> bool:
    def above(those: list[tuple[Side, Single]]) -> float:
        return (single.percent_worn or 0.0) - median(other.percent_worn or 0.0 for _, other in those)

    threshold, part = so_far.assumed.long_span, so_far.assumed.beside_long_span
    return reaches(above(others), threshold) and reaches(above(beside), threshold * part)


def _is_dry(signs: JointSigns, oiled: bool) -> bool:
    if oiled:
        return signs.found
    return any(Sign.DRY_JOINT in one.observation.seen for one in signs.seen)


def _spans_of(row: Row) -> tuple[Single, ...]:
    return tuple(single for place in row.places for single in place.singles if single.percent_worn is not None)


def _spans(so_far: SoFar, side: Side | None, signs: JointSigns) -> tuple[Saying, ...]:
    """Each long span beside the median of the others, sizes in mm."""
    about = (Subject(Component.PITCH, side),)
    rest = [
        single.size
        for row in so_far.rows(Component.PITCH)
        for single in _spans_of(row)
        if single not in signs.long_spans or row.side is not side
    ]
    sayings = []
    for single in signs.long_spans:
        amounts: dict[str, Amount] = {
            "part": about[0],
            "size": Length(single.size),
            "worn": Percent(single.percent_worn),
        }
        amounts["others"] = Length(median(rest)) if rest else Length(single.size)
        if single.joint is None:
            sayings.append(Saying("span-stands-out", about, amounts))
        else:
            sayings.append(Saying("numbered-span-stands-out", about, amounts | {"joint": single.joint}))
    return tuple(sayings)


def _temperatures(so_far: SoFar, side: Side | None, signs: JointSigns) -> tuple[Saying, ...]:
    about = (Subject(Topic.JOINT_TEMPERATURE, side),)
    told = so_far.inspection.joint_temperatures
    sayings = []
    for joint, value, middle in signs.hot:
        amounts: dict[str, Amount] = {
            "hot": Celsius(value),
            "middle": Celsius(middle),
            "chain": Subject(Topic.CHAIN, side),
        }
        code = "joint-hot"
        if joint is not None:
            amounts["joint"] = joint
            code = "numbered-joint-hot"
        if told is not None and told.after is not None:
            amounts["after"] = told.after
            code += "-after"
        sayings.append(Saying(code, about, amounts))
    return tuple(sayings)


def _joints_in_spans(so_far: SoFar, side: Side | None, signs: JointSigns) -> Iterator[Saying]:
    """A long span that takes in a joint which was hot or seen to suffer: two signs of one joint."""
    entry = so_far.entry(Component.PITCH)
    over = entry.over_links if entry else None
    told = {joint for joint, _, _ in signs.hot} | {one.part.number for one in signs.seen}
    if side is None or not over:
        return
    for single in signs.long_spans:
        within = _joints_within(single.joint, over, so_far.inspection.machine.links[side])
        for joint in sorted(within & told - {None}, key=lambda number: number or 0):
            chain = Subject(Topic.CHAIN, side)
            amounts: dict[str, Amount] = {"chain": chain, "first": single.joint or 0, "joint": joint or 0}
            yield Saying("joint-in-span", (chain,), amounts)


def _joints_within(first: int | None, over: int, links: int | None) -> set[int | None]:
    """The joints of a span over so many links, counted on from 1 at the master joint where the chain closes."""
    if first is None:
        return set()
    joints = range(first, first + over + 1)
    return set(joints) if links is None else {(joint - 1) % links + 1 for joint in joints}


def _slack(so_far: SoFar, side: Side | None) -> tuple[Saying, ...]:
    """A slack track stands beside a dry joint as a further sign: a chain that has grown hangs lower."""
    sag = so_far.travelled(Component.SAG, side) if side else None
    entry = so_far.entry(Component.SAG)
    if sag is None or entry is None or entry.range is None or sag.in_range is not False or sag.size_mm < entry.range[1]:
        return ()
    part = Subject(Component.SAG, side)
    return (Saying("sag-beyond", (part,), {"part": part, "size": Length(sag.size_mm), "most": Length(entry.range[1])}),)


def _all_turned(so_far: SoFar) -> bool:
    """Whether it is known that no bushing has a turn left."""
    turnings = [row.turning for row in so_far.rows(Component.BUSHING) if row.turning is not None]
    return bool(turnings) and all(one.known and one.made >= one.allowed for one in turnings)


def _even(row: Row) -> Saying:
    part = Subject(Component.PITCH, row.side)
    sizes = sorted(single.size for single in _spans_of(row))
    percents = sorted(single.percent_worn or 0.0 for single in _spans_of(row))
    amounts: dict[str, Amount] = {
        "part": part,
        "spans": len(sizes),
        "shortest": Length(sizes[0]),
        "longest": Length(sizes[-1]),
        "least": Percent(percents[0]),
    }
    return Saying("spans-even", (part,), amounts)
