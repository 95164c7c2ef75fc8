"""`tracksworn verify`: six answers about a sealed file."""

import json
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from tracksworn.cli.exits import Exit, say
from tracksworn.cli.given import GivenPath
from tracksworn.inspection.faults import WrongUse, printable

if TYPE_CHECKING:
    from rich.table import Table

    from tracksworn.records.verifying.many import Asked, Found


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

    Six questions, each answered `passed`, `failed` or `cannot tell`: integrity (every byte as it was sealed), signer,
    time, arithmetic (computed anew from what is attached), pages (their text is what the attached data give), archive.
    The exit status is 0 only if integrity, signer, arithmetic and pages have passed for every file, else 1. Whoever
    sealed a file is believed only as far as --trust goes.

    \b
        tracksworn verify sealed/MPS-2031-0418-r0-certificate.pdf --trust firm.pem
        tracksworn verify received/*.pdf --trust firm.pem --trust authority.pem --json
    """
    from tracksworn.cli.progress import each_of
    from tracksworn.records.verifying.many import verify_all

    if "" in files:
        raise WrongUse("the name of a file is missing here")
    found = []
    for one in each_of(verify_all(files, _asked(trust, archive)), len(files), "verified"):
        found.append(one)
        if one.verdict is None:
            say(one.failure)
        elif not as_json:
            click.echo(_line(one))
    if as_json:
        click.echo(json.dumps([one.verdict.plain(one.file) for one in found if one.verdict], indent=2))
    else:
        _print_table(found)
    return _status(found)


def _asked(trust: Sequence[Path], archive: Path | None) -> "Asked":
    from datetime import UTC, datetime

    from tracksworn.records.verifying.many import Asked
    from tracksworn.records.verifying.trust import read_trust

    return Asked(read_trust(trust), datetime.now(UTC), archive)


def _line(found: "Found") -> str:
    verdict = found.verdict
    assert verdict is not None
    states = ", ".join(f"{answer.name} {answer.state}" for answer in verdict.answers)
    failed = "".join(f"; {answer.name}: {answer.because}" for answer in verdict.answers if answer.failed)
    return f"{printable(Path(found.file))}: {'passed' if verdict.passed else 'not passed'} ({states}){failed}"


def _print_table(found: "Sequence[Found]") -> None:
    """Of one file why each answer is as it is; of several how often each was given."""
    from rich.console import Console
    from rich.table import Table

    verdicts = [one for one in found if one.verdict is not None]
    table = Table(box=None, pad_edge=False, show_header=len(found) > 1)
    if len(found) == 1:
        for one in verdicts:
            for row in _reasons(one):
                table.add_row(*row)
    else:
        _add_counts(table, verdicts)
    Console(highlight=False, markup=False).print(table)


def _reasons(found: "Found") -> Iterable[tuple[str, str, str]]:
    answers = found.verdict.answers if found.verdict else ()
    return [(str(answer.name), str(answer.state), answer.because) for answer in answers]


def _add_counts(table: "Table", found: "Sequence[Found]") -> None:
    from tracksworn.records.verifying.verdict import Name, State

    table.add_column("answers")
    for state in State:
        table.add_column(str(state), justify="right")
    for name in Name:
        states = [one.verdict.state(name) for one in found if one.verdict]
        table.add_row(str(name), *(str(states.count(state)) for state in State))


def _status(found: "Sequence[Found]") -> Exit:
    if any(one.verdict is None for one in found):
        return Exit.FAILED
    return Exit.DONE if all(one.verdict and one.verdict.passed for one in found) else Exit.FAULTS
