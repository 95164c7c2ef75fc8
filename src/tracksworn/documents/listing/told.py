"""The one sentence, what to act on, and what was not seen, in no more words than a sheet has room for."""

from collections.abc import Collection, Iterator
from typing import Final

from tracksworn.assessment.sayings import Finding, Severity
from tracksworn.documents.full import observed, seen
from tracksworn.documents.full.context import Context, subject
from tracksworn.documents.full.view import NotSeen, NotSeenView
from tracksworn.documents.full.whole import MOSTLY_SEEN
from tracksworn.documents.listing.glance import worst_row
from tracksworn.documents.listing.room import FOUND, HEADLINE, SHEET, UNSEEN, Room, clipped, fitting, lines
from tracksworn.documents.listing.view import Also, Found
from tracksworn.documents.words import labels, worn
from tracksworn.documents.words.figures import NO_BREAK
from tracksworn.documents.words.findings import say_finding
from tracksworn.documents.words.findings.short import SHORT
from tracksworn.documents.words.language import N_, NP_
from tracksworn.documents.words.whole import whole_words
from tracksworn.inspection.vocabulary import Grade

MORE_ACTS: Final = NP_(
    "{finding}, and {n} more finding asks for action; {whole}.",
    "{finding}, and {n} more findings ask for action; {whole}.",
)
MORE_TO_ACT_ON: Final = NP_(
    "{n} more finding asks for action; the full report has it.",
    "{n} more findings ask for action; the full report has them.",
)
NAMED: Final = 2
"""How many findings that ask for action the sentence names, where there is room for them."""
TO_WATCH: Final = NP_("{n} finding to watch stands", "{n} findings to watch stand")
LEFT_OUT: Final = NP_(
    "{n} more reason why parts were not seen; the full report has it.",
    "{n} more reasons why parts were not seen; the full report has them.",
)


def headline(context: Context, room: Room) -> str:
    """What asks for action first and how worn the whole is, in one sentence whose last word never stands alone."""
    sentences = (_sentence(context, named) for named in range(NAMED, 1, -1))
    whole = next((one for one in sentences if lines(one, SHEET, HEADLINE) <= room.headline), _sentence(context, 1))
    before, _, last = clipped(whole, room.headline, SHEET, HEADLINE).rpartition(" ")
    return f"{before}{NO_BREAK}{last}" if before else last


def _sentence(context: Context, named: int) -> str:
    """With so many of the findings that ask for action by name, the others counted."""
    acts = [one for one in context.assessment.findings if one.severity is Severity.ACT]
    if acts:
        titles = [say_finding(one, context.figures).title.rstrip(".") for one in acts[:named]]
        within = [labels.within(one, context.language) for one in titles[1:]]
        title = labels.clauses([titles[0], *within], context.language)
        if len(acts) > named:
            return context.language.count(*MORE_ACTS, len(acts) - named, finding=title, whole=_whole(context))
        return context.say(N_("{finding}; {whole}."), finding=title, whole=_whole(context))
    return labels.opening(context.say(N_("{whole}{worst}."), whole=_whole(context), worst=_worst(context)))


def _whole(context: Context) -> str:
    overall = context.assessment.overall
    if overall.percent_worn is None:
        return context.say(N_("no part could be given a figure of wear"))
    words = whole_words(overall, context.figures)
    if overall.seen_share < MOSTLY_SEEN:
        share = context.figures.share(overall.seen_share)
        return context.say(N_("the {share} by cost that was seen is {worn}"), share=share, worn=words)
    return context.say(N_("the whole is {worn}"), worn=words)


def _worst(context: Context) -> str:
    row = worst_row(context)
    if row is None:
        return ""
    part = context.figures.part(subject(row))
    return context.say(N_("; most worn: {part}, {worn}"), part=part, worn=worn.with_interval(row, context.figures))


# --- what was found ---


def found(context: Context, room: Room) -> tuple[tuple[Found, ...], str]:
    """Findings that ask for action, as many as there is room for, and what is said of all others."""
    acts = [one for one in context.assessment.findings if one.severity is Severity.ACT]
    views = [_found(one, context) for one in acts]
    shown = max(fitting([f"MMMM {one.title}: {one.advice}." for one in views], room.found, FOUND), min(len(views), 1))
    return tuple(views[:shown]), " ".join(_others(len(acts), shown, context))


def _found(finding: Finding, context: Context) -> Found:
    """With its pins, a colon saved for where the title has none of its own."""
    said = say_finding(finding, context.figures)
    pins = tuple(str(index + 1) for index in finding.observations)
    return Found(pins, clipped(said.title.rstrip("."), 4, FOUND), context.say(SHORT[finding.advice.code]))


def _others(acts: int, shown: int, context: Context) -> Iterator[str]:
    if acts > shown:
        yield context.language.count(*MORE_TO_ACT_ON, acts - shown)
    if not acts:
        yield context.say(N_("No finding asks for action."))
    watched = sum(one.severity is Severity.WATCH for one in context.assessment.findings)
    if watched:
        counted = context.language.count(*TO_WATCH, watched)
        yield context.say(N_("{findings} in the full report."), findings=counted)


def also_seen(told: Collection[str], context: Context, room: Room) -> tuple[tuple[Also, ...], str]:
    """Observations that neither a drawing nor a finding on the sheet has words for, and how many have no room."""
    loose = [
        Also(str(number), clipped(f"{observed.title(one, context)}, {context.figures.part(one.at)}", room.also, FOUND))
        for number, one in enumerate(context.inspection.observations, start=1)
        if one.grade is not Grade.NONE and str(number) not in told
    ]
    shown = max(fitting([f"MMMMM {one.said}; " for one in loose], room.also, FOUND, run_on=True), 1)
    left = len(loose) - shown
    return tuple(loose[:shown]), context.say(N_("{n} more in the full report"), n=str(left)) if left > 0 else ""


# --- what was not seen ---


def not_seen(context: Context, room: Room) -> NotSeen:
    """Parts with the reasons why they were not seen, then what that leaves open; what has no room is counted."""
    told = seen.not_seen(context)
    parts = [
        NotSeenView(clipped(one.parts, room.reason, UNSEEN), clipped(one.reason, room.reason, UNSEEN))
        for one in told.parts
    ]
    shown = max(fitting([f"{one.parts}: {one.reason}." for one in parts], room.parts, UNSEEN), min(len(parts), 1))
    left = len(parts) - shown
    more = [context.language.count(*LEFT_OUT, left)] if left else []
    return NotSeen(tuple(parts[:shown]), (*more, *(clipped(one, room.sentence, UNSEEN) for one in told.sentences)))
