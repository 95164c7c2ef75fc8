"""What must hold of the difference of any two inspections."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from strategies import cases, charts, inspections

from tracksworn.assessment.assess import figures
from tracksworn.assessment.assumed import Assumptions
from tracksworn.assessment.comparing.difference import difference
from tracksworn.assessment.comparing.model import Assessed, Difference, Gap
from tracksworn.assessment.model import Assessment
from tracksworn.inspection.chart import WearChart
from tracksworn.inspection.model import Inspection
from tracksworn.inspection.vocabulary import Component, Side


def assessed(seen: Inspection, by: WearChart) -> Assessed:
    """The figures alone: a difference looks at nothing else."""
    found = figures(seen, by, Assumptions())
    return Assessed(
        seen,
        by,
        Assessment(
            components=found.components,
            sides=found.sides,
            overall=found.overall,
            travel=found.travel,
            method=1,
            number=seen.number,
            revision=0,
            inspected=seen.inspected,
        ),
    )


Case = tuple[Inspection, WearChart]


@st.composite
def pairs(draw: st.DrawFn) -> tuple[Case, Case]:
    """Two inspections by one chart or by two, of one machine or of two."""
    one = draw(charts())
    other = draw(st.just(one) | charts())
    first, second = draw(inspections(one)), draw(inspections(other))
    serial = draw(st.sampled_from((first.machine.serial, "another")))
    second = replace(second, machine=replace(second.machine, serial=serial))
    return (first, one), (second, other)


def gaps(found: Difference) -> dict[tuple[Component, Side] | None, Gap | None]:
    sides: dict[tuple[Component, Side] | None, Gap | None] = {
        (entry.component, entry.side): entry.gap for entry in found.sides
    }
    return {None: found.overall} | sides


@pytest.mark.slow
@given(pairs())
def test_the_other_way_round_is_the_negative(pair: tuple[Case, Case]) -> None:
    first, second = (assessed(*case) for case in pair)
    there, back = difference(first, second), difference(second, first)
    assert gaps(there).keys() == gaps(back).keys()
    for key, gap in gaps(there).items():
        other = gaps(back)[key]
        assert (gap is None) is (other is None)
        if gap is not None and other is not None:
            assert gap.points == pytest.approx(-other.points, abs=1e-9)
            assert gap.uncertainty == pytest.approx(other.uncertainty)
    assert {(*_part(one), one.e_n) for one in there.agreement} == {(*_part(one), one.e_n) for one in back.agreement}


def _part(one: object) -> tuple[object, ...]:
    return tuple(getattr(one, name) for name in ("component", "side", "position", "place"))


@pytest.mark.slow
@given(cases())
def test_with_itself_nothing_differs_and_only_what_is_made_anew_is_doubtful(case: Case) -> None:
    one = assessed(*case)
    found = difference(one, one)
    assert found.same_machine
    assert all(each.e_n == 0.0 for each in found.agreement)
    for gap in gaps(found).values():
        if gap is not None:
            assert gap.points == 0.0
            assert not gap.told_apart
