"""Cracks, seizure, end play, flat spots and leaks."""

from collections.abc import Iterator
from typing import Final

from tracksworn.assessment.findings.adjuster import ADJUSTER, sides_near_end
from tracksworn.assessment.findings.bushing import leaking_joints
from tracksworn.assessment.findings.chain import OILED
from tracksworn.assessment.findings.telling import (
    Seen,
    finding,
    observations,
    seen,
    several,
    severity_by_grade,
)
from tracksworn.assessment.findings.troubles import FRAME, WHEELS, Ailing, Trouble, reasons, told_as
from tracksworn.assessment.sayings import Amount, Finding, Length, Saying, Severity
from tracksworn.assessment.so_far import SoFar
from tracksworn.inspection.vocabulary import ROLLERS, Component, ObservedPlace, Sign

PIVOTS: Final = frozenset({ObservedPlace.PIVOT_SHAFT, ObservedPlace.BOGIE_PIVOT})


def cracked(so_far: SoFar) -> Iterator[Finding]:
    """A crack in a part of the track: it goes on growing under every turn of the sprocket.

    Common practice, no source: a cracked link, shoe or wheel is not to be worked on; the crack grows from load to load.
    """
    for parts in told_as(so_far, Trouble.CRACK):
        if parts[0].part.what not in FRAME:
            yield _of("cracked", Severity.ACT, parts)


def frame_cracked(so_far: SoFar) -> Iterator[Finding]:
    """A crack in frame, equaliser bar, pivot or spring: what carries the machine, or holds lethal energy.

    Common practice, no source: frames crack at welds and brackets, first as a line of rust or a break in the paint.
    """
    for parts in told_as(so_far, Trouble.CRACK):
        if parts[0].part.what in FRAME:
            yield _of("frame-cracked", Severity.ACT, parts)


def seized(so_far: SoFar) -> Iterator[Finding]:
    """A wheel that does not turn: the chain slides over it and wears both flat.

    Common practice, no source: a seized roller shows a flat spot, and first a leak that has run dry.
    """
    for parts in told_as(so_far, Trouble.SEIZED):
        if parts[0].part.what in WHEELS:
            yield _of("seized", Severity.ACT, parts)


def stuck(so_far: SoFar) -> Iterator[Finding]:
    """Any other part that should move and does not: an adjuster, a bogie pivot, a joint of the chain.

    Common practice, no source: a stiff joint kinks the chain at every turn, and an adjuster that does not move leaves
    the track to break what is weakest when something comes between chain and wheel.
    """
    for parts in told_as(so_far, Trouble.SEIZED):
        if parts[0].part.what not in WHEELS:
            yield _of("stuck", Severity.ACT, parts)


def flat_spot(so_far: SoFar) -> Iterator[Finding]:
    """A roller or idler with a flat on its tread: it has stood still under a running chain, and may again.

    Common practice, no source: packing or frost holds it for a day; a failing bearing holds it for good.
    """
    for parts in told_as(so_far, Trouble.FLAT_SPOT):
        yield _of("flat-spot", _graded(parts), parts)


def end_play(so_far: SoFar) -> Iterator[Finding]:
    """More end play than the chart allows, or where it says nothing, more than the inspector liked.

    Common practice, no source: thrust faces wear until the seal no longer follows, and oil goes next.
    """
    for parts in told_as(so_far, Trouble.END_PLAY):
        because = [*reasons(parts)]
        allowed = _allowed_end_play(so_far, parts)
        if allowed is not None:
            subjects = tuple(part.part for part in parts)
            because.append(Saying("end-play-allowed", subjects, {"size": Length(allowed)}))
        yield _of("end-play", _graded(parts), parts, because)


def wheel_leaks(so_far: SoFar) -> Iterator[Finding]:
    """Rollers or idlers losing oil: the bearing runs on what is left.

    Common practice, no source: a fresh leak is wet and clean, an old one is a ring of dirt; a wheel that has run dry
    is stiff, then hot, then seized.
    """
    for parts in told_as(so_far, Trouble.LEAK):
        yield _of("roller-leak" if parts[0].part.what in ROLLERS else "idler-leak", _graded(parts), parts)


def final_drive_leaks(so_far: SoFar) -> Iterator[Finding]:
    """Oil at a sprocket: the seal of the final drive behind it.

    Common practice, no source: its gears and bearings run in that oil, and cost more than the track.
    """
    told = seen(so_far, {Sign.LEAK}, {Component.SPROCKET})
    if told:
        yield _leak("final-drive-leak", told)


def joint_leaks(so_far: SoFar) -> Iterator[Finding]:
    """Oil or grease at a joint of the chain: the seal no longer holds, and the joint will run dry.

    Source: TM 5-2410-237-23, WP 0130, read: only a sealed joint that keeps its oil shows no internal wear.
    """
    told = leaking_joints(so_far)
    if told:
        advice = "joint-leak" if so_far.inspection.machine.track in OILED else "joint-leak-not-oiled"
        yield _leak("joint-leak", told, advice)


def pivot_leaks(so_far: SoFar) -> Iterator[Finding]:
    """Oil at a pivot shaft or a bogie pivot.

    Common practice, no source: the seals of bogie pivots usually outlast two sets of chains and rollers, so one that
    leaks early has been strained; a pivot shaft that loses its oil wears its bushes, and the frame goes out of line.
    """
    told = seen(so_far, {Sign.LEAK}, PIVOTS)
    if told:
        yield _leak("pivot-leak", told)


def frame_leaks(so_far: SoFar) -> Iterator[Finding]:
    """Oil from a track frame or its spring housing.

    Common practice, no source: oily dirt low on a track frame tells of a leak from it; many frames hold oil or grease
    for the recoil spring.
    """
    told = seen(so_far, {Sign.LEAK}, FRAME - PIVOTS)
    if told:
        yield _leak("frame-leak", told)


def adjuster_leaks(so_far: SoFar) -> Iterator[Finding]:
    """Grease at the adjuster or its seal: the track will slacken, and the grease stands under very high pressure.

    Common practice, no source: near the end of its travel an adjuster may leak. Source for the danger: HSE Safety
    Alert STSU 2-2017: a worker was killed by grease when an adjuster's fitting blew out.
    """
    told = tuple(one for one in seen(so_far, {Sign.LEAK}, ADJUSTER) if one.side not in sides_near_end(so_far))
    if told:
        yield _leak("adjuster-leak", told)


def _of(code: str, severity: Severity, parts: tuple[Ailing, ...], because: list[Saying] | None = None) -> Finding:
    subjects = [part.part for part in parts]
    there = [one for part in parts for one in part.seen]
    amounts: dict[str, Amount] = {"parts": several(subjects)}
    told = because or reasons(parts)
    return finding(code, severity, told, about=subjects, amounts=amounts, seen_there=there)


def _graded(parts: tuple[Ailing, ...]) -> Severity:
    leaking = any(Trouble.LEAK in part.troubles for part in parts)
    severe = Severity.ACT if leaking else Severity.WATCH
    return severity_by_grade([one for part in parts for one in part.seen], severe)


def _leak(code: str, told: tuple[Seen, ...], advice: str | None = None) -> Finding:
    severity = severity_by_grade(told, severe=Severity.ACT)
    amounts: dict[str, Amount] = {"parts": several(one.part for one in told)}
    return finding(code, severity, observations(told), advice=advice, amounts=amounts, seen_there=told)


def _allowed_end_play(so_far: SoFar, parts: tuple[Ailing, ...]) -> float | None:
    what = parts[0].part.what
    entry = so_far.entry(what)
    return entry.end_play if entry else None
