"""What a reader decides by, as tables for the terminal: hours left, shop visits and their cost, verdicts."""

from collections.abc import Iterable, Iterator

from rich.console import Console, RenderableType
from rich.table import Table
from rich.text import Text

from tracksworn.assessment.decisions import Result
from tracksworn.documents.full.ahead import Ahead, HoursSide, HoursView, PlanView, VisitRow
from tracksworn.documents.full.headings import Headings
from tracksworn.documents.full.terms_view import TermsSide, TermsView
from tracksworn.documents.full.view import FullReport

Lines = Iterator[RenderableType]


def print_decisions(view: FullReport, console: Console) -> None:
    """Print hours left, the plan and the verdict, each where there is one, with a blank line after each."""
    parts = (_ahead(view.ahead, view.headings), _terms(view.terms, view.headings) if view.terms else iter(()))
    for part in parts:
        for line in part:
            console.print(line)


def _ahead(ahead: Ahead, words: Headings) -> Lines:
    if ahead.hours is not None:
        yield Text(words.hours_left, style="bold")
        yield _hours(ahead.hours, words)
        yield from _said(ahead.hours.foremost, style="")
        yield from _said(ahead.hours.notes)
    elif ahead.no_forecast:
        yield from _said((ahead.no_forecast,), style="")
    if ahead.plan is not None:
        yield from _plan(ahead.plan, words)


def _said(sentences: Iterable[str], style: str = "dim") -> Lines:
    """Sentences as one paragraph, and a blank line."""
    yield Text(" ".join(sentences), style=style)
    yield ""


def _grid(*, figures: int, bold: bool = True) -> Table:
    """Columns of which the first names, so many after it hold figures, and the last takes what room is left."""
    table = Table(box=None, pad_edge=False, show_header=False)
    table.add_column(style="bold" if bold else "")
    for _ in range(figures):
        table.add_column(no_wrap=True)
    table.add_column(ratio=1)
    return table


def _hours(hours: HoursView, words: Headings) -> Table:
    """Two lines a component, and one for what is to be said of both."""
    table = _grid(figures=2)
    table.add_row("", "", "", Text(words.rates, style="dim"))
    for row in hours.rows:
        names = iter((row.part, "", ""))
        for word, side in ((words.left, row.left), (words.right, row.right)):
            if side is not None:
                table.add_row(next(names), word.lower(), Text(side.hours, style="bold"), _when(side, words))
        if row.note:
            table.add_row(next(names), "", "", Text(row.note, style="dim"))
    return table


def _when(side: HoursSide, words: Headings) -> str:
    travelling = f"{words.travelling} {side.travelling}" if side.travelling else ""
    return "\n".join(text for text in (side.months, travelling, side.rates) if text)


def _plan(plan: PlanView, words: Headings) -> Lines:
    yield Text(words.shop_visits, style="bold")
    yield Text(plan.basis, style="dim")
    yield from (Text(one) for one in (plan.first, *plan.left_out) if one)
    if plan.visits:
        table = _grid(figures=0)
        table.add_column(justify="right", no_wrap=True, style="bold")
        for visit in (*plan.visits, *([plan.total] if plan.total else [])):
            table.add_row(visit.number, _visit(visit, words), visit.cost)
        yield table
    facts = ((words.value_left, plan.value_left), (words.to_restore, plan.to_restore))
    yield from (f"{label}  {value}" for label, value in facts)
    yield from (f"{words.swaps}: {swap}" for swap in plan.swaps)
    yield from _said(plan.remarks)


def _visit(visit: VisitRow, words: Headings) -> Text:
    """When, what is done, what of it is early, and what the cost is made of."""
    made_of = ((words.parts_cost, visit.parts), (words.labour, visit.labour), (words.set_up, visit.set_up))
    said = Text(visit.when, style="bold")
    if visit.work:
        said.append(f": {visit.work} {visit.early}".rstrip(), style="not bold")
    amounts = ", ".join(f"{label} {amount}" for label, amount in made_of)
    return said.append(f"\n{amounts}", style="not bold dim")


def _terms(terms: TermsView, words: Headings) -> Lines:
    yield Text(f"{terms.words.heading}: {terms.title}", style="bold")
    yield Text(f"{terms.verdict}. ", style="bold").append(" ".join(terms.sentences), style="not bold")
    table = _grid(figures=4)
    for row in terms.rows:
        names = iter((row.name, ""))
        for word, side in ((words.left, row.left), (words.right, row.right)):
            if side is not None:
                table.add_row(next(names), word.lower(), *_verdict(side))
    yield table
    yield from (Text(reason) for reason in terms.reasons)
    yield from _said(terms.rule)


def _verdict(side: TermsSide) -> tuple[str, str, Text, str]:
    """What was found, what is allowed, the verdict, and how probable it is that the part is within; or why not."""
    verdict = Text(side.verdict, style="bold" if side.result is Result.FAILS else "")
    return side.figure, side.allowed, verdict, side.probability
