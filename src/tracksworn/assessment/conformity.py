"""Percent worn against what terms allow, with a decision rule agreed beforehand (JCGM 106, ILAC-G8)."""

from tracksworn.assessment.decisions import Conformity
from tracksworn.assessment.so_far import SoFar
from tracksworn.inspection.terms import Terms


def conformity(so_far: SoFar, terms: Terms) -> Conformity:
    """Every component that the terms allow for, both sides, and the whole."""
    raise NotImplementedError
