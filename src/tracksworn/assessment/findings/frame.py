"""What carries the tracks: equaliser bar, pivot shaft, frame."""

from collections.abc import Iterator
from typing import Final

from tracksworn.assessment.findings.telling import (
    Part,
    Seen,
    finding,
    observations,
    seen,
    several,
    severity_by_grade,
    signs_of,
)
from tracksworn.assessment.sayings import Amount, Finding
from tracksworn.assessment.so_far import SoFar
from tracksworn.inspection.vocabulary import ObservedPlace, Sign

DAMAGE: Final = frozenset({Sign.BENT, Sign.LOOSE, Sign.MISSING, Sign.END_PLAY, Sign.SIDE_WEAR, Sign.BOLT_MISSING})


def equaliser_bar(so_far: SoFar) -> Iterator[Finding]:
    """A bent, loose or worn equaliser bar.

    Common practice, no source: a damaged equaliser bar may strain the pivot shaft and let the frames go out of line.
    """
    yield from _damaged("equaliser-bar-damaged", so_far, {ObservedPlace.EQUALISER_BAR})


def pivot_shaft(so_far: SoFar) -> Iterator[Finding]:
    """Play or damage at the pivot shaft, on which the whole track frame turns.

    Common practice, no source: play there shows as a frame that toes in or out, and as wear on one side of idlers.
    """
    yield from _damaged("pivot-shaft-damaged", so_far, {ObservedPlace.PIVOT_SHAFT})


def frame_bent(so_far: SoFar) -> Iterator[Finding]:
    """A track frame that is bent or loose: no chain runs true on it.

    Common practice, no source: it is measured from the middle of the machine before new parts go on.
    """
    yield from _damaged("frame-bent", so_far, {ObservedPlace.TRACK_FRAME, ObservedPlace.ADJUSTER_BRACKET})


def _damaged(code: str, so_far: SoFar, at: set[Part]) -> Iterator[Finding]:
    told: tuple[Seen, ...] = seen(so_far, DAMAGE, at)
    if told:
        amounts: dict[str, Amount] = {"parts": several(one.part for one in told), "signs": signs_of(told, DAMAGE)}
        yield finding(code, severity_by_grade(told), observations(told), amounts=amounts, seen_there=told)
