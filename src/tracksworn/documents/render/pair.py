"""What belongs to the left and what to the right."""

from dataclasses import dataclass

from tracksworn.documents.drawing.plain import Drawing


@dataclass(frozen=True, slots=True)
class Pair:
    """Two drawings; None where there is nothing to draw."""

    left: Drawing | None
    right: Drawing | None
