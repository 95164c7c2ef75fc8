"""What a reader sees of a machine against its terms. Any document that states conformity is made of this."""

from dataclasses import dataclass, fields
from typing import Annotated

from tracksworn.assessment.decisions import Result
from tracksworn.documents.drawing.allowance import Allowance
from tracksworn.documents.words.language import N_, Language
from tracksworn.inspection.vocabulary import Component, Side


@dataclass(frozen=True, slots=True)
class TermsWords:
    """Fixed words of what is said of terms. The defaults are English."""

    heading: Annotated[str, "heading of all of it"] = N_("Against the terms")
    beside: Annotated[str, "beside it"] = N_("Conformity with what a cover allows")
    every_part: Annotated[str, "heading of the rows"] = N_("Every component against its allowance")
    component: Annotated[str, "head of the first column"] = N_("Component")
    percent_worn: Annotated[str, "beside the heading of the rows: what the scale is"] = N_("percent worn")
    found: Annotated[str, "head of a column: percent worn with its uncertainty"] = N_("found")
    verdict: Annotated[str, "head of a column: the verdict and its probability"] = N_("verdict")
    left: Annotated[str, "head of the left half"] = N_("Left")
    right: Annotated[str, "head of the right half"] = N_("Right")
    allowed: Annotated[str, "heading of what the terms allow"] = N_("What the terms allow")
    decided: Annotated[str, "heading of the decision rule"] = N_("How it was decided")
    is_not: Annotated[str, "heading of what conformity is not"] = N_("What this is not")
    without: Annotated[str, "heading of why parts have no verdict"] = N_("Undecided or outside, and why")


def terms_words(language: Language) -> TermsWords:
    """The fixed words in the reader's language."""
    english = TermsWords()
    return TermsWords(**{one.name: language.say(getattr(english, one.name)) for one in fields(TermsWords)})


@dataclass(frozen=True, slots=True)
class TermsSide:
    """One side of a component against its allowance."""

    side: Annotated[Side, "which side it is"]
    allowance: Annotated[Allowance, "what its bar is drawn from"]
    figure: Annotated[str, "percent worn with its guard, without sign: `79 ± 5`, `40–60`; empty where there is none"]
    allowed: Annotated[str, "`allowed 66`; empty where nothing is"]
    result: Annotated[Result, "the verdict"]
    verdict: Annotated[str, "the verdict in a word or two: `fails`, `outside the terms`"]
    probability: Annotated[str, "that it is truly within: `over 99.9 %`; or why there is none: `by eye`"]
    alternative: Annotated[str, "all of it as one sentence: `Left links: allowed 66, found 79 ± 5, fails.`"]


@dataclass(frozen=True, slots=True)
class TermsRow:
    """One component, left and right."""

    component: Annotated[Component, "which component it is"]
    name: Annotated[str, "`Track links`, `Bottom rollers, worst`"]
    left: Annotated[TermsSide | None, "the left side, or None where the terms were not held against it"]
    right: Annotated[TermsSide | None, "the right side, likewise"]

    @property
    def sides(self) -> tuple[TermsSide | None, TermsSide | None]:
        """Left, then right."""
        return self.left, self.right


@dataclass(frozen=True, slots=True)
class TermsView:
    """The machine against its terms."""

    words: Annotated[TermsWords, "fixed words"]
    title: Annotated[str, "what the terms are called: `Lantern Plan, undercarriage cover`"]
    result: Annotated[Result, "the verdict of the whole"]
    verdict: Annotated[str, "the verdict of the whole, the largest word: `Fails`"]
    sentences: Annotated[tuple[str, ...], "what the verdict rests on"]
    heads: Annotated[tuple[str, ...], "of each sentence the name that it begins with, before a colon; may be empty"]
    rows: Annotated[tuple[TermsRow, ...], "every component that the terms speak of"]
    most: Annotated[float, "percent at which the scale of the bars ends"]
    legend: Annotated[str, "how a bar is read"]
    reasons: Annotated[tuple[str, ...], "why parts are undecided or outside, by reason; may be empty"]
    allowed: Annotated[tuple[str, ...], "what the terms allow, component by component"]
    rule: Annotated[tuple[str, ...], "the decision rule, its risk and whom it protects, and what undecided leads to"]
    is_not: Annotated[tuple[str, ...], "that it is conformity with these terms alone"]
