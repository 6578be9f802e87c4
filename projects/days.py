"""Working days and calendar days, by province or state.

Pure: no Django, no clock. The public holidays come from the `holidays` package; a jurisdiction that closes on a
day of its own moves the answer by that day, so every due date is a day to chase on, never a promise.
"""

from __future__ import annotations

from datetime import date, timedelta
from enum import StrEnum
from functools import lru_cache

import holidays

COUNTRIES = {"us": "US", "ca": "CA"}
ONE_DAY = timedelta(days=1)


class DayKind(StrEnum):
    """How a rule counts its days."""

    WORKING = "working"
    CALENDAR = "calendar"


class UnknownRegion(ValueError):
    """The province or state is not one whose holidays are known."""

    def __init__(self, code: str, region: str) -> None:
        known = ", ".join(regions(code))
        super().__init__(f"Region: read {region!r}; accepted is one of {known}.")


def regions(code: str) -> tuple[str, ...]:
    """The provinces or states of a code (`us` or `ca`), by their two letters."""
    return tuple(holidays.list_supported_countries()[COUNTRIES[code]])


@lru_cache(maxsize=512)
def _closed(code: str, region: str, year: int) -> frozenset[date]:
    return frozenset(holidays.country_holidays(COUNTRIES[code], subdiv=region, years=[year]))


def is_working_day(day: date, code: str, region: str) -> bool:
    """Monday to Friday and no public holiday there. Raises UnknownRegion."""
    region = region.strip().upper()
    if region not in regions(code):
        raise UnknownRegion(code, region)
    return day.weekday() < 5 and day not in _closed(code, region, day.year)


def add_days(start: date, days: int, kind: DayKind | str, code: str, region: str) -> date:
    """The day that lies `days` after `start` (before it when negative); the first day counted is the next one.

    Calendar days run through weekends and holidays. Working days skip both, so the answer to a count other
    than zero is always a working day. Raises UnknownRegion.
    """
    if DayKind(kind) is DayKind.CALENDAR:
        return start + timedelta(days=days)
    step = ONE_DAY if days > 0 else -ONE_DAY
    day, left = start, abs(days)
    while left:
        day += step
        if is_working_day(day, code, region):
            left -= 1
    return day


def days_between(start: date, end: date, kind: DayKind | str, code: str, region: str) -> int:
    """How many days of that kind lie after `start`, up to and with `end`; negative when `end` is earlier."""
    if DayKind(kind) is DayKind.CALENDAR:
        return (end - start).days
    if end < start:
        return -days_between(end, start, kind, code, region)
    day, count = start, 0
    while day < end:
        day += ONE_DAY
        count += is_working_day(day, code, region)
    return count
