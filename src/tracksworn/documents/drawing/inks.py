"""The inks and pens of every drawing. Stage inks are only where metal is, never for text."""

from typing import Final

from tracksworn.assessment.model import Stage

INK: Final = "#1b2329"
LABEL: Final = "#5c676e"
HAIRLINE: Final = "#c3cacd"
METAL: Final = "#e3e8ea"
METAL_DARK: Final = "#d5dbde"
PAPER: Final = "#ffffff"

STAGE_INKS: Final = {
    Stage.FIRST_HALF: "#6e8c9b",
    Stage.SECOND_HALF: "#94712a",
    Stage.NEAR_LIMIT: "#9c4a22",
    Stage.PAST_LIMIT: "#6d1f33",
}
