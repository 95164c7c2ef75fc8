"""How the words of a finding are kept: sentences with named places, one and many."""

from collections.abc import Mapping
from dataclasses import dataclass
from string import Formatter

from tracksworn.assessment.sayings import Amount, Several, Subject, Topic
from tracksworn.inspection.vocabulary import CHAINS, ROLLERS

Sentence = str | tuple[str, str]
"""Words with named places; two where they differ for one part and for many, in that order."""


@dataclass(frozen=True, slots=True)
class Words:
    """What a finding is called, what it means in one line, and what to look for where worn looks like something."""

    meaning: str  # for the table of findings
    title: Sentence
    look_for: str | None = None
    by_component: bool = False  # what to look for depends on the component


def places_of(sentence: Sentence) -> frozenset[str]:
    """The names of the places in a sentence."""
    texts = (sentence,) if isinstance(sentence, str) else sentence
    return frozenset(name for text in texts for _, name, _, _ in Formatter().parse(text) if name)


def number_of(amounts: Mapping[str, Amount]) -> int:
    """1 where the finding speaks of one thing, 2 of several: by the place `parts`, else `count`."""
    count = amounts.get("count")
    if isinstance(count, int):
        return count
    parts = amounts.get("parts")
    if isinstance(parts, Several):
        subjects = [item for item in parts.items if isinstance(item, Subject)]
        return 1 if len(subjects) == 1 and not _is_plural(subjects[0]) else 2
    return 2 if isinstance(parts, Subject) and _is_plural(parts) else 1


def _is_plural(subject: Subject) -> bool:
    plural = subject.what in CHAINS or subject.what in ROLLERS or subject.what is Topic.JOINT_TEMPERATURE
    return plural and subject.number is None
