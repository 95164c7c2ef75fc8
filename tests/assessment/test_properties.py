"""What must hold for every inspection and every chart."""

import math
from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from itertools import pairwise
from typing import Any

import pytest
from builders import chart, gauge, inspection, machine, reading, wears
from hypothesis import assume, given
from hypothesis import strategies as st
from strategies import cases, dimensions, inspections, numbers, swapped

from tracksworn.assessment.assess import assess
from tracksworn.assessment.model import Assessment, Basis, Row
from tracksworn.assessment.scale import scale_for
from tracksworn.inspection.chart import Dimensions, WearChart
from tracksworn.inspection.model import Inspection
from tracksworn.inspection.values import Sizes
from tracksworn.inspection.vocabulary import CHAINS, WEARING, Component, Impact

Case = tuple[Inspection, WearChart]
JUDGED_SINGLY = tuple(each for each in WEARING if each not in CHAINS and each is not Component.PITCH)


def every_number(value: Any) -> Iterator[float]:
    """All floating numbers in a tree of dataclasses, tuples and mappings."""
    if isinstance(value, float):
        yield value
    elif is_dataclass(value) and not isinstance(value, type):
        for each in fields(value):
            yield from every_number(getattr(value, each.name))
    elif isinstance(value, tuple):
        for each in value:
            yield from every_number(each)


def without_budgets(assessed: Assessment) -> Any:
    """The figures; a budget's degrees of freedom are infinite where a source's are."""
    rows = tuple(
        replace(row, budget=None, places=tuple(replace(place, budget=None) for place in row.places))
        for row in assessed.components
    )
    sides = tuple(replace(each, budget=None) for each in assessed.sides)
    return rows, sides, replace(assessed.overall, budget=None), assessed.travel


@pytest.mark.slow
@given(cases())
def test_no_figure_is_ever_nan_or_infinite(case: Case) -> None:
    assert all(math.isfinite(number) for number in every_number(without_budgets(assess(*case))))


@pytest.mark.slow
@given(inspections(None))
def test_an_inspection_without_chart_is_whole(seen: Inspection) -> None:
    assessed = assess(seen, None)
    assert {row.basis for row in assessed.components if row.percent_worn is not None} <= {Basis.BY_EYE}
    assert all(math.isfinite(number) for number in every_number(without_budgets(assessed)))


@given(dimensions(by_impact=True), numbers(-0.3, 1.5), numbers(-0.3, 1.5), st.sampled_from(Impact))
def test_percent_never_falls_as_the_part_wears(found: Dimensions, one: float, other: float, impact: Impact) -> None:
    scale = scale_for(replace(wears(Component.LINK), dimensions=found), None, False, impact)
    assert scale is not None
    less, more = (scale.new - part * (scale.new - scale.limit) for part in sorted((one, other)))
    assert scale.read(less).percent <= scale.read(more).percent + 1e-9


@pytest.mark.slow
@given(cases())
def test_swapping_the_sides_negates_each_delta(case: Case) -> None:
    seen, source = case
    here, there = assess(seen, source), assess(swapped(seen), source)
    for entry, mirrored in zip(here.sides, there.sides, strict=True):
        assert entry.component is mirrored.component
        if entry.delta is None:
            assert mirrored.delta is None
            continue
        ends = (mirrored.delta, mirrored.delta_high, mirrored.delta_low)
        assert ends == pytest.approx((-entry.delta, -(entry.delta_low or 0.0), -(entry.delta_high or 0.0)), abs=1e-9)


@pytest.mark.slow
@given(cases())
def test_overall_lies_between_floor_and_ceiling(case: Case) -> None:
    """Where it lies within 0 to 100 itself: parts better than new may draw it below."""
    overall = assess(*case).overall
    assert overall.ceiling <= 100.0 + 1e-9
    if overall.percent_worn is None:
        assert overall.floor == 0.0
        return
    assert overall.percent_worn <= 100.0 + 1e-9
    if overall.percent_worn >= 0.0:
        assert -1e-9 <= overall.floor <= overall.percent_worn + 1e-9
        assert overall.percent_worn <= overall.ceiling + 1e-9


@pytest.mark.slow
@given(cases())
def test_intervals_hold_their_figures_and_shares_add_up(case: Case) -> None:
    assessed = assess(*case)
    for row in assessed.components:
        if row.percent_worn is not None:
            assert row.low is not None
            assert row.high is not None
            assert row.low <= row.percent_worn <= row.high
    total = math.fsum(row.share for row in assessed.components)
    assert total == pytest.approx(1.0) or total == 0.0
    assert 0.0 <= assessed.overall.seen_share <= 1.0 + 1e-12


@pytest.mark.slow
@given(cases())
def test_counts_are_of_rows(case: Case) -> None:
    assessed = assess(*case)
    overall = assessed.overall
    counted = [row for row in assessed.components if row.counted is not None]
    assert overall.past_limit + overall.near_limit <= len(counted)
    assert overall.unseen == sum(row.basis is Basis.NOT_SEEN for row in assessed.components)
    assert (overall.worst is None) is (not counted)
    if overall.worst is not None:
        assert overall.worst.percent_worn == pytest.approx(max(row.counted or 0.0 for row in counted), abs=1e-8)


IN_INCHES = 1 / 25.4


def scaled(seen: Inspection, source: WearChart, factor: float) -> Case:
    """Everything that is a length times a factor: the same machine told in another unit."""

    def lengths(value: Any) -> Any:
        return None if value is None else value * factor

    def shrunk(found: Dimensions | None) -> Dimensions | None:
        if found is None or not isinstance(found.limit, float):
            return found
        return replace(
            found,
            new=found.new * factor,
            limit=found.limit * factor,
            tolerance=lengths(found.tolerance),
            new_doubt=lengths(found.new_doubt),
            limit_tolerance=lengths(found.limit_tolerance),
            spread=lengths(found.spread),
        )

    entries = [replace(each, dimensions=shrunk(each.dimensions)) for each in source.components.values()]
    readings = []
    for each in seen.readings.values():
        assert isinstance(each.sides.left, Sizes)
        assert isinstance(each.sides.right, Sizes)
        left, right = (tuple(map(lengths, side.values)) for side in (each.sides.left, each.sides.right))
        readings.append(reading(each.component, left, right, gauge="caliper"))
    tools = [
        replace(each, resolution=lengths(each.resolution), accuracy=lengths(each.accuracy))
        for each in seen.instruments.values()
    ]
    return inspection(*readings, instruments=tools, machine=seen.machine), chart(*entries)


@given(dimensions(linear=True), st.lists(numbers(-0.1, 1.2), min_size=1, max_size=5), st.sampled_from(sorted(CHAINS)))
def test_inch_and_millimetre_agree(found: Dimensions, parts: list[float], component: Component) -> None:
    assert isinstance(found.limit, float)
    worn = tuple(found.new - part * (found.new - found.limit) for part in parts)
    tool = gauge("caliper", resolution=0.02, accuracy=0.05)
    seen = inspection(
        reading(component, worn, worn[:1], gauge="caliper"), instruments=[tool], machine=machine(links=40)
    )
    source = chart(replace(wears(component, share=1.0), dimensions=found))
    here, there = assess(seen, source), assess(*scaled(seen, source, IN_INCHES))
    for row, other in zip(here.components, there.components, strict=True):
        assert (other.percent_worn, other.low, other.high) == pytest.approx(
            (row.percent_worn, row.low, row.high), rel=1e-9, abs=1e-9
        )


def row_of(seen: Inspection, source: WearChart) -> Row:
    return assess(seen, source).components[0]


@given(numbers(0.0, 100.0), numbers(0.1, 3.0), st.sampled_from(sorted(CHAINS)), st.sampled_from((None, 0.5)))
def test_with_equal_scatter_fewer_readings_are_never_surer(
    middle: float, deviation: float, component: Component, known: float | None
) -> None:
    """Pairs as far apart as their standard deviation tells, beside ever more such pairs; scatter as assumed at most."""
    source = chart(wears(component, 110.0, 10.0, spread=known))
    usual = 3.0 if known is None else known
    uncertainties = []
    for count in range(1, 9):
        part = min(deviation, usual)
        apart = part * math.sqrt((count - 1) / count) if count % 2 == 0 else part
        sizes = [110.0 - middle + apart * (-1) ** index for index in range(count)]
        if count % 2 == 1:
            sizes[-1] = 110.0 - middle
        uncertainties.append(row_of(inspection(reading(component, tuple(sizes))), source).uncertainty or 0.0)
    assert all(more <= fewer + 1e-9 for fewer, more in pairwise(uncertainties))


@given(numbers(0.0, 100.0), numbers(0.0, 1.0), st.sampled_from(JUDGED_SINGLY))
def test_a_second_reading_of_a_spot_never_looks_less_sure(middle: float, part: float, component: Component) -> None:
    source = chart(wears(component, 110.0, 10.0))
    half = part / math.sqrt(2.0)  # the standard deviation of the two is `part` of the seat
    one = row_of(
        inspection(reading(component, {1: 110.0 - middle} if "roller" in component else 110.0 - middle)), source
    )
    pair = (110.0 - middle - half, 110.0 - middle + half)
    two = row_of(inspection(reading(component, {1: pair} if "roller" in component else pair)), source)
    assert one.uncertainty is not None
    assert two.uncertainty is not None
    assert two.uncertainty <= one.uncertainty


@pytest.mark.slow
@given(cases())
def test_a_mirrored_machine_has_the_same_overall_figure(case: Case) -> None:
    """Unless turns were told of one side alone, which these cases never do, sides weigh the same."""
    seen, source = case
    assume(seen.machine.links.left == seen.machine.links.right)
    here, there = assess(seen, source).overall, assess(swapped(seen), source).overall
    assert (there.percent_worn is None) is (here.percent_worn is None)
    if here.percent_worn is not None and there.percent_worn is not None:
        assert there.percent_worn == pytest.approx(here.percent_worn, abs=1e-9)


@pytest.mark.slow
@given(cases())
def test_assessing_twice_gives_the_same(case: Case) -> None:
    assert assess(*case) == assess(*case)
