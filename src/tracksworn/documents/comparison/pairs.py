"""Every two machines against each other: as a whole, and side by side of each component."""

from collections.abc import Iterator, Sequence
from typing import Final

from tracksworn.assessment.comparing.model import Gap
from tracksworn.assessment.model import Basis
from tracksworn.documents.comparison.between import Between, Pair
from tracksworn.documents.comparison.machine import Machine
from tracksworn.documents.comparison.told import could_make_up
from tracksworn.documents.comparison.view import DifferencesView, GapView, PairSides, PairView
from tracksworn.documents.words import labels
from tracksworn.documents.words.gaps import signed
from tracksworn.documents.words.language import N_
from tracksworn.inspection.vocabulary import Component, Side

BY_CHANCE: Final = 3
"""From so many pairs on the page says what chance alone would show."""


def differences_view(machines: Sequence[Machine], between: Between) -> DifferencesView:
    """The table of differences. Two inspections of one machine are told elsewhere."""
    language = machines[0].context.language
    compared = {side.component for _, _, difference in between.strangers for side in difference.sides}
    components = tuple(component for component in Component if component in compared)
    return DifferencesView(
        components=tuple(labels.opening(labels.many(component, language)) for component in components),
        pairs=tuple(_pair(pair, components, machines) for pair in between.strangers),
        notes=tuple(_notes(machines, between)),
    )


def _pair(pair: Pair, components: Sequence[Component], machines: Sequence[Machine]) -> PairView:
    first, second, difference = pair
    context = machines[first].context
    return PairView(
        name=context.say(N_("{first} less {second}"), first=machines[first].heading, second=machines[second].name),
        overall=_gap(difference.overall, machines),
        verdict=_verdict(pair, machines),
        note=_note(pair, machines),
        sides=tuple(_sides(component, pair, machines) for component in components),
    )


def _gap(gap: Gap | None, machines: Sequence[Machine]) -> GapView:
    return GapView(signed(gap, machines[0].context.figures), gap is not None and gap.told_apart)


def _verdict(pair: Pair, machines: Sequence[Machine]) -> str:
    first, second, difference = pair
    say, gap = machines[0].context.say, difference.overall
    if gap is None:
        return say(N_("no overall figure of both"))
    if not gap.told_apart:
        return say(N_("cannot be told apart"))
    return say(N_("{machine} is more worn"), machine=machines[first if gap.points > 0 else second].name)


def _note(pair: Pair, machines: Sequence[Machine]) -> str:
    gap = pair[2].overall
    if gap is None or not gap.told_apart or not could_make_up(pair, machines):
        return ""
    return machines[0].context.say(N_("what was not seen could make it up"))


def _sides(component: Component, pair: Pair, machines: Sequence[Machine]) -> PairSides | None:
    gaps = {side.side: side.gap for side in pair[2].sides if side.component is component}
    if not gaps:
        return None
    return PairSides(*(_side(gaps.get(side), component, side, pair, machines) for side in Side))


def _side(gap: Gap | None, component: Component, side: Side, pair: Pair, machines: Sequence[Machine]) -> GapView:
    if gap is not None:
        return _gap(gap, machines)
    return GapView(machines[0].context.say(_why_none(component, side, pair, machines)), told_apart=False)


def _why_none(component: Component, side: Side, pair: Pair, machines: Sequence[Machine]) -> str:
    """Why two sides make no pair."""
    assessments = [machines[index].context.assessment for index in pair[:2]]
    for assessment in assessments:
        if all(row.basis is Basis.NOT_SEEN for row in assessment.rows(component, side)):
            return N_("not seen")
    governing = [assessment.governing(component, side) for assessment in assessments]
    if any(row is None for row in governing):
        return N_("no percent")
    if any(row is not None and row.percent_worn is None for row in governing):
        return N_("bound only")
    return N_("other place")


def _notes(machines: Sequence[Machine], between: Between) -> Iterator[str]:
    say = machines[0].context.say
    yield say(
        N_(
            "Bold where the difference is larger than its uncertainty (95\u00a0%), so that the two can be told apart; "
            "a plus means that the first is more worn. Above the left sides, below the right ones; of rollers the "
            "worst seen of each. \u201cOther place\u201d: read at different places of the part. A dash: one of the two "
            "has no such part. What was not seen is not in a difference."
        )
    )
    if len(between.strangers) >= BY_CHANCE:
        yield say(
            N_(
                "Every difference stands for itself: among many that are none, about one in twenty comes out as told "
                "apart by chance alone."
            )
        )
