"""Text to a float in the unit system of a code, and back to a quantity."""

from __future__ import annotations

import math
import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from structure.core.errors import InputError
from structure.core.units import DIMENSIONS, quantity, read_quantity, read_unit, ureg


@pytest.mark.parametrize(
    ("text", "dimension", "value"),
    [
        ("12'-6 1/2\"", "length", 150.5),
        ("12 ft 6.5 in", "length", 150.5),
        ("11 ft 2 in", "length", 134.0),
        ("3.81 m", "length", 150.0),
        ("16'", "length", 192.0),
        ("3 1/2 in", "length", 3.5),
        ("16 ft", "length", 192.0),
        ("850 lbf/ft", "line_load", 850 / 12),
        ("850 plf", "line_load", 850 / 12),
        ("850 lb/ft", "line_load", 850 / 12),
        ("100 lbf*ft", "moment", 1200.0),
        ("100 lbf-ft", "moment", 1200.0),
        ("100 ft·lbf", "moment", 1200.0),
        ("150 lbf/ft^3", "density", 150 / 1728),
        ("150 lbf/ft**3", "density", 150 / 1728),
        ("150 lbf/ft³", "density", 150 / 1728),
        ("150 pcf", "density", 150 / 1728),
        ("40 psf", "pressure", 40 / 144),
        ("1,500 psi", "stress", 1500.0),
        ("1.6e6 psi", "stress", 1.6e6),
        ("400 kip", "force", 400_000.0),
        ("4800 lb", "force", 4800.0),
        ("-600 lbf", "force", -600.0),
        ("356 in^4", "inertia", 356.0),
        ("18 deg", "angle", 18.0),
    ],
)
def test_us_quantities(text: str, dimension: str, value: float) -> None:
    assert read_quantity(text, dimension, "x") == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "dimension", "value"),
    [
        ("3.81 m", "length", 3810.0),
        ("12 ft 6 in", "length", 3810.0),
        ("1.9 kPa", "pressure", 0.0019),
        ("10 kN*m", "moment", 10e6),
        ("12 kN/m", "line_load", 12.0),
        ("9.5 GPa", "stress", 9500.0),
        ("100 kg", "force", 980.665),
    ],
)
def test_metric_quantities(text: str, dimension: str, value: float) -> None:
    assert read_quantity(text, dimension, "x", "ca") == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "dimension"),
    [
        ("16", "length"),
        (16, "length"),
        (16.0, "length"),
        (None, "length"),
        (True, "length"),
        (["16 ft"], "length"),
        ("", "length"),
        ("   ", "length"),
        ("ft", "length"),
        ("nan ft", "length"),
        ("inf ft", "length"),
        ("1e400 ft", "length"),
        ("1e999 ft 2 in", "length"),
        ("12 ft 18 in", "length"),
        ("16 ft 4", "length"),
        ("1/0 in", "length"),
        ("9**9**8 ft", "length"),
        ("16 ft; 3 in", "length"),
        ("16 ft^2", "length"),
        ("16 ft/", "length"),
        ("16 lbf", "length"),
        ("16 ft", "force"),
        ("16 psi*", "stress"),
        ("16 cubits", "length"),
        ("16 mN", "force"),
        ("40 psf", "line_load"),
        ("16 ft\x00", "length"),
    ],
)
def test_bad_quantities_name_the_field_the_text_and_what_is_accepted(text: object, dimension: str) -> None:
    with pytest.raises(InputError) as caught:
        read_quantity(text, dimension, "given.loads[2].value")
    error = caught.value
    assert error.field == "given.loads[2].value"
    assert error.read == text
    assert str(error).startswith("given.loads[2].value: read ")
    assert "accepted is" in str(error)
    assert "\n" not in str(error)


def test_eighteen_inches_after_the_feet_are_told_as_such() -> None:
    with pytest.raises(InputError, match="less than 12 in after the feet"):
        read_quantity("12 ft 18 in", "length", "span")


@given(st.text(max_size=70))
def test_any_text_is_a_finite_number_or_an_input_error(text: str) -> None:
    try:
        value = read_quantity(text, "length", "x")
    except InputError:
        return
    assert math.isfinite(value)


@given(
    st.floats(min_value=-1e9, max_value=1e9, allow_nan=False),
    st.sampled_from(sorted(DIMENSIONS)),
    st.sampled_from(["us", "ca"]),
)
def test_what_is_shown_reads_back(value: float, dimension: str, code: str) -> None:
    shown = quantity(value, dimension, code)
    text = f"{shown['value']:.17e} {shown['unit']}"
    assert read_quantity(text, dimension, "x", code) == pytest.approx(value, rel=1e-12, abs=1e-15)


def test_long_text_takes_no_time() -> None:
    start = time.perf_counter()
    for text in ("1" * 10_000 + " ft", "1 ft" * 2_500, "1 ft " + " " * 10_000 + "x", "1 " + "ft*" * 3_333):
        with pytest.raises(InputError):
            read_quantity(text, "length", "x")
    assert time.perf_counter() - start < 0.2


def test_every_unit_worked_in_or_shown_is_one_that_is_read() -> None:
    for dimension in DIMENSIONS.values():
        for code in ("us", "ca"):
            read = read_unit(dimension.shown[code])
            assert read is not None
            assert read.dimensionality == ureg.Unit(dimension.inside[code]).dimensionality
