"""`tracksworn assess`: the assessment of one inspection, as a table or as JSON."""

from pathlib import Path

import click

from tracksworn.cli.exits import say


@click.command()
@click.argument("inspection", type=click.Path(path_type=Path), metavar="INSPECTION")
@click.option("--json", "as_json", is_flag=True, help="Print every figure in full precision as JSON.")
def assess(inspection: Path, as_json: bool) -> None:
    """Work out how worn a machine is, and print it.

    INSPECTION is an inspection.yaml or the folder that holds it. Printed are, for every component, percent worn
    with its 95 % interval, left against right, the overall figure with what qualifies it, and the findings.
    """
    from tracksworn.assessment.assess import assess as assess_inspection
    from tracksworn.inspection.letterhead import Assumed
    from tracksworn.inspection.reading import read_inspection

    dossier = read_inspection(inspection)
    for warning in dossier.warnings:
        say(str(warning))
    assumed = dossier.letterhead.assumed if dossier.letterhead else Assumed()
    assessment = assess_inspection(dossier.inspection, dossier.chart, assumed)
    if as_json:
        import json

        from tracksworn.documents.statement import statement

        click.echo(json.dumps(statement(assessment), indent=2, ensure_ascii=False, allow_nan=False))
        return
    from tracksworn.cli.tables import assessment_table

    assessment_table(dossier, assessment)
