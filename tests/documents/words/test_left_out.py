"""What hours and costs leave out: named, never silently missing."""

from dataclasses import replace
from datetime import date

from builders import by_eye, chart, inspection, machine, reading, unseen, wears
from foretold import forecast_row, piece, plain

from tracksworn.assessment.assess import assess
from tracksworn.assessment.decisions import Plan, RateFrom, Visit
from tracksworn.assessment.model import Assessment
from tracksworn.documents.words.figures import Figures
from tracksworn.documents.words.left_out import (
    before_all,
    by_word,
    first_to_do,
    goes_with,
    not_priced,
    once_put_right,
    other_rollers,
    without_hours,
)
from tracksworn.inspection.model import Fitting, Observation, Spot
from tracksworn.inspection.vocabulary import Component, Evidence, Grade, Side, Sign

LEFT, RIGHT = Side
ROLLER = Component.BOTTOM_ROLLER
CHART = chart(wears(ROLLER, 256.0, 210.0, share=0.5), wears(Component.SPROCKET, 50.0, 36.0, share=0.5))
SEIZED = Observation(Spot(Component.TOP_ROLLER, RIGHT, 1), (Sign.SEIZED,), Grade.SEVERE)
SEEN = inspection(
    reading(ROLLER, {1: 218.0, 2: 206.0, 3: 230.0}, {1: 224.0, 2: 230.0, 3: unseen("guard fitted")}),
    reading(Component.SPROCKET, by_eye(40, 60), by_eye(40, 60)),
    machine=machine(bottom_rollers=3, top_rollers=1),
    observations=(SEIZED,),
)
WORST = (
    forecast_row(ROLLER, LEFT, 0.0, 0.0, 0.0, position=2),
    forecast_row(ROLLER, RIGHT, 1000.0, 1500.0, 2000.0, position=1),
)
FIGURES = Figures()


def assessed(*visits: Visit) -> Assessment:
    plan = Plan(date(2031, 3, 1), "EUR", 95.0, visits, 0.0, 0.0)
    return replace(assess(SEEN, CHART), forecast=WORST, plan=plan)


def visit(after: float, *work: object) -> Visit:
    return Visit(after, 8412 + after, work, 1800.0, 0.0)  # type: ignore[arg-type]


NOW = visit(0.0, piece(ROLLER, LEFT, position=2))


def test_what_asks_for_action_and_is_not_worked_on_now_comes_first() -> None:
    codes = [one.code for one in before_all(assessed(NOW))]
    assert codes == ["seized"]
    later = [one.code for one in before_all(assessed(replace(NOW, after=300.0)))]
    assert "seized" in later
    assert len(later) > 1, "a roller past its limit that waits for a visit comes first as well"


def test_what_comes_first_is_named_by_its_finding() -> None:
    found = assessed(NOW)
    number = [one.code for one in found.findings].index("seized") + 1
    assert first_to_do(found, FIGURES).startswith("First, and not priced here: right top roller 1 is seized")
    assert list(not_priced(found, FIGURES)) == [f"Finding {number} comes first and is not priced."]
    assert once_put_right(found, FIGURES) == f"once finding {number} is put right"


def test_rollers_that_are_not_the_worst_are_named_where_they_are_far_gone() -> None:
    (said,) = other_rollers(assessed(NOW), FIGURES)
    assert plain(said) == (
        "Only the worst roller of each side is in these hours and costs; next: left bottom roller 1 (83 %)."
    )
    (without_costs,) = other_rollers(assessed(), FIGURES)
    assert "in these hours; next" in without_costs


def test_parts_without_hours_are_told_with_why() -> None:
    said = list(without_hours(assessed(NOW), FIGURES))
    assert "left and right sprockets (by eye)" in said
    assert any("right bottom roller 3" in one and one.endswith("(not seen)") for one in said)


def test_a_sprocket_goes_with_new_bushings() -> None:
    found = assessed(NOW, visit(800.0, piece(Component.BUSHING, RIGHT)))
    assert list(goes_with(found, FIGURES)) == ["Right sprocket: it goes with the new bushings, visit 2."]


def test_hours_rest_on_the_owners_word_only_since_fitting() -> None:
    told = inspection(fitted={Component.SPROCKET: Fitting(at=5000.0, known_from=Evidence.OWNERS_WORD)})
    row = forecast_row(Component.SPROCKET, LEFT, 300.0, 600.0, 900.0)
    assert by_word(row, told)
    assert not by_word(replace(row, rate_from=RateFrom.BETWEEN), told)
    assert not by_word(row, inspection())
