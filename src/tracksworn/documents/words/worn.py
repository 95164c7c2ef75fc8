"""How worn a part is and which side is more worn, in words."""

from dataclasses import dataclass

from tracksworn.assessment.assumed import Assumptions
from tracksworn.assessment.boundaries import exceeds, reaches
from tracksworn.assessment.bushing import life_used
from tracksworn.assessment.model import Basis, Comparison, Row, Stage, Turning
from tracksworn.assessment.sides import has_both_worst, leading
from tracksworn.assessment.stages import stage
from tracksworn.documents.words import labels
from tracksworn.documents.words.figures import DASH, NO_BREAK, Figures
from tracksworn.documents.words.language import N_, NP_, Language
from tracksworn.inspection.values import Estimate
from tracksworn.inspection.vocabulary import Component, LimitMeans, Side

LOST = {
    LimitMeans.TURN: N_("can no longer be turned"),
    LimitMeans.REBUILD: N_("no longer worth rebuilding"),
    LimitMeans.REPLACE: N_("due for replacement"),
}

_ORDER = tuple(Stage)
IDLERS = frozenset({Component.FRONT_IDLER, Component.REAR_IDLER})
MOST_WORN_ELSEWHERE = {
    Side.LEFT: N_("no side leads: the most worn is on the left"),
    Side.RIGHT: N_("no side leads: the most worn is on the right"),
}
"""Where the places compared say one thing and the most worn part the other, by the side of the latter."""
TREADS = NP_("at {n} tread", "over {n} treads")
PLACES = NP_("at {n} place", "over {n} places")


def figure(row: Row, figures: Figures) -> str:
    """Percent worn without its sign, or the estimate as said; a dash where there is no figure."""
    if row.estimate is not None:
        return figures.estimate(row.estimate)
    return DASH if row.percent_worn is None else figures.percent(row.percent_worn)


def tight_figure(row: Row, figures: Figures) -> str:
    """The same where there is little room: `40–60`."""
    return figure(row, figures) if row.estimate is None else figures.tight_estimate(row.estimate)


def with_interval(row: Row, figures: Figures) -> str:
    """Percent worn in a sentence: `79 % (75 to 84)`, `40 to 60 %, by eye`."""
    if row.estimate is not None:
        by_eye = labels.word(Basis.BY_EYE, figures.language)
        return f"{figures.estimate(row.estimate)}{NO_BREAK}%, {by_eye}"
    if row.percent_worn is None:
        return DASH
    return f"{figures.per_cent(row.percent_worn)} ({figures.interval(row.low, row.high)})"


def possible_stage(row: Row) -> Stage | None:
    """The furthest stage that a row's interval reaches above its own; None where it stays within it."""
    if row.stage is None or row.high is None:
        return None
    furthest = stage(row.high)
    return furthest if _ORDER.index(furthest) > _ORDER.index(row.stage) else None


def stage_words(row: Row, language: Language) -> str:
    """`second half, possibly near limit`; of a bound `second half or beyond`; empty without a figure."""
    if row.estimate is not None and row.stage is None:
        return _bound_words(row, language)
    if row.stage is None:
        return ""
    name = labels.word(row.stage, language)
    possible = possible_stage(row)
    if possible is None:
        return name
    return language.say(N_("{stage}, possibly {next}"), stage=name, next=labels.word(possible, language))


def _bound_words(row: Row, language: Language) -> str:
    assert row.estimate is not None
    reached = stage(row.estimate.low)
    name = labels.word(reached, language)
    if row.estimate.kind is Estimate.AT_LEAST:
        return name if reached is Stage.PAST_LIMIT else language.say(N_("{stage} or beyond"), stage=name)
    return name if reached is Stage.FIRST_HALF else language.say(N_("{stage} at most"), stage=name)


def turning_words(row: Row, turning: Turning, figures: Figures) -> str:
    """Which side of a bushing wears and how much of its life is used: `first side, life used 31 %`."""
    say = figures.language.say
    if not turning.known:
        side = say(N_("side unknown, no turn counted"))
    elif turning.allowed == 0:
        side = say(N_("not to be turned"))
    elif turning.made == 0:
        side = say(N_("first side"))
    elif turning.made >= turning.allowed:
        side = say(N_("second side, no turn left"))
    else:
        side = say(N_("second side"))
    life = _life(row, turning, figures)
    return say(N_("{side}, life used {life}"), side=side, life=life) if life else side


def _life(row: Row, turning: Turning, figures: Figures) -> str:
    """Life used; of an estimate its range, as the middle alone would be finer than it is known."""
    if row.estimate is not None:
        ends = [None if end is None else 100.0 * life_used(turning, end) for end in (row.low, row.high)]
        return figures.interval(*ends) + NO_BREAK + "%"
    return "" if row.life_used is None else figures.share(row.life_used)


def lost_words(row: Row, means: LimitMeans | None, language: Language) -> str:
    """What is lost past the limit beyond doubt, where the chart says what its limit means; else empty."""
    if row.stage is not Stage.PAST_LIMIT or means is None or (row.low is not None and exceeds(100.0, row.low)):
        return ""
    return language.say(LOST[means])


@dataclass(frozen=True, slots=True)
class DeltaWords:
    """A difference of the two sides, in figures and words; `within` and `note` may be empty."""

    figure: str
    within: str
    words: str
    note: str
    differs: bool


def delta_words(entry: Comparison | None, figures: Figures, assumed: Assumptions) -> DeltaWords:
    """What the comparison of a component says."""
    language = figures.language
    if entry is None or entry.delta is None or entry.delta_high is None:
        return DeltaWords(language.say(N_("no delta")), "", _why_none(entry, language), "", False)
    if not has_both_worst(entry):
        return DeltaWords(DASH, "", language.say(N_("the most worn of one side is a bound only")), "", False)
    if entry.foreign:
        return DeltaWords(DASH, "", language.say(N_("a part not made for its place had a say")), "", False)
    within = entry.delta_high - entry.delta
    return DeltaWords(
        figure=figures.delta(entry.delta),
        within=f"±{NO_BREAK}{figures.half_width(within)}",
        words=_verdict(entry, within, figures, assumed),
        note=_pairs(entry, language),
        differs=leading(entry) is not None,
    )


def _verdict(entry: Comparison, within: float, figures: Figures, assumed: Assumptions) -> str:
    language = figures.language
    assert entry.delta is not None
    delta, side = entry.delta, leading(entry)
    if side is not None:
        just = figures.rounds_alike(delta, within)
        if side is Side.LEFT:
            return language.say(N_("left just more worn") if just else N_("left more worn"))
        return language.say(N_("right just more worn") if just else N_("right more worn"))
    if entry.differs:
        return language.say(MOST_WORN_ELSEWHERE[Side.RIGHT if delta > 0.0 else Side.LEFT])
    if figures.rounds_alike(delta, within):
        return language.say(N_("no difference shown"))
    if not reaches(abs(delta), assumed.least_difference):
        points = figures.exact(assumed.least_difference)
        return language.say(N_("no difference shown: under {points} points"), points=points)
    factor = figures.exact(assumed.several_compared)
    return language.say(N_("no difference shown: under {factor} times its uncertainty"), factor=factor)


def _pairs(entry: Comparison, language: Language) -> str:
    """What a delta of several places is the mean of."""
    if entry.pairs < 2 and _is_of_the_worst(entry):
        return ""
    many = TREADS if entry.component in IDLERS else PLACES
    return language.count(*many, entry.pairs)


def _is_of_the_worst(entry: Comparison) -> bool:
    """Whether the delta is the difference of the two figures printed beside it."""
    worst = [side.percent_worn for side in (entry.left, entry.right) if side and side.percent_worn is not None]
    return len(worst) < len(Side) or entry.delta is None or abs(worst[0] - worst[1] - entry.delta) < 0.5


def _why_none(entry: Comparison | None, language: Language) -> str:
    if entry is None:
        return language.say(N_("neither side has a figure"))
    for side in Side:
        if entry[side] is None:
            other = labels.word(side, language)
            return language.say(N_("{side} has no figure"), side=other)
    figures = [entry[side] for side in Side]
    if any(one is not None and one.percent_worn is None for one in figures):
        return language.say(N_("only a bound is known"))
    return language.say(N_("no place seen on both sides"))
