"""`tracksworn assess`: the assessment of one inspection, as a table or as JSON."""

from pathlib import Path

import click

from tracksworn.cli.exits import say
from tracksworn.cli.given import GivenPath


@click.command()
@click.argument("inspection", type=GivenPath(), metavar="INSPECTION")
@click.option("--json", "as_json", is_flag=True, help="Print every figure in full precision as JSON.")
def assess(inspection: Path, as_json: bool) -> None:
    """Work out how worn a machine is, and print it.

    INSPECTION is an inspection.yaml or the folder that holds it. Printed are, for every component, percent worn
    with its 95 % interval, left against right, the overall figure with what qualifies it, and the findings; where
    they follow, hours left to each limit, shop visits with their cost, and the verdict against terms.

    \b
        tracksworn assess my-machine
        tracksworn assess my-machine --json > my-machine.json
    """
    from tracksworn.documents.report import assess_dossier
    from tracksworn.inspection.reading import read_inspection

    dossier = read_inspection(inspection)
    for warning in dossier.warnings:
        say(str(warning))
    assessment = assess_dossier(dossier)
    if as_json:
        from tracksworn.documents.statement import in_json, statement

        click.echo(in_json(statement(assessment)), nl=False)
        return
    from tracksworn.cli.tables import print_report
    from tracksworn.documents.full.build import full_report

    print_report(full_report(dossier, assessment))
