"""Many undercarriages together: how their wear is distributed, and which of them need another look, and why."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from statistics import median
from typing import Final

from tracksworn.assessment.assumed import AnotherLook
from tracksworn.assessment.boundaries import reaches
from tracksworn.assessment.model import Assessment, Bound, Overall, Stage
from tracksworn.assessment.sayings import Severity
from tracksworn.assessment.stages import BEGINS, stage
from tracksworn.inspection.chart import WearChart

CLASSES: Final = 10
"""Classes of ten points each; 100 is in the last."""
WHEN: Final = AnotherLook()
"""From where on a lot needs another look."""
CONTRADICTED: Final = frozenset({"grown-back", "jumped"})
"""Findings on a reading that an earlier inspection contradicts."""


class Look(StrEnum):
    """Why a lot needs another look before anybody relies on it, in the order in which it is told."""

    FAULTS = "faults"  # its files could not be read
    UNMADE = "unmade"  # its files are sound, yet nothing could be made of them this time
    NO_FIGURE = "no figure"  # no part could be given a figure of wear
    ACT = "act"  # a finding asks for action
    PART_PAST_LIMIT = "part past limit"  # a part is past its limit
    NEAR_LIMIT = "near limit"  # the whole is near its limit
    WORST_FAR_ABOVE = "worst far above"  # the whole hides that its worst part is near its limit or past it
    PART_NEAR_LIMIT = "part near limit"  # its worst part is near its limit
    WIDE = "wide"  # the whole is known only within a wide interval, or is only a bound
    UNSEEN = "unseen"  # much was not seen
    NO_CHART = "no chart"
    STANDS_IN = "stands in"  # the chart was made for another machine
    CONTRADICTION = "contradiction"  # with an earlier inspection


def looks(assessment: Assessment, chart: WearChart | None, when: AnotherLook = WHEN) -> tuple[Look, ...]:
    """Why a lot that could be read needs another look; none where nothing asks for one."""
    return in_order((*_by_findings(assessment), *_by_whole(assessment.overall, when), *_by_chart(chart)))


def in_order(some: Iterable[Look]) -> tuple[Look, ...]:
    """Reasons in the order in which they are told."""
    there = set(some)
    return tuple(look for look in Look if look in there)


def _by_findings(assessment: Assessment) -> Iterator[Look]:
    if any(finding.severity is Severity.ACT for finding in assessment.findings):
        yield Look.ACT
    if any(finding.code in CONTRADICTED for finding in assessment.findings):
        yield Look.CONTRADICTION


def _by_whole(overall: Overall, when: AnotherLook) -> Iterator[Look]:
    if overall.percent_worn is None:
        yield Look.NO_FIGURE
        return
    if reaches(overall.percent_worn, BEGINS[Stage.NEAR_LIMIT]):
        yield Look.NEAR_LIMIT
    if overall.past_limit:
        yield Look.PART_PAST_LIMIT
    if overall.worst is not None and reaches(overall.worst.percent_worn, BEGINS[Stage.NEAR_LIMIT]):
        if not overall.past_limit:
            yield Look.PART_NEAR_LIMIT
        if reaches(overall.worst.percent_worn - overall.percent_worn, when.above):
            yield Look.WORST_FAR_ABOVE
    if is_wide(overall, when):
        yield Look.WIDE
    if reaches(1.0 - overall.seen_share, when.unseen):
        yield Look.UNSEEN


def is_wide(overall: Overall, when: AnotherLook = WHEN) -> bool:
    """Whether the whole is only a bound, or its interval is so long that the figure says little."""
    if overall.bound is Bound.AT_LEAST or overall.low is None or overall.high is None:
        return True
    return reaches(overall.high - overall.low, when.wide)


def _by_chart(chart: WearChart | None) -> Iterator[Look]:
    if chart is None:
        yield Look.NO_CHART
    elif chart.stands_in_for is not None:
        yield Look.STANDS_IN


@dataclass(frozen=True, slots=True)
class Standing:
    """One lot among many. `percent_worn` of the whole is None where there is none, or only a bound."""

    percent_worn: float | None
    unread: bool = False
    looks: tuple[Look, ...] = ()


@dataclass(frozen=True, slots=True)
class Fleet:
    """All lots together. Every lot is counted in one class, or as not known, or as unread: the three add up."""

    lots: int
    unread: int  # without any figure: files with faults, or not made
    not_known: int  # read, but without a figure of the whole, or with one that is only a bound
    stages: Mapping[Stage, int]
    classes: tuple[int, ...]  # lots from 0 to under 10 percent worn, from 10 to under 20, … 90 to 100
    median: float | None  # percent worn of the whole; None where no lot has a figure
    to_look_at: int  # lots with any reason
    looks: Mapping[Look, int]  # lots by reason; one lot may have several

    @property
    def known(self) -> int:
        """Lots with a figure of the whole."""
        return sum(self.classes)


def fleet(lots: Sequence[Standing]) -> Fleet:
    """Count many lots."""
    known = [lot.percent_worn for lot in lots if lot.percent_worn is not None and not lot.unread]
    unread = sum(lot.unread for lot in lots)
    classes, stages = [_class_of(percent) for percent in known], [stage(percent) for percent in known]
    return Fleet(
        lots=len(lots),
        unread=unread,
        not_known=len(lots) - unread - len(known),
        stages={one: stages.count(one) for one in Stage},
        classes=tuple(classes.count(index) for index in range(CLASSES)),
        median=median(known) if known else None,
        to_look_at=sum(bool(lot.looks) for lot in lots),
        looks={look: sum(look in lot.looks for lot in lots) for look in Look},
    )


def _class_of(percent: float) -> int:
    """Which class of ten points; on a boundary the one above, as with stages."""
    return min(sum(reaches(percent, 10.0 * edge) for edge in range(1, CLASSES)), CLASSES - 1)
