"""From hours left to a day."""

import math
from datetime import date, timedelta


def day_after(inspected: date, hours: float | None, hours_per_week: float | None) -> date | None:
    """The day when so many hours have been worked, full days only; None where unknown or beyond the calendar."""
    if hours is None or not hours_per_week:
        return None
    days = 7.0 * hours / hours_per_week
    if not days < (date.max - inspected).days + 1:
        return None
    return inspected + timedelta(days=math.floor(days))
