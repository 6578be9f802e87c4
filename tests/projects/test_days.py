"""Working and calendar days. Dates were taken from a wall calendar, not from the code."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from projects.days import UnknownRegion, add_days, days_between, is_working_day, regions

# Thanksgiving Thursday 26 November 2026, Christmas Friday 25 December 2026, Canada Day Wednesday 1 July 2026.
CASES = [
    (
        "calendar days run through everything",
        date(2026, 11, 25),
        10,
        "calendar",
        "us",
        "OH",
        date(2026, 12, 5),
    ),
    (
        "a United States Thanksgiving is skipped",
        date(2026, 11, 25),
        1,
        "working",
        "us",
        "OH",
        date(2026, 11, 27),
    ),
    (
        "the same Thursday is worked in Alberta",
        date(2026, 11, 25),
        1,
        "working",
        "ca",
        "AB",
        date(2026, 11, 26),
    ),
    ("a weekend is skipped", date(2026, 11, 27), 1, "working", "ca", "AB", date(2026, 11, 30)),
    ("Canada Day is skipped", date(2026, 6, 30), 1, "working", "ca", "MB", date(2026, 7, 2)),
    ("Family Day is a province's own", date(2026, 2, 13), 1, "working", "ca", "AB", date(2026, 2, 17)),
    ("and not one of the Yukon", date(2026, 2, 13), 1, "working", "ca", "YT", date(2026, 2, 16)),
    ("ten working days over Christmas", date(2026, 12, 18), 10, "working", "us", "OH", date(2027, 1, 5)),
    ("backwards", date(2026, 11, 30), -1, "working", "us", "OH", date(2026, 11, 27)),
    ("no days at all", date(2026, 11, 28), 0, "working", "us", "OH", date(2026, 11, 28)),
    ("a lapse of 180 days", date(2026, 1, 1), 180, "calendar", "us", "OH", date(2026, 6, 30)),
]


@pytest.mark.parametrize(("why", "start", "days", "kind", "code", "region", "expected"), CASES)
def test_add_days(why, start, days, kind, code, region, expected):
    assert add_days(start, days, kind, code, region) == expected, why


def test_unknown_region_is_named():
    with pytest.raises(UnknownRegion, match="read 'ZZ'"):
        add_days(date(2026, 1, 1), 1, "working", "us", "ZZ")
    assert "ON" in regions("ca")
    assert "OH" in regions("us")


def test_region_in_small_letters_is_the_same():
    assert not is_working_day(date(2026, 11, 26), "us", "oh")


@given(
    start=st.dates(date(2020, 1, 1), date(2035, 1, 1)),
    days=st.integers(1, 60),
    region=st.sampled_from(["OH", "TX", "NY"]),
)
def test_working_days_counted_back_give_the_same_number(start, days, region):
    end = add_days(start, days, "working", "us", region)
    assert is_working_day(end, "us", region)
    assert days_between(start, end, "working", "us", region) == days
    assert days_between(end, start, "working", "us", region) == -days
    assert (end - start).days >= days
