"""`tracksworn sample`: invented inspections to try things out with."""

from pathlib import Path

import click

from tracksworn.cli.exits import say
from tracksworn.cli.given import GivenPath


@click.command()
@click.option("--count", required=True, type=click.IntRange(1, 100_000), help="How many lots.")
@click.option("--seed", required=True, type=click.IntRange(0, 999_999), help="A number; another one, other machines.")
@click.option("--to", required=True, type=GivenPath(file_okay=False), help="A folder that is new, or empty.")
@click.option(
    "--photos", default=0, type=click.IntRange(0, 20), show_default=True, help="Small drawn pictures of each lot."
)
@click.option(
    "--faults",
    default=0.0,
    type=click.FloatRange(0.0, 1.0),
    show_default=True,
    help="The part of the lots, 0 to 1, whose file has a slip as people make them.",
)
def sample(count: int, seed: int, to: Path, photos: int, faults: float) -> None:
    """Make up a sale: inspections of machines that nobody built, for trying out and for measuring.

    They differ as lots do: five layouts, small and large, measured or judged by eye, hardly run or run out, some with
    prices, with the terms of a cover, with earlier inspections. Charts and letterheads lie beside them, and the list
    lots.csv. The same count and seed make the same files anywhere. Every file says that it is invented.

    \b
        tracksworn sample --count 50 --seed 7 --to sale
        tracksworn check sale/lots.csv
        tracksworn batch sale/lots.csv --document listing --to output
    """
    from tracksworn.batch.sample.sample import LIST
    from tracksworn.batch.sample.sample import sample as groups
    from tracksworn.batch.sample.writing import write_sample
    from tracksworn.cli.progress import each_of
    from tracksworn.inspection.faults import printable

    write_sample(to, each_of(groups(count, seed, photos=photos, faults=faults), count + 2, "lots"))
    say(f"{count} invented lots are listed in {printable(to / LIST)}")
