"""Signs read together: cross-checks on the figures of an assessment and on what was seen.

Each check is one small function from what is known so far to findings. `findings` runs the table of checks and puts
what they found in order: what asks for action first, and within that as the table has it.
"""

from collections.abc import Callable, Iterator
from typing import Final

from tracksworn.assessment.sayings import Finding, Severity
from tracksworn.assessment.so_far import SoFar

Check = Callable[[SoFar], Iterator[Finding]]

CHECKS: Final[tuple[Check, ...]] = ()


def findings(so_far: SoFar) -> tuple[Finding, ...]:
    """All findings on a machine: `act`, then `watch`, then `note`; within these in the order of the table."""
    found = [finding for check in CHECKS for finding in check(so_far)]
    order = list(Severity)
    return tuple(sorted(found, key=lambda finding: order.index(finding.severity)))
