"""Numbers and feet-inch lengths as people write them."""

from __future__ import annotations

import time
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from structure.core.measure import (
    format_feet_inches,
    read_feet_inches,
    read_number,
    split_quantity,
    tidy,
)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("1,500", Fraction(1500)),
        ("12.5", Fraction(25, 2)),
        (".5", Fraction(1, 2)),
        ("3 1/2", Fraction(7, 2)),
        ("3-1/2", Fraction(7, 2)),
        ("1/4", Fraction(1, 4)),
        ("1.6e6", Fraction(1_600_000)),
        ("2e-3", Fraction(1, 500)),
        ("-12", Fraction(-12)),
        ("- 3 1/2", Fraction(-7, 2)),
    ],
)
def test_numbers(text: str, value: Fraction) -> None:
    assert read_number(text) == value


@pytest.mark.parametrize(
    "text",
    [
        "",
        "abc",
        "1/0",
        "3 5/2",
        "1,50",
        "12,34,567",
        "1..2",
        "nan",
        "inf",
        "1e",
        "0x10",
        "1_000",
        "٣",
        "9**9",
    ],
)
def test_what_is_no_number(text: str) -> None:
    assert read_number(text) is None


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("12'-6 1/2\"", Fraction(301, 2)),
        ("12' 6\"", Fraction(150)),
        ("12'6\"", Fraction(150)),
        ("12 ft 6.5 in", Fraction(301, 2)),
        ("12 ft. 6 in.", Fraction(150)),
        ("11 ft 2 in", Fraction(134)),
        ("12 feet 6 inches", Fraction(150)),
        ("1 foot 1 inch", Fraction(13)),
        ("0 ft 3/4 in", Fraction(3, 4)),
        ("1,000 ft 0 in", Fraction(12_000)),
        ("-2 ft 6 in", Fraction(-30)),
    ],
)
def test_feet_and_inches(text: str, inches: Fraction) -> None:
    assert read_feet_inches(tidy(text)) == inches


def test_typographic_marks_count() -> None:
    assert read_feet_inches(tidy(" 12′–6 1/2″ ")) == Fraction(301, 2)


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("12 ft 18 in", "less than 12 in"),
        ("12 ft 12 in", "less than 12 in"),
        ("12.5 ft 6 in", "whole feet"),
        ("12 ft 1/0 in", "proper"),
        ("12 ft 3 5/4 in", "proper"),
    ],
)
def test_feet_and_inches_that_cannot_be_meant(text: str, word: str) -> None:
    answer = read_feet_inches(text)
    assert isinstance(answer, str)
    assert word in answer


@pytest.mark.parametrize(
    "text", ["12 ft", "12 in", "12 m 6 cm", "ft 6 in", "12 ft 6", "6 in 12 ft", "12 ft in"]
)
def test_other_forms_are_left_to_the_unit_reader(text: str) -> None:
    assert read_feet_inches(text) is None


def test_a_quantity_is_split_and_not_judged() -> None:
    assert split_quantity("1,500 psi") == (Fraction(1500), "psi")
    assert split_quantity("3 1/2 in") == (Fraction(7, 2), "in")
    assert split_quantity("16") == (Fraction(16), "")
    assert split_quantity("psi") is None


@pytest.mark.parametrize(
    ("inches", "text"),
    [
        (150.5, "12'-6 1/2\""),
        (150.0, "12'-6\""),
        (144.0, "12'-0\""),
        (5.25, '5 1/4"'),
        (0.75, '3/4"'),
        (0.0, '0"'),
        (144.75, "12'-0 3/4\""),
        (-30.0, "-2'-6\""),
        (11.99, "1'-0\""),
    ],
)
def test_feet_and_inches_are_written_to_sixteenths(inches: float, text: str) -> None:
    assert format_feet_inches(inches) == text


@given(st.integers(min_value=-20_000, max_value=20_000))
def test_what_is_written_reads_back(sixteenths: int) -> None:
    inches = sixteenths / 16
    text = format_feet_inches(inches)
    read = read_feet_inches(text)
    if read is None:
        split = split_quantity(text)
        assert split is not None
        assert split[1] == '"'
        read = split[0]
    assert read == Fraction(inches)


@given(st.text(max_size=80))
def test_any_text_is_answered(text: str) -> None:
    plain = tidy(text)
    assert read_number(plain) is None or isinstance(read_number(plain), Fraction)
    assert not isinstance(split_quantity(plain), str)
    read_feet_inches(plain)


@pytest.mark.parametrize(
    "text",
    [
        "1" * 10_000,
        "1 ft " + " " * 10_000 + "x",
        "1," * 5_000,
        "1,111" * 2_000,
        "1 1/" * 2_500,
        "-" * 10_000,
        " " * 10_000 + "1",
        "1e" * 5_000,
        "12'" * 3_333,
        "9**9**8 ft",
    ],
)
def test_long_and_hostile_text_takes_no_time(text: str) -> None:
    start = time.perf_counter()
    for _ in range(20):
        plain = tidy(text)
        read_number(plain)
        split_quantity(plain)
        read_feet_inches(plain)
    assert time.perf_counter() - start < 0.5
