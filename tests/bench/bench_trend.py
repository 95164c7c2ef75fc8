"""What trends cost: the first one of a process, which imports matplotlib, and each once it is there."""

import os
import subprocess
import sys
import time
from statistics import median

from tracksworn.documents.drawing.trend.draw import draw_trends
from tracksworn.documents.drawing.trend.trend import Outlook, Trend, TrendPoint, TrendSide
from tracksworn.inspection.vocabulary import Side

ROUNDS = 7
TRENDS = 9  # of a dozer on which everything was measured
FIRST = {
    "the page engine, first": "import time; t = time.perf_counter(); import weasyprint; print(time.perf_counter() - t)",
    "a chart, first": (
        "import time; from tracksworn.documents.drawing.plotting import Chart, plot; t = time.perf_counter(); "
        "plot([Chart(30, 20, lambda figure: None, '')]); print(time.perf_counter() - t)"
    ),
}


def trend() -> Trend:
    """Two sides over four inspections with what is ahead."""
    return Trend(tuple(map(_side, Side)), ((5000.0, "5 000"), (8000.0, "8 000")), "a trend")


def _side(side: Side) -> TrendSide:
    points = tuple(TrendPoint(5000.0 + 750 * n, 19.0 * n, 19.0 * n - 5, 19.0 * n + 5) for n in range(1, 5))
    now = (8000.0, 76.0)
    return TrendSide(side, 5000.0, points, Outlook((now, (9000, 100)), (now, (8800, 100)), (now, (9300, 100))))


def first(code: str) -> float:
    """Milliseconds that code says it took in a process of its own."""
    command = [sys.executable, "-c", code]
    # compiled code may be kept, as it is where the program is installed
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    return 1000 * float(subprocess.run(command, check=True, capture_output=True, env=environment).stdout)


def each() -> float:
    """Milliseconds a trend when a page of them is drawn."""
    page = [trend()] * TRENDS
    began = time.perf_counter()
    draw_trends(page)
    return 1000 * (time.perf_counter() - began) / TRENDS


def main() -> None:
    """Print medians."""
    for code in FIRST.values():
        first(code)
    each()
    print(f"| trends, {ROUNDS} rounds | ms |\n| --- | --- |")
    for name, code in FIRST.items():
        print(f"| {name} | {median(first(code) for _ in range(ROUNDS)):.0f} |")
    print(f"| a trend, warm | {median(each() for _ in range(ROUNDS)):.1f} |\n")


if __name__ == "__main__":
    main()
