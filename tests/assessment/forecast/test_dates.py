"""From hours left to a day."""

from datetime import date

import pytest

from tracksworn.assessment.forecast.dates import day_after

DAY = date(2031, 4, 18)


@pytest.mark.parametrize(
    ("hours", "a_week", "day"),
    [
        (0.0, 35.0, DAY),
        (4.9, 35.0, DAY),
        (5.0, 35.0, date(2031, 4, 19)),
        (270.4, 35.0, date(2031, 6, 11)),
        (1.0, 168.0, DAY),
        ((date.max - DAY).days * 24.0, 168.0, date.max),
    ],
)
def test_full_days(hours: float, a_week: float, day: date) -> None:
    assert day_after(DAY, hours, a_week) == day


@pytest.mark.parametrize(
    ("hours", "a_week"),
    [
        (None, 35.0),
        (100.0, None),
        (100.0, 0.0),
        (1e9, 1.0),
        (1e300, 1e-300),
        ((date.max - DAY).days * 24.0 + 24, 168.0),
    ],
)
def test_no_day_where_unknown_or_beyond_the_calendar(hours: float | None, a_week: float | None) -> None:
    assert day_after(DAY, hours, a_week) is None
