"""Rule 31: since when a part wears, and on what evidence."""

import pytest
from builders import inspection, machine

from tracksworn.assessment.fitting import began, fitting_of, is_fitted_after, machine_hours
from tracksworn.inspection.model import FittedPart, Fitting, Hours
from tracksworn.inspection.vocabulary import Component, Evidence, Side

ROLLER = Component.BOTTOM_ROLLER


def test_the_narrowest_entry_speaks() -> None:
    third, left, every = Fitting(300.0), Fitting(200.0), Fitting(100.0)
    fitted = {ROLLER: every, FittedPart(ROLLER, Side.LEFT): left, FittedPart(ROLLER, Side.LEFT, 3): third}
    seen = inspection(fitted=fitted)
    assert fitting_of(seen, ROLLER, Side.LEFT, 3) is third
    assert fitting_of(seen, ROLLER, Side.LEFT, 2) is left
    assert fitting_of(seen, ROLLER, Side.RIGHT, 3) is every
    assert fitting_of(seen, Component.LINK, Side.LEFT) is None


@pytest.mark.parametrize("evidence", [one for one in Evidence if one is not Evidence.OWNERS_WORD])
def test_evidence_of_fitting(evidence: Evidence) -> None:
    assert began(Fitting(5210.0, evidence), word_counts=False) == 5210.0


def test_the_owners_word_counts_where_it_may() -> None:
    told = Fitting(5210.0, Evidence.OWNERS_WORD)
    assert began(told, word_counts=True) == 5210.0
    assert began(told, word_counts=False) is None


@pytest.mark.parametrize("fitting", [None, Fitting(), Fitting(5210.0), Fitting(known_from=Evidence.INVOICE)])
def test_nothing_is_taken_for_granted(fitting: Fitting | None) -> None:
    assert began(fitting, word_counts=True) is None


def test_original_parts_began_at_nought() -> None:
    assert began(Fitting(original=True), word_counts=False) == 0.0


def test_a_turn_goes_before_fitting() -> None:
    assert began(Fitting(5210.0, Evidence.INVOICE, turned_at=7100.0), word_counts=False) == 7100.0


def test_machine_hours_after_a_new_meter() -> None:
    seen = inspection(machine=machine(hours=Hours(412.0, meter_replaced_at=8000.0)))
    assert machine_hours(seen, word_counts=False) == 8412.0


def test_machine_hours_by_word() -> None:
    seen = inspection(machine=machine(hours=Hours(8412.0, Evidence.OWNERS_WORD)))
    assert machine_hours(seen, word_counts=True) == 8412.0
    assert machine_hours(seen, word_counts=False) is None
    assert machine_hours(inspection(), word_counts=True) is None


@pytest.mark.parametrize(
    ("fitting", "or_turned", "expected"),
    [
        (Fitting(5000.0), False, False),  # read at the hour at which it went on: the same part
        (Fitting(5001.0), False, True),
        (Fitting(4000.0, turned_at=6000.0), False, False),
        (Fitting(4000.0, turned_at=6000.0), True, True),
        (Fitting(original=True), True, False),
        (None, True, False),
    ],
)
def test_fitted_after(fitting: Fitting | None, or_turned: bool, expected: bool) -> None:
    assert is_fitted_after(fitting, 5000.0, or_turned=or_turned) is expected
    assert not is_fitted_after(fitting, None, or_turned=or_turned)
