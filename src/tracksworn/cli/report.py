"""`tracksworn report`: inspections become documents."""

import os
from collections.abc import Mapping
from hashlib import sha256
from pathlib import Path

import click

from tracksworn.cli import options
from tracksworn.cli.exits import Exit, say
from tracksworn.cli.given import GivenPath, OneOf
from tracksworn.cli.reading import read_or_say, read_own
from tracksworn.documents.render.files import Format, Sheet
from tracksworn.inspection.faults import Fault


@click.command()
@click.argument("inspections", nargs=-1, required=True, type=GivenPath(), metavar="INSPECTION...")
@click.option("--to", required=True, type=GivenPath(file_okay=False), help="The folder for the documents.")
@click.option(
    "--document",
    type=OneOf(Sheet),
    default=Sheet.FULL.value,
    show_default=True,
    help="What to make: the full report, a listing sheet of one page for a sale, or a certificate of conformity.",
)
@options.formats
@options.templates
@options.language
@options.units
@options.paper
def report(
    inspections: tuple[Path, ...],
    to: Path,
    document: Sheet,
    formats: tuple[Format, ...],
    templates: Path | None,
    language: str | None,
    units: str | None,
    paper: str | None,
) -> int:
    """Write the condition report of one inspection or more.

    INSPECTION is an inspection.yaml or the folder that holds it. Documents are named NUMBER-rREVISION-DOCUMENT.FORMAT,
    with -PAGE before .png where there are several; the pictures of a Markdown report lie in a folder of that name,
    which is replaced as a whole. The HTML of a listing sheet is also a piece that another page can take in. A
    certificate holds the machine against its terms; what does not pass is told as plainly, under another title. Of an
    inspection with faults, or without terms for a certificate, nothing is written, the others are done all the same,
    and the exit status is 1. A fault in your own templates ends the run.

    \b
        tracksworn report my-machine --to output
        tracksworn report lots/* --to output --format pdf,html --units in --paper letter
        tracksworn report lots/* --to output --document listing --format pdf,html,png
        tracksworn report my-machine --to output --document certificate --language fr
    """
    from tracksworn.cli.progress import each
    from tracksworn.documents.certificate.no_terms import NoTerms
    from tracksworn.documents.report import make_report
    from tracksworn.documents.writing import write_together

    own = read_own(templates)
    status, made = Exit.DONE, _Made()
    for inspection in each(inspections, "reports"):
        dossier = read_or_say(inspection)
        if isinstance(dossier, Exit):
            status = max(status, dossier)
            continue
        try:
            files = make_report(
                dossier,
                document=document,
                formats=formats,
                language=language,
                units=units,
                paper=paper,
                templates=own,
            )
        except NoTerms as error:
            say(str(Fault(inspection, 1, 1, str(error))))
            status = max(status, Exit.FAULTS)
            continue
        if double := made.from_another(inspection, files):
            say(str(double))
            status = max(status, Exit.FAULTS)
            continue
        for path in write_together(to, files):
            click.echo(os.fsencode(path))
    return status


class _Made:
    """What this run has written, so that one inspection does not quietly take the place of another."""

    def __init__(self) -> None:
        self._made: dict[str, tuple[Path, bytes]] = {}

    def from_another(self, inspection: Path, files: Mapping[str, bytes]) -> Fault | None:
        """A fault where another inspection with this number and revision was written before; else they are noted."""
        for name, content in files.items():
            digest = sha256(content).digest()
            before, known = self._made.setdefault(name, (inspection, digest))
            if digest != known:
                what = (
                    f"{name} is that of {before} already: the same number and revision; nothing is written for this one"
                )
                return Fault(inspection, 1, 1, what)
        return None
