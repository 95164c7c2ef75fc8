"""`tracksworn check`: read files of any kind and tell every fault."""

from pathlib import Path

import click

from tracksworn.cli.exits import Exit, say
from tracksworn.cli.given import GivenPath


@click.command()
@click.argument("paths", nargs=-1, required=True, type=GivenPath(), metavar="PATH...")
def check(paths: tuple[Path, ...]) -> int:
    """Read files of any kind and tell every fault in them.

    PATH is an inspection, a wear chart, a letterhead, prices or terms, a folder with an inspection.yaml in it, or the
    list of a sale (.csv) with all its inspections. What an inspection names (chart, letterhead, photos, earlier
    inspections) is read too. Each fault is a line
    `file:line:column: what`, on standard error; a warning says so and leaves the exit status at 0.

    \b
        tracksworn check my-machine
        tracksworn check lots/*/inspection.yaml charts/*.yaml
        tracksworn check lots.csv
    """
    from tracksworn.inspection.faults import Failed, Fault, Weight
    from tracksworn.inspection.reading import check as check_file
    from tracksworn.inspection.sale_list import check_sale_list

    faults: set[Fault] = set()
    failures: list[Failed] = []
    for path in paths:
        try:
            is_list = path.suffix.lower() == ".csv"
            faults.update(check_sale_list(path) if is_list else check_file(path))
        except Failed as failure:
            failures.append(failure)
    for told in (*sorted(faults), *failures):
        say(str(told))
    if failures:
        return Exit.FAILED
    return Exit.FAULTS if any(fault.weight is Weight.FAULT for fault in faults) else Exit.DONE
