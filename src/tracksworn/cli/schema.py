"""`tracksworn schema`: the JSON Schema of a kind of file, or the table of findings."""

import click

from tracksworn.inspection.vocabulary import Kind

FINDINGS = "findings"


@click.command()
@click.argument("kind", type=click.Choice([*(kind.value for kind in Kind), FINDINGS]), metavar="KIND")
def schema(kind: str) -> None:
    """Print the JSON Schema of a kind of file, or the table of findings.

    KIND is inspection, chart, letterhead, prices or terms: an editor that knows the schema completes and checks
    the file as you type. `findings` prints the code of every finding with its severity and meaning.
    """
    if kind == FINDINGS:
        from tracksworn.cli.tables import print_findings_table

        print_findings_table()
        return
    from tracksworn.inspection.shipped import shipped_schema

    click.echo(shipped_schema(Kind(kind)), nl=False)
