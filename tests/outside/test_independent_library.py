"""The uncertainty engine held against GTC, an independent library that derives its own sensitivities."""

import math
from dataclasses import dataclass
from typing import Any

import GTC
import pytest
from builders import chart, gauge, inspection, machine, reading, wears
from hypothesis import given
from hypothesis import strategies as st
from strategies import maybe, numbers

from tracksworn.assessment.assess import assess
from tracksworn.assessment.uncertainty import Budget, Contribution, Kind, Source, weighted_sum
from tracksworn.inspection.vocabulary import Component, Side

DOFS = st.sampled_from((1.0, 2.5, 3.0, 7.0, 19.0, 50.0, math.inf))


def same(dof: float, other: float) -> bool:
    """Whether two degrees of freedom are the same, where very many are as good as infinite."""
    return dof == pytest.approx(other, rel=1e-6) or min(dof, other) > 1e9


@given(st.data())
def test_budgets_with_shared_sources(data: st.DataObject) -> None:
    """Any weighted sum of figures that share sources of several degrees of freedom."""
    count = data.draw(st.integers(1, 6))
    sources = [Source(Kind.INSTRUMENT, (number,)) for number in range(count)]
    dofs = [data.draw(DOFS) for _ in sources]
    inputs = [GTC.ureal(0.0, 1.0, dof) for dof in dofs]
    ours, theirs = [], GTC.constant(0.0) * 1.0
    for _ in range(data.draw(st.integers(1, 5))):
        points = [data.draw(numbers(-5.0, 5.0)) for _ in sources]
        weight = data.draw(numbers(-2.0, 2.0))
        parts = {s: Contribution(p, dof) for s, p, dof in zip(sources, points, dofs, strict=True)}
        ours.append((weight, Budget(parts)))
        theirs = theirs + weight * sum(p * each for p, each in zip(points, inputs, strict=True))
    total = weighted_sum(ours)
    assert total.standard == pytest.approx(GTC.uncertainty(theirs), abs=1e-12)
    if total.standard > 1e-6:
        assert same(total.dof, GTC.dof(theirs))


@given(
    st.lists(numbers(0.1, 5.0), min_size=2, max_size=5),
    st.sampled_from((3.0, 4.0, 9.0, 21.0)),
    numbers(0.0, 4.0),
    numbers(0.1, 3.0),
    DOFS,
)
def test_errors_that_rest_on_one_deviation(
    points: list[float], dof: float, known: float, other: float, other_dof: float
) -> None:
    """An ensemble there, one term of the Welch-Satterthwaite sum here."""
    pool = Source(Kind.SPREAD)
    parts = {Source(Kind.SPREAD, (i,)): Contribution(each, dof, pool) for i, each in enumerate(points)}
    parts |= {Source(Kind.INSPECTOR): Contribution(known), Source(Kind.INSTRUMENT): Contribution(other, other_dof)}
    ensemble = GTC.multiple_ureal([0.0] * len(points), points, dof)
    theirs = sum(ensemble) + GTC.ureal(0.0, other, other_dof) + (GTC.ureal(0.0, known) if known else 0.0)
    assert Budget(parts).standard == pytest.approx(GTC.uncertainty(theirs))
    assert same(Budget(parts).dof, GTC.dof(theirs))


@dataclass(frozen=True)
class Drawn:
    """One chain and one part judged singly, both sides, and all half-widths."""

    chain: tuple[float, float]  # new, limit
    single: tuple[float, float]
    parts: tuple[tuple[float, ...], tuple[float, ...]]  # of the way from new to limit, of the chain's joints
    worn: tuple[float, float]  # likewise, of the single part
    tolerance: float | None
    new_doubt: float | None
    limit_tolerance: float | None
    accuracy: float
    links: int | None
    shares: tuple[float, float]


def pairs_of_sizes() -> st.SearchStrategy[tuple[float, float]]:
    spans = numbers(5.0, 60.0).flatmap(lambda span: st.sampled_from((span, -span)))
    return st.tuples(numbers(100.0, 300.0), spans).map(lambda drawn: (drawn[0], drawn[0] - drawn[1]))


def joints() -> st.SearchStrategy[tuple[float, ...]]:
    return st.lists(numbers(0.0, 0.95), min_size=1, max_size=5).map(tuple)


DRAWN = st.builds(
    Drawn,
    chain=pairs_of_sizes(),
    single=pairs_of_sizes(),
    parts=st.tuples(joints(), joints()),
    worn=st.tuples(numbers(0.0, 0.95), numbers(0.0, 0.95)),
    tolerance=maybe(numbers(0.01, 1.0)),
    new_doubt=maybe(numbers(0.01, 1.0)),
    limit_tolerance=maybe(numbers(0.01, 1.0)),
    accuracy=numbers(0.01, 1.0),
    links=maybe(st.integers(20, 60)),
    shares=st.tuples(numbers(1.0, 50.0), numbers(1.0, 50.0)),
)


def size(ends: tuple[float, float], part: float) -> float:
    return ends[0] - part * (ends[0] - ends[1])


def rectangular(half_width: float | None) -> Any:
    return GTC.ureal(0.0, half_width / math.sqrt(3)) if half_width else GTC.constant(0.0)


def percent(ends: tuple[float, float], sizes: list[float], new: Any, limit: Any, tool: Any) -> Any:
    """The mean of 100 (N − x)/(N − L) as an uncertain number."""
    own_new, own_limit = ends[0] + new, ends[1] + limit
    return sum(100.0 * (own_new - (each + tool)) / (own_new - own_limit) for each in sizes) / len(sizes)


def in_their_way(drawn: Drawn) -> tuple[list[Any], list[Any]]:
    """Percent worn of the chain's sides and of the single part's sides."""
    tool = rectangular(drawn.accuracy)
    percents = [[100.0 * part for part in side] for side in drawn.parts]
    pool_dof = 3.0 + sum(len(side) - 1 for side in percents)
    squares = sum((each - sum(side) / len(side)) ** 2 for side in percents for each in side)
    deviation = math.sqrt((3.0 * 9.0 + squares) / pool_dof)
    unread = [1.0 - len(side) / drawn.links if drawn.links else 1.0 for side in percents]
    spreads = [deviation * math.sqrt(part / len(side)) for part, side in zip(unread, percents, strict=True)]
    scatter = GTC.multiple_ureal([0.0, 0.0], spreads, pool_dof)
    seats = [GTC.ureal(0.0, 1.0) if pool_dof == 3.0 else 0.0 for _ in Side]
    chain, single = [], []
    inspector, new, limit = GTC.ureal(0.0, 2.0), rectangular(drawn.new_doubt), rectangular(drawn.limit_tolerance)
    for side, parts in enumerate(drawn.parts):
        sizes = [size(drawn.chain, part) for part in parts]
        own = new + rectangular(drawn.tolerance)
        chain.append(percent(drawn.chain, sizes, own, limit, tool) + inspector + scatter[side] + seats[side])
    repeats = GTC.multiple_ureal([0.0, 0.0], [1.0, 1.0], 3.0)
    inspector, new, limit = GTC.ureal(0.0, 2.0), rectangular(drawn.new_doubt), rectangular(drawn.limit_tolerance)
    for side, part in enumerate(drawn.worn):
        own = new + rectangular(drawn.tolerance)
        single.append(percent(drawn.single, [size(drawn.single, part)], own, limit, tool) + inspector + repeats[side])
    return chain, single


@given(DRAWN)
def test_rows_deltas_and_overall_of_an_inspection(drawn: Drawn) -> None:
    doubts: dict[str, Any] = {
        "tolerance": drawn.tolerance,
        "new_doubt": drawn.new_doubt,
        "limit_tolerance": drawn.limit_tolerance,
    }
    source = chart(
        wears(Component.LINK, *drawn.chain, share=drawn.shares[0], **doubts),
        wears(Component.SPROCKET, *drawn.single, share=drawn.shares[1], **doubts),
    )
    left, right = (tuple(size(drawn.chain, part) for part in side) for side in drawn.parts)
    one, other = (size(drawn.single, part) for part in drawn.worn)
    seen = inspection(
        reading(Component.LINK, left, right, gauge="caliper"),
        reading(Component.SPROCKET, one, other, gauge="caliper"),
        machine=machine(links=drawn.links),
        instruments=[gauge("caliper", accuracy=drawn.accuracy)],
    )
    assessed = assess(seen, source)
    chain, single = in_their_way(drawn)
    for row, theirs in zip(assessed.components, (*chain, *single), strict=True):
        agree(row.percent_worn, row.budget, theirs)
    for entry, (left, right) in zip(assessed.sides, (chain, single), strict=True):
        agree(entry.delta, entry.budget, left - right)
    weights = [share / 2 / sum(drawn.shares) for share in drawn.shares for _ in Side]
    whole = sum(weight * each for weight, each in zip(weights, (*chain, *single), strict=True))
    agree(assessed.overall.percent_worn, assessed.overall.budget, whole)


def agree(figure: float | None, ours: Budget | None, theirs: Any) -> None:
    assert ours is not None
    assert figure == pytest.approx(GTC.value(theirs), abs=1e-9)
    assert ours.standard == pytest.approx(GTC.uncertainty(theirs), abs=1e-9)
    assert same(ours.dof, GTC.dof(theirs))
