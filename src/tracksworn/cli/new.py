"""`tracksworn new`: a commented starting file."""

from pathlib import Path

import click

from tracksworn.cli.exits import say

KINDS = ("inspection", "chart", "letterhead", "prices", "terms")
LAYOUTS = ("elevated sprocket", "oval", "excavator", "track loader", "rubber")


@click.command()
@click.argument("kind", type=click.Choice(KINDS), metavar="KIND")
@click.option("--to", required=True, type=click.Path(path_type=Path, dir_okay=False), help="The file to write.")
@click.option(
    "--layout", type=click.Choice(LAYOUTS), default="oval", show_default=True, help="How the machine is laid out."
)
def new(kind: str, to: Path, layout: str) -> None:
    """Write a commented starting file to fill in.

    KIND is inspection, chart, letterhead, prices or terms. The JSON Schema of that kind is written beside the file
    and named in its first line, so that an editor completes and checks as you type. A file that is there already
    is left as it is.
    """
    from tracksworn.documents.writing import write_together
    from tracksworn.inspection.faults import WrongUse
    from tracksworn.inspection.file_types.kinds import Kind
    from tracksworn.inspection.schemas import as_json
    from tracksworn.inspection.starting import starting_file
    from tracksworn.inspection.vocabulary import Layout

    if to.exists():
        raise WrongUse(f"{to} is there already; name another file, or move that one away first")
    write_together(
        to.parent,
        {
            f"{kind}.schema.json": as_json(Kind(kind)).encode(),
            to.name: starting_file(kind, Layout(layout)).encode(),
        },
    )
    say(f"{to} is there to be filled in; then: tracksworn check {to}")
