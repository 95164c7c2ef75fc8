"""What was seen and no other check has used: it is told as it was seen, so that nothing is lost."""

from collections.abc import Iterable, Iterator
from typing import Final

from tracksworn.assessment.findings.telling import Seen, finding, observations, observed, several, severity_by_grade
from tracksworn.assessment.sayings import Finding, Severity
from tracksworn.assessment.so_far import SoFar
from tracksworn.inspection.vocabulary import Grade, Sign

GRAVE: Final = frozenset({Grade.MARKED, Grade.SEVERE})


def left_over(so_far: SoFar, told: Iterable[Finding]) -> Iterator[Finding]:
    """Observations that `told` does not speak of: by their sign where marked or severe, the rest by their grade."""
    used = {index for each in told for index in each.observations}
    rest = [one for one in observed(so_far) if one.index not in used]
    grave = [one for one in rest if one.grade in GRAVE]
    by_sign: dict[Sign, list[Seen]] = {}
    for one in grave:
        by_sign.setdefault(one.observation.seen[0], []).append(one)
    for sign in sorted(by_sign, key=list(Sign).index):
        there = by_sign[sign]
        yield _as_seen(f"seen-{sign.replace(' ', '-')}", severity_by_grade(there), there)
    for code, grade in (("seen-ungraded", None), ("seen-slight", Grade.SLIGHT)):
        there = [one for one in rest if one.grade is grade]
        if there:
            yield _as_seen(code, Severity.NOTE, there)


def _as_seen(code: str, severity: Severity, there: list[Seen]) -> Finding:
    parts = several(one.part for one in there)
    return finding(code, severity, observations(there), amounts={"parts": parts}, seen_there=there)
