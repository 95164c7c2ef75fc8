"""Component by component, left against right, in the few words of a rule."""

from tracksworn.assessment.model import Basis, Stage
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.parts import governing, part_rows
from tracksworn.documents.full.view import Delta, PartRow, PartSide
from tracksworn.documents.listing.view import Half, Row
from tracksworn.documents.words import labels, worn
from tracksworn.documents.words.language import N_
from tracksworn.inspection.vocabulary import Side


def rows(context: Context) -> tuple[Row, ...]:
    """A row for every component of the assessment, in the trade's order."""
    return tuple(_row(row, context) for row in part_rows(context))


def _row(row: PartRow, context: Context) -> Row:
    return Row(
        component=row.component,
        name=row.name,
        note=_note(row, context),
        left=_half(row.left, context),
        right=_half(row.right, context),
        difference=_difference(row.delta, context),
        differs=row.delta.differs,
    )


def _note(row: PartRow, context: Context) -> str:
    """`left past limit`, `both possibly near limit`; nothing where the bars say it all."""
    said = {side: words for side in Side if (words := _standing_out(row, side, context))}
    if len(said) == len(Side) and len(set(said.values())) == 1:
        return context.say(N_("both {stage}"), stage=said[Side.LEFT])
    names = {side: labels.word(side, context.language) for side in said}
    return "; ".join(context.say(N_("{side} {stage}"), side=names[side], stage=words) for side, words in said.items())


def _standing_out(row: PartRow, side: Side, context: Context) -> str:
    """Past the limit, or possibly the next stage."""
    found = governing(row.component, side, context)
    if found is None:
        return ""
    if found.stage is Stage.PAST_LIMIT:
        return labels.word(found.stage, context.language)
    possible = worn.possible_stage(found)
    return (
        "" if possible is None else context.say(N_("possibly {stage}"), stage=labels.word(possible, context.language))
    )


def _half(side: PartSide | None, context: Context) -> Half | None:
    if side is None:
        return None
    by_eye = side.basis is Basis.BY_EYE
    return Half(
        side=side.side,
        gauge=side.gauge,
        figure=side.gauge.figure if side.figure else "",
        interval=labels.word(side.basis, context.language) if by_eye else side.interval,
        past_limit=side.past_limit,
        alternative=side.alternative,
    )


def _difference(delta: Delta, context: Context) -> str:
    if not delta.within:
        return delta.figure
    if not delta.differs:
        return context.say(N_("none shown"))
    side = labels.word(Side.LEFT, context.language)
    return f"{side} {delta.figure} {delta.within}"
