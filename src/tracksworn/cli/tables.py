"""Tables for the terminal, from the same view as the pages, so that they say the same."""

from rich.console import Console
from rich.table import Table
from rich.text import Text

from tracksworn.cli.decision_tables import print_decisions
from tracksworn.documents.full.view import FullReport, PartSide, Whole
from tracksworn.documents.words.figures import NO_BREAK


def print_report(view: FullReport) -> None:
    """Print an assessment: words first, the whole, left against right, findings, what follows, what was not seen."""
    console = Console(highlight=False, markup=False)
    console.print(Text(f"{view.identification.number}  ", style="bold").append(_machine(view), style="not bold"))
    console.print(Text(f"{view.summary.headline} ", style="bold").append(view.summary.text, style="not bold"))
    console.print()
    for line in _whole(view.whole):
        console.print(line)
    console.print()
    console.print(f"{view.headings.part_by_part}: {view.headings.percent_worn}", style="bold")
    console.print(_parts(view))
    if view.travel:
        console.print()
        console.print(_travel(view))
    console.print()
    console.print(_findings(view))
    console.print()
    print_decisions(view, console)
    for part in view.not_seen.parts:
        console.print(f"{view.headings.not_seen}: {part.parts}, {part.reason}")
    for assumed in view.assumed:
        console.print(f"{assumed.letter}  {assumed.words}", style="dim")


def print_findings_table() -> None:
    """Print the code, severity and meaning of every finding."""
    from tracksworn.documents.words.findings import catalogue

    table = Table("code", "severity", "meaning", box=None, pad_edge=False)
    for entry in catalogue():
        table.add_row(entry.code, ", ".join(entry.severities), entry.meaning)
    Console(highlight=False, markup=False).print(table)


def _machine(view: FullReport) -> str:
    told = (f"{one.label}: {one.value}" + (f" ({one.note})" if one.note else "") for one in view.identification.strip)
    return "; ".join(told)


def _whole(whole: Whole) -> list[Text]:
    figure = " ".join(
        part for part in (whole.bound, f"{whole.figure}{NO_BREAK}{whole.sign}".strip(), whole.caption) if part
    )
    lines = [Text(figure, style="bold").append(f"  {whole.interval}", style="not bold")]
    lines += [Text(f"{fact.label}  {fact.value}", style="bold" if fact.strong else "") for fact in whole.facts]
    return lines


def _parts(view: FullReport) -> Table:
    """Three lines a component, left, right and the difference, so that eighty columns are enough."""
    table = Table(box=None, pad_edge=False, show_header=False)
    table.add_column(style="bold")
    table.add_column()
    table.add_column(justify="right", no_wrap=True)
    table.add_column(no_wrap=True)
    table.add_column(ratio=1)
    for row in view.parts:
        names = iter((row.name, "", ""))
        for side in (row.left, row.right):
            if side is not None:
                table.add_row(next(names), side.side, *_cells(side))
        words = Text(row.delta.words, style="bold" if row.delta.differs else "dim")
        table.add_row(next(names), view.headings.difference, row.delta.figure, row.delta.within, words)
    return table


def _cells(side: PartSide) -> tuple[Text, str, str]:
    figure = Text(side.figure, style="bold").append(f" {side.letters}" if side.letters else "", style="not bold dim")
    return figure, side.interval, side.reason or side.stage


def _travel(view: FullReport) -> Table:
    table = Table(box=None, pad_edge=False, show_header=False)
    for row in view.travel:
        sides = (row.left, row.right)
        cells = [", ".join(words for words in (side.size, side.words) if words) if side else "" for side in sides]
        table.add_row(row.name, *cells)
    return table


def _findings(view: FullReport) -> Table:
    table = Table(box=None, pad_edge=False, show_header=False)
    table.add_column(no_wrap=True)
    table.add_column()
    for finding in view.findings:
        text = Text(finding.title, style="bold")
        reasons = "".join(f"\n– {reason}" for reason in finding.reasons)
        table.add_row(finding.severity_word, text.append(f"{reasons}\n{finding.advice}", style="not bold"))
    return table
