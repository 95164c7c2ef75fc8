"""The machine against its terms: verdicts that are made by hand, as a reader sees them."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from builders import at_least, by_eye, chart, inspection, machine, reading, unseen, wears
from long_example import CHART, FIRM, INSPECTION, TERMS

from tracksworn.assessment.assess import assess
from tracksworn.assessment.decisions import Conformity, Result, Verdict, Why
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.terms import terms_view
from tracksworn.documents.full.terms_view import TermsSide, TermsView
from tracksworn.documents.words.conformity import IS_NOT, SHORT
from tracksworn.documents.words.figures import NO_BREAK, THIN, Figures
from tracksworn.inspection.dossier import Dossier
from tracksworn.inspection.model import Hours
from tracksworn.inspection.terms import Rule, Terms, Undecided
from tracksworn.inspection.vocabulary import Component, Side

LINK = wears(Component.LINK, 143.0, 128.0)
SPROCKET = wears(Component.SPROCKET, 50.0, 36.0)
PLAN = Terms(
    "Lantern Plan",
    Rule.GUARDED,
    {None: ((0.0, 10.0), (4000.0, 80.0)), Component.LINK: ((0.0, 10.0), (2000.0, 50.0), (4000.0, 90.0))},
    undecided=Undecided.ADMINISTRATOR_DECIDES,
    hours_within=20.0,
)
WALK = replace(
    inspection(
        reading(Component.LINK, (131.0, 131.2), (134.0, 134.1)),
        reading(Component.SPROCKET, by_eye(40, 60), unseen("packed with clay")),
        machine=replace(machine(links=45), hours=Hours(8412.0)),
    ),
    inspected=date(2031, 4, 18),
)
FAILS = Verdict(Component.LINK, Side.LEFT, None, 66.0, 3.6, 2.6e-11, Result.FAILS, None, 3202.0, 5.2)
PASSES = Verdict(Component.LINK, Side.RIGHT, None, 66.4, 3.4, 0.9953, Result.PASSES, None, 3202.0, 5.1)
BY_EYE = Verdict(Component.SPROCKET, Side.LEFT, None, 66.0, None, None, Result.UNDECIDED, Why.BY_EYE, 3202.0)
UNSEEN = Verdict(Component.SPROCKET, Side.RIGHT, None, None, None, None, Result.UNDECIDED, Why.NOT_SEEN)
OUTSIDE = replace(FAILS, allowed=None, guard=None, probability=None, result=Result.OUTSIDE, why=Why.FITTING, hours=None)


def told(
    verdicts: Sequence[Verdict], result: Result, *, terms: Terms = PLAN, rule: Rule = Rule.GUARDED, tested: int = 2
) -> TermsView:
    found = Conformity(terms.title, rule, result, tuple(verdicts), terms.confidence, tested)
    assessed = replace(assess(WALK, chart(LINK, SPROCKET)), conformity=found)
    view = terms_view(Context(Dossier(WALK, Path("TEST-1"), terms=terms), assessed, Figures()))
    assert view is not None
    return view


def plain(text: str) -> str:
    return text.replace(THIN, " ").replace(NO_BREAK, " ")


def side(verdict: Verdict, **more: Rule) -> TermsSide:
    (row,) = told([verdict], verdict.result, **more).rows  # type: ignore[arg-type]
    (found,) = (one for one in row.sides if one)
    return found


def test_without_terms_nothing_is_said() -> None:
    assert terms_view(Context(Dossier(WALK, Path("TEST-1")), assess(WALK, chart(LINK)), Figures())) is None


def test_the_published_example_reads_as_published() -> None:
    assessed = assess(INSPECTION, CHART, FIRM, terms=TERMS)
    view = terms_view(Context(Dossier(INSPECTION, Path("MPS"), chart=CHART, terms=TERMS), assessed, Figures()))
    assert view is not None
    left = view.rows[0].left
    assert (view.verdict, left is not None) == ("Fails", True)
    assert left is not None
    assert plain(left.alternative) == (
        "Left links: allowed 66, found 79 ± 4, fails; the probability of being truly within is under 0.1 %."
    )


@pytest.mark.parametrize(
    ("verdict", "figure", "allowed", "word", "beneath"),
    [
        (FAILS, "79 ± 4", "allowed 66", "fails", "under 0.1 %"),
        (PASSES, "60 ± 4", "allowed 66", "passes", "99.5 %"),
        (BY_EYE, "40–60", "allowed 66", "undecided", "by eye"),
        (UNSEEN, "", "", "undecided", "not seen"),
        (OUTSIDE, "79 ± 7", "", "outside", "fitting not proven"),
    ],
    ids=lambda value: value.result.value if isinstance(value, Verdict) else None,
)
def test_a_part_has_figure_allowance_verdict_and_probability_or_reason(
    verdict: Verdict, figure: str, allowed: str, word: str, beneath: str
) -> None:
    found = side(verdict)
    assert (plain(found.figure), found.allowed, found.verdict, plain(found.probability)) == (
        figure,
        allowed,
        word,
        beneath,
    )


def test_the_whisker_spans_what_decides_and_by_the_simple_rule_the_interval() -> None:
    guarded = side(FAILS).allowance
    assert guarded.percent is not None
    assert guarded.low == pytest.approx(guarded.percent - 5.2)
    assert guarded.high == pytest.approx(guarded.percent + 3.6)
    simple = side(replace(FAILS, guard=0.0, guard_of_failure=0.0), rule=Rule.SIMPLE).allowance
    row = assess(WALK, chart(LINK)).row(Component.LINK, Side.LEFT)
    assert row is not None
    assert (simple.low, simple.high) == (row.low, row.high)


def test_a_figure_and_an_allowance_that_print_alike_get_a_tenth() -> None:
    row = assess(WALK, chart(LINK)).row(Component.LINK, Side.LEFT)
    assert row is not None
    assert row.percent_worn is not None
    found = side(replace(FAILS, allowed=row.percent_worn - 0.2))
    assert found.figure.startswith("79.3")
    assert found.allowed == "allowed 79.1"


def test_an_estimate_that_fails_says_so_without_a_probability() -> None:
    walk = replace(WALK, readings={**WALK.readings, **inspection(reading(Component.SPROCKET, at_least(80))).readings})
    verdict = replace(BY_EYE, result=Result.FAILS, why=None)
    found = Conformity(PLAN.title, PLAN.rule, Result.FAILS, (verdict,), 0.95, 0)
    assessed = replace(assess(walk, chart(LINK, SPROCKET)), conformity=found)
    view = terms_view(Context(Dossier(walk, Path("TEST-1"), terms=PLAN), assessed, Figures()))
    assert view is not None
    assert view.sentences[1] == "Left sprocket: allowed 66, found at least 80, fails."


# --- the whole --------------------------------------------------------------------------------------------------------


def test_a_failure_counts_all_and_tells_what_fails() -> None:
    view = told([FAILS, PASSES, BY_EYE, UNSEEN], Result.FAILS)
    assert view.verdict == "Fails"
    first, second = map(plain, view.sentences)
    assert first == (
        "As found on 18 April 2031, at 8 412 h. Of the 4 parts that the terms speak of, 1 passes, 1 fails and 2 are "
        "undecided. 2 were measured and tested, 1 judged by eye, 1 not seen."
    )
    assert second.startswith("Left links: allowed 66, found 79 ± 4, fails")


def test_a_pass_tells_the_closest() -> None:
    closer = replace(PASSES, probability=0.981)
    view = told([replace(PASSES, side=Side.LEFT), closer], Result.PASSES)
    assert view.verdict == "Passes"
    assert "The closest: right links, found 60 ± 4, allowed 66; the probability" in plain(view.sentences[1])
    assert "98 %" in plain(view.sentences[1])


def test_undecided_tells_what_it_leads_to() -> None:
    view = told([PASSES, BY_EYE, UNSEEN], Result.UNDECIDED)
    assert view.sentences[1].endswith("By these terms the administrator of the cover decides what is undecided.")
    assert view.reasons == (
        "Left sprocket: judged by eye; would fail only with its whole range past what is allowed.",
        "Right sprocket: not seen.",
    )


def test_outside_the_terms_is_no_verdict() -> None:
    view = told([OUTSIDE], Result.OUTSIDE, tested=0)
    assert view.verdict == "Outside the terms"
    assert view.sentences[0].endswith("The terms give no verdict on any part.")


@pytest.mark.parametrize("why", Why)
def test_every_reason_has_words(why: Why) -> None:
    found = told([replace(UNSEEN, why=why)], Result.UNDECIDED)
    assert len(found.reasons) == 1
    assert SHORT[why]


def test_the_rule_says_its_risk_and_whom_it_protects() -> None:
    rule = " ".join(map(plain, told([FAILS], Result.FAILS, tested=15).rule))
    assert "at most 2.5 %" in rule
    assert "15 parts tested, 0.17 % each" in rule
    assert "who gives the cover" in rule
    assert "who holds the cover" in rule
    assert "within 20 h" in rule
    assert "JCGM 106:2012" in rule


def test_each_end_of_undecided_is_said_in_its_own_words() -> None:
    rules = {told([FAILS], Result.FAILS, terms=replace(PLAN, undecided=one)).rule[1] for one in (*Undecided, None)}
    assert len(rules) == len(Undecided) + 1


def test_the_risk_follows_the_confidence() -> None:
    rule = told([FAILS], Result.FAILS, terms=replace(PLAN, confidence=0.9), tested=2).rule[0]
    assert "at most 5 %" in plain(rule)
    assert "2.5 % each" in plain(rule)


def test_the_simple_rule_says_that_it_protects_neither() -> None:
    view = told([FAILS], Result.FAILS, rule=Rule.SIMPLE)
    assert "up to 50 %" in plain(view.rule[0])
    assert "neither side" in view.rule[0]
    assert "does not count" in view.legend


def test_what_is_allowed_stands_with_the_named_first() -> None:
    assert [plain(one) for one in told([FAILS], Result.FAILS).allowed] == [
        "Track links: 10 % at 0 h, 50 % at 2 000 h and 90 % at 4 000 h; straight between.",
        "Every other component: 10 % at 0 h and 80 % at 4 000 h; straight between.",
    ]


def test_it_is_conformity_with_these_terms_alone() -> None:
    assert told([PASSES], Result.PASSES).is_not == IS_NOT
    assert "no certificate of safety" in " ".join(IS_NOT)
