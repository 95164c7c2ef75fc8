"""The sizes that decide, and with what and where they were read."""

from collections.abc import Iterator
from dataclasses import replace

from tracksworn.documents.certificate.view import Taken
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.parts import part_rows
from tracksworn.documents.full.readings import reading_views
from tracksworn.documents.full.terms_view import TermsSide, TermsView
from tracksworn.documents.full.view import Labelled, PartSide
from tracksworn.documents.words import labels
from tracksworn.inspection.vocabulary import Side


def taken(context: Context, shown: TermsView) -> tuple[Taken, ...]:
    """Sizes by row of the terms, as the condition report has them."""
    rows = {row.component: row for row in part_rows(context)}
    return tuple(_taken(rows[row.component].left, rows[row.component].right) for row in shown.rows)


def _taken(left: PartSide | None, right: PartSide | None) -> Taken:
    said = dict.fromkeys(side.details[0] for side in (left, right) if side and side.details)
    return Taken(left.reading if left else "", right.reading if right else "", " · ".join(said))


def read_with(context: Context) -> Iterator[Labelled]:
    """Parts that were read with the same gauge, at the same joints, together."""
    alike: dict[str, list[str]] = {}
    for view in reading_views(context):
        if view.how:
            name = labels.within(view.part, context.language) if view.how in alike else view.part
            alike.setdefault(view.how, []).append(name)
    yield from (Labelled(labels.listed(parts, context.language), how) for how, parts in alike.items())


def every_figure(shown: TermsView) -> TermsView:
    """With what is allowed at every bar, also where a report says it once for all bars beneath."""
    said: dict[Side, str] = {}
    rows = tuple(replace(row, left=_figured(row.left, said), right=_figured(row.right, said)) for row in shown.rows)
    return replace(shown, rows=rows)


def _figured(side: TermsSide | None, said: dict[Side, str]) -> TermsSide | None:
    if side is None or side.allowance.allowed is None:
        return side
    text = said[side.side] = side.allowance.allowed_text or said.get(side.side, "")
    return replace(side, allowance=replace(side.allowance, allowed_text=text))
