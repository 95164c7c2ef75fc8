"""How far two assessed inspections differ, and whether that is more than its uncertainty."""

from tracksworn.assessment.comparing.model import Assessed, Difference


def difference(first: Assessed, second: Assessed) -> Difference:
    """The first less the second, with the errors that both share (GUM 5.2.2)."""
    raise NotImplementedError
