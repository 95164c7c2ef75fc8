"""What was assumed, told without evidence or not seen, where that decides something."""

from collections.abc import Iterator
from typing import Final

from tracksworn.assessment.boundaries import reaches
from tracksworn.assessment.findings.telling import (
    finding,
    part_of,
    several,
)
from tracksworn.assessment.model import AssumedValue, Basis, Row
from tracksworn.assessment.sayings import Amount, Finding, Percent, Saying, Severity, Subject, Topic
from tracksworn.assessment.so_far import SoFar
from tracksworn.assessment.stages import BEGINS, stage
from tracksworn.assessment.uncertainty import Budget, Kind
from tracksworn.inspection.chart import ImpactLimits
from tracksworn.inspection.vocabulary import ROLLERS, Evidence, Impact

ASSUMED_KIND: Final = {
    AssumedValue.INSPECTOR: Kind.INSPECTOR,
    AssumedValue.SEAT: Kind.SEAT,
    AssumedValue.INSTRUMENT: Kind.INSTRUMENT,
}


def assumed_decides(so_far: SoFar) -> Iterator[Finding]:
    """A stage that the interval reaches only because of what was assumed: the figure is better than it looks, or not.

    Where the firm's own study stands behind the assumed values, they are evidence and nothing is said.
    """
    if so_far.assumed.basis is not None:
        return
    rows = [row for row in so_far.components if _decided_by_assumption(row)]
    if rows:
        parts = tuple(map(part_of, rows))
        because = [Saying("stage-by-assumption", parts, {"parts": several(parts)})]
        yield finding("assumed-decides", Severity.NOTE, because, amounts={"parts": several(parts)})


def impact_decides(so_far: SoFar) -> Iterator[Finding]:
    """Nobody said how hard the machine works, and the chart's other limit would put a part into another stage.

    Source: a maker's published track specification, read: one bushing at 54.1 mm is 72.5 % on the limit for low impact
    and 100 % on that for higher.
    """
    if so_far.inspection.machine.impact is not None:
        return
    rows = [(row, other) for row in so_far.components for other in _on_other_limit(row)]
    if rows:
        because = [Saying("on-the-other-limit", (part_of(row),), _both(row, other)) for row, other in rows]
        parts = several(part_of(row) for row, _ in rows)
        yield finding("impact-decides", Severity.NOTE, because, amounts={"parts": parts})


def gauge_past_calibration(so_far: SoFar) -> Iterator[Finding]:
    """A gauge used after its calibration was due.

    Source: ISO/IEC 17025:2017, from memory: equipment out of its calibration is not to be relied on until checked.
    """
    used = {row.gauge for row in so_far.components if row.basis is Basis.MEASURED}
    for gauge in so_far.inspection.instruments.values():
        if gauge.name in used and gauge.due is not None and so_far.inspection.inspected > gauge.due:
            rows = [row for row in so_far.components if row.gauge == gauge.name and row.basis is Basis.MEASURED]
            about = tuple(dict.fromkeys(Subject(row.component, row.side) for row in rows))
            because = [
                Saying("gauge-was-due", (), {"gauge": gauge.name, "due": gauge.due}),
                Saying("read-with-it", about, {"parts": several(about)}),
            ]
            yield finding("gauge-past-calibration", Severity.NOTE, because, amounts={"gauge": gauge.name})


def hours_by_word(so_far: SoFar) -> Iterator[Finding]:
    """Hours that rest on the owner's word: no rate of wear stands on them.

    Common practice, no source: a meter is replaced, a machine changes hands, and hours lose their paper.
    """
    hours = so_far.inspection.machine.hours
    because = []
    if hours is not None and hours.known_from is Evidence.OWNERS_WORD:
        because.append(Saying("machine-hours-by-word", (Subject(Topic.MACHINE),), {"hours": round(hours.machine)}))
    fitted = tuple(
        Subject(part.component, part.side, part.position)
        for part, fitting in so_far.inspection.fitted.items()
        if fitting.known_from is Evidence.OWNERS_WORD
    )
    if fitted:
        because.append(Saying("fitted-by-word", fitted, {"parts": several(fitted)}))
    if because:
        yield finding("hours-by-word", Severity.NOTE, because)


def not_seen(so_far: SoFar) -> Iterator[Finding]:
    """What was not seen, told once for all with its reasons: it may be as new or at its end.

    A part that cannot be seen is never taken to be like its neighbour.
    """
    rows = [row for row in so_far.components if row.basis is Basis.NOT_SEEN]
    if not rows:
        return
    because = []
    for reason in dict.fromkeys(row.reason for row in rows):
        parts = tuple(_in_short(so_far, [row for row in rows if row.reason == reason]))
        amounts: dict[str, Amount] = {"parts": several(parts)}
        if reason is None:
            because.append(Saying("not-recorded", parts, amounts))
        else:
            because.append(Saying("not-seen-because", parts, amounts | {"reason": reason}))
    because.append(Saying("share-seen", (), {"share": Percent(100.0 * so_far.overall.seen_share)}))
    yield finding("not-seen", Severity.NOTE, because, amounts={"count": len(rows)})


def _decided_by_assumption(row: Row) -> bool:
    if row.budget is None or row.percent_worn is None or row.high is None:
        return False
    boundary = next((begin for begin in BEGINS.values() if not reaches(row.percent_worn, begin)), None)
    if boundary is None or not reaches(row.high, boundary):
        return False
    kinds = {ASSUMED_KIND[value] for value in row.assumed if value in ASSUMED_KIND}
    if row.readings == 1:
        kinds.add(Kind.SPREAD)  # nothing measured stands behind the scatter of one reading
    known = Budget({source: part for source, part in row.budget.contributions.items() if source.kind not in kinds})
    return not reaches(row.percent_worn + known.expanded, boundary)


def _on_other_limit(row: Row) -> Iterator[float]:
    """Percent worn on the limit that was not taken, where it is another stage; limits by impact have no table."""
    scale = row.scale
    if scale is None or row.percent_worn is None or row.basis is not Basis.MEASURED:
        return
    limits = scale.dimensions.limit
    if not isinstance(limits, ImpactLimits):
        return
    other = next((limits.at(impact) for impact in Impact if limits.at(impact) != scale.limit), scale.limit)
    percent = row.percent_worn * (scale.new - scale.limit) / (scale.new - other)
    if stage(percent) is not stage(row.percent_worn):
        yield percent


def _both(row: Row, other: float) -> dict[str, Amount]:
    return {"part": part_of(row), "worn": Percent(row.percent_worn), "other": Percent(other)}


def _in_short(so_far: SoFar, rows: list[Row]) -> Iterator[Subject]:
    """The parts of these rows; all rollers of a side as one."""
    for row in rows:
        alike = [other for other in rows if (other.component, other.side) == (row.component, row.side)]
        complete = row.component in ROLLERS and len(alike) == len(so_far.rows(row.component, row.side)) > 1
        if not complete:
            yield part_of(row)
        elif row is alike[0]:
            yield Subject(row.component, row.side)
