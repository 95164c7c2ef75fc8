"""What a reader sees of how the parts wore from inspection to inspection."""

from dataclasses import dataclass
from typing import Annotated

from tracksworn.documents.drawing.trend.trend import Trend


@dataclass(frozen=True, slots=True)
class TrendRow:
    """One inspection of one component, or when it was as new: the figures of a trend in words."""

    inspection: Annotated[str, "`MPS-2030-0377`; empty where the part was as new"]
    day: Annotated[str, "`12 Mar 2030`; empty where the part was as new"]
    hours: Annotated[str, "machine hours: `7 660 h`"]
    left: Annotated[str, "`61 % (56 to 66)`, `40 to 60 %, by eye`, `as new`; empty where there is nothing"]
    right: Annotated[str, "likewise"]


@dataclass(frozen=True, slots=True)
class TrendView:
    """How one component wore."""

    name: Annotated[str, "`Track links`, `Bottom rollers, worst`"]
    trend: Annotated[Trend, "what its drawing is made from"]
    rate: Annotated[
        str,
        "`2.5 left, 2.1 right, % in 100 h`, with what each rests on where that differs; empty where no rate is known",
    ]
    rows: Annotated[tuple[TrendRow, ...], "the same in figures, in the order of hours"]
    which: Annotated[str, "of rollers which ones: `left roller 3, as new at 6 100 h; right roller 1`; else empty"] = ""


@dataclass(frozen=True, slots=True)
class Trends:
    """How the machine wore, part by part."""

    heading: Annotated[str, "`Three inspections, one machine`"]
    note: Annotated[str, "how a trend is read"]
    views: Annotated[tuple[TrendView, ...], "component by component, in the trade's order"]
