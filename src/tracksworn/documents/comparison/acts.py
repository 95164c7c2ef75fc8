"""What asks for action on one machine."""

from collections.abc import Iterator

from tracksworn.assessment.sayings import Finding, Severity
from tracksworn.documents.comparison.view import ActView
from tracksworn.documents.full.context import Context
from tracksworn.documents.words.findings import say_finding
from tracksworn.documents.words.findings.short import SHORT
from tracksworn.documents.words.language import NP_

IN_BRIEF = 2
"""How many conclusions stand on the first sheet before they are only counted."""


def acts(context: Context) -> Iterator[ActView]:
    """The findings that ask for action, each with what to do in few words."""
    for finding in _acts(context):
        said = say_finding(finding, context.figures)
        short = SHORT.get(finding.advice.code)
        yield ActView(said.title.rstrip("."), context.say(short) if short else said.advice.rstrip("."))


def to_act_on(context: Context) -> tuple[str, ...]:
    """What they conclude, without the full stop."""
    return tuple(one.title for one in acts(context))


def in_brief(context: Context) -> tuple[str, ...]:
    """The first few conclusions, and how many more there are."""
    said = to_act_on(context)
    if len(said) <= IN_BRIEF:
        return said
    more = context.language.count(*NP_("and {n} more", "and {n} more"), len(said) - IN_BRIEF)
    return (*said[:IN_BRIEF], more)


def _acts(context: Context) -> list[Finding]:
    return [finding for finding in context.assessment.findings if finding.severity is Severity.ACT]
