"""The sizes that decide, and with what and where they were read."""

from collections.abc import Iterator

from tracksworn.documents.certificate.view import Taken
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.parts import part_rows
from tracksworn.documents.full.readings import reading_views
from tracksworn.documents.full.terms_view import TermsView
from tracksworn.documents.full.view import Labelled, PartSide
from tracksworn.documents.words import labels


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
            alike.setdefault(view.how, []).append(view.part if not alike.get(view.how) else _within(view.part))
    yield from (Labelled(labels.listed(parts, context.language), how) for how, parts in alike.items())


def _within(name: str) -> str:
    """A name within a sentence, in languages that write it with a small letter there."""
    return name[:1].lower() + name[1:]
