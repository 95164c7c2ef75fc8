"""Words first: what can be told apart and what not, and what limits that."""

from collections.abc import Mapping
from datetime import date

import pytest
from builders import about, at_least, reading, unseen
from side_by_side import gap, looked_at, machines_of, pairs_of, plan, set_side_by_side

from tracksworn.assessment.comparing.model import Difference
from tracksworn.documents.comparison.acts import to_act_on
from tracksworn.documents.comparison.between import between
from tracksworn.documents.comparison.build import Compared
from tracksworn.documents.comparison.told import summary
from tracksworn.inspection.vocabulary import Component

A, B, C = looked_at("118"), looked_at("131", 50.0, 50.0), looked_at("207", 20.0, 20.0)


def words(*compared: Compared, by: Mapping[tuple[int, int], Difference] | None = None) -> str:
    told = summary(machines_of(*compared), between(len(compared), pairs_of(len(compared), by)))
    return f"{told.headline} {told.text}".strip()


def test_two_that_cannot_be_told_apart_are_not_ranked() -> None:
    said = words(A, B, by={(0, 1): gap(4.2)})
    assert said == "Lots 118 and 131 cannot be told apart: 4 points between them, with an uncertainty of 8."


def test_two_that_can_be_told_apart_are_named_the_more_worn_first() -> None:
    said = words(A, B, by={(0, 1): gap(-21.4)})
    assert said == "Lot 131 is more worn than lot 118: 21 points between them, with an uncertainty of 8."


def test_one_that_is_more_worn_than_both_others_comes_first_and_then_the_pair_that_is_open() -> None:
    said = words(A, B, C, by={(0, 1): gap(4.2), (0, 2): gap(-20.0), (1, 2): gap(-24.0)})
    assert said == (
        "Lot 207 is more worn than both others. "
        "Lots 118 and 131 cannot be told apart: 4 points between them, with an uncertainty of 8."
    )


def test_where_all_can_be_told_apart_it_says_so() -> None:
    said = words(A, B, C, by={(0, 1): gap(-10.0), (0, 2): gap(-30.0), (1, 2): gap(-20.0)})
    assert said.startswith("Lot 207 is more worn than both others. Lot 118 is less worn than both others.")
    assert "Each can be told apart from every other." in said


def test_what_was_not_seen_of_another_is_not_promised_by_the_headline() -> None:
    most, other = looked_at("207"), looked_at("131", unseen())
    said = words(A, other, most, by={(0, 1): gap(-10.0), (0, 2): gap(-30.0), (1, 2): gap(-20.0)})
    assert "Lot 118 is less worn than lot 207; than lot 131 in what was seen." in said


def test_without_any_surely_more_worn_nothing_is_called_so() -> None:
    said = words(A, B, C, by={(0, 1): gap(1.0), (0, 2): gap(2.0), (1, 2): gap(1.0)})
    assert "more worn" not in said
    assert said.count("cannot be told apart") == 3


def test_many_open_pairs_are_counted() -> None:
    machines = [looked_at(str(number)) for number in range(1, 6)]
    pairs = {(one, other): gap(1.0) for one in range(5) for other in range(one + 1, 5)}
    assert words(*machines, by=pairs) == "Of 10 pairs 10 cannot be told apart; the table of differences names them."


@pytest.mark.parametrize(
    ("points", "within", "expected"),
    [
        (-4.4, 4.1, "4.4 points between them, with an uncertainty of 4.1."),  # whole ones would say the opposite
        (-4.4, 4.6, "4 points between them, with an uncertainty of 5."),
        (-1.2, 0.4, "1.2 points between them, with an uncertainty of 0.4."),
        (-11.4, 11.2, "Lot 131 is just more worn than lot 118: 11 points between them, with an uncertainty of 12."),
        (-1.2, 1.8, "1 point between them, with an uncertainty of 2."),
    ],
)
def test_rounding_never_turns_a_verdict_round(points: float, within: float, expected: str) -> None:
    assert words(A, B, by={(0, 1): gap(points, within)}).endswith(expected)


def test_one_seen_less_fully_is_named() -> None:
    less = looked_at("131", readings=[reading(Component.SPROCKET, unseen(), unseen())])
    said = words(A, less, by={(0, 1): gap(4.2)})
    assert "Lot 131 was seen less fully: 60\u00a0% of its cost, where the fullest look has 100\u00a0%." in said


def test_what_was_not_seen_may_make_up_a_difference() -> None:
    less = looked_at("131", readings=[reading(Component.SPROCKET, unseen(), unseen())])
    said = words(A, less, by={(0, 1): gap(20.0)})
    assert "What was not seen could make up the difference between lots 118 and 131." in said
    seen = words(A, looked_at("131", 95.0, 95.0), by={(0, 1): gap(20.0)})
    assert "make up" not in seen


def test_a_machine_with_a_bound_alone_cannot_be_compared_as_a_whole() -> None:
    bound = looked_at("131", at_least(60), at_least(60), readings=[])
    said = words(A, bound, by={(0, 1): Difference(None, (), False)})
    assert "Of lot 131 only a lower bound is known; it cannot be compared as a whole." in said
    assert "cannot be told apart" not in said
    assert "By eye alone, without a measurement: lot 131." in said


def test_what_asks_for_action_is_said_of_each_machine() -> None:
    past = looked_at("131", 5.0, 60.0)
    said = words(A, past, by={(0, 1): gap(4.2)})
    acts = to_act_on(machines_of(past)[0].context)
    assert len(acts) >= 1
    assert f"To act on. Lot 131: {acts[0]}" in said
    assert "Lot 118:" not in said


def test_of_many_with_something_to_act_on_only_the_names_are_told() -> None:
    machines = [looked_at(str(number), 5.0, 60.0) for number in range(1, 5)]
    assert "To act on before all else: findings on lots 1, 2, 3 and 4." in words(*machines)


def test_machines_without_lots_are_called_by_their_numbers() -> None:
    said = words(looked_at("118", unlisted=True), looked_at("131"), by={(0, 1): gap(4.2)})
    assert said.startswith("N-118 and N-131 cannot be told apart")


@pytest.mark.parametrize(
    ("other", "expected"),
    [
        (plan("USD"), "Priced in currencies that cannot be set against each other: lot 118 in EUR and lot 131 in USD."),
        (
            plan(as_of=date(2030, 3, 1)),
            "Costs of lots 118 and 131 are by price lists of different days: set them against each other with care.",
        ),
        (plan(), "Costs are estimates from price lists, not offers."),
        (None, ""),
    ],
)
def test_costs_of_other_currencies_or_days_are_never_set_side_by_side_in_silence(other: object, expected: str) -> None:
    assert set_side_by_side(looked_at("118", plan=plan()), looked_at("131", plan=other)).money == expected


def test_estimates_that_are_about_something_have_a_middle_and_can_be_compared() -> None:
    said = words(A, looked_at("131", about(50), about(50), readings=[]), by={(0, 1): gap(4.2, 20.0)})
    assert "cannot be told apart: 4 points between them, with an uncertainty of 20." in said


def test_only_what_is_priced_otherwise_is_told_apart() -> None:
    euro, other = looked_at("118", plan=plan()), looked_at("131", plan=plan("USD"))
    assert set_side_by_side(euro, other, looked_at("207", plan=plan())).money == (
        "Priced in currencies that cannot be set against each other: lots 118 and 207 in EUR and lot 131 in USD."
    )
