"""`tracksworn report`: inspections become documents."""

from pathlib import Path

import click

from tracksworn.cli.exits import Exit, say

FORMATS = ("pdf", "html", "md")


def _formats(_context: click.Context, _option: click.Parameter, text: str) -> tuple[str, ...]:
    chosen = tuple(dict.fromkeys(part.strip() for part in text.split(",")))
    for part in chosen:
        if part not in FORMATS:
            raise click.BadParameter(f"{part!r} is not one of {', '.join(FORMATS)}")
    return chosen


@click.command()
@click.argument("inspections", nargs=-1, required=True, type=click.Path(path_type=Path), metavar="INSPECTION...")
@click.option(
    "--to", required=True, type=click.Path(path_type=Path, file_okay=False), help="The folder for the documents."
)
@click.option(
    "--format",
    "formats",
    default="pdf",
    show_default=True,
    callback=_formats,
    help="pdf, html, md, or several by comma.",
)
@click.option("--units", type=click.Choice(["mm", "in"]), help="Units of sizes; else the letterhead's.")
@click.option("--paper", type=click.Choice(["A4", "letter"]), help="Size of the sheets; else the letterhead's.")
def report(
    inspections: tuple[Path, ...], to: Path, formats: tuple[str, ...], units: str | None, paper: str | None
) -> int:
    """Write the condition report of one inspection or more.

    INSPECTION is an inspection.yaml or the folder that holds it. Documents are named NUMBER-rREVISION-full.FORMAT;
    the pictures of a Markdown report lie in a folder of that name. Of an inspection with faults nothing is
    written, the others are done all the same, and the exit status is 1.
    """
    from tracksworn.cli.progress import each
    from tracksworn.documents.report import make_report
    from tracksworn.documents.writing import write_together
    from tracksworn.inspection.faults import Faulty
    from tracksworn.inspection.reading import read_inspection

    status = Exit.DONE
    for inspection in each(inspections, "reports"):
        try:
            dossier = read_inspection(inspection)
            for warning in dossier.warnings:
                say(str(warning))
            files = make_report(dossier, formats=formats, units=units, paper=paper)
        except Faulty as faulty:
            say(str(faulty))
            status = Exit.FAULTS
            continue
        for name in write_together(to, files):
            click.echo(name)
    return status
