"""What each step and each format of a full report and a listing sheet takes, as ratios to their PDF, warm."""

import sys
from collections.abc import Callable, Mapping
from pathlib import Path

if __name__ == "__main__":
    sys.path[:0] = [str(Path(__file__).resolve().parents[1]), str(Path(__file__).resolve().parents[2] / "src")]

from bench.invented import BASE, DEMO, dossier
from bench.turns import rounds, table

from tracksworn.documents.render.files import Format, Sheet
from tracksworn.documents.report import assess_dossier, make_report
from tracksworn.inspection.reading import read_inspection

ROUNDS = 5
WARM_UP = 2
PDF = "as pdf"


def jobs_of(document: Sheet) -> Callable[[int], Mapping[str, Callable[[], object]]]:
    """The jobs of a round, each round another machine; what is read is always the same folder."""

    def jobs(seed: int) -> Mapping[str, Callable[[], object]]:
        of = dossier(seed)
        formats = [one for one in Format if document is Sheet.LISTING or one is not Format.PNG]
        return {
            "read and check": lambda: read_inspection(DEMO / BASE / "inspection.yaml"),
            "assess": lambda: assess_dossier(of),
            **{f"as {one}": lambda one=one: make_report(of, formats=[one], document=document) for one in formats},  # type: ignore[misc]
        }

    return jobs


def main() -> None:
    """Print a table for each document."""
    for document in (Sheet.FULL, Sheet.LISTING):
        print(table(f"{document}, step by step", rounds(jobs_of(document), ROUNDS, WARM_UP), (PDF,)), flush=True)


if __name__ == "__main__":
    main()
