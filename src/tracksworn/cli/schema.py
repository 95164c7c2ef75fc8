"""`tracksworn schema`: the JSON Schema of a kind of file, or the table of findings."""

import click

KINDS = ("inspection", "chart", "letterhead", "prices", "terms", "findings")


@click.command()
@click.argument("kind", type=click.Choice(KINDS), metavar="KIND")
def schema(kind: str) -> None:
    """Print the JSON Schema of a kind of file, or the table of findings.

    \b
    KIND is inspection, chart, letterhead, prices or terms: an editor that knows the schema
    completes and checks the file as you type.
    `findings` prints the code of every finding with its severity and meaning.
    """
    if kind == "findings":
        from tracksworn.cli.tables import print_findings_table

        print_findings_table()
        return
    from tracksworn.inspection.file_types.kinds import Kind
    from tracksworn.inspection.schemas import as_json

    click.echo(as_json(Kind(kind)), nl=False)
