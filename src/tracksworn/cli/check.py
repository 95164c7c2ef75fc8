"""`tracksworn check`: read files of any kind and tell every fault."""

from pathlib import Path

import click

from tracksworn.cli.exits import Exit, say


@click.command()
@click.argument("paths", nargs=-1, required=True, type=click.Path(path_type=Path), metavar="PATH...")
def check(paths: tuple[Path, ...]) -> int:
    """Read files of any kind and tell every fault in them.

    PATH is an inspection, a wear chart, a letterhead, prices or terms, or a folder with an inspection.yaml in it.
    What an inspection names (chart, letterhead, photos, earlier inspections) is read too. Each fault is a line
    `file:line:column: what`, on standard error; a warning says so and leaves the exit status at 0.
    """
    from tracksworn.inspection.faults import Weight
    from tracksworn.inspection.reading import check as check_file

    faults = sorted({fault for path in paths for fault in check_file(path)})
    for fault in faults:
        say(str(fault))
    return Exit.FAULTS if any(fault.weight is Weight.FAULT for fault in faults) else Exit.DONE
