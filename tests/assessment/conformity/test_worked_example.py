"""The worked example in the docstring of `conformity` is what the program computes for the long example."""

import re

import pytest
from long_example import CHART, FIRM, INSPECTION, TERMS

from tracksworn.assessment.assess import assess, figures
from tracksworn.assessment.assumed import Assumptions
from tracksworn.assessment.conformity.conformity import conformity
from tracksworn.assessment.conformity.decision import margin
from tracksworn.assessment.decisions import Result
from tracksworn.inspection.vocabulary import Component, Side

LINE = re.compile(r"^ {4}(\w[\w ]*?) {2,}.* = ([\d.]+(?:e-\d+)?)", re.MULTILINE)


def printed() -> dict[str, float]:
    """Each named figure of the docstring."""
    return {name: float(value) for name, value in LINE.findall(conformity.__doc__ or "")}


def computed() -> dict[str, float]:
    so_far = figures(INSPECTION, CHART, Assumptions.set_by(FIRM))
    found = conformity(so_far, TERMS)
    verdict, row = found.components[0], so_far.row(Component.LINK, Side.LEFT)
    assert (verdict.component, verdict.side, verdict.result) == (Component.LINK, Side.LEFT, Result.FAILS)
    assert found.tested == 3
    assert row is not None
    assert row.percent_worn is not None
    assert row.budget is not None
    assert None not in (verdict.allowed, verdict.guard, verdict.guard_of_failure, verdict.probability)
    known = margin(row.percent_worn, row.budget, verdict.allowed or 0.0, 0.0175 * 20.0 / 3.0**0.5)
    return {
        "allowed": verdict.allowed or 0.0,
        "u": known.standard,
        "dof": known.dof,
        "guard": verdict.guard or 0.0,
        "guard of failure": verdict.guard_of_failure or 0.0,
        "probability": verdict.probability or 0.0,
    }


def test_every_figure_of_the_docstring() -> None:
    """To half a unit of the last digit printed: 0.5 in 10,000 and less, 2.63e-11 to 0.2 %."""
    assert printed() == pytest.approx(computed(), rel=2e-3, abs=1e-14)
    close = {name: value for name, value in printed().items() if name != "probability"}
    assert close == pytest.approx({name: computed()[name] for name in close}, abs=5e-3)
    for name in ("allowed", "u", "guard", "guard of failure"):
        assert close[name] == pytest.approx(computed()[name], abs=5e-5)


def test_the_file_formats_own_figures() -> None:
    """As the file format prints them: allowed 66.0, guard 3.6, probability 2.6e-11, fails."""
    found = computed()
    assert (found["allowed"], found["guard"]) == pytest.approx((66.0, 3.6), abs=0.05)
    assert found["probability"] == pytest.approx(2.6e-11, abs=0.05e-11)


def test_without_terms_there_is_no_verdict() -> None:
    found = assess(INSPECTION, CHART, FIRM, terms=TERMS).conformity
    assert found is not None
    assert (found.title, found.result) == ("Lantern Plan, undercarriage cover", Result.FAILS)
    assert assess(INSPECTION, CHART, FIRM).conformity is None
