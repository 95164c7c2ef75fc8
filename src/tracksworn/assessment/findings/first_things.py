"""What must be settled before other advice may be followed."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from tracksworn.assessment.sayings import Finding, Saying, Severity, Topic
from tracksworn.inspection.vocabulary import CHAINS, Component, ObservedPlace, Side

ON_THE_CHAIN: Final = CHAINS | {
    Component.ADJUSTER,
    ObservedPlace.PIN,
    ObservedPlace.SEAL,
    ObservedPlace.MASTER_JOINT,
    ObservedPlace.ADJUSTER_SEAL,
    ObservedPlace.ADJUSTER_BRACKET,
    ObservedPlace.RECOIL_SPRING,
    Topic.CHAIN,
    Topic.MACHINE,
}
"""Where something that asks for action forbids that anyone sets the tension of that chain meanwhile."""

SETS_TENSION: Final = frozenset({"sag-too-slack", "sag-too-tight", "sag-out-of-range"})


def heed_acts(findings: Sequence[Finding]) -> tuple[Finding, ...]:
    """The findings in their order, the tension of a chain left alone until what asks for action on it is settled."""
    return tuple(_after(finding, findings) if finding.advice.code in SETS_TENSION else finding for finding in findings)


def _after(finding: Finding, findings: Sequence[Finding]) -> Finding:
    sides = {part.side for part in finding.about}
    first = next(
        (number for number, one in enumerate(findings, start=1) if _is_grave_there(one, sides)),
        None,
    )
    if first is None:
        return finding
    return replace(finding, advice=Saying("sag-after", finding.advice.about, {"first": first}))


def _is_grave_there(finding: Finding, sides: set[Side | None]) -> bool:
    if finding.severity is not Severity.ACT:
        return False
    return any(part.what in ON_THE_CHAIN and (part.side is None or part.side in sides) for part in finding.about)
