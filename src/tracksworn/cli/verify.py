"""`tracksworn verify`: six answers about a sealed file."""

import json
from collections import Counter
from collections.abc import Iterable, Sequence
from contextlib import AbstractContextManager, nullcontext
from pathlib import Path
from textwrap import indent
from typing import TYPE_CHECKING

import click

from tracksworn.cli.exits import Exit, say
from tracksworn.cli.given import GivenPath
from tracksworn.inspection.faults import WrongUse, printable, visible

if TYPE_CHECKING:
    from tracksworn.records.archive.archive import Archive
    from tracksworn.records.verifying.many import Asked, Found
    from tracksworn.records.verifying.verdict import Verdict


@click.command()
@click.argument("files", nargs=-1, required=True, metavar="FILE.pdf...")
@click.option(
    "--trust",
    multiple=True,
    type=GivenPath(dir_okay=False),
    metavar="CERT",
    help="A file of certificates (PEM) that signers and timestamps must lead to; several times. Else the signer cannot "
    "be told: this machine's own list is never asked.",
)
@click.option(
    "--archive",
    type=GivenPath(file_okay=False),
    metavar="DIR",
    help="An archive to ask whether it holds the file, and whether a newer revision.",
)
@click.option("--json", "as_json", is_flag=True, help="Print the answers as JSON, a list with an entry for each file.")
def verify(files: tuple[str, ...], trust: tuple[Path, ...], archive: Path | None, as_json: bool) -> int:
    """Say who sealed a file, whether it is unaltered, and whether what it says follows from its data.

    Of each FILE.pdf six questions are answered `passed`, `failed` or `cannot tell`: integrity (every byte as it was
    sealed), signer, time, arithmetic (computed anew from what is attached), pages (their text is what the attached data
    give), archive. The exit status is 0 only if integrity, signer, arithmetic and pages have passed for every file,
    else 1. Whoever sealed a file is believed only as far as --trust goes.

    \b
        tracksworn verify sealed/MPS-2031-0418-r0-certificate.pdf --trust firm.pem
        tracksworn verify received/*.pdf --trust firm.pem --trust authority.pem --json
    """
    from tracksworn.cli.progress import each_of
    from tracksworn.records.verifying.many import verify_all

    if "" in files:
        raise WrongUse("the name of a file is missing here")
    told = _InJson() if as_json else _InWords() if len(files) > 1 else _OfOne()
    with _opened(archive) as kept:
        for one in each_of(verify_all(files, _asked(trust), kept), len(files), "verified"):
            if one.verdict is None:
                say(one.failure)
            told.tell(one)
    told.end()
    return told.status


def _asked(trust: Sequence[Path]) -> "Asked":
    from datetime import UTC, datetime

    from tracksworn.records.verifying.many import Asked
    from tracksworn.records.verifying.trust import read_trust

    return Asked(read_trust(trust), datetime.now(UTC))


def _opened(archive: Path | None) -> "AbstractContextManager[Archive | None]":
    if archive is None:
        return nullcontext()
    from tracksworn.cli.archive import opened

    return opened(archive)


class _Told:
    """What is printed, file by file, and the exit status that follows from all; no file is kept in memory."""

    def __init__(self) -> None:
        self.status = Exit.DONE

    def tell(self, found: "Found") -> None:
        """One file more."""
        if found.verdict is None:
            self.status = Exit.FAILED
            return
        if not found.verdict.passed and self.status is Exit.DONE:
            self.status = Exit.FAULTS
        self.show(found.file, found.verdict)

    def show(self, file: str, verdict: "Verdict") -> None:
        """Print a verdict."""
        raise NotImplementedError

    def end(self) -> None:
        """Print what comes behind all of them."""


class _InJson(_Told):
    """A list with an entry for each file."""

    def __init__(self) -> None:
        super().__init__()
        self._before = "["

    def show(self, file: str, verdict: "Verdict") -> None:
        entry = json.dumps(verdict.plain(file), indent=2)
        click.echo(f"{self._before}\n{indent(entry, '  ')}", nl=False)
        self._before = ","

    def end(self) -> None:
        click.echo("[]" if self._before == "[" else "\n]")


class _OfOne(_Told):
    """The verdict, and of every answer why it is so."""

    def show(self, file: str, verdict: "Verdict") -> None:
        click.echo(_line(file, verdict))
        _print_table([(str(answer.name), str(answer.state), visible(answer.because)) for answer in verdict.answers])


class _InWords(_Told):
    """A line for each file, and at the end how often each answer was given."""

    def __init__(self) -> None:
        super().__init__()
        self._counts: Counter[tuple[str, str]] = Counter()

    def show(self, file: str, verdict: "Verdict") -> None:
        from tracksworn.records.verifying.verdict import Name

        click.echo(_line(file, verdict))
        self._counts.update((name, verdict.state(name)) for name in Name)

    def end(self) -> None:
        from tracksworn.records.verifying.verdict import Name, State

        rows = [(str(name), *(str(self._counts[name, state]) for state in State)) for name in Name]
        _print_table(rows, heads=("answers", *map(str, State)))


def _line(file: str, verdict: "Verdict") -> str:
    states = ", ".join(f"{answer.name} {answer.state}" for answer in verdict.answers)
    failed = "".join(f"; {answer.name}: {visible(answer.because)}" for answer in verdict.answers if answer.failed)
    return f"{printable(Path(file))}: {'passed' if verdict.passed else 'not passed'} ({states}){failed}"


def _print_table(rows: Iterable[Sequence[str]], heads: Sequence[str] = ()) -> None:
    from rich.console import Console
    from rich.table import Table

    table = Table(box=None, pad_edge=False, show_header=bool(heads))
    for place, head in enumerate(heads):
        table.add_column(head, justify="right" if place else "left")
    for row in rows:
        table.add_row(*row)
    Console(highlight=False, markup=False).print(table)
