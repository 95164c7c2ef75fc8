"""The cheapest grouping of work into shop visits."""

from tracksworn.assessment.decisions import Plan
from tracksworn.assessment.so_far import SoFar
from tracksworn.inspection.prices import Prices


def plan(so_far: SoFar, prices: Prices) -> Plan:
    """The plan by these prices for the forecast in `so_far`; without a forecast it has no visits."""
    raise NotImplementedError
