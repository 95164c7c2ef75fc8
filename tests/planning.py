"""Short ways to make what a plan is made from: worn parts with a forecast, and prices. Invented figures."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from builders import chart, inspection, machine, reading, wears

from tracksworn.assessment.assess import figures
from tracksworn.assessment.assumed import Assumptions
from tracksworn.assessment.decisions import ForecastRow, RateFrom
from tracksworn.assessment.so_far import SoFar
from tracksworn.inspection.chart import ChartComponent
from tracksworn.inspection.model import FittedPart, Fitting, Hours
from tracksworn.inspection.prices import Price, Prices, Work
from tracksworn.inspection.vocabulary import ROLLERS, Component, Side, Track

METER = 8000.0


@dataclass(frozen=True)
class Part:
    """A part, how worn it is, and what is foretold of it; hours_left None foretells nothing."""

    component: Component
    side: Side
    worn: float
    hours_left: float | None = None
    whole_life: float = 4000.0

    @property
    def foretold(self) -> ForecastRow | None:
        if self.hours_left is None:
            return None
        rate = 100.0 / self.whole_life
        return ForecastRow(
            self.component,
            self.side,
            1 if self.component in ROLLERS else None,
            rate_per_100_h=100.0 * rate,
            rate_from=RateFrom.SINCE_FITTED,
            rates={RateFrom.SINCE_FITTED: 100.0 * rate, RateFrom.BETWEEN: None},
            hours_left=self.hours_left,
            hours_low=self.hours_left,
            hours_high=self.hours_left,
            date_low=None,
            date_high=None,
            whole_life=self.whole_life,
            over=self.whole_life,
        )


def found(
    parts: Sequence[Part],
    *,
    turns: int | None = None,
    turned: Mapping[Side, bool] | None = None,
    track: Track = Track.SEALED_AND_LUBRICATED,
    forecast: bool = True,
) -> SoFar:
    """An inspection that measured just these parts, one roller a side, on a chart where a size of 100 - w is w."""
    components = list(dict.fromkeys(part.component for part in parts))
    worn = {(part.component, part.side): 100.0 - part.worn for part in parts}
    readings = [reading(each, worn.get((each, Side.LEFT)), worn.get((each, Side.RIGHT))) for each in components]
    seen = inspection(
        *readings,
        machine=machine(track=track, hours=Hours(METER), bottom_rollers=1, top_rollers=1),
        fitted={
            FittedPart(Component.BUSHING, side): Fitting(0.0, turned_at=1.0) if done else Fitting(0.0, not_turned=True)
            for side, done in (turned or {}).items()
        },
    )
    so_far = figures(seen, chart(*(_entry(each, turns) for each in components)), Assumptions())
    rows = tuple(row for part in parts if (row := part.foretold) is not None)
    return replace(so_far, forecast=rows if forecast else None)


def _entry(component: Component, turns: int | None) -> ChartComponent:
    return wears(component, 100.0, 0.0, share=0.1, turns=turns if component is Component.BUSHING else None)


def prices(
    components: Mapping[Component, Mapping[Work, Price]],
    *,
    set_up: float = 1000.0,
    track_off: float = 5.0,
    together: Sequence[Sequence[Component]] = (),
) -> Prices:
    """Prices at 100 an hour of labour."""
    return Prices(
        date(2031, 3, 1), "EUR", 100.0, set_up, track_off, components, tuple(tuple(listed) for listed in together)
    )


def replaced_at(parts: float, labour: float = 0.0) -> Mapping[Work, Price]:
    """A replacement as the only way."""
    return {Work.REPLACE: Price(parts, labour)}
