"""Published values of conformity and agreement, and the risks that verdicts attain where the truth is known."""

import math
from collections.abc import Iterable
from dataclasses import dataclass, fields
from datetime import date
from functools import cache

import numpy as np
import pytest
from builders import chart, gauge, inspection, machine, reading, wears
from numpy.random import Generator

from tracksworn.assessment.assess import figures
from tracksworn.assessment.assumed import Assumptions
from tracksworn.assessment.comparing.agreement import agreements
from tracksworn.assessment.comparing.difference import difference
from tracksworn.assessment.comparing.model import Assessed, Difference
from tracksworn.assessment.conformity.conformity import conformity
from tracksworn.assessment.conformity.decision import Margin, decide
from tracksworn.assessment.decisions import Conformity, Result
from tracksworn.assessment.model import (
    Assessment,
    Basis,
    Parts,
    PlaceFigure,
    Reckoning,
    Row,
)
from tracksworn.assessment.occasions import Occasion
from tracksworn.assessment.uncertainty import Budget, Contribution, Kind, Source
from tracksworn.inspection.model import Fitting, Hours, Inspection
from tracksworn.inspection.terms import Rule, Terms
from tracksworn.inspection.vocabulary import CHAINS, Component, Side

TWO_U = math.erf(math.sqrt(2.0))
"""The confidence at which the factor is 2: within two standard deviations of a normal distribution, 95.45 %."""


def known(margin: float, standard: float, dof: float = math.inf) -> Margin:
    return Margin(margin, standard, dof)


@pytest.mark.parametrize(
    ("reduced", "probability"),
    [(0.0, 0.5), (1.0, 0.8413), (1.645, 0.95), (1.96, 0.975), (2.0, 0.97725), (-2.0, 0.02275), (3.0, 0.99865)],
)
def test_probability_of_conformity_is_normal(reduced: float, probability: float) -> None:
    """JCGM 106:2012 and ILAC-G8:09/2019 4.2: Φ((limit − w)/u) for an upper limit."""
    assert known(reduced * 1.7, 1.7).probability == pytest.approx(probability, abs=5e-5)


def test_a_breakdown_voltage() -> None:
    """JCGM 106:2012, its example of a breakdown voltage, from memory: −5.47 V, u 0.05 V, at most −5.40 V: 0.919."""
    assert known(-5.40 - -5.47, 0.05).probability == pytest.approx(0.919, abs=5e-4)


def test_a_guard_band_of_the_expanded_uncertainty() -> None:
    """ILAC-G8:09/2019 4.2: on the edge of a guard band of U = 2u false acceptance is 2.275 %, with none up to 50 %."""
    guard = known(0.0, 1.0).guard(TWO_U)
    assert guard == pytest.approx(2.0, abs=1e-6)
    assert 1.0 - known(guard, 1.0).probability == pytest.approx(0.02275, abs=5e-6)
    assert 1.0 - known(0.0, 1.0).probability == pytest.approx(0.5)
    assert decide(guard, guard, guard) is Result.PASSES
    assert decide(0.0, 0.0, 0.0) is Result.PASSES


@pytest.mark.parametrize(("dof", "factor"), [(1, 12.71), (4, 2.78), (16, 2.12), (50, 2.01), (math.inf, 1.960)])
def test_guards_by_students_t(dof: float, factor: float) -> None:
    """GUM Table G.2, 95 %."""
    assert known(0.0, 3.0, dof).guard(0.95) / 3.0 == pytest.approx(factor, abs=0.005)


def seen_at(percent: float, expanded: float) -> Occasion:
    """One figure with an expanded uncertainty, at infinite degrees of freedom."""
    budget = Budget({Source(Kind.INSPECTOR): Contribution(expanded / 1.959963985)})
    place = PlaceFigure(None, (), 0.0, percent, budget, expanded, None)
    row = Row(Component.LINK, Side.LEFT, None, Basis.MEASURED, percent_worn=percent, places=(place,))
    return Occasion(inspection(), Parts((row,)))


@pytest.mark.parametrize(("second", "e_n"), [(50.0, 0.0), (54.0, 0.8), (55.0, 1.0), (40.0, 2.0)])
def test_e_n_of_three_and_four(second: float, e_n: float) -> None:
    """ISO/IEC 17043, from memory: |x₁ − x₂| / √(U₁² + U₂²), satisfactory up to 1; √(3² + 4²) is 5."""
    (found,) = agreements(seen_at(50.0, 3.0), seen_at(second, 4.0))
    assert found.e_n == pytest.approx(e_n)


# Machines whose truth is known. A millimetre is a point; 40 % is allowed at 2000 h and 0.02 points an hour.

ALLOWED = 40.0
SLOPE = 0.02
HOURS_WITHIN = 20.0
TOLERANCE = 1.0
CHART = chart(
    wears(Component.LINK, 110.0, 10.0, tolerance=TOLERANCE),
    wears(Component.SPROCKET, 110.0, 10.0, tolerance=TOLERANCE),
)
TERMS = Terms("Plan", Rule.GUARDED, {None: ((0.0, 0.0), (4000.0, 80.0))}, hours_within=HOURS_WITHIN)
COUNT = 1000
TABLE = Assumptions()


Sizes = dict[tuple[Component, Side], float]


@dataclass(frozen=True)
class Hand:
    """Who measures, with what: the errors that all of his readings share, points."""

    name: str
    calibrated: date
    tool: float
    own: dict[Component, float]


def hand(rng: Generator, name: str = "Ines Marlow", calibrated: date = date(2031, 1, 12)) -> Hand:
    own = {component: TABLE.inspector * rng.standard_normal() for component in CHART.components}
    return Hand(name, calibrated, rng.uniform(-0.6, 0.6), own)


def new_sizes(rng: Generator) -> Sizes:
    """What each part measured when it was new."""
    return {(part, side): 110.0 + rng.uniform(-TOLERANCE, TOLERANCE) for part in CHART.components for side in Side}


def walk(rng: Generator, new: Sizes, by: Hand) -> Inspection:
    """A machine all of whose parts are truly as worn as is allowed, as it reads.

    Every error is drawn as the program takes it; a scatter that is known beforehand is known to about a third.
    """
    readings = []
    for component in CHART.components:
        chain = component in CHAINS
        usual = TABLE.spread if chain else TABLE.seat
        scatter = usual * math.exp(rng.normal(0.0, 0.35))
        middles = (new[component, side] - ALLOWED + by.tool + by.own[component] for side in Side)
        left, right = (middle + scatter * rng.standard_normal(4 if chain else 1) for middle in middles)
        readings.append(reading(component, left.tolist(), right.tolist(), gauge="caliper"))
    return inspection(
        *readings,
        machine=machine(hours=Hours(2000.0 + rng.uniform(-HOURS_WITHIN, HOURS_WITHIN))),
        instruments=[gauge("caliper", accuracy=0.6, calibrated=by.calibrated)],
        fitted={component: Fitting(original=True) for component in CHART.components},
        inspector=by.name,
    )


@cache
def verdicts_where_all_lie_on_the_allowance() -> tuple[Conformity, ...]:
    """The worst case for both risks: every part exactly as worn as is allowed at 2000 true hours."""
    rng = np.random.default_rng(106)
    walks = (walk(rng, new_sizes(rng), hand(rng)) for _ in range(COUNT))
    return tuple(conformity(figures(seen, CHART, TABLE), TERMS) for seen in walks)


def rate(held: Iterable[bool]) -> float:
    return float(np.mean(list(held)))


def slack(chance: float) -> float:
    """Three standard errors of a simulated rate."""
    return 3.0 * math.sqrt(chance * (1.0 - chance) / COUNT)


@pytest.mark.slow
def test_a_part_that_is_not_better_than_allowed_passes_at_most_once_in_forty() -> None:
    verdicts = [one for each in verdicts_where_all_lie_on_the_allowance() for one in each.components]
    passed = rate(one.result is Result.PASSES for one in verdicts)
    assert 0.01 < passed <= 0.025 + slack(0.025)


@pytest.mark.slow
def test_a_machine_that_conforms_fails_at_most_once_in_forty() -> None:
    found = verdicts_where_all_lie_on_the_allowance()
    assert {each.tested for each in found} == {4}
    assert 0.005 < rate(each.result is Result.FAILS for each in found) <= 0.025 + slack(0.025)


@pytest.mark.slow
def test_without_a_guard_every_other_part_on_the_allowance_passes() -> None:
    """ILAC-G8:09/2019 4.2: up to 50 %."""
    verdicts = [one for each in verdicts_where_all_lie_on_the_allowance() for one in each.components]
    assert rate((one.probability or 0.0) >= 0.5 for one in verdicts) == pytest.approx(0.5, abs=slack(0.5))


@cache
def two_looks(*, by_one_hand: bool) -> tuple[Difference, ...]:
    """One machine at one wear, looked at twice by one person with one gauge, or by two with two."""
    rng = np.random.default_rng(17043)
    found = []
    for _ in range(COUNT):
        new, first = new_sizes(rng), hand(rng)
        second = first if by_one_hand else hand(rng, "Ivo Renn", date(2031, 2, 3))
        found.append(difference(*(assessed(walk(rng, new, by)) for by in (first, second))))
    return tuple(found)


def assessed(seen: Inspection) -> Assessed:
    so_far = figures(seen, CHART, TABLE)
    parts = {one.name: getattr(so_far, one.name) for one in fields(Reckoning)}
    whole = Assessment(**parts, method=1, number=seen.number, revision=0, inspected=seen.inspected)
    return Assessed(seen, CHART, whole)


@pytest.mark.long
@pytest.mark.parametrize("by_one_hand", [True, False])
def test_two_looks_at_one_wear_are_told_apart_at_most_once_in_twenty(by_one_hand: bool) -> None:
    found = two_looks(by_one_hand=by_one_hand)
    sides = rate(gap.told_apart for each in found for side in each.sides if (gap := side.gap))
    overall = rate(each.overall.told_apart for each in found if each.overall)
    assert 0.02 < sides <= 0.05 + slack(0.05)
    assert 0.02 < overall <= 0.05 + slack(0.05)


@pytest.mark.slow
def test_e_n_is_over_one_at_most_once_in_twenty() -> None:
    over = rate(one.e_n > 1.0 for each in two_looks(by_one_hand=False) for one in each.agreement)
    assert 0.02 < over <= 0.05 + slack(0.05)
