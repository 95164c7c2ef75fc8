"""Listing sheets as ratios to a bare WeasyPrint run over the same sheet's HTML, all in one process, warm."""

import gc
import time
from collections.abc import Callable
from pathlib import Path
from statistics import median

from weasyprint import HTML

from tracksworn.documents.listing.build import listing
from tracksworn.documents.render.render import render
from tracksworn.documents.report import assess_dossier
from tracksworn.inspection.reading import read_inspection

ROUNDS = 7
WARM_UP = 2
DEMO = Path(__file__).parents[2] / "demo_inspections"
MACHINES = ("MPS-2031-0418", "OXB-0231")
REFERENCE = "bare WeasyPrint over the same HTML"


def took(act: Callable[[], object]) -> float:
    """Milliseconds that something takes, rubbish collected beforehand."""
    gc.collect()
    began = time.perf_counter()
    act()
    return 1000 * (time.perf_counter() - began)


def jobs(machine: str) -> dict[str, Callable[[], object]]:
    """What is timed for one demo machine: the reference first."""
    dossier = read_inspection(DEMO / machine / "inspection.yaml")
    assessment = assess_dossier(dossier)
    view = listing(dossier, assessment)
    page = render(view, ["html"])[0].content.decode()
    return {
        REFERENCE: lambda: HTML(string=page).write_pdf(),
        "view with both elevations": lambda: listing(dossier, assessment),
        "from the view to PDF": lambda: render(view, ["pdf"]),
        "sheet, PDF": lambda: render(listing(dossier, assessment), ["pdf"]),
        "sheet, PDF and PNG": lambda: render(listing(dossier, assessment), ["pdf", "png"]),
        "sheet, HTML": lambda: render(listing(dossier, assessment), ["html"]),
        "sheet, Markdown": lambda: render(listing(dossier, assessment), ["md"]),
    }


def main() -> None:
    """Print medians and the median ratio within a round; the jobs take turns."""
    for machine in MACHINES:
        acts = jobs(machine)
        rounds = [{name: took(act) for name, act in acts.items()} for _ in range(WARM_UP + ROUNDS)][WARM_UP:]
        print(f"| listing of {machine}, {ROUNDS} rounds | ms | × {REFERENCE} |\n| --- | --- | --- |")
        for name in acts:
            ratio = median(each[name] / each[REFERENCE] for each in rounds)
            print(f"| {name} | {median(each[name] for each in rounds):.1f} | {ratio:.4f} |")
        print()


if __name__ == "__main__":
    main()
