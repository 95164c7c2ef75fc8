"""What bars, rings, rails and sections are drawn from."""

from tracksworn.assessment.model import Basis, Row
from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.full.context import Context, subject
from tracksworn.documents.words import labels, worn
from tracksworn.documents.words.language import N_


def gauge(row: Row, context: Context) -> Gauge:
    """The gauge of one part. A size that has no percent is an empty outline that says so."""
    said = row.estimate
    if row.basis is Basis.MEASURED and row.percent_worn is None:
        word = context.say(N_("measured, no percent"))
        return Gauge(Basis.NOT_SEEN, worn.tight_figure(row, context.figures), word=word)
    word = "" if row.basis is Basis.MEASURED else labels.word(row.basis, context.language)
    return Gauge(
        basis=row.basis,
        figure=worn.tight_figure(row, context.figures),
        percent=row.percent_worn,
        low=row.low,
        high=row.high,
        stage=row.stage,
        word=word,
        reason="" if said is not None else reason(row, context),
    )


def reason(row: Row, context: Context) -> str:
    """Why a part was not seen, in the inspector's words; empty where it was."""
    if row.basis is not Basis.NOT_SEEN:
        return ""
    return row.reason or context.say(N_("no reason recorded"))


def alternative(row: Row, context: Context) -> str:
    """A part's figures as one sentence, for where a drawing cannot be seen."""
    name = labels.opening(context.figures.part(subject(row)))
    if row.basis is Basis.NOT_SEEN:
        return context.say(N_("{part}: not seen, {reason}."), part=name, reason=reason(row, context))
    if row.percent_worn is None and row.estimate is None:
        return context.say(N_("{part}: measured, no percent."), part=name)
    return context.say(
        N_("{part}: {worn}, {stage}."),
        part=name,
        worn=worn.with_interval(row, context.figures),
        stage=worn.stage_words(row, context.language),
    )
