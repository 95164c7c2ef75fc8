"""The machine against its terms: a verdict for every part and for the whole, and by which rule."""

import math
from collections.abc import Iterator
from dataclasses import replace

from tracksworn.assessment.boundaries import exceeds
from tracksworn.assessment.curves import Straight
from tracksworn.assessment.decisions import Conformity, Result, Verdict, Why
from tracksworn.assessment.fitting import began, fitting_of, machine_hours
from tracksworn.assessment.model import Basis, Row
from tracksworn.assessment.sayings import Subject
from tracksworn.documents.drawing.allowance import STEP, Allowance
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.parts import row_name
from tracksworn.documents.full.terms_view import TermsRow, TermsSide, TermsView, terms_words
from tracksworn.documents.words import conformity as words
from tracksworn.documents.words import labels, worn
from tracksworn.documents.words.figures import NO_BREAK
from tracksworn.documents.words.language import N_
from tracksworn.inspection.terms import Rule, Terms
from tracksworn.inspection.vocabulary import Component, Side

LONGEST_HEAD = 60
"""How many characters a sentence's opening has at most to stand out from it."""
LEAST, MOST = 40, 120
"""Between which percents the scale of the bars ends."""
NAMED = 4
"""How many parts a sentence names before it only counts them."""


def terms_view(context: Context) -> TermsView | None:
    """What the terms come to; None where the inspection names none."""
    conformity, terms = context.assessment.conformity, context.dossier.terms
    if conformity is None or terms is None:
        return None
    rows = tuple(_rows(conformity, context))
    sentences = tuple(_sentences(conformity, terms, context))
    return TermsView(
        words=terms_words(context.language),
        title=conformity.title,
        result=conformity.result,
        verdict=labels.opening(context.say(words.RESULTS[conformity.result])),
        sentences=sentences,
        heads=("", *map(_head, sentences[1:])),
        rows=rows,
        most=_most(rows),
        legend=" ".join(map(context.say, _legend(rows, conformity))),
        reasons=tuple(_reasons(conformity, context)),
        allowed=tuple(_allowed(terms, context)),
        rule=tuple(words.rule_words(conformity, terms, context.figures)),
        is_not=tuple(context.say(sentence) for sentence in words.IS_NOT),
    )


def _rows(conformity: Conformity, context: Context) -> Iterator[TermsRow]:
    found = {(one.component, one.side): one for one in conformity.components}
    said: dict[Side, str] = {}  # what is allowed, which a column says once as long as it stays the same
    for component in (one for one in Component if any((one, side) in found for side in Side)):
        left, right = (found.get((component, side)) for side in Side)
        yield TermsRow(
            component=component,
            name=row_name(component, context),
            left=_said_once(_side(left, conformity.rule, context), said) if left else None,
            right=_said_once(_side(right, conformity.rule, context), said) if right else None,
        )


def _said_once(side: TermsSide, said: dict[Side, str]) -> TermsSide:
    """Without the figure of what is allowed where it stands above already."""
    text = side.allowance.allowed_text
    if not text:
        return side
    known, said[side.side] = said.get(side.side) == text, text
    return replace(side, allowance=replace(side.allowance, allowed_text="")) if known else side


def _row(verdict: Verdict, context: Context) -> Row | None:
    """The part that a verdict is on; None where nothing was seen."""
    return context.assessment.row(verdict.component, verdict.side, verdict.position)


def _side(verdict: Verdict, rule: Rule, context: Context) -> TermsSide:
    row = _row(verdict, context)
    figure = _figure(verdict, row, rule, context)
    allowed = context.say(N_("allowed {percent}"), percent=_percent_allowed(verdict, row, context))
    allowed = allowed if verdict.allowed is not None else ""
    result = context.say(words.RESULTS[verdict.result])
    probability = _probability(verdict, context)
    found = context.say(N_("found {figure}"), figure=_found(row, figure, context)) if figure else ""
    said = ", ".join(text for text in (allowed, found, result) if text)
    likely = _likely(verdict, context)
    part = labels.opening(context.figures.part(_subject(verdict)))
    return TermsSide(
        side=verdict.side,
        allowance=_allowance(verdict, row, rule, context),
        figure=figure,
        allowed=allowed,
        result=verdict.result,
        verdict=context.say(words.COLUMN[verdict.result]),
        probability=probability,
        alternative=context.say(
            N_("{part}: {said}."), part=part, said=labels.clauses([said, likely], context.language)
        ),
    )


def _subject(verdict: Verdict) -> Subject:
    return Subject(verdict.component, verdict.side, verdict.position)


def _found(row: Row | None, figure: str, context: Context) -> str:
    """The figure as a sentence has it: an estimate as it was said."""
    return figure if row is None or row.estimate is None else worn.figure(row, context.figures)


def _figure(verdict: Verdict, row: Row | None, rule: Rule, context: Context) -> str:
    """Percent worn with what decides beside it: `79 ± 5`; an estimate as `40–60`; empty where there is no figure."""
    if row is None or (row.percent_worn is None and row.estimate is None):
        return ""
    if row.estimate is not None or row.percent_worn is None:
        return worn.tight_figure(row, context.figures)
    figure = _told_apart(row.percent_worn, verdict.allowed, context)
    within = row.uncertainty if rule is Rule.SIMPLE or verdict.guard is None else verdict.guard
    return figure if within is None else f"{figure}{NO_BREAK}±{NO_BREAK}{context.figures.half_width(within)}"


def _percent_allowed(verdict: Verdict, row: Row | None, context: Context) -> str:
    if verdict.allowed is None:
        return ""
    return _told_apart(verdict.allowed, row.percent_worn if row else None, context)


def _told_apart(value: float, other: float | None, context: Context) -> str:
    """A whole percent, or a tenth where both would print alike."""
    figures = context.figures
    if other is not None and value != other and figures.percent(value) == figures.percent(other):
        return figures.number(value, 1)
    return figures.percent(value)


def _probability(verdict: Verdict, context: Context) -> str:
    if verdict.probability is not None:
        return context.figures.probability(verdict.probability)
    return context.say(words.SHORT[verdict.why]) if verdict.why is not None else ""


def _likely(verdict: Verdict, context: Context) -> str:
    """The same in a sentence."""
    said = _probability(verdict, context)
    if verdict.probability is None:
        return said
    return context.say(N_("the probability of being truly within is {probability}"), probability=said)


def _allowance(verdict: Verdict, row: Row | None, rule: Rule, context: Context) -> Allowance:
    basis = Basis.NOT_SEEN if row is None else row.basis
    low, high = _ends(verdict, row, rule)
    no_percent = basis is Basis.MEASURED and (row is None or row.percent_worn is None)
    word = words.SHORT[Why.NO_PERCENT if no_percent else Why.NOT_SEEN]
    return Allowance(
        basis=basis,
        percent=None if row is None else row.percent_worn,
        low=low,
        high=high,
        stage=None if row is None else row.stage,
        allowed=verdict.allowed,
        allowed_text=_percent_allowed(verdict, row, context),
        word=context.say(word),
    )


def _ends(verdict: Verdict, row: Row | None, rule: Rule) -> tuple[float | None, float | None]:
    """The ends of what decides; by eye, by the simple rule and without a guard those of the figure itself."""
    if row is None:
        return None, None
    guards = (verdict.guard_of_failure, verdict.guard)
    if rule is Rule.SIMPLE or row.percent_worn is None or row.basis is not Basis.MEASURED or None in guards:
        return row.low, row.high
    below, above = verdict.guard_of_failure or 0.0, verdict.guard or 0.0
    return row.percent_worn - below, row.percent_worn + above


def _legend(rows: tuple[TermsRow, ...], conformity: Conformity) -> Iterator[str]:
    """How the bars are read: what occurs alone."""
    bars = [side.allowance for row in rows for side in row.sides if side]
    if any(bar.basis is Basis.MEASURED and bar.percent is not None for bar in bars):
        yield words.HATCHED
    if any(bar.allowed is not None for bar in bars):
        yield words.STROKE
    if any(bar.basis is Basis.MEASURED and bar.percent is not None and bar.low is not None for bar in bars):
        yield words.WHISKER_SIMPLE if conformity.rule is Rule.SIMPLE else words.WHISKER_GUARDED
    if any(bar.basis is Basis.BY_EYE for bar in bars):
        yield words.BY_EYE
    if any(one.probability is not None for one in conformity.components):
        yield words.PROBABLE


def _most(rows: tuple[TermsRow, ...]) -> float:
    """Where the scale ends: the first figure of it beyond all that is to be shown."""
    furthest = max((side.allowance.furthest for row in rows for side in row.sides if side), default=0.0)
    return float(min(max(STEP * math.ceil(furthest / STEP), LEAST), MOST))


# --- what the verdict rests on ----------------------------------------------------------------------------------------


def _sentences(conformity: Conformity, terms: Terms, context: Context) -> Iterator[str]:
    by_result = {result: [one for one in conformity.components if one.result is result] for result in Result}
    when = _when(context)
    match conformity.result:
        case Result.PASSES:
            yield f"{when} {context.say(words.ALL_PASS)}"
            yield _closest(conformity, context)
        case Result.FAILS:
            yield f"{when} {_counts(by_result, context)} {_tested(conformity, context)}"
            yield from _failing(by_result[Result.FAILS], conformity.rule, context)
            yield from _next_would_fail(by_result[Result.FAILS], terms, context)
            yield from _untested(conformity, context)
        case Result.UNDECIDED:
            yield f"{when} {_counts(by_result, context)} {_tested(conformity, context)}"
            yield from _untested(conformity, context)
            yield context.say(_none_fails(conformity), leads=context.say(words.LEADS_TO[terms.undecided]))
        case Result.OUTSIDE:
            yield f"{when} {context.say(words.ALL_OUTSIDE)}"


def _none_fails(conformity: Conformity) -> str:
    """That none fails, never so that it seems as if some had passed."""
    if conformity.tested == 0:
        return words.NONE_TESTED
    passed = any(one.result is Result.PASSES for one in conformity.components)
    return words.NONE_FAILS if passed else words.NONE_PASSES


def _head(sentence: str) -> str:
    """What stands before a sentence's colon, where that is short."""
    head, colon, _ = sentence.partition(":")
    return head.rstrip() if colon and len(head) < LONGEST_HEAD else ""


def _tested(conformity: Conformity, context: Context) -> str:
    """`15 were measured and tested, 1 judged by eye, 1 not seen, 1 outside.`"""
    stand = [_footing(one) for one in conformity.components]
    counted = [context.language.count(*words.TESTED[one], stand.count(one)) for one in words.TESTED if one in stand]
    return context.say(N_("{counts}."), counts=", ".join(counted))


def _footing(verdict: Verdict) -> words.Footing:
    if verdict.result is Result.OUTSIDE:
        return words.Footing.OUTSIDE
    if verdict.probability is not None:
        return words.Footing.TESTED
    if verdict.why in (Why.BY_EYE, None):
        return words.Footing.BY_EYE
    return words.Footing.NOT_SEEN if verdict.why is Why.NOT_SEEN else words.Footing.OTHER


def _next_would_fail(failing: list[Verdict], terms: Terms, context: Context) -> Iterator[str]:
    """The other rollers of a side whose whole interval lies above what is allowed at their own hours."""
    sides = [(one.component, one.side) for one in failing if one.position is not None]
    named = {(one.component, one.side, one.position) for one in failing}
    others = [
        row
        for row in context.assessment.components
        if (row.component, row.side) in sides
        and (row.component, row.side, row.position) not in named
        and _is_above(row, terms, context)
    ]
    if others:
        parts = context.figures.parts(Subject(row.component, row.side, row.position) for row in others)
        yield context.language.count(*words.NEXT_WOULD_FAIL, len(sides), parts=parts)


def _is_above(row: Row, terms: Terms, context: Context) -> bool:
    rows = terms.allowed.get(row.component, terms.allowed.get(None))
    hours = machine_hours(context.inspection, word_counts=False)
    fitted = fitting_of(context.inspection, row.component, row.side, row.position)
    since = began(fitted, word_counts=False)
    if rows is None or hours is None or since is None or row.low is None or row.basis is not Basis.MEASURED:
        return False
    return rows[0][0] <= hours - since <= rows[-1][0] and exceeds(row.low, Straight(rows).at(hours - since)[0])


def _untested(conformity: Conformity, context: Context) -> Iterator[str]:
    """Rollers that were not seen on a side of which another was tested."""
    tested = {(one.component, one.side) for one in conformity.components if one.position is not None}
    unseen = [
        row
        for row in context.assessment.components
        if row.basis is Basis.NOT_SEEN and row.position is not None and (row.component, row.side) in tested
    ]
    if unseen:
        parts = context.figures.parts(Subject(row.component, row.side, row.position) for row in unseen)
        yield context.say(words.UNTESTED, parts=parts)


def _failing(failing: list[Verdict], rule: Rule, context: Context) -> Iterator[str]:
    """Each part that fails with its figures, or many of them by name alone."""
    if len(failing) <= NAMED:
        yield from (_side(one, rule, context).alternative for one in failing)
    else:
        pattern = words.FAIL_SIMPLY if rule is Rule.SIMPLE else words.FAIL
        yield context.say(pattern, parts=labels.opening(context.figures.parts(map(_subject, failing))))


def _when(context: Context) -> str:
    day, hours = context.figures.day(context.inspection.inspected), context.inspection.machine.hours
    if hours is None:
        return context.say(N_("As found on {day}, at hours that are not known."), day=day)
    return context.say(N_("As found on {day}, at {hours}."), day=day, hours=context.figures.hours(hours.machine))


def _counts(by_result: dict[Result, list[Verdict]], context: Context) -> str:
    counted = [
        context.language.count(*words.COUNTS[result], len(by_result[result])) for result in Result if by_result[result]
    ]
    number = sum(map(len, by_result.values()))
    if not counted:
        return context.say(N_("The terms speak of no part of this machine."))
    return context.language.count(*words.OF_THE_PARTS, number, counts=labels.listed(counted, context.language))


def _closest(conformity: Conformity, context: Context) -> str:
    """The part that has least to spare, of those that were measured."""
    likely = [one for one in conformity.components if one.probability is not None]
    closest = min(likely, key=lambda one: one.probability or 0.0)
    row = _row(closest, context)
    assert row is not None
    assert row.percent_worn is not None
    assert closest.allowed is not None
    return context.say(
        words.CLOSEST,
        part=context.figures.part(_subject(closest)),
        found=_side(closest, conformity.rule, context).figure,
        allowed=_percent_allowed(closest, row, context),
        probability=_probability(closest, context),
    )


def _reasons(conformity: Conformity, context: Context) -> Iterator[str]:
    for why in Why:
        parts = [_subject(one) for one in conformity.components if one.why is why]
        if parts:
            yield context.say(words.REASONS[why], parts=labels.opening(context.figures.parts(parts)))


def _allowed(terms: Terms, context: Context) -> Iterator[str]:
    """What is allowed at which hours, `any` last."""
    say, figures = context.say, context.figures
    named = [(one, terms.allowed[one]) for one in Component if one in terms.allowed]
    rest = [(None, terms.allowed[None])] if None in terms.allowed else []
    for component, rows in (*named, *rest):
        if component is None:
            name = say(N_("Every other component") if named else N_("Every component"))
        else:
            name = labels.heading(component, context.language)
        told = [say(N_("{percent} at {hours}"), percent=figures.per_cent(p), hours=figures.hours(h)) for h, p in rows]
        yield say(
            N_("{component}: {rows}; straight between."), component=name, rows=labels.listed(told, context.language)
        )
