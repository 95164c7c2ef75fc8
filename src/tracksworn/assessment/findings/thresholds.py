"""Thresholds of the cross-checks that neither the chart nor the table of assumed values has: judgement, no source."""

from typing import Final

EVEN_GROWTH: Final = 25.0
"""Points of pitch that every span of a side must have grown before even growth is spoken of."""

OF_OWN_SIDE: Final = 0.5
"""A span out of step with all others must be so with its own side by this part of the threshold."""

FLANGE_CLEARANCE: Final = 3.0
"""mm between a roller flange and the pin bosses, at and under which the flange is near."""

WORTH_ADVICE: Final = 50.0
"""Percent worn from which a sprocket that keeps step is worth a word: it goes with the chain."""
