"""When changing places is advised, and when it is not."""

from collections.abc import Sequence

import pytest
from builders import Said, about, at_least, by_eye, chart, inspection, machine, reading, unseen, wears
from planning import prices

from tracksworn.assessment.assess import figures
from tracksworn.assessment.assumed import Assumptions
from tracksworn.assessment.decisions import Swap
from tracksworn.assessment.plan.swaps import swaps
from tracksworn.inspection.model import Observation, Reading, Spot
from tracksworn.inspection.prices import Price, Work
from tracksworn.inspection.vocabulary import Component, Grade, Side, Sign

ROLLER, SPROCKET = Component.BOTTOM_ROLLER, Component.SPROCKET
POSITIONS, SIDES = Work.SWAP_POSITIONS, Work.SWAP_SIDES
TWO_HOURS = Price(labour=2.0, until_percent=80.0)


def advised(
    *readings: Reading,
    way: Work = POSITIONS,
    price: Price = TWO_HOURS,
    ends: tuple[float, float] | None = None,
    seen: Sequence[Observation] = (),
) -> tuple[Swap, ...]:
    """The swaps of what was read on a chart where a size of 100 - w is w percent, labour at 100 an hour."""
    source = chart(*(wears(each.component, 100.0, 0.0, ends=ends) for each in readings))
    so_far = figures(inspection(*readings, machine=machine(bottom_rollers=4), observations=seen), source, Assumptions())
    return swaps(so_far, prices({each.component: {way: price} for each in readings}))


def rollers(left: Said = None, right: Said = None) -> Reading:
    return reading(ROLLER, left, right)


def test_the_most_worn_roller_of_a_side_with_its_least_worn() -> None:
    """Both rollers are worked on: twice two hours."""
    (swap,) = advised(rollers((40.0, 60.0, 75.0, 55.0)))
    assert (swap.component, swap.way, swap.side, swap.positions) == (ROLLER, POSITIONS, Side.LEFT, (1, 3))
    assert swap.worn == pytest.approx((60.0, 25.0))
    assert swap.cost == pytest.approx(400.0)


def test_each_side_has_its_own() -> None:
    found = advised(rollers((40.0, 60.0, 75.0, 55.0), {2: 90.0, 4: about(70), "others": unseen()}))
    assert [(swap.side, swap.positions) for swap in found] == [(Side.LEFT, (1, 3)), (Side.RIGHT, (4, 2))]


@pytest.mark.parametrize(
    "left",
    [
        pytest.param((50.0, 53.0, 54.0, 54.9), id="under five points apart"),
        pytest.param({1: by_eye(30, 50), 2: by_eye(15, 35), "others": unseen()}, id="within their uncertainty"),
        pytest.param((19.0, 60.0, 60.0, 60.0), id="past the window"),
        pytest.param({1: 40.0, "others": unseen()}, id="only one seen"),
        pytest.param({1: at_least(70), 2: 90.0, "others": unseen()}, id="a bound has no middle"),
    ],
)
def test_none_is_advised_where_it_is_not_shown_to_help(left: Said) -> None:
    assert advised(rollers(left)) == ()


def test_the_window_holds_its_ends() -> None:
    assert len(advised(rollers((20.0, 60.0, 60.0, 60.0)))) == 1
    assert len(advised(rollers((20.0, 60.0, 60.0, 60.0)), price=Price(1.0, from_percent=80.0))) == 1
    assert advised(rollers((21.0, 60.0, 60.0, 60.0)), price=Price(1.0, from_percent=80.0)) == ()


def test_never_at_the_limit() -> None:
    assert len(advised(rollers((0.1, 60.0, 60.0, 60.0)), price=Price(1.0))) == 1
    assert advised(rollers((0.0, 60.0, 60.0, 60.0)), price=Price(1.0)) == ()


def test_rollers_of_another_size_stay_where_they_are() -> None:
    """The first and the last differ from those between: 40 % against 70 %, and 20 % against 50 %."""
    first_and_last = advised(rollers((66.0, 80.0, 50.0, 36.0)), ends=(110.0, 10.0))
    assert [swap.positions for swap in first_and_last] == [(4, 1), (3, 2)]
    assert [swap.worn[0] for swap in first_and_last] == pytest.approx([74.0, 50.0])


def test_sides_change_where_they_are_shown_to_differ() -> None:
    """Both sides are worked on."""
    (swap,) = advised(reading(SPROCKET, 40.0, 70.0), way=SIDES, price=Price(50.0, 3.0))
    assert (swap.component, swap.way, swap.side, swap.positions) == (SPROCKET, SIDES, None, None)
    assert swap.worn == pytest.approx((60.0, 30.0))
    assert swap.cost == pytest.approx(2 * 350.0)
    assert advised(reading(SPROCKET, 40.0, 43.0), way=SIDES) == ()


def test_sides_do_not_change_past_the_window_nor_with_one_unseen() -> None:
    assert advised(reading(SPROCKET, 15.0, 70.0), way=SIDES) == ()
    assert advised(reading(SPROCKET, 40.0, unseen()), way=SIDES) == ()


def test_rollers_of_a_side_change_over_all_together() -> None:
    (swap,) = advised(rollers((40.0, 40.0, 40.0, 40.0), (70.0, 70.0, 70.0, 70.0)), way=SIDES, price=Price(10.0))
    assert swap.cost == pytest.approx(8 * 10.0)


@pytest.mark.parametrize(
    ("at", "positions"),
    [
        (Spot(ROLLER, Side.LEFT, 1), (4, 3)),  # the most worn stays: the next most worn
        (Spot(ROLLER, Side.LEFT, 3), (1, 2)),
        (Spot(ROLLER, Side.LEFT, 2), (1, 3)),
        (Spot(ROLLER, Side.RIGHT, 1), (1, 3)),
        (Spot(SPROCKET, Side.LEFT), (1, 3)),
        (Spot(ROLLER, Side.LEFT), None),  # it may be any of them
        (Spot(ROLLER), None),
    ],
)
def test_what_another_place_does_not_mend_stays(at: Spot, positions: tuple[int, int] | None) -> None:
    found = advised(rollers((40.0, 60.0, 75.0, 55.0)), seen=[Observation(at, (Sign.LEAK,), Grade.SLIGHT)])
    assert [swap.positions for swap in found] == ([positions] if positions else [])


def test_what_was_looked_for_and_not_found_stands_in_no_way() -> None:
    looked = Observation(Spot(ROLLER, Side.LEFT, 1), (Sign.LEAK,), Grade.NONE)
    worn = Observation(Spot(ROLLER, Side.LEFT, 1), (Sign.CORROSION,), Grade.SLIGHT)
    (swap,) = advised(rollers((40.0, 60.0, 75.0, 55.0)), seen=[looked, worn])
    assert swap.positions == (1, 3)


def test_sides_stay_where_one_of_them_is_damaged() -> None:
    cracked = Observation(Spot(SPROCKET, Side.RIGHT), (Sign.CRACK,))
    assert advised(reading(SPROCKET, 40.0, 70.0), way=SIDES, seen=[cracked]) == ()


def test_only_rollers_have_positions_to_change() -> None:
    assert advised(reading(SPROCKET, 40.0, 70.0), way=POSITIONS) == ()
