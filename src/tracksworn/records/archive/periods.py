"""How long records are kept: `10y`, `18m`, `90d`."""

import calendar
import re
from datetime import date, timedelta

from tracksworn.inspection.faults import WrongUse


def day_before(period: str, on: date) -> date:
    """The day that lies that long before `on`; a day that a month does not have is its last. Raises WrongUse."""
    said = re.fullmatch(r"([1-9][0-9]{0,3})([ymd])", period)
    if said is None:
        raise WrongUse(f"{period!r} is no length of time; right would be 10y, 18m or 90d (years, months, days)")
    count, unit = int(said[1]), said[2]
    try:
        return on - timedelta(days=count) if unit == "d" else _months_before(on, count * (12 if unit == "y" else 1))
    except (ValueError, OverflowError):
        raise WrongUse(f"{period} before {on} lies before all calendars; give a shorter time") from None


def _months_before(on: date, months: int) -> date:
    year, month = divmod(on.year * 12 + on.month - 1 - months, 12)
    return date(year, month + 1, min(on.day, calendar.monthrange(year, month + 1)[1]))
