"""What a chart of hours left is drawn from. Hours are machine hours from the inspection on."""

from dataclasses import dataclass
from typing import Final

from tracksworn.documents.drawing.inks import INK

WIDTH: Final = 182.0


@dataclass(frozen=True, slots=True)
class Bar:
    """The interval of one side: `text` stands beside the name, `flag` where there are no hours left."""

    low: float
    best: float
    high: float | None  # None: no upper end
    text: str  # `620 to 1 070`
    flag: str = ""  # `none: past its limit`; empty where there are hours left


@dataclass(frozen=True, slots=True)
class HoursRow:
    """One component, or one position of rollers. Left is drawn above right."""

    name: str
    note: str
    left: Bar | None
    right: Bar | None

    @property
    def bars(self) -> tuple[Bar, ...]:
        """The sides that there are."""
        return tuple(bar for bar in (self.left, self.right) if bar is not None)


@dataclass(frozen=True, slots=True)
class VisitLine:
    """A shop visit, drawn through all rows."""

    number: str
    hours: float


@dataclass(frozen=True, slots=True)
class Tick:
    """A figure of the axis, and what stands beneath it: one text for each of the chart's scales."""

    hours: float
    text: str
    below: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class HoursChart:
    """All rows, the soonest first. `scales` name what stands under the axis: hour meter, month."""

    rows: tuple[HoursRow, ...]
    visits: tuple[VisitLine, ...]
    ticks: tuple[Tick, ...]  # ascending from 0, the last at or before `end`
    end: float  # hours at the right edge
    axis_text: str  # `from now, hours`
    visits_text: str  # `shop visits`
    scales: tuple[str, ...]
    alternative: str
    accent: str = INK
