"""Adjuster, cushion and sag: travel used, and whether it agrees with the chain."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from tracksworn.assessment.assumed import Threshold
from tracksworn.assessment.boundaries import exceeds, reaches
from tracksworn.assessment.findings.chain import OILED, dry_sides
from tracksworn.assessment.findings.telling import (
    Part,
    finding,
    gravest,
    observations,
    seen,
    several,
    severity_by_grade,
)
from tracksworn.assessment.model import Basis, Row, Travel
from tracksworn.assessment.sayings import Amount, Finding, Length, Percent, Saying, Severity, Subject
from tracksworn.assessment.so_far import SoFar
from tracksworn.inspection.vocabulary import Component, ObservedPlace, Side, Sign

ADJUSTER: Final[frozenset[Part]] = frozenset({Component.ADJUSTER, ObservedPlace.ADJUSTER_SEAL})


@dataclass(frozen=True, slots=True)
class RodAgainstPitch:
    """Where the rod stands, where the growth of the pitch puts it, and how far that can be wrong; mm."""

    side: Side
    rod: float
    expected: float
    growth: float  # of one link
    doubt: float


def near_end(so_far: SoFar) -> Iterator[Finding]:
    """An adjuster with 90 percent of its travel used or more: soon the chain can no longer be tightened.

    Source: TM 9-2350-267-10, p. 2-53: at its end the remedy is a shorter chain. Common practice, no source: far out on
    sealed and lubricated track it points to dry joints, on dry track it is ordinary; near its end it may leak, and a
    rod that stands far out in the weather loses its chrome.
    """
    sides = [side for side in Side if side in sides_near_end(so_far)]
    if not sides:
        return
    beside = [one for one in seen(so_far, {Sign.LEAK, Sign.CHROME_LOSS}, ADJUSTER) if one.side in sides]
    because = [_used(so_far, Component.ADJUSTER, side) for side in sides]
    leaking = [one for one in beside if Sign.LEAK in one.observation.seen]
    severity = gravest([Severity.WATCH, severity_by_grade(leaking, severe=Severity.ACT)])
    advice = "adjuster-near-end-oiled" if so_far.inspection.machine.track in OILED else "adjuster-near-end"
    yield finding(
        "adjuster-near-end",
        severity,
        (*because, *observations(beside)),
        advice=advice,
        amounts={"parts": several(Subject(Component.ADJUSTER, side) for side in sides)},
        seen_there=beside,
        decided_by=[Threshold.NEAR_END_OF_TRAVEL],
    )


def ahead_of_pitch(so_far: SoFar) -> Iterator[Finding]:
    """The rod further out than the growth of the pitch explains: joints between the spans read, or worn wheels.

    The rod moves about links × growth / 2, for the chain lies round two ends. Common practice, no source: worn idlers
    and sprocket let the rod out further, and a dry joint that no span took in does too.
    """
    rods = [rod for rod in rods_against_pitch(so_far) if rod.rod > rod.expected]
    if rods:
        yield _off_pitch("adjuster-ahead-of-pitch", rods)


def behind_pitch(so_far: SoFar) -> Iterator[Finding]:
    """The rod less far out than the growth of the pitch explains: a link is out, the track is slack, or pitch misread.

    Source: TM 9-2350-267-10, p. 2-53: a shortened chain resets the adjuster.
    """
    rods = [rod for rod in rods_against_pitch(so_far) if rod.rod < rod.expected]
    if rods:
        yield _off_pitch("adjuster-behind-pitch", rods)


def cushion_settled(so_far: SoFar) -> Iterator[Finding]:
    """A bogie cushion near the end of its travel, or seen squeezed: the bogie soon strikes its stop.

    Common practice, no source: the gap above a bogie cushion shows how far it has settled.
    """
    told = seen(so_far, {Sign.SQUEEZED_CUSHION})
    used = [entry for entry in so_far.travel if entry.component is Component.CUSHION and _is_near_end(so_far, entry)]
    if not (told or used):
        return
    because = (*(_used(so_far, Component.CUSHION, entry.side) for entry in used), *observations(told))
    severity = gravest([severity_by_grade(told), Severity.WATCH if used else Severity.NOTE])
    parts = several([*(Subject(Component.CUSHION, entry.side) for entry in used), *(one.part for one in told)])
    yield finding(
        "cushion-settled",
        severity,
        because,
        amounts={"parts": parts},
        seen_there=told,
        decided_by=[Threshold.NEAR_END_OF_TRAVEL] if used else [],
    )


def sag_out_of_range(so_far: SoFar) -> Iterator[Finding]:
    """Sag outside the chart's range, where the record says how the machine was stopped and that nothing was packed.

    Common practice, no source: too tight, every joint, wheel and bearing pays for it at once; too slack, the chain
    whips, jumps teeth and comes off. Ranges by machine: TM 5-2410-240-10, WP 0018; TM 5-3805-280-10, p. 11-6.
    """
    span = sag_range(so_far)
    if span is None:
        return
    out = [
        entry
        for entry in so_far.travel
        if entry.component is Component.SAG
        and entry.in_range is False
        # a slack chain with a dry joint is a reason there: tightening it is the wrong work
        and not (entry.side in dry_sides(so_far) and exceeds(entry.size_mm, span[1]))
    ]
    if not out:
        return
    because = []
    slack = [exceeds(entry.size_mm, span[1]) for entry in out]
    reading = so_far.inspection.readings.get(Component.SAG)
    packed = reading is not None and bool(reading.packed)
    advice = "sag-too-slack" if all(slack) else "sag-too-tight" if not any(slack) else "sag-out-of-range"
    for entry, is_slack in zip(out, slack, strict=True):
        code = "sag-over" if is_slack else "sag-under"
        part = Subject(Component.SAG, entry.side)
        amounts: dict[str, Amount] = {
            "part": part,
            "size": Length(entry.size_mm),
            "least": Length(span[0]),
            "most": Length(span[1]),
        }
        because.append(Saying(code, (part,), amounts))
    if packed:
        because.append(Saying("sag-packed"))
        advice = "sag-packed"
    parts = several(Subject(Component.SAG, entry.side) for entry in out)
    yield finding("sag-out-of-range", Severity.NOTE, because, advice=advice, amounts={"parts": parts})


def sag_not_valid(so_far: SoFar) -> Iterator[Finding]:
    """Sag that cannot be judged: nobody recorded how the machine was stopped, or whether the track was packed.

    Common practice, no source: packing tightens a track, and a machine stopped in reverse or by its brakes hangs its
    slack elsewhere than one that coasted to rest.
    """
    reading = so_far.inspection.readings.get(Component.SAG)
    entries = [entry for entry in so_far.travel if entry.component is Component.SAG]
    if reading is None or not entries or sag_range(so_far) is None:
        return
    about = tuple(Subject(Component.SAG, entry.side) for entry in entries)
    missing = [
        code
        for code, absent in (
            ("sag-stop-unknown", reading.stopped is None),
            ("sag-packing-unknown", reading.packed is None),
        )
        if absent
    ]
    if missing:
        yield finding("sag-not-valid", Severity.NOTE, [Saying(code, about) for code in missing])


def sides_near_end(so_far: SoFar) -> frozenset[Side | None]:
    """The sides whose adjuster is near the end of its travel."""
    adjusters = (entry for entry in so_far.travel if entry.component is Component.ADJUSTER)
    return frozenset(entry.side for entry in adjusters if _is_near_end(so_far, entry))


def sag_range(so_far: SoFar) -> tuple[float, float] | None:
    """The chart's range of sag, mm."""
    entry = so_far.entry(Component.SAG)
    return entry.range if entry else None


def rods_against_pitch(so_far: SoFar) -> tuple[RodAgainstPitch, ...]:
    """The sides whose rod stands off the pitch by the threshold and by more than the pitch can be misread."""
    rods = (_rod(so_far, side) for side in Side)
    limit = so_far.assumed.adjuster_off_pitch
    return tuple(rod for rod in rods if rod and _is_off(rod, limit))


def _rod(so_far: SoFar, side: Side) -> RodAgainstPitch | None:
    """The mean of all spans stands for the chain; a rod's start and a span's count of links come from the chart."""
    adjuster, pitch = so_far.travelled(Component.ADJUSTER, side), so_far.row(Component.PITCH, side)
    chart, span = so_far.entry(Component.ADJUSTER), so_far.entry(Component.PITCH)
    links = so_far.inspection.machine.links[side]
    if adjuster is None or pitch is None or links is None or chart is None or chart.start is None:
        return None
    scale = pitch.scale
    sizes = _spans(pitch)
    if not sizes or scale is None or span is None or not span.over_links:
        return None
    growth = (sum(sizes) / len(sizes) - scale.new) / span.over_links
    doubt = (pitch.uncertainty or 0.0) / 100.0 * abs(scale.limit - scale.new) / span.over_links
    return RodAgainstPitch(side, adjuster.size_mm, chart.start + links * growth / 2.0, growth, links * doubt / 2.0)


def _spans(pitch: Row) -> tuple[float, ...]:
    if pitch.basis is not Basis.MEASURED:
        return ()
    return tuple(single.size for place in pitch.places for single in place.singles)


def _is_off(rod: RodAgainstPitch, limit: float) -> bool:
    off = abs(rod.rod - rod.expected)
    return reaches(off, limit) and exceeds(off, rod.doubt)


def _off_pitch(code: str, rods: list[RodAgainstPitch]) -> Finding:
    because = []
    for rod in rods:
        part, pitch = Subject(Component.ADJUSTER, rod.side), Subject(Component.PITCH, rod.side)
        amounts: dict[str, Amount] = {
            "part": part,
            "rod": Length(rod.rod),
            "expected": Length(rod.expected, 0),
            "growth": Length(rod.growth, 2),
        }
        because.append(Saying("rod-against-pitch", (part, pitch), amounts))
    parts = several(Subject(Component.ADJUSTER, rod.side) for rod in rods)
    return finding(code, Severity.NOTE, because, amounts={"parts": parts}, decided_by=[Threshold.ADJUSTER_OFF_PITCH])


def _is_near_end(so_far: SoFar, entry: Travel) -> bool:
    return entry.percent_used is not None and reaches(entry.percent_used, so_far.assumed.near_end_of_travel)


def _used(so_far: SoFar, component: Component, side: Side) -> Saying:
    entry = so_far.travelled(component, side)
    part = Subject(component, side)
    amounts: dict[str, Amount] = {"part": part}
    if entry is not None:
        amounts |= {"size": Length(entry.size_mm), "used": Percent(entry.percent_used)}
    return Saying("travel-used", (part,), amounts)
