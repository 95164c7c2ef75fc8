"""Which side of a machine is more worn, in what."""

from collections.abc import Iterator, Sequence

from tracksworn.assessment.model import Assessment, Comparison
from tracksworn.assessment.sides import leading
from tracksworn.documents.words import labels
from tracksworn.documents.words.figures import Figures
from tracksworn.documents.words.language import N_, NP_
from tracksworn.inspection.vocabulary import CHAINS, ROLLERS, Component, Side

NO_DIFFERENCE = NP_(
    "No difference between the sides is shown in the one component that could be compared.",
    "No difference between the sides is shown in the {n} components that could be compared.",
)
MORE_WORN = {
    Side.LEFT: N_("The left side is more worn: {parts}."),
    Side.RIGHT: N_("The right side is more worn: {parts}."),
}
MORE_WORN_IN_MANY = {
    Side.LEFT: N_("The left side is more worn in {n} components, most in {parts}."),
    Side.RIGHT: N_("The right side is more worn in {n} components, most in {parts}."),
}

NAMED = 4
"""In how many components a side leads that are all named."""
NAMED_OF_MANY = 3
"""How many of more are."""


def sides_words(assessment: Assessment, figures: Figures) -> Iterator[str]:
    """Which side leads in what; a long pitch that tells of a dry joint is told as that."""
    entries = [entry for entry in assessment.sides if entry.delta is not None]
    told = {part.what for one in assessment.findings if one.code == "sides-differ" for part in one.about}
    differing = [entry for entry in entries if entry.component in told and leading(entry) is not None]
    differing.sort(key=lambda entry: -abs(entry.delta or 0.0))
    if entries and not any(entry.differs for entry in entries):
        yield figures.language.count(*NO_DIFFERENCE, len(entries))
    yield from _ahead(Side.LEFT, [entry for entry in differing if (entry.delta or 0.0) > 0.0], figures)
    yield from _ahead(Side.RIGHT, [entry for entry in differing if (entry.delta or 0.0) < 0.0], figures)


def _ahead(side: Side, entries: Sequence[Comparison], figures: Figures) -> Iterator[str]:
    if not entries:
        return
    names = [_name(entry.component, figures) for entry in entries]
    if len(names) > NAMED:
        parts = labels.listed(names[:NAMED_OF_MANY], figures.language)
        yield figures.language.say(MORE_WORN_IN_MANY[side], n=str(len(names)), parts=parts)
    else:
        yield figures.language.say(MORE_WORN[side], parts=labels.listed(names, figures.language))


def _name(component: Component, figures: Figures) -> str:
    several = component in CHAINS or component in ROLLERS
    return (labels.many if several else labels.one)(component, figures.language)
