"""`tracksworn compare`: machines side by side, for a buyer who chooses."""

import os
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from tracksworn.cli import options
from tracksworn.cli.exits import Exit
from tracksworn.cli.given import GivenPath
from tracksworn.cli.reading import read_or_say, read_own
from tracksworn.documents.render.files import Format
from tracksworn.inspection.faults import Fault, Faulty, WrongUse

if TYPE_CHECKING:
    from tracksworn.inspection.dossier import Dossier

FEWEST, MOST = 2, 8
"""How many machines a comparison holds."""


@click.command()
@click.argument("inspections", nargs=-1, required=True, type=GivenPath(), metavar="INSPECTION INSPECTION...")
@click.option("--to", required=True, type=GivenPath(file_okay=False), help="The folder for the document.")
@options.formats
@options.templates
@click.option("--letterhead-of", "host", metavar="NUMBER", help="Whose letterhead it has; else the first that has one.")
@options.language
@options.units
@options.paper
def compare(
    inspections: tuple[Path, ...],
    to: Path,
    formats: tuple[Format, ...],
    templates: Path | None,
    host: str | None,
    language: str | None,
    units: str | None,
    paper: str | None,
) -> int:
    """Set two to eight machines side by side, for a buyer who chooses.

    INSPECTION is an inspection.yaml or the folder that holds it. The document says which machines can be told apart by
    the uncertainty of their difference and which not, what was not seen, when each reaches its first limit and what
    restoring it costs; it ranks none. Two inspections of one machine are told as that: whether they agree, and what
    changed. It is named compare-NUMBER-NUMBER.FORMAT. With a fault in any of them nothing is written, and the exit
    status is 1.

    \b
        tracksworn compare lots/118 lots/131 lots/207 --to output --format pdf,html
    """
    _count(inspections)
    own = read_own(templates)
    dossiers, status = _read(inspections)
    if status is not Exit.DONE:
        return status
    _all_different(inspections, dossiers)
    from tracksworn.documents.report import make_comparison
    from tracksworn.documents.writing import write_together

    files = make_comparison(
        dossiers,
        formats=formats,
        host=_host(dossiers, host),
        language=language,
        units=units,
        paper=paper,
        templates=own,
    )
    for path in write_together(to, files):
        click.echo(os.fsencode(path))
    return Exit.DONE


def _count(inspections: Sequence[Path]) -> None:
    if not FEWEST <= len(inspections) <= MOST:
        raise _fault(
            inspections[-1],
            f"a comparison holds {FEWEST} to {MOST} inspections; here {'is' if len(inspections) == 1 else 'are'} "
            f"{len(inspections)}",
        )


def _read(inspections: Sequence[Path]) -> "tuple[list[Dossier], Exit]":
    """All of them, so that the faults of all are told at once."""
    from tracksworn.cli.progress import each

    dossiers, status = [], Exit.DONE
    for inspection in each(inspections, "inspections"):
        dossier = read_or_say(inspection)
        if isinstance(dossier, Exit):
            status = max(status, dossier)
        else:
            dossiers.append(dossier)
    return dossiers, status


def _all_different(inspections: Sequence[Path], dossiers: "Sequence[Dossier]") -> None:
    """An inspection set beside itself would look like two that agree."""
    seen: dict[tuple[str, int], Path] = {}
    for path, dossier in zip(inspections, dossiers, strict=True):
        number, revision = dossier.inspection.number, dossier.inspection.revision
        before = seen.setdefault((number, revision), path)
        if before is not path:
            raise _fault(
                path, f"number {number}, revision {revision}, is that of {before} already: give each inspection once"
            )


def _host(dossiers: "Sequence[Dossier]", number: str | None) -> int | None:
    if number is None:
        return None
    numbers = [dossier.inspection.number for dossier in dossiers]
    if number not in numbers:
        raise WrongUse(f"--letterhead-of {number!r} is none of the inspections here: {', '.join(numbers)}")
    return numbers.index(number)


def _fault(path: Path, what: str) -> Faulty:
    return Faulty([Fault(path, 1, 1, what)])
