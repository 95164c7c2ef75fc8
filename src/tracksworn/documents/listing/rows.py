"""Component by component, left against right, in the few words of a rule."""

from typing import Final

from tracksworn.assessment.model import Basis, Stage
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.parts import governing, part_rows
from tracksworn.documents.full.view import Delta, PartRow, PartSide
from tracksworn.documents.listing.view import Half, Row
from tracksworn.documents.words import labels, worn
from tracksworn.documents.words.language import N_
from tracksworn.inspection.vocabulary import Side

GRAVITY: Final = [*((True, stage) for stage in Stage), (False, Stage.PAST_LIMIT)]
"""What may stand out, from the least on: possibly a stage, and past the limit."""


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
    """`left past limit`, `both possibly near limit`: the gravest that stands out; bars and intervals say the rest."""
    found = {side: reached for side in Side if (reached := _standing_out(row, side, context)) is not None}
    if not found:
        return ""
    gravest = max(found.values(), key=GRAVITY.index)
    possible, stage = gravest
    sides = [side for side, reached in found.items() if reached == gravest]
    who = context.say(N_("both")) if len(sides) > 1 else labels.word(sides[0], context.language)
    name = labels.word(stage, context.language)
    return context.say(N_("{side} possibly {stage}") if possible else N_("{side} {stage}"), side=who, stage=name)


def _standing_out(row: PartRow, side: Side, context: Context) -> tuple[bool, Stage] | None:
    """Past the limit, or possibly the next stage: whether it is only possible, and which stage."""
    found = governing(row.component, side, context)
    if found is None:
        return None
    if found.stage is Stage.PAST_LIMIT:
        return False, found.stage
    possible = worn.possible_stage(found)
    return None if possible is None else (True, possible)


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
