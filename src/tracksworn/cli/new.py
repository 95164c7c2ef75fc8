"""`tracksworn new`: a commented starting file."""

import os
from pathlib import Path

import click

from tracksworn.cli.exits import say
from tracksworn.cli.given import GivenPath, OneOf
from tracksworn.inspection.vocabulary import Kind, Layout


@click.command()
@click.argument("kind", type=OneOf(Kind), metavar="KIND")
@click.option("--to", required=True, type=GivenPath(dir_okay=False), help="The file to write.")
@click.option(
    "--layout",
    type=OneOf(Layout),
    default=Layout.OVAL.value,
    show_default=True,
    help="How the machine is laid out: it decides which components the file names.",
)
def new(kind: Kind, to: Path, layout: Layout) -> None:
    """Write a commented starting file to fill in.

    KIND is inspection, chart, letterhead, prices or terms. The JSON Schema of that kind is written beside the file
    and named in its first line, so that an editor completes and checks as you type. A file that is there already
    is left as it is.

    \b
        tracksworn new inspection --layout elevated-sprocket --to my-machine/inspection.yaml
        tracksworn new chart --layout elevated-sprocket --to charts/my-chart.yaml
        tracksworn new letterhead --to letterheads/my-firm.yaml
    """
    from tracksworn.documents.writing import write_together
    from tracksworn.inspection.faults import WrongUse
    from tracksworn.inspection.shipped import shipped_schema
    from tracksworn.inspection.starting import schema_name, starting_file

    if os.path.lexists(to):
        raise WrongUse(f"{to} is there already; name another file, or move that one away first")
    if to.name == schema_name(kind):
        raise WrongUse(f"{to.name} is the name of the schema that is written beside the file; name it another way")
    write_together(
        to.parent, {schema_name(kind): shipped_schema(kind).encode(), to.name: starting_file(kind, layout).encode()}
    )
    say(f"{to} is there to be filled in; then: tracksworn check {to}")
