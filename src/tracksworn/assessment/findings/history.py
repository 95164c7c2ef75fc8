"""What older inspections of the machine say: readings that contradict them, and wear that has become faster."""

import operator
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from tracksworn.assessment.assumed import Threshold
from tracksworn.assessment.boundaries import exceeds, reaches
from tracksworn.assessment.comparing.agreement import Where, agreements
from tracksworn.assessment.comparing.model import Agreement
from tracksworn.assessment.decisions import ForecastRow, RateFrom
from tracksworn.assessment.findings.chain import dry_sides
from tracksworn.assessment.findings.foreign import foretold
from tracksworn.assessment.findings.telling import ROWS_TOLD_SINGLY, finding, part_of, seen, several
from tracksworn.assessment.findings.troubles import is_past_limit
from tracksworn.assessment.fitting import fitting_of, is_fitted_after
from tracksworn.assessment.model import Parts
from tracksworn.assessment.occasions import Occasion, most_hours_between
from tracksworn.assessment.sayings import Amount, Finding, Percent, Rate, Saying, Severity, Subject
from tracksworn.assessment.so_far import SoFar
from tracksworn.inspection.vocabulary import Component, Sign


@dataclass(frozen=True, slots=True)
class Contradiction:
    """A part that reads otherwise than an older inspection allows, at the place where they disagree most."""

    earlier: Occasion
    agreement: Agreement  # the earlier one first

    @property
    def part(self) -> Subject:
        """The part, without the place on it."""
        return Subject(self.agreement.component, self.agreement.side, self.agreement.position)


def grown_back(so_far: SoFar) -> Iterator[Finding]:
    """A part that reads less worn than before, beyond the doubt of both readings (E_n over 1).

    Metal does not grow back. Common practice, no source: of such parts most were renewed and nobody told; else a
    reading, the joint or the chart is wrong, and every rate of wear that rests on them.
    """
    shrunk = _newest_of_each_part(so_far, so_far.earlier, operator.gt)
    yield from _contradicted("grown-back", so_far, shrunk)


def jumped(so_far: SoFar) -> Iterator[Finding]:
    """A part that reads far more worn than a short while before: so few hours cannot wear so much.

    Common practice, no source: two people measure differently, or one of them another joint or place; or a worn part
    came from another machine.
    """
    soon = so_far.assumed.soon_after
    lately = [one for one in so_far.earlier if reaches(soon, most_hours_between(one, so_far.occasion))]
    ahead = _newest_of_each_part(so_far, lately, operator.le)
    yield from _contradicted("jumped", so_far, ahead, Threshold.SOON_AFTER)


def wears_faster_lately(so_far: SoFar) -> Iterator[Finding]:
    """A part that wears faster since an older inspection than since it went on, by more than the doubt of both rates.

    Common practice, no source: harder ground, packing, tension set too tight, a joint run dry and a hardened case worn
    through all do this, and what was budgeted by the long run comes too late. Nothing is said of a part past its limit,
    nor of the pitch where a joint has likely run dry, for that is why.
    """
    rows = [
        (row, since)
        for row in foretold(so_far)
        if row.rate_from is RateFrom.BETWEEN and (since := row.rates.get(RateFrom.SINCE_FITTED)) is not None
        if not _is_told_of(so_far, row)
    ]
    if not rows:
        return
    because = []
    for row, since in rows:
        part = part_of(row)
        amounts: dict[str, Amount] = {
            "part": part,
            "lately": Rate(row.rate_per_100_h),
            "hours": round(row.over),
            "since": Rate(since),
        }
        because.append(Saying("faster-lately", (part,), amounts))
    parts = several(part_of(row) for row, _ in rows)
    advice = "wears-faster-lately"
    if any(row.hardening_ignored for row, _ in rows):
        advice = "wears-faster-lately-perhaps-soft"
    yield finding("wears-faster-lately", Severity.WATCH, because, advice=advice, amounts={"parts": parts})


def _is_told_of(so_far: SoFar, row: ForecastRow) -> bool:
    worn = so_far.row(row.component, row.side, row.position)
    dry = row.component is Component.PITCH and row.side in dry_sides(so_far)
    return dry or (worn is not None and is_past_limit(worn))


def _newest_of_each_part(so_far: SoFar, oldest_first: Sequence[Occasion], where: Where) -> tuple[Contradiction, ...]:
    """For each part the newest of these inspections that it contradicts where their figures stand so."""
    found: dict[Subject, Contradiction] = {}
    for earlier in reversed(oldest_first):
        new = {one.part: one for one in _contradictions(so_far, earlier, where)}
        found = new | found
    order = {part_of(row): index for index, row in enumerate(so_far.components)}
    return tuple(sorted(found.values(), key=lambda one: order[one.part]))


def _contradictions(so_far: SoFar, earlier: Occasion, where: Where) -> Iterator[Contradiction]:
    """All places at which two inspections disagree beyond their doubt, those of one part with the worst of them last.

    Nothing is said where the part is known, or may be, another one than it was.
    """
    pairs = agreements(earlier, so_far.occasion, where=where)
    for each in sorted(pairs, key=lambda pair: pair.e_n):
        if not each.agrees and not _is_explained(so_far, earlier, each):
            yield Contradiction(earlier, each)


def _is_explained(so_far: SoFar, earlier: Occasion, pair: Agreement) -> bool:
    """Whether work that was told may have been done in between: pins and bushings that went on are a new pitch too."""
    if pair.component is Component.SHOE and seen(so_far, {Sign.RE_GROUSERED}):
        return True
    hours = earlier.hours
    own = {pair.component, *((Component.BUSHING,) if pair.component is Component.PITCH else ())}
    fittings = [fitting_of(so_far.inspection, component, pair.side, pair.position) for component in own]
    if hours is None:  # nobody can say whether it went on before or after
        return any(fitting is not None and not fitting.original for fitting in fittings)
    return any(is_fitted_after(fitting, hours, or_turned=True) for fitting in fittings)


# --- telling --------------------------------------------------------------------------------------------------------


def _contradicted(
    code: str, so_far: SoFar, contradictions: tuple[Contradiction, ...], *decided_by: Threshold
) -> Iterator[Finding]:
    if not contradictions:
        return
    because: list[Saying] = []
    for earlier in so_far.earlier:
        there = [one for one in contradictions if one.earlier is earlier]
        if there:
            because += [*_occasions(earlier, so_far.occasion), *_figures(so_far, there)]
    parts = several(one.part for one in contradictions)
    yield finding(
        code,
        Severity.WATCH,
        because,
        about=[one.part for one in contradictions],
        amounts={"parts": parts},
        decided_by=decided_by,
    )


def _occasions(earlier: Occasion, now: Occasion) -> Iterator[Saying]:
    """The days and hours of two inspections, and their inspectors where these are not the same."""
    days: dict[str, Amount] = {"then": earlier.inspection.inspected, "now": now.inspection.inspected}
    first, second = earlier.hours, now.hours
    if first is None or second is None:
        yield Saying("inspected-before", (), {**days, "number": earlier.inspection.number})
    else:
        hours: dict[str, Amount] = {"first": round(first), "second": round(second)}
        yield Saying("inspected-before-at-hours", (), {**days, **hours, "number": earlier.inspection.number})
    before, after = (one.inspection.inspector.name for one in (earlier, now))
    if before != after:
        yield Saying("other-inspector", (), {"before": before, "after": after})


def _figures(so_far: SoFar, there: list[Contradiction]) -> Iterator[Saying]:
    """What each part read then and now; of many parts of one side the least and the most."""
    kinds: dict[tuple[object, object], list[Contradiction]] = {}
    for one in there:
        kinds.setdefault((one.agreement.component, one.agreement.side), []).append(one)
    for alike in kinds.values():
        if len(alike) > ROWS_TOLD_SINGLY:
            parts = tuple(one.part for one in alike)
            then, now = (_range(figures) for figures in zip(*map(_both, alike), strict=True))
            yield Saying("then-and-now-together", parts, {"parts": several(parts), "then": then, "now": now})
        else:
            yield from (_then_and_now(so_far, one) for one in alike)


def _then_and_now(so_far: SoFar, one: Contradiction) -> Saying:
    part = Subject(one.agreement.component, one.agreement.side, one.agreement.position, one.agreement.place)
    amounts: dict[str, Amount] = {"part": part, "then": _figure(one.earlier.parts, part), "now": _figure(so_far, part)}
    return Saying("then-and-now", (part,), amounts)


def _figure(parts: Parts, part: Subject) -> Percent:
    """The figure at one place of one part, with its interval."""
    places = (
        place
        for row in parts.components
        if replace(part_of(row), place=part.place) == part
        for place in row.places
        if place.place is part.place
    )
    place = next(places)
    worn, within = place.percent_worn or 0.0, place.uncertainty or 0.0
    return Percent(worn, worn - within, worn + within)


def _both(one: Contradiction) -> tuple[float, float]:
    return one.agreement.first, one.agreement.second


def _range(figures: Iterable[float]) -> Percent:
    """From the least to the most; one figure where all are alike."""
    least, *_, most = sorted(figures)
    return Percent(None, least, most) if exceeds(most, least) else Percent(least)
