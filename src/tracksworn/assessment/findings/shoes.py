"""Shoes, their bolts, and whether they suit the ground."""

from collections.abc import Iterator
from typing import Final

from tracksworn.assessment.boundaries import exceeds
from tracksworn.assessment.findings.telling import (
    Part,
    finding,
    gravest,
    observations,
    seen,
    several,
    severity_by_grade,
    signs_of,
)
from tracksworn.assessment.sayings import Amount, Finding, Length, Saying, Severity, Subject, Topic
from tracksworn.assessment.so_far import SoFar
from tracksworn.inspection.vocabulary import Component, Ground, ObservedPlace, Sign

UNDONE: Final = frozenset({Sign.LOOSE, Sign.BOLT_MISSING, Sign.MISSING})
BOLTED: Final[frozenset[Part]] = frozenset({ObservedPlace.SHOE_BOLT, Component.SHOE})


def shoe_too_wide(so_far: SoFar) -> Iterator[Finding]:
    """Shoes wider than the chart's narrowest on rock, or on firm ground that is never soft.

    Common practice, no source: the narrowest shoe that carries the machine is the right one; every extra width bends
    shoes, loosens bolts, and levers on pins, links and flanges, and on rock it takes the load at its edge.
    """
    width = so_far.inspection.machine.shoe.width
    narrowest = so_far.chart.narrowest_shoe if so_far.chart else None
    ground = so_far.inspection.machine.ground
    if width is None or narrowest is None or not exceeds(width, narrowest) or not _is_hard(ground):
        return
    shoe, chart = Subject(Component.SHOE), Subject(Topic.CHART)
    amounts: dict[str, Amount] = {"width": Length(width), "narrowest": Length(narrowest)}
    where = "ground-rock" if Ground.ROCK in ground else "ground-firm"
    because = [Saying("shoe-width", (shoe, chart), amounts), Saying(where, (Subject(Topic.MACHINE),))]
    yield finding("shoe-too-wide", Severity.NOTE, because)


def shoe_bolts(so_far: SoFar) -> Iterator[Finding]:
    """Loose or missing shoe bolts: the others carry the load, the shoe works, and the holes grow.

    Common practice, no source: a bolt that has worked loose once is replaced, not tightened.
    """
    told = seen(so_far, UNDONE, BOLTED)
    if told:
        missing = any(sign in one.observation.seen for one in told for sign in (Sign.BOLT_MISSING, Sign.MISSING))
        severity = gravest([severity_by_grade(told), Severity.WATCH if missing else Severity.NOTE])
        amounts: dict[str, Amount] = {"parts": several(one.part for one in told), "signs": signs_of(told, UNDONE)}
        yield finding("shoe-bolts", severity, observations(told), amounts=amounts, seen_there=told)


def re_grousered(so_far: SoFar) -> Iterator[Finding]:
    """Welded grouser bars: their height says nothing of the shoe beneath.

    Common practice, no source: re-grousering restores grip, not the plate, and its welds crack before the bar wears.
    """
    told = seen(so_far, {Sign.RE_GROUSERED})
    if told:
        parts = several(one.part for one in told)
        yield finding(
            "re-grousered", severity_by_grade(told), observations(told), amounts={"parts": parts}, seen_there=told
        )


def _is_hard(ground: tuple[Ground, ...]) -> bool:
    return Ground.ROCK in ground or (Ground.FIRM in ground and Ground.SOFT not in ground)
