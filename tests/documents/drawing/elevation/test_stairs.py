"""Labels in rows: in the order of their places, apart, near to them, and clear of what stands."""

from itertools import combinations, pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracksworn.documents.drawing.elevation import Pin
from tracksworn.documents.drawing.elevation.beside import beside
from tracksworn.documents.drawing.elevation.boxes import Box, cross
from tracksworn.documents.drawing.elevation.label import Label, Sizes, Wanted
from tracksworn.documents.drawing.elevation.stairs import in_rows
from tracksworn.documents.drawing.lettering import pooled
from tracksworn.inspection.model import Spot

WIDTH, DEEP = 182.0, 60.0
ROWS = (20.0, 13.6, 7.2)


def wanted(*across: float, ranks: tuple[int, ...] = (), rows: tuple[float, ...] = ROWS) -> list[Wanted]:
    given = ranks or (0,) * len(across)
    return [
        Wanted(Pin(number + 1, "Leak, marked", "bottom roller 3", Spot(None), rank), ((x, DEEP),), rows=rows)
        for number, (x, rank) in enumerate(zip(across, given, strict=True))
    ]


def stood(wants: list[Wanted], *standing: Box) -> tuple[Label, ...]:
    return in_rows(wants, WIDTH, Sizes(), beside(standing))


@given(st.lists(st.floats(5, 177), min_size=1, max_size=12))
def test_no_two_meet_and_the_nearest_row_comes_first(across: list[float]) -> None:
    labels = stood(wanted(*across))
    assert labels
    assert not any(a.box.meets(b.box) for a, b in combinations(labels, 2))
    assert all(label.box.left >= 0 and label.box.right <= WIDTH for label in labels)
    assert all(label.disc[1] in ROWS for label in labels)
    leaders = [np.asarray(label.leader) for label in labels]
    assert not any(cross(*a, *b) for a, b in combinations(leaders, 2))


def test_few_stand_in_one_row_straight_over_their_places() -> None:
    labels = stood(wanted(30, 90, 150))
    assert [label.disc for label in labels] == [(30.0, 20.0), (90.0, 20.0), (150.0, 20.0)]


def test_neighbours_stand_one_above_the_other_rather_than_far_aside() -> None:
    labels = stood(wanted(90, 92, 94))
    assert {label.disc[1] for label in labels} > {20.0}
    assert max(abs(label.disc[0] - label.place[0]) for label in labels) < 8


def test_where_not_all_find_room_the_graver_stay() -> None:
    labels = stood(wanted(*[16.0 * k for k in range(1, 11)], ranks=(1, 3) * 5, rows=(20.0,)))
    assert {label.pin.number for label in labels} >= {2, 4, 6, 8, 10}
    assert len(labels) < 10


def test_a_leader_goes_round_type_that_stands_in_its_way() -> None:
    (straight,) = stood(wanted(90))
    (aside,) = stood(wanted(90), Box(86, 40, 92, 42))
    assert straight.disc[0] == straight.place[0]
    assert abs(aside.disc[0] - aside.place[0]) > 3


@given(st.lists(st.floats(0, 100), min_size=2, max_size=9), st.data())
def test_pooled_keeps_every_gap_and_moves_nothing_that_need_not(wanted: list[float], data: st.DataObject) -> None:
    gaps = data.draw(st.lists(st.floats(0, 20), min_size=len(wanted) - 1, max_size=len(wanted) - 1))
    placed = pooled(wanted, gaps)
    assert all(b - a >= gap - 1e-6 for (a, b), gap in zip(pairwise(placed), gaps, strict=True))
    assert pooled(placed, gaps) == pytest.approx(placed)
    assert sum(placed) == pytest.approx(sum(wanted), abs=1e-6)
