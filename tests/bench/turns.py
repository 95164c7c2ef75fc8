"""Jobs that take turns, so that a busy moment of the machine hits them all, and the table of what they took.

Time on the clock drifts with the machine's load; so the ratio is the median of those within a round, and the
processors' time is told beside it: that of this process, of those it has waited for and of those it keeps.
"""

import gc
import os
import resource
import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from statistics import median

_TICKS = os.sysconf("SC_CLK_TCK")


@dataclass(frozen=True, slots=True)
class Took:
    """Milliseconds by the clock, and by the processors."""

    clock: float
    processors: float


Round = Mapping[str, Took]


def took(act: Callable[[], object]) -> Took:
    """What something takes, rubbish collected beforehand."""
    gc.collect()
    before, began = _spent(), time.perf_counter()
    act()
    return Took(1000 * (time.perf_counter() - began), 1000 * (_spent() - before))


def _spent() -> float:
    """Seconds of processors of this process and all its children; what runs on is known to a hundredth of a second."""
    ended = resource.getrusage(resource.RUSAGE_CHILDREN)
    return time.process_time() + ended.ru_utime + ended.ru_stime + sum(map(_of_tree, _children(os.getpid())))


def _of_tree(process: int) -> float:
    """Of a process that runs, of those it has waited for, and of all that run below it."""
    try:
        fields = Path(f"/proc/{process}/stat").read_text(encoding="utf-8").rpartition(")")[2].split()
    except OSError:  # it has ended meanwhile
        return 0.0
    return sum(map(int, fields[11:15])) / _TICKS + sum(map(_of_tree, _children(process)))


def _children(process: int) -> list[int]:
    try:
        tasks = [*Path(f"/proc/{process}/task").iterdir()]
        return [int(child) for task in tasks for child in (task / "children").read_text(encoding="ascii").split()]
    except OSError:
        return []


def rounds(jobs_of: Callable[[int], Mapping[str, Callable[[], object]]], count: int, warm_up: int) -> list[Round]:
    """What the jobs of every round took, but for the first few; a round has its number, so that it can differ."""
    return [_round(jobs_of(number)) for number in range(warm_up + count)][warm_up:]


def _round(jobs: Mapping[str, Callable[[], object]]) -> Round:
    return {name: took(act) for name, act in jobs.items()}


def table(title: str, done: Sequence[Round], references: Sequence[str]) -> str:
    """Medians, and for each reference the median ratio within a round, by the clock and by the processors."""
    heads = "".join(f" | × {name} | by processors" for name in references)
    lines = [f"| {title}, {len(done)} rounds | ms{heads} |", "| --- | ---" + " | --- | ---" * len(references) + " |"]
    for name in done[0]:
        cells = [name, f"{median(one[name].clock for one in done):.0f}"]
        for reference in references:
            cells.append(f"{median(one[name].clock / one[reference].clock for one in done):.3f}")
            cells.append(f"{median(one[name].processors / one[reference].processors for one in done):.3f}")
        lines.append(f"| {' | '.join(cells)} |")
    return "\n".join(lines) + "\n"
