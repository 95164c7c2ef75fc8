"""What a reader sees of what lies ahead: hours left to each limit, shop visits and what they cost."""

from dataclasses import dataclass
from typing import Annotated

from tracksworn.documents.drawing.hours.chart import HoursChart


@dataclass(frozen=True, slots=True)
class HoursSide:
    """One side of a row of hours left."""

    hours: Annotated[str, "`620 to 1 070`, `from 9 790`, `none: past its limit`"]
    months: Annotated[str, "`November 2031 to July 2032`; empty where weekly hours are not known"]
    travelling: Annotated[str, "`90 to 170`: hours of that travelling; empty where their share is not known"]
    rates: Annotated[str, "% of wear in 100 h, what governs first: `2.5 between inspections; 2.1 since fitted`"] = ""


@dataclass(frozen=True, slots=True)
class HoursLeft:
    """One component, or one position of rollers: the same as a row of the chart, for where it cannot be seen."""

    part: Annotated[str, "`Track links`, `Bottom roller 3`"]
    left: Annotated[HoursSide | None, "the left side, None where it has no forecast"]
    right: Annotated[HoursSide | None, "the right side, likewise"]
    note: Annotated[str, "`left: last 752 h; right not seen`; may be empty"]


@dataclass(frozen=True, slots=True)
class HoursView:
    """Hours left to each limit."""

    chart: Annotated[HoursChart, "what the chart is drawn from"]
    rows: Annotated[tuple[HoursLeft, ...], "the same in words, the soonest first"]
    legend: Annotated[str, "how the chart is read"]
    rates: Annotated[str, "which rate of wear governs; may be empty"]
    notes: Annotated[tuple[str, ...], "what else the hours leave open, one sentence each; may be empty"]
    foremost: Annotated[tuple[str, ...], "what nobody may miss: that they are no permission, what they leave out"] = ()


@dataclass(frozen=True, slots=True)
class VisitRow:
    """One shop visit, or the sum of all."""

    number: Annotated[str, "`1`; empty for the sum"]
    when: Annotated[str, "`now, 8 412 h`, `9 250 h, Oct 2031`; for the sum `All 3 visits`"]
    work: Annotated[str, "`Replace both chains with bushings; left sprocket.`; of the sum empty"]
    early: Annotated[str, "what of it is done before its limit and what that gives away, and no turn; may be empty"]
    parts: Annotated[str, "money for parts"]
    labour: Annotated[str, "money for labour, taking tracks off and putting them on among it"]
    set_up: Annotated[str, "money for setting up"]
    cost: Annotated[str, "all three together"]


@dataclass(frozen=True, slots=True)
class PlanView:
    """The plan, what the undercarriage is still worth, and advice beside it."""

    basis: Annotated[str, "`EUR, an estimate without tax; prices of 1 March 2031; labour 95 an hour`"]
    visits: Annotated[tuple[VisitRow, ...], "in the order of time; empty without a forecast"]
    total: Annotated[VisitRow | None, "the sum, None where there are not several visits"]
    value_left: Annotated[str, "`EUR 36 894`: of what was seen, by the life it has left"]
    to_restore: Annotated[str, "`EUR 43 301`: of what was seen, by the life that is used"]
    swaps: Annotated[tuple[str, ...], "advice that is no planned work; may be empty"]
    remarks: Annotated[tuple[str, ...], "how its sums are to be read, one sentence each; may be empty"]
    first: Annotated[str, "what must be done before all of it and is not priced; may be empty"] = ""
    left_out: Annotated[tuple[str, ...], "which parts are in no visit, one sentence each; may be empty"] = ()


@dataclass(frozen=True, slots=True)
class Ahead:
    """What follows for the hours to come."""

    hours: Annotated[HoursView | None, "hours left; None where there is no forecast"]
    no_forecast: Annotated[str, "why there is no forecast and what to record for one; empty where there is one"]
    plan: Annotated[PlanView | None, "the plan; None without prices"]

    @property
    def has_sheet(self) -> bool:
        """Whether there is anything to lay out; else the reason alone stands with what was seen and read."""
        return self.hours is not None or self.plan is not None
