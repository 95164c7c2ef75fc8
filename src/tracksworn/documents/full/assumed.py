"""What was assumed rather than told, wherever it was used."""

from collections.abc import Iterator
from typing import Literal

from tracksworn.assessment.assumed import Threshold
from tracksworn.assessment.model import AssumedValue, SharesFrom
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.view import AssumedView
from tracksworn.documents.words import labels
from tracksworn.documents.words.language import N_, NP_
from tracksworn.inspection.values import Estimate
from tracksworn.inspection.vocabulary import Component


def assumed(context: Context) -> tuple[AssumedView, ...]:
    """Values that were assumed rather than told: by their letters those in single figures, then all others."""
    lettered = [AssumedView(letter, _value(value, context)) for value, letter in context.letters.items()]
    return (*lettered, *(AssumedView("", words) for words in (*_throughout(context), *_thresholds(context))))


def assumed_basis(context: Context) -> str:
    """Whether the firm has set some of them, and by what study."""
    letterhead = context.dossier.letterhead
    own = letterhead.assumed if letterhead is not None else None
    if own is None or all(one is None for one in (own.inspector, own.seat, own.spread, own.instrument)):
        return ""
    if own.basis is None:
        return context.say(N_("Some of these are the firm's own values."))
    return context.say(N_("Some of these are the firm's own values: {basis}."), basis=own.basis.rstrip("."))


def _value(value: AssumedValue, context: Context) -> str:
    table, say, points = context.assessment.assumptions, context.say, context.figures.points
    match value:
        case AssumedValue.INSPECTOR:
            return say(N_("inspector: {points}, one error for both sides"), points=points(table.inspector))
        case AssumedValue.SEAT:
            return say(N_("seat of the gauge: {points}"), points=points(table.seat))
        case AssumedValue.SPREAD:
            return say(N_("joint to joint: {points}, no spread in the chart"), points=points(table.spread))
        case AssumedValue.INSTRUMENT:
            size = context.figures.small_length(table.instrument)
            return say(N_("instrument: ± {size}, no accuracy known"), size=size)
        case AssumedValue.IMPACT:
            return say(N_("impact: not told, so the limit nearer to the new size"))


def _throughout(context: Context) -> Iterator[str]:
    """What touches more than the figures that a letter could stand at."""
    table, rows = context.assessment.assumptions, context.assessment.components
    if any(row.budget is not None and row.component is not Component.PITCH for row in rows):
        dof = context.figures.exact(table.prior_dof)
        yield context.say(N_("weight of the scatter known beforehand: {dof} degrees of freedom"), dof=dof)
    if any(row.estimate is not None and row.estimate.kind is Estimate.ABOUT for row in rows):
        yield context.say(N_("by eye, about: ± {points}"), points=context.figures.points(table.about))
    if context.assessment.overall.shares_from is SharesFrom.TYPICAL:
        yield context.say(N_("shares of cost: typical of the layout, as no chart gives them"))


# --- thresholds ---


def _thresholds(context: Context) -> Iterator[str]:
    """Every threshold that decided something, with the findings that it decided."""
    compared = any(entry.delta is not None for entry in context.assessment.sides)
    for threshold in Threshold:
        numbers = [n for n, one in enumerate(context.assessment.findings, start=1) if threshold in one.decided_by]
        words = _threshold(threshold, context)
        if numbers:
            told = labels.runs(numbers, context.language)
            one_many = NP_("{words} (finding {numbers})", "{words} (findings {numbers})")
            yield context.language.count(*one_many, len(numbers), words=words, numbers=told)
        elif threshold is Threshold.DIFFERENCE and compared:
            yield words


def _threshold(threshold: Threshold, context: Context) -> str:
    table, say, figures = context.assessment.assumptions, context.say, context.figures
    match threshold:
        case Threshold.DIFFERENCE:
            return say(
                N_("sides differ: from {points}, and from {factor} times the uncertainty where several are compared"),
                points=figures.points(table.least_difference),
                factor=figures.exact(table.several_compared),
            )
        case Threshold.OUT_OF_STEP:
            return say(N_("out of step: from {points}"), points=figures.points(table.out_of_step))
        case Threshold.LONG_SPAN:
            return say(
                N_("a span stands out: {points} above the others, {beside} above those of its side"),
                points=figures.points(table.long_span),
                beside=figures.exact(table.long_span * table.beside_long_span),
            )
        case Threshold.EVEN_GROWTH:
            return say(N_("even growth: {points} or more at every span"), points=figures.points(table.even_growth))
        case Threshold.HOT_JOINT:
            degrees = figures.temperature(table.hot_joint, difference=True)
            return say(N_("a joint is hot: {degrees} above the median of its side"), degrees=degrees)
        case Threshold.NEAR_END_OF_TRAVEL:
            return say(N_("near the end of travel: from {percent}"), percent=figures.per_cent(table.near_end_of_travel))
        case Threshold.ADJUSTER_OFF_PITCH:
            return say(N_("adjuster off pitch: from {size}"), size=figures.length(table.adjuster_off_pitch))
        case Threshold.FLANGE_CLEARANCE:
            size = figures.length(table.flange_clearance)
            return say(N_("flange near the pin bosses: {size} or less"), size=size)
        case Threshold.SOON_AFTER | Threshold.LIVES_APART:
            return _threshold_of_hours(threshold, context)


def _threshold_of_hours(threshold: Literal[Threshold.SOON_AFTER, Threshold.LIVES_APART], context: Context) -> str:
    table, figures = context.assessment.assumptions, context.figures
    if threshold is Threshold.SOON_AFTER:
        return context.say(N_("too soon after for wear: up to {hours}"), hours=figures.hours(table.soon_after))
    return context.say(N_("lives end apart: by more than {hours}"), hours=figures.hours(table.lives_apart))
