"""Idlers and the line of the track frame."""

from collections.abc import Iterator
from typing import Final

from tracksworn.assessment.assumed import Threshold
from tracksworn.assessment.boundaries import reaches
from tracksworn.assessment.findings.chain import SIDES
from tracksworn.assessment.findings.sides import difference
from tracksworn.assessment.findings.telling import (
    Part,
    Seen,
    finding,
    gravest,
    observations,
    part_of,
    percents_by_place,
    seen,
    several,
    severity_by_grade,
)
from tracksworn.assessment.findings.troubles import IDLERS
from tracksworn.assessment.model import Row
from tracksworn.assessment.sayings import Amount, Finding, Percent, Saying, Severity, Subject
from tracksworn.assessment.sides import leading
from tracksworn.assessment.so_far import SoFar
from tracksworn.inspection.vocabulary import Component, Layout, ObservedPlace, PartPlace, Side, Sign

OUT_OF_LINE: Final = frozenset({Sign.SIDE_WEAR, Sign.GUIDE_WORN})
IN_LINE_WITH_FRAME: Final[frozenset[Part]] = IDLERS | {
    Component.BOTTOM_ROLLER,
    Component.LINK,
    ObservedPlace.TRACK_FRAME,
    ObservedPlace.GUARD,
}
TREADS: Final = (PartPlace.INNER_TREAD, PartPlace.OUTER_TREAD)


def frame_alignment(so_far: SoFar) -> Iterator[Finding]:
    """Side wear of an idler, or one of its treads far ahead of the other: the frame may stand out of line.

    Common practice, no source: side wear on idlers may tell of track frames out of line, but also of side slopes, of
    turning to one side, or of worn guides.
    """
    for side in SIDES:
        told = _of_side(seen(so_far, OUT_OF_LINE, IN_LINE_WITH_FRAME), side)
        at_idler = [one for one in told if one.part.what in IDLERS and Sign.SIDE_WEAR in one.observation.seen]
        uneven = [saying for row in _idlers(so_far, side) for saying in _uneven_treads(so_far, row)]
        if not at_idler and not uneven:
            continue
        ahead = [
            entry for entry in so_far.sides if entry.component in IDLERS and side is not None and leading(entry) is side
        ]
        because = (*observations(told), *uneven, *(difference(so_far, entry) for entry in ahead))
        severity = gravest([severity_by_grade(told), Severity.WATCH if uneven or ahead else Severity.NOTE])
        parts = several([*(one.part for one in at_idler), *(saying.about[0] for saying in uneven)])
        by = ((Threshold.OUT_OF_STEP, uneven), (Threshold.DIFFERENCE, ahead))
        yield finding(
            "frame-alignment",
            severity,
            because,
            amounts={"parts": _without_place(parts.items)},
            seen_there=told,
            decided_by=[threshold for threshold, signs in by if signs],
        )


def guides_worn(so_far: SoFar) -> Iterator[Finding]:
    """Worn idler guides, where nothing yet says that the idler runs out of line.

    Common practice, no source: an idler loose between its guides wanders, and wears its flange and the rail sides.
    """
    told = [one for one in seen(so_far, {Sign.GUIDE_WORN}) if not _side_worn(so_far, one.side)]
    if told:
        parts = several(one.part for one in told)
        yield finding(
            "guides-worn", severity_by_grade(told), observations(told), amounts={"parts": parts}, seen_there=told
        )


def rail_scalloped(so_far: SoFar) -> Iterator[Finding]:
    """Rails hollowed between their joints.

    Common practice, no source: idlers hollow the rail between its joints, two idlers more than one, and the operator
    feels it; a gauge set on the joint misses the hollow.
    """
    told = seen(so_far, {Sign.RAIL_SCALLOPED})
    if told:
        because = list(observations(told))
        if so_far.inspection.machine.layout is Layout.ELEVATED_SPROCKET:
            because.append(Saying("two-idlers"))
        parts = several(one.part for one in told)
        yield finding("rail-scalloped", severity_by_grade(told), because, amounts={"parts": parts}, seen_there=told)


def _of_side(told: tuple[Seen, ...], side: Side | None) -> list[Seen]:
    return [one for one in told if one.side is side]


def _idlers(so_far: SoFar, side: Side | None) -> list[Row]:
    return [row for row in so_far.components if row.component in IDLERS and row.side is side]


def _uneven_treads(so_far: SoFar, row: Row) -> Iterator[Saying]:
    worn = percents_by_place(row)
    inner, outer = (worn.get(place) for place in TREADS)
    if inner is not None and outer is not None and reaches(abs(inner - outer), so_far.assumed.out_of_step):
        about = tuple(Subject(row.component, row.side, None, place) for place in TREADS)
        amounts: dict[str, Amount] = {"part": part_of(row), "inner": Percent(inner), "outer": Percent(outer)}
        yield Saying("treads-uneven", about, amounts)


def _without_place(items: tuple[Subject | Sign, ...]) -> Amount:
    return several(Subject(item.what, item.side, item.number) for item in items if isinstance(item, Subject))


def _side_worn(so_far: SoFar, side: Side | None) -> bool:
    return any(one.side is side for one in seen(so_far, {Sign.SIDE_WEAR}, IDLERS)) or any(
        saying for row in _idlers(so_far, side) for saying in _uneven_treads(so_far, row)
    )
