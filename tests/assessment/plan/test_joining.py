"""What must be done together, and what need not be."""

from collections.abc import Sequence

import pytest
from planning import Part

from tracksworn.assessment.plan.joining import BOTH_SIDES, TRACK_OFF, joined
from tracksworn.assessment.plan.work import Piece
from tracksworn.inspection.prices import Work
from tracksworn.inspection.vocabulary import WEARING, Component, Side

C, LEFT, RIGHT = Component, Side.LEFT, Side.RIGHT
Named = tuple[Component, Side, Work]


def work(named: Sequence[Named]) -> list[Piece]:
    rows = [Part(component, side, 50.0, 1000.0 + index).foretold for index, (component, side, _) in enumerate(named)]
    return [Piece(row, way, 1000.0, 0.0) for row, (_, _, way) in zip(rows, named, strict=True) if row is not None]


def groups(*named: Named, together: Sequence[Sequence[Component]] = ()) -> list[list[int]]:
    """The jobs, as numbers of their pieces."""
    pieces = work(named)
    return [[pieces.index(piece) for piece in job.pieces] for job in joined(pieces, together)]


@pytest.mark.parametrize("component", WEARING)
def test_both_sides_of_what_runs_round_go_together(component: Component) -> None:
    apart = [[0], [1]]
    found = groups((component, LEFT, Work.REPLACE), (component, RIGHT, Work.REBUILD))
    assert found == ([[0, 1]] if component in BOTH_SIDES else apart)


@pytest.mark.parametrize(
    ("chain", "way", "joins"),
    [
        (C.LINK, Work.REPLACE, True),
        (C.LINK, Work.REBUILD, False),
        (C.BUSHING, Work.TURN, True),
        (C.BUSHING, Work.REPLACE, True),
        (C.SHOE, Work.REPLACE, False),
    ],
)
def test_a_sprocket_goes_with_a_new_chain_or_turned_bushings(chain: Component, way: Work, joins: bool) -> None:
    assert groups((chain, LEFT, way), (C.SPROCKET, LEFT, Work.REPLACE)) == ([[0, 1]] if joins else [[0], [1]])


def test_a_sprocket_goes_with_the_chain_of_its_own_side() -> None:
    assert groups((C.LINK, LEFT, Work.REPLACE), (C.SPROCKET, RIGHT, Work.REPLACE)) == [[0], [1]]


def test_what_goes_with_the_same_piece_goes_together() -> None:
    """Both sprockets come with a new chain, through its two sides; the idler does not."""
    found = groups(
        (C.LINK, LEFT, Work.REPLACE),
        (C.LINK, RIGHT, Work.REBUILD),
        (C.BUSHING, RIGHT, Work.TURN),
        (C.SPROCKET, LEFT, Work.REPLACE),
        (C.SPROCKET, RIGHT, Work.REPLACE),
        (C.FRONT_IDLER, LEFT, Work.REPLACE),
    )
    assert found == [[0, 1, 3], [2, 4], [5]]


def test_components_listed_together_go_together_whatever_their_side() -> None:
    named = ((C.LINK, LEFT, Work.REBUILD), (C.FRONT_IDLER, RIGHT, Work.REPLACE), (C.SPROCKET, RIGHT, Work.REPLACE))
    assert groups(*named, together=[[C.LINK, C.SPROCKET]]) == [[0, 2], [1]]
    assert groups(*named, together=[[C.LINK, C.SPROCKET], [C.SPROCKET, C.FRONT_IDLER]]) == [[0, 1, 2]]


def test_a_list_joins_both_sides_of_one_of_its_components() -> None:
    named = ((C.SPROCKET, LEFT, Work.REPLACE), (C.SPROCKET, RIGHT, Work.REPLACE))
    assert groups(*named) == [[0], [1]]
    assert groups(*named, together=[[C.LINK, C.SPROCKET]]) == [[0, 1]]


def test_a_job_is_due_with_its_first_piece_and_takes_off_the_tracks_that_need_it() -> None:
    first, second = work([(C.SHOE, LEFT, Work.REPLACE), (C.SHOE, RIGHT, Work.REPLACE)])
    (shoes,) = joined([first, second], [])
    assert (shoes.due, shoes.off) == (1000.0, frozenset())
    assert shoes.per_hour == pytest.approx(2 * 1000.0 / 4000.0)
    (idler,) = joined(work([(C.REAR_IDLER, RIGHT, Work.REPLACE)]), [])
    assert idler.off == frozenset({RIGHT})


def test_rollers_and_shoes_are_worked_on_with_the_track_on() -> None:
    assert set(WEARING) - TRACK_OFF == {C.SHOE, C.BOTTOM_ROLLER, C.TOP_ROLLER}
