"""What was assumed stands on the page wherever it was used, with its size."""

from dataclasses import fields

import pytest
from documents.full.test_build import plain, report
from finding_cases import CASES
from finding_cases.walks import C, Walk, assessed, found, written

from tracksworn.assessment.assumed import Assumptions, Threshold
from tracksworn.assessment.model import AssumedValue
from tracksworn.documents.full.view import FullReport
from tracksworn.documents.words import labels
from tracksworn.documents.words.language import Language

SHARES = "shares of cost: typical of the layout, as no chart gives them"
WORDS = {
    Threshold.DIFFERENCE: "sides differ: from 5 points, and from 1.5 times the uncertainty where several are compared",
    Threshold.OUT_OF_STEP: "out of step: from 15 points",
    Threshold.LONG_SPAN: "a span stands out: 15 points above the others, 7.5 above those of its side",
    Threshold.EVEN_GROWTH: "even growth: 25 points or more at every span",
    Threshold.HOT_JOINT: "a joint is hot: 15 °C above the median of its side",
    Threshold.NEAR_END_OF_TRAVEL: "near the end of travel: from 90 %",
    Threshold.ADJUSTER_OFF_PITCH: "adjuster off pitch: from 15 mm",
    Threshold.FLANGE_CLEARANCE: "flange near the pin bosses: 3 mm or less",
    Threshold.SOON_AFTER: "too soon after for wear: up to 100 h",
    Threshold.LIVES_APART: "lives end apart: by more than 250 h",
}


def reported(walk: Walk) -> FullReport:
    return report(*written(walk), assessment=assessed(walk))


def assumed(walk: Walk) -> list[str]:
    return [plain(one.words) for one in reported(walk).assumed if not one.letter]


@pytest.mark.parametrize("threshold", Threshold)
def test_a_threshold_stands_with_the_finding_that_it_decided(threshold: Threshold) -> None:
    walk = next(case.fires for case in CASES for one in found(case.fires) if one.decided_by == (threshold,))
    decided = {one.code for one in found(walk) if threshold in one.decided_by}
    numbers = [int(one.number) for one in reported(walk).findings if one.code in decided]
    noun = "finding" if len(numbers) == 1 else "findings"
    assert f"{WORDS[threshold]} ({noun} {labels.runs(numbers, Language())})" in assumed(walk)


def test_a_threshold_that_decided_nothing_is_not_told() -> None:
    told = assumed(Walk({C.LINK: (30, None)}))
    assert told == ["weight of the scatter known beforehand: 3 degrees of freedom", SHARES]


def test_sides_that_do_not_differ_rest_on_the_threshold_too() -> None:
    assert WORDS[Threshold.DIFFERENCE] in assumed(Walk({C.LINK: (30, 30)}))


def test_every_assumed_value_has_its_words() -> None:
    """Each column of the table is told by a letter, by a threshold, or for the whole report."""
    throughout = {"about", "prior_dof", "basis"}
    beside_others = {"several_compared", "beside_long_span"}
    columns = {one.name for one in fields(Assumptions)}
    lettered = {str(value) for value in AssumedValue} - {"impact"}
    assert columns == {*map(str, Threshold), *lettered, *throughout, *beside_others}
