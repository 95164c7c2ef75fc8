"""Which way is chosen for each part."""

from collections.abc import Mapping

import pytest
from planning import Part, found, prices

from tracksworn.assessment.plan.work import Piece, pieces
from tracksworn.inspection.prices import Price, Work
from tracksworn.inspection.vocabulary import Component, Side, Track

LINK, BUSHING, ROLLER = Component.LINK, Component.BUSHING, Component.BOTTOM_ROLLER
Ways = Mapping[Work, Price]


def way(part: Part, ways: Ways) -> Work | None:
    """The way chosen for one part alone."""
    chosen = list(pieces(found([part]), prices({part.component: ways})))
    return chosen[0].way if chosen else None


def test_the_cheapest_of_parts_and_labour() -> None:
    """Labour is 100 an hour: 500 and 12 h are less than 1 800."""
    ways = {Work.REPLACE: Price(1800.0), Work.REBUILD: Price(500.0, 12.0)}
    (piece,) = pieces(found([Part(LINK, Side.LEFT, 60.0, 900.0)]), prices({LINK: ways}))
    assert (piece.way, piece.parts, piece.labour, piece.cost) == (Work.REBUILD, 500.0, 1200.0, 1700.0)


def test_of_equal_costs_the_first_in_the_order_of_the_ways() -> None:
    ways = {Work.RE_SHELL: Price(300.0), Work.REBUILD: Price(0.0, 3.0), Work.REPLACE: Price(300.0 + 5e-10)}
    assert way(Part(ROLLER, Side.LEFT, 60.0, 900.0), ways) is Work.REPLACE


@pytest.mark.parametrize(
    ("worn", "until", "chosen"),
    [
        (60.0, None, Work.REBUILD),
        (60.0, 100.0, Work.REBUILD),
        (60.0, 90.0, Work.REPLACE),  # the window is shut when the limit comes
        (104.0, 100.0, Work.REPLACE),  # past it, there is no way back
        (104.0, 104.0, Work.REBUILD),
        (104.0, 120.0, Work.REBUILD),
    ],
)
def test_a_way_is_open_at_the_limit_or_past_it_where_the_part_is(
    worn: float, until: float | None, chosen: Work
) -> None:
    ways = {Work.REPLACE: Price(900.0), Work.REBUILD: Price(100.0, until_percent=until)}
    assert way(Part(LINK, Side.LEFT, worn, 0.0 if worn >= 100.0 else 900.0), ways) is chosen


def test_where_a_window_begins_is_not_heeded() -> None:
    ways = {Work.REPLACE: Price(900.0), Work.REBUILD: Price(100.0, from_percent=90.0)}
    assert way(Part(LINK, Side.LEFT, 10.0, 3000.0), ways) is Work.REBUILD


@pytest.mark.parametrize("swap", [Work.SWAP_SIDES, Work.SWAP_POSITIONS])
def test_a_swap_is_never_planned(swap: Work) -> None:
    assert way(Part(ROLLER, Side.LEFT, 60.0, 900.0), {swap: Price(1.0)}) is None


def test_nothing_is_planned_without_a_price_or_without_a_forecast() -> None:
    so_far = found([Part(LINK, Side.LEFT, 60.0, 900.0), Part(ROLLER, Side.LEFT, 60.0, None)])
    assert list(pieces(so_far, prices({ROLLER: {Work.REPLACE: Price(100.0)}}))) == []
    assert list(pieces(found([Part(LINK, Side.LEFT, 60.0)]), prices({LINK: {Work.REPLACE: Price(100.0)}}))) == []


TO_TURN = {Work.REPLACE: Price(4000.0), Work.TURN: Price(600.0)}


def turned_or_not(
    worn: float = 70.0,
    rails: float | None = 6000.0,
    bushing: float = 1000.0,
    turns: int | None = 1,
    done: bool = False,
    track: Track = Track.SEALED_AND_LUBRICATED,
) -> Work:
    """What is chosen for a left bushing with 1 000 h left of 4 000, on rails with so many hours left."""
    so_far = found(
        [
            Part(LINK, Side.LEFT, 20.0, rails),
            Part(LINK, Side.RIGHT, 20.0, 9000.0),
            Part(BUSHING, Side.LEFT, worn, bushing),
        ],
        turns=turns,
        turned={Side.LEFT: done},
        track=track,
    )
    (piece,) = pieces(so_far, prices({BUSHING: TO_TURN}))
    return piece.way


def test_a_bushing_is_turned_where_the_rails_outlive_its_second_side() -> None:
    """1 000 h until the turn and 4 000 h on the second side."""
    assert turned_or_not() is Work.TURN
    assert turned_or_not(rails=5000.0) is Work.TURN
    assert turned_or_not(rails=4999.0) is Work.REPLACE


def test_rails_without_a_forecast_on_its_own_side_do_not_show_that_a_turn_pays() -> None:
    assert turned_or_not(rails=None) is Work.REPLACE


def test_no_turn_where_none_is_left_or_none_can_be() -> None:
    assert turned_or_not(done=True) is Work.REPLACE
    assert turned_or_not(turns=None) is Work.REPLACE
    assert turned_or_not(track=Track.ROTATING_BUSHING) is Work.REPLACE


def test_no_turn_past_the_limit() -> None:
    assert turned_or_not(worn=100.0, bushing=0.0) is Work.TURN
    assert turned_or_not(worn=100.1, bushing=0.0) is Work.REPLACE


def test_whether_a_turn_is_left_that_nobody_told_is_no_turn() -> None:
    parts = [Part(LINK, Side.LEFT, 20.0, 9000.0), Part(BUSHING, Side.LEFT, 70.0, 1000.0)]
    (piece,) = pieces(found(parts, turns=1), prices({BUSHING: TO_TURN}))
    assert piece.way is Work.REPLACE


def test_only_bushings_are_turned() -> None:
    assert way(Part(LINK, Side.LEFT, 50.0, 500.0), {Work.TURN: Price(10.0)}) is None


def test_life_lost_is_the_part_of_the_cost_that_its_hours_pay_for() -> None:
    """900 h too early of a life of 4 000 h, at 2 000."""
    row = Part(LINK, Side.LEFT, 60.0, 1500.0, 4000.0).foretold
    assert row is not None
    piece = Piece(row, Work.REPLACE, 1500.0, 500.0)
    assert piece.life_lost(600.0) == pytest.approx(2000.0 * 900.0 / 4000.0)
    assert piece.life_lost(1500.0) == 0.0
