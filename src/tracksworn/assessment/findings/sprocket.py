"""Sprockets: in step with what turns them or not, and what their teeth show."""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from tracksworn.assessment.assumed import Threshold
from tracksworn.assessment.boundaries import exceeds, reaches
from tracksworn.assessment.findings.chain import OILED, WEARS_INSIDE
from tracksworn.assessment.findings.telling import (
    finding,
    half_width,
    observations,
    part_of,
    reading,
    seen,
    several,
    severity_by_grade,
)
from tracksworn.assessment.findings.troubles import is_past_limit
from tracksworn.assessment.fitting import fitting_of
from tracksworn.assessment.model import Row, Stage
from tracksworn.assessment.sayings import Amount, Finding, Points, Saying, Severity, Subject
from tracksworn.assessment.so_far import SoFar
from tracksworn.inspection.model import Fitting
from tracksworn.inspection.vocabulary import Component, Side, Sign

TEETH: Final = frozenset({Sign.WORN_TO_A_POINT, Sign.THIN_TOOTH_BASE, Sign.TOOTH_FACE_WORN})


class Step(StrEnum):
    """How a sprocket stands to its partner."""

    AHEAD = "ahead"
    BEHIND = "behind"
    IN_STEP = "in step"


@dataclass(frozen=True, slots=True)
class Pair:
    """A sprocket and what wears with it on its side, both with a middle figure."""

    sprocket: Row
    partner: Row
    difference: float
    within: float

    def step(self, threshold: float) -> Step | None:
        """In or out of step by the threshold and beyond the doubt of both; None where doubt hides it."""
        if not reaches(abs(self.difference), threshold):
            return Step.IN_STEP
        if not exceeds(abs(self.difference), self.within):
            return None
        return Step.AHEAD if self.difference > 0.0 else Step.BEHIND


def ahead(so_far: SoFar) -> Iterator[Finding]:
    """A sprocket worn further than the bushings (oiled track) or the pitch (dry or greased): it will spoil them.

    Common practice, no source: on sealed and lubricated track sprocket wear keeps step with bushing wear, on dry or
    greased track with pitch. Ahead of them it was not renewed with them, or packing between tooth and bushing wore it.
    """
    yield from _out_of_step(so_far, Step.AHEAD)


def behind(so_far: SoFar) -> Iterator[Finding]:
    """A sprocket worn less than the bushings or the pitch: it went on later, or one of the readings is wrong.

    Common practice, no source: a worn chain on a new sprocket rides high on its teeth and wears them at its own rate.
    """
    yield from _out_of_step(so_far, Step.BEHIND)


def in_step(so_far: SoFar) -> Iterator[Finding]:
    """A sprocket that keeps step and is past half its life: it goes with the chain.

    Common practice, no source: a new chain on a worn sprocket wears at the rate of the sprocket.
    """
    pairs = [
        pair
        for pair in pairs_of(so_far)
        if pair.step(so_far.assumed.out_of_step) is Step.IN_STEP and pair.sprocket.stage is Stage.SECOND_HALF
    ]
    if pairs:
        because = [saying for pair in pairs for saying in (reading(pair.sprocket), reading(pair.partner))]
        amounts: dict[str, Amount] = {
            "parts": several(part_of(pair.sprocket) for pair in pairs),
            "partner": Subject(pairs[0].partner.component),
        }
        yield finding("sprocket-in-step", Severity.NOTE, because, amounts=amounts, decided_by=[Threshold.OUT_OF_STEP])


def teeth(so_far: SoFar) -> Iterator[Finding]:
    """Teeth drawn to a point, thin at the base, or worn at the face; told with a sprocket out of step where it is.

    Source: TM 5-3805-280-10, p. 21-16, read: wear of the tip does not count until it reaches the contact face. Common
    practice, no source: teeth draw to a point as they wear, and the thickness at the base tells more than the tip.
    """
    told = tuple(one for one in seen(so_far, TEETH) if one.side not in _sides_out_of_step(so_far))
    if told:
        parts = several(one.part for one in told)
        yield finding(
            "sprocket-teeth-worn",
            severity_by_grade(told),
            observations(told),
            amounts={"parts": parts},
            seen_there=told,
        )


def is_told_of(so_far: SoFar) -> bool:
    """Whether a sprocket is told of as in or out of step by its wear, with the advice that follows."""
    return any(any(check(so_far)) for check in (ahead, behind, in_step))


def pairs_of(so_far: SoFar) -> tuple[Pair, ...]:
    """Each side's sprocket with its partner, where both have a middle figure and the kind of track is known."""
    track = so_far.inspection.machine.track
    if track in OILED:
        partner = Component.BUSHING
    elif track in WEARS_INSIDE:
        partner = Component.PITCH
    else:
        return ()
    pairs = ((so_far.row(Component.SPROCKET, side), so_far.row(partner, side)) for side in Side)
    return tuple(
        _pair(first, second)
        for first, second in pairs
        if first and second and first.percent_worn is not None and second.percent_worn is not None
    )


def _pair(sprocket: Row, partner: Row) -> Pair:
    difference = (sprocket.percent_worn or 0.0) - (partner.percent_worn or 0.0)
    return Pair(sprocket, partner, difference, half_width(sprocket, partner))


def _out_of_step(so_far: SoFar, step: Step) -> Iterator[Finding]:
    pairs = _pairs_told(so_far, step)
    if not pairs:
        return
    partner = pairs[0].partner.component
    beside = [*seen(so_far, TEETH), *seen(so_far, {Sign.PACKED}, {Component.SPROCKET})]
    there = tuple(dict.fromkeys(one for one in beside if one.side in {pair.sprocket.side for pair in pairs}))
    because: list[Saying] = []
    for pair in pairs:
        because += [reading(pair.sprocket), reading(pair.partner), _apart(pair)]
        because += _fitted_apart(so_far, pair)
    because += observations(there)
    yield finding(
        f"sprocket-{step}-of-{partner}" if step is Step.AHEAD else f"sprocket-{step}-{partner}",
        Severity.WATCH,
        because,
        amounts={"parts": several(part_of(pair.sprocket) for pair in pairs)},
        seen_there=there,
        decided_by=[Threshold.OUT_OF_STEP],
    )


def _pairs_told(so_far: SoFar, step: Step) -> list[Pair]:
    """Those that are so far out of step; a sprocket behind but past its limit is none, as it goes in any case."""
    pairs = [pair for pair in pairs_of(so_far) if pair.step(so_far.assumed.out_of_step) is step]
    return [pair for pair in pairs if step is Step.AHEAD or not is_past_limit(pair.sprocket)]


def _sides_out_of_step(so_far: SoFar) -> frozenset[Side | None]:
    return frozenset(pair.sprocket.side for step in (Step.AHEAD, Step.BEHIND) for pair in _pairs_told(so_far, step))


def _apart(pair: Pair) -> Saying:
    points = Points(abs(pair.difference), pair.within, signed=False)
    return Saying("out-of-step", (part_of(pair.sprocket), part_of(pair.partner)), {"apart": points})


def _fitted_apart(so_far: SoFar, pair: Pair) -> Iterator[Saying]:
    """Different hours at fitting, or a turn since, explain a part of what is apart."""
    partner_part, partner = _fitted_partner(so_far, pair.partner)
    sprocket = fitting_of(so_far.inspection, Component.SPROCKET, pair.sprocket.side)
    first, second = (fitting.at if fitting else None for fitting in (sprocket, partner))
    about = (part_of(pair.sprocket), partner_part)
    if partner is not None and partner.turned_at is not None:
        yield Saying("turned-since", about[1:], {"part": about[1], "hours": round(partner.turned_at)})
    elif first is not None and second is not None and first != second:
        amounts: dict[str, Amount] = {
            "sprocket": about[0],
            "partner": about[1],
            "first": round(first),
            "second": round(second),
        }
        yield Saying("fitted-apart", about, amounts)


def _fitted_partner(so_far: SoFar, partner: Row) -> tuple[Subject, Fitting | None]:
    """When a partner went on; pitch is as old as the pins and bushings that it wears in."""
    components = (Component.PITCH, Component.BUSHING) if partner.component is Component.PITCH else (partner.component,)
    for component in components:
        fitting = fitting_of(so_far.inspection, component, partner.side)
        if fitting is not None:
            return Subject(component, partner.side), fitting
    return part_of(partner), None
