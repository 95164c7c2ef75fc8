"""What lies ahead, as views for tests of the pages: like most, without a plan, and as long as it gets."""

from dataclasses import replace

from tracksworn.documents.drawing.hours.axis import axis_for
from tracksworn.documents.drawing.hours.chart import Bar, HoursChart, HoursRow, Tick, VisitLine
from tracksworn.documents.full.ahead import Ahead, HoursLeft, HoursSide, HoursView, PlanView, VisitRow

ROWS = (
    HoursRow("Bottom roller 3", "left, the worst; last 752 h", Bar(0, 0, 0, "0", "none: past its limit"), None),
    HoursRow("Track links", "", Bar(620, 830, 1070, "620 to 1 070"), Bar(1250, 1540, 1880, "1 250 to 1 880")),
    HoursRow("Pitch", "left: last 752 h", Bar(980, 1310, 1820, "980 to 1 820"), Bar(9790, 14_000, None, "from 9 790")),
    HoursRow("Sprocket", "right by eye", Bar(2630, 3130, 3750, "2 630 to 3 750"), None),
    HoursRow("Shoes", "", Bar(3220, 3900, 4730, "3 220 to 4 730"), Bar(3830, 4650, 5700, "3 830 to 5 700")),
)


def _side(bar: Bar | None) -> HoursSide | None:
    return None if bar is None else HoursSide(bar.flag or bar.text, "November 2031 to July 2032", "")


def hours(rows: tuple[HoursRow, ...] = ROWS, visits: tuple[float, ...] = (0.0, 830.0, 3540.0)) -> HoursView:
    """A chart with its words."""
    axis = axis_for([bar for row in rows for bar in row.bars])
    chart = HoursChart(
        rows=rows,
        visits=tuple(VisitLine(str(number), at) for number, at in enumerate(visits, start=1)),
        ticks=tuple(Tick(at, f"{at:.0f}" if at else "now", (f"{8412 + at:.0f}", "Nov 2031")) for at in axis.ticks),
        end=axis.end,
        axis_text="from now, hours",
        visits_text="shop visits",
        scales=("hour meter", "month, at 35 h a week"),
        alternative="Hours left to each limit, from now. Track links: left 620 to 1 070, right 1 250 to 1 880.",
        accent="#1f5c6b",
    )
    words = tuple(HoursLeft(row.name, _side(row.left), _side(row.right), row.note) for row in rows)
    return HoursView(
        chart,
        words,
        "Bar: 95\u00a0% interval; stroke in it: best value; left solid, right open.",
        "Rate of wear since fitted or turned, unless a row names other hours.",
        ("Hours left are no permission to run a part past its limit.",),
    )


PLAN = PlanView(
    basis="EUR, an estimate without tax; prices of 1 March 2031; labour 95 an hour",
    visits=(
        VisitRow("1", "now, 8 412 h", "Replace left bottom roller 3.", "", "690", "190", "1 800", "2 680"),
        VisitRow(
            "2",
            "9 250 h, Oct 2031",
            "Replace both chains with bushings; left sprocket; right bottom roller 1.",
            "5 parts are done up to 2 210 h before their limit: EUR 2 597 of life is lost.",
            "33 970",
            "7 600",
            "1 800",
            "43 370",
        ),
    ),
    total=VisitRow("", "Both visits", "", "", "34 660", "7 790", "3 600", "46 050"),
    value_left="EUR 36 894",
    to_restore="EUR 43 301",
    swaps=("Right bottom rollers 1 and 2 could change places (69 % against 58 %): EUR 475, not in the plan.",),
    remarks=("Parts without a forecast, as those not seen or judged by eye, are in no visit.",),
)


def like_most() -> Ahead:
    """A forecast and a plan."""
    return Ahead(hours(), "", PLAN)


def as_long_as_it_gets() -> Ahead:
    """Eleven rows, as many as a machine has with rollers of different places on its sides, and a dozen visits."""
    rows = tuple(replace(ROWS[k % 5], name=f"Bottom roller {k + 1}") for k in range(11))
    visits = tuple(replace(PLAN.visits[1], number=str(k + 1)) for k in range(12))
    at = tuple(100.0 + 400 * k for k in range(12))
    return Ahead(hours(rows, at), "", replace(PLAN, visits=visits, swaps=PLAN.swaps * 6))
