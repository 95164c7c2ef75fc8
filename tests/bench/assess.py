"""How long an assessment of the long example takes.

Run `python tests/bench/assess.py`; it prints the median of warm runs in milliseconds, findings and all.
"""

import statistics
import sys
import time
from pathlib import Path

if __name__ == "__main__":
    sys.path[:0] = [str(Path(__file__).resolve().parents[1]), str(Path(__file__).resolve().parents[2] / "src")]

from long_example import CHART, FIRM, INSPECTION

from tracksworn.assessment.assess import assess


def milliseconds(runs: int = 200) -> float:
    """Median time of one warm assessment of the long example."""
    assess(INSPECTION, CHART, FIRM)
    times = []
    for _ in range(runs):
        start = time.perf_counter()
        assess(INSPECTION, CHART, FIRM)
        times.append(time.perf_counter() - start)
    return 1000.0 * statistics.median(times)


if __name__ == "__main__":
    print(f"assess, long example: {milliseconds():.2f} ms")
