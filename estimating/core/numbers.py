"""Decimal helpers: where a measured float becomes a quantity, and where money is rounded."""

from __future__ import annotations

import math
from decimal import ROUND_CEILING, ROUND_HALF_UP, Decimal

CENT = Decimal("0.01")
THOUSANDTH = Decimal("0.001")
ZERO = Decimal(0)

ROUNDING_RULE = (
    "Each line is quantity times unit price, rounded half up to the cent; each percentage is rounded half up"
    " to the cent; every total is the sum of rounded amounts."
)


def cents(amount: Decimal) -> Decimal:
    """Money to the cent, half up. `ROUNDING_RULE` states it in words."""
    return amount.quantize(CENT, ROUND_HALF_UP)


def measured(value: float) -> Decimal:
    """A measured float as a quantity with three decimals, half up.

    Raises ValueError for a value that is not finite or is negative: no quantity is either.
    """
    if not math.isfinite(value) or value < 0:
        raise ValueError(f"a quantity must be a finite number of at least zero, not {value!r}")
    return Decimal(repr(value)).quantize(THOUSANDTH, ROUND_HALF_UP)


def whole_up(value: float) -> Decimal:
    """The next whole number up, for things that are sold whole.

    Dust of float arithmetic does not buy one more.
    """
    return Decimal(repr(round(value, 6))).quantize(Decimal(1), ROUND_CEILING)


def plain(number: Decimal) -> str:
    """A Decimal without trailing zeros and without an exponent: 12.500 gives 12.5."""
    text = f"{number:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
