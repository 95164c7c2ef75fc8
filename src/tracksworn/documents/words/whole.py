"""How worn the whole is in plain words, and what its figures rest on."""

from collections.abc import Iterator

from tracksworn.assessment.model import Assessment, Basis, Bound, Overall
from tracksworn.documents.words.figures import NO_BREAK, Figures
from tracksworn.documents.words.language import N_
from tracksworn.inspection.chart import WearChart

WORN = (
    (10.0, N_("hardly worn")),
    (22.0, N_("lightly worn")),
    (29.0, N_("about a quarter worn")),
    (36.5, N_("about a third worn")),
    (45.0, N_("about two fifths worn")),
    (55.0, N_("about half worn")),
    (63.5, N_("about three fifths worn")),
    (71.0, N_("about two thirds worn")),
    (77.5, N_("about three quarters worn")),
    (85.0, N_("about four fifths worn")),
    (float("inf"), N_("near the end of its life")),
)
"""What a whole is called under which percent: plain words, a fraction at most five points off, no stages."""

BY_EYE, MEASURED = Basis.BY_EYE, Basis.MEASURED
NO_CHART = {
    frozenset({BY_EYE}): N_("There is no wear chart: every figure was judged by eye, nothing was measured."),
    frozenset({MEASURED}): N_("There is no wear chart: sizes stand without percent."),
    frozenset({BY_EYE, MEASURED}): N_(
        "There is no wear chart: sizes stand without percent, and what has a percent was judged by eye."
    ),
    frozenset(): N_("There is no wear chart, and no wear was measured or judged."),
}
CHART = {frozenset({BY_EYE}): N_("Every figure was judged by eye, nothing was measured.")}
"""What the figures rest on, by how they were read."""

VAGUE = 15.0
"""Half-width of the overall interval, in points, from which it is not given a word but its ends."""


def whole_words(overall: Overall, figures: Figures) -> str:
    """How worn the whole is in plain words, never finer than it is known: `about half worn`. It has a figure."""
    say = figures.language.say
    assert overall.percent_worn is not None
    if overall.bound is Bound.AT_LEAST:
        return say(N_("at least {percent} worn"), percent=figures.per_cent(overall.percent_worn))
    if overall.low is not None and overall.high is not None and overall.high - overall.low > 2 * VAGUE:
        between = figures.interval(overall.low, overall.high) + NO_BREAK + "%"
        return say(N_("somewhere from {interval} worn"), interval=between)
    return say(next(words for below, words in WORN if overall.percent_worn < below))


def basis_words(chart: WearChart | None, assessment: Assessment, figures: Figures) -> Iterator[str]:
    """That there is no chart, or one of another machine, or no gauge behind any figure."""
    say = figures.language.say
    bases = frozenset(row.basis for row in assessment.components) - {Basis.NOT_SEEN}
    words = (NO_CHART if chart is None else CHART).get(bases)
    if words is not None:
        yield say(words)
    if chart is not None and chart.stands_in_for is not None:
        yield say(
            N_("The wear chart was made for another machine: take the percents of this {machine} as a guide."),
            machine=chart.stands_in_for,
        )
