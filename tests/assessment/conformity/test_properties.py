"""What must hold of verdicts on any machine."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from strategies import cases, numbers

from tracksworn.assessment.assess import figures
from tracksworn.assessment.assumed import Assumptions
from tracksworn.assessment.conformity.conformity import conformity
from tracksworn.assessment.decisions import Conformity, Result
from tracksworn.inspection.chart import WearChart
from tracksworn.inspection.model import FittedPart, Fitting, Hours, Inspection
from tracksworn.inspection.terms import Rule, Terms
from tracksworn.inspection.vocabulary import WEARING

HARSHNESS = [Result.PASSES, Result.UNDECIDED, Result.FAILS]
ALL_ORIGINAL = {FittedPart(component): Fitting(original=True) for component in WEARING}

Case = tuple[Inspection, WearChart]


def judged(case: Case, allowed: float, rule: Rule = Rule.GUARDED) -> Conformity:
    """At 2000 h since everything was new, halfway between two rows."""
    seen, source = case
    seen = replace(seen, fitted=ALL_ORIGINAL, machine=replace(seen.machine, hours=Hours(2000.0)))
    terms = Terms("Plan", rule, {None: ((1000.0, allowed - 10.0), (3000.0, allowed + 10.0))}, hours_within=50.0)
    return conformity(figures(seen, source, Assumptions()), terms)


@pytest.mark.slow
@given(cases(), numbers(0.0, 120.0), numbers(0.0, 60.0), st.sampled_from(Rule))
def test_a_lower_allowance_never_helps(case: Case, allowed: float, less: float, rule: Rule) -> None:
    generous, strict = judged(case, allowed, rule), judged(case, allowed - less, rule)
    assert HARSHNESS.index(strict.result) >= HARSHNESS.index(generous.result)
    for one, other in zip(strict.components, generous.components, strict=True):
        assert HARSHNESS.index(one.result) >= HARSHNESS.index(other.result)


@pytest.mark.slow
@given(cases(), numbers(0.0, 120.0))
def test_the_guarded_rule_is_never_bolder_than_the_simple_one(case: Case, allowed: float) -> None:
    guarded, simple = judged(case, allowed), judged(case, allowed, Rule.SIMPLE)
    for one, other in zip(guarded.components, simple.components, strict=True):
        assert one.result in (other.result, Result.UNDECIDED)
        assert one.probability == other.probability


@pytest.mark.slow
@given(cases(), numbers(0.0, 120.0))
def test_every_row_says_why_where_it_is_not_decided(case: Case, allowed: float) -> None:
    for one in judged(case, allowed).components:
        assert (one.why is None) is (one.result in (Result.PASSES, Result.FAILS))
        assert (one.guard is None) is (one.probability is None) is (one.guard_of_failure is None)
