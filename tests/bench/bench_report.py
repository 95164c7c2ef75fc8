"""Assess and report times as ratios to a bare WeasyPrint run over the same report's HTML, all in one process, warm."""

import gc
import time
from collections.abc import Callable
from pathlib import Path
from statistics import median

from weasyprint import CSS, HTML

from tracksworn.documents.report import assess_dossier, make_report
from tracksworn.inspection.reading import read_inspection

ROUNDS = 7
WARM_UP = 2
DEMO = Path(__file__).parents[2] / "demo_inspections"
MACHINES = ("MPS-2031-0418", "OXB-0231")
REFERENCE = "bare WeasyPrint over the same HTML"
MEND = ".pins { float: none !important }"
"""WeasyPrint 70 fails on a float within a grid; nothing else is changed for it."""


def took(act: Callable[[], object]) -> float:
    """Milliseconds that something takes, rubbish collected beforehand."""
    gc.collect()
    began = time.perf_counter()
    act()
    return 1000 * (time.perf_counter() - began)


def jobs(machine: str) -> dict[str, Callable[[], object]]:
    """What is timed for one demo machine: the reference first."""
    path = DEMO / machine / "inspection.yaml"
    dossier = read_inspection(path)
    (page,) = make_report(dossier, formats=["html"]).values()
    return {
        REFERENCE: lambda: HTML(string=page.decode()).write_pdf(stylesheets=[CSS(string=MEND)]),
        "read and check": lambda: read_inspection(path),
        "assess": lambda: assess_dossier(dossier),
        "report, PDF": lambda: make_report(dossier, formats=["pdf"]),
        "report, HTML": lambda: make_report(dossier, formats=["html"]),
        "report, Markdown": lambda: make_report(dossier, formats=["md"]),
    }


def main() -> None:
    """Print medians and the median ratio within a round; the jobs take turns."""
    for machine in MACHINES:
        acts = jobs(machine)
        rounds = [{name: took(act) for name, act in acts.items()} for _ in range(WARM_UP + ROUNDS)][WARM_UP:]
        print(f"| {machine}, {ROUNDS} rounds | ms | × {REFERENCE} |\n| --- | --- | --- |")
        for name in acts:
            ratio = median(each[name] / each[REFERENCE] for each in rounds)
            print(f"| {name} | {median(each[name] for each in rounds):.1f} | {ratio:.4f} |")
        print()


if __name__ == "__main__":
    main()
