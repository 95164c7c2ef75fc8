"""What a finding says: its title, reasons, advice and what to look for, in a reader's language."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Final

from tracksworn.assessment.findings.codes import CODES
from tracksworn.assessment.sayings import Amount, Finding, Length, Saying, Severity
from tracksworn.documents.words import labels
from tracksworn.documents.words.figures import Figures
from tracksworn.documents.words.findings import as_seen, chain, evidence, frame, limits, lives, shoes, wheels
from tracksworn.documents.words.findings.limits import LOOK_FOR
from tracksworn.documents.words.findings.reasons import REASONS, WHERE_ALIKE
from tracksworn.documents.words.findings.sentences import Sentence, Words, number_of
from tracksworn.inspection.vocabulary import Component

_THEMES: Final = (limits, chain, wheels, frame, shoes, lives, evidence, as_seen)

WORDS: Final[Mapping[str, Words]] = {code: words for theme in _THEMES for code, words in theme.FINDINGS.items()}
"""By the code of the finding."""

ADVICE: Final[Mapping[str, Sentence]] = {code: said for theme in _THEMES for code, said in theme.ADVICE.items()}
"""By the code of the advice."""


@dataclass(frozen=True, slots=True)
class FindingWords:
    """A finding as a reader meets it; `look_for` is None where worn looks like nothing."""

    title: str
    reasons: tuple[str, ...]
    advice: str
    look_for: str | None


@dataclass(frozen=True, slots=True)
class Entry:
    """A line of the table of findings: a code, the severities it may have, and what it means."""

    code: str
    severities: tuple[Severity, ...]
    meaning: str


def say_finding(finding: Finding, speak: Figures) -> FindingWords:
    """The words of a finding with its figures in the reader's units and language."""
    reasons = (_reason(reason, speak) for reason in finding.because)
    look_for = _look_for(finding)
    return FindingWords(
        title=_say(WORDS[finding.code].title, finding.amounts, speak),
        reasons=tuple(reasons),
        advice=_say(ADVICE[finding.advice.code], {**finding.amounts, **finding.advice.amounts}, speak),
        look_for=None if look_for is None else speak.language.say(look_for),
    )


def catalogue() -> tuple[Entry, ...]:
    """Every code that a check may raise, in the order of the table of checks."""
    return tuple(Entry(code, severities, WORDS[code].meaning) for code, severities in CODES.items())


def _reason(reason: Saying, speak: Figures) -> str:
    code = reason.code
    if code in WHERE_ALIKE:
        first, second, alike = WHERE_ALIKE[code]
        lengths = _lengths(reason.amounts)
        texts = {_text(reason.amounts[place], lengths, speak) for place in (first, second)}
        code = alike if len(texts) == 1 else code
    return _say(REASONS[code], reason.amounts, speak)


def _lengths(amounts: Mapping[str, Amount]) -> tuple[float, ...]:
    return tuple(one.mm for one in amounts.values() if isinstance(one, Length) and one.decimals is None)


def _say(sentence: Sentence, amounts: Mapping[str, Amount], speak: Figures) -> str:
    lengths = _lengths(amounts)
    places = {name: _text(amount, lengths, speak) for name, amount in amounts.items()}
    if isinstance(sentence, str):
        return labels.opening(speak.language.say(sentence, **places))
    return labels.opening(speak.language.count(*sentence, number_of(amounts), **places))


def _text(amount: Amount, lengths: tuple[float, ...], speak: Figures) -> str:
    """An amount as text; lengths of one sentence have the decimals that all of them deserve together."""
    if isinstance(amount, Length) and amount.decimals is None:
        return speak.length(amount.mm, among=lengths)
    return speak.day(amount) if isinstance(amount, date) else speak.amount(amount)


def _look_for(finding: Finding) -> str | None:
    words = WORDS[finding.code]
    if not words.by_component:
        return words.look_for
    components = (part.what for part in finding.about if isinstance(part.what, Component))
    return next((LOOK_FOR[component] for component in components if component in LOOK_FOR), None)
