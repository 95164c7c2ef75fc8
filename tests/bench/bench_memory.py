"""What one process holds while it makes listing sheets of many machines, one after the other: it must not grow."""

import argparse
import sys
from pathlib import Path

if __name__ == "__main__":
    sys.path[:0] = [str(Path(__file__).resolve().parents[1]), str(Path(__file__).resolve().parents[2] / "src")]

from bench.invented import dossier

from tracksworn.documents.render.files import Sheet
from tracksworn.documents.report import make_report

WARM_UP = 100
"""Documents after which all is imported, and what is kept for a bounded number of machines is full."""


def held() -> dict[str, float]:
    """MiB that this process holds now, and that it held at most."""
    with Path("/proc/self/status").open(encoding="ascii") as lines:
        told = dict(line.split(":", 1) for line in lines)
    return {name: int(told[name].split()[0]) / 1024 for name in ("VmRSS", "VmHWM")}


def main() -> None:
    """Print the table, a row for every hundred documents."""
    parser = argparse.ArgumentParser(description=main.__doc__)
    parser.add_argument("--count", type=int, default=500)
    parser.add_argument("--document", type=Sheet, choices=(Sheet.FULL, Sheet.LISTING), default=Sheet.LISTING)
    options = parser.parse_args()
    reference = None
    print(f"| {options.document} documents of one process | MiB | × after {WARM_UP} | MiB at most |\n|{' --- |' * 4}")
    for seed in range(1, options.count + 1):
        make_report(dossier(seed), formats=["pdf"], document=options.document)
        if seed % WARM_UP == 0:
            now = held()
            reference = reference or now["VmRSS"]
            ratio = now["VmRSS"] / reference
            print(f"| {seed} | {now['VmRSS']:.0f} | {ratio:.3f} | {now['VmHWM']:.0f} |", flush=True)
    print()


if __name__ == "__main__":
    main()
