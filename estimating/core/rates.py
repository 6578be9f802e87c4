"""Contingency, overhead, profit and taxes: the contractor's own figures, read and held as Decimal."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal, InvalidOperation
from typing import Any

from estimating.core.numbers import plain
from structure.core.errors import InputError

PERCENT_MOST = Decimal(100)
MONEY_MOST = Decimal(1_000_000)
TAX_BASES = ("materials", "price")
DIGITS_MOST = 20


@dataclass(frozen=True, slots=True)
class Tax:
    """A tax by name, in percent, on what the contractor pays for `materials` or on the whole `price`.

    `regions` are the states or provinces that raise it; none means everywhere.
    """

    name: str
    percent: Decimal
    base: str = "price"
    regions: tuple[str, ...] = ()

    def as_data(self) -> dict[str, Any]:
        """Plain data for JSON; the percentage as text."""
        data: dict[str, Any] = {"name": self.name, "percent": plain(self.percent), "base": self.base}
        return data | ({"regions": list(self.regions)} if self.regions else {})


@dataclass(frozen=True, slots=True)
class Rates:
    """Percentages added to the direct cost, how long a quote is held, and when a price is stale."""

    contingency: Decimal
    overhead: Decimal
    profit: Decimal
    taxes: tuple[Tax, ...] = ()
    valid_days: int = 30
    stale_after_days: int = 60
    currency: str = "USD"

    def there(self, region: str) -> Rates:
        """The rates as they are in one state or province: without the taxes of others."""
        held = (tax for tax in self.taxes if not tax.regions or region.strip().upper() in tax.regions)
        return replace(self, taxes=tuple(held))

    def as_data(self) -> dict[str, Any]:
        """Plain data for JSON; percentages as text."""
        return {
            "contingency": plain(self.contingency),
            "overhead": plain(self.overhead),
            "profit": plain(self.profit),
            "taxes": [tax.as_data() for tax in self.taxes],
            "valid_days": self.valid_days,
            "stale_after_days": self.stale_after_days,
            "currency": self.currency,
        }


def read_rates(data: Mapping[str, Any]) -> Rates:
    """Rates from plain data. Raises InputError naming the field that cannot be used."""
    taxes = []
    for index, row in enumerate(data.get("taxes") or ()):
        path = f"taxes[{index}]"
        if not isinstance(row, Mapping) or not str(row.get("name") or "").strip():
            raise InputError(f"{path}.name", row, "the name of the tax")
        if row.get("base", "price") not in TAX_BASES:
            raise InputError(f"{path}.base", row.get("base"), " or ".join(TAX_BASES))
        percent = read_percent(row.get("percent"), f"{path}.percent")
        base, named = str(row.get("base", "price")), row.get("regions") or ()
        taxes.append(Tax(str(row["name"]).strip(), percent, base, _regions(named, f"{path}.regions")))
    return Rates(
        contingency=read_percent(data.get("contingency"), "contingency"),
        overhead=read_percent(data.get("overhead"), "overhead"),
        profit=read_percent(data.get("profit"), "profit"),
        taxes=tuple(taxes),
        valid_days=_days(data.get("valid_days", 30), "valid_days"),
        stale_after_days=_days(data.get("stale_after_days", 60), "stale_after_days"),
        currency=str(data.get("currency") or "USD"),
    )


def read_decimal(
    text: object, field: str, low: Decimal, high: Decimal, places: int, accepted: str
) -> Decimal:
    """A plain decimal number; thousands may be parted by commas. Raises InputError naming `field`."""
    if isinstance(text, (bool, float)):
        raise InputError(field, text, accepted)
    typed = str(text if text is not None else "").strip()
    whole, point, fraction = typed.partition(".")
    groups = whole.split(",")
    grouped = len(groups) == 1 or (len(groups[0]) in (1, 2, 3) and all(len(g) == 3 for g in groups[1:]))
    digits = "".join(groups) + fraction
    if not digits.isascii() or not digits.isdigit() or not grouped or len(digits) > DIGITS_MOST:
        raise InputError(field, typed or None, accepted)
    if len(fraction) > places:
        raise InputError(field, typed, f"{accepted}, with at most {places} decimals")
    try:
        value = Decimal("".join(groups) + point + fraction)
    except InvalidOperation:
        raise InputError(field, typed, accepted) from None
    if not low <= value <= high:
        raise InputError(field, typed, accepted)
    return value


def read_percent(text: object, field: str) -> Decimal:
    """A percentage from 0 to 100 with at most three decimals; a percent sign may follow it."""
    typed = text.strip().removesuffix("%").strip() if isinstance(text, str) else text
    return read_decimal(typed, field, Decimal(0), PERCENT_MOST, 3, "a percentage from 0 to 100, such as 7.5")


def read_price(text: object, field: str) -> Decimal:
    """A unit price above zero with at most four decimals; a missing price stays missing, it is never zero."""
    typed = text.strip().removeprefix("$").strip() if isinstance(text, str) else text
    accepted = "a price above zero, such as 4.85; leave it empty while it is not known"
    return read_decimal(typed, field, Decimal("0.0001"), MONEY_MOST, 4, accepted)


def _regions(value: object, field: str) -> tuple[str, ...]:
    """States or provinces by their two letters."""
    held = value if isinstance(value, list | tuple) else [value]
    for each in held:
        if not (isinstance(each, str) and len(each) == 2 and each.isascii() and each.isalpha()):
            raise InputError(field, each, "states or provinces by their two letters, such as AB, SK")
    return tuple(str(each).upper() for each in held)


def _days(value: object, field: str) -> int:
    if isinstance(value, bool) or not isinstance(value, int) or not 1 <= value <= 730:
        raise InputError(field, value, "a whole number of days from 1 to 730")
    return value
