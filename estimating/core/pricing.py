"""Lines and prices to a quote, in Decimal.

A missing price stays missing and keeps the quote from being priced.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from estimating.core.lines import DIVISIONS, Line
from estimating.core.numbers import ZERO, cents
from estimating.core.rates import Rates
from estimating.core.units import convert

HUNDRED = Decimal(100)


@dataclass(frozen=True, slots=True)
class Price:
    """What one unit costs, from whom, and on which day that was said."""

    code: str
    unit: str
    amount: Decimal
    supplier: str
    dated: date

    def stale(self, on: date, after_days: int) -> bool:
        """Older than `after_days` on the day `on`. The day itself still counts as fresh."""
        return (on - self.dated).days > after_days


@dataclass(frozen=True, slots=True)
class PricedLine:
    """A line with its price, or with the reason why it has none. `counted` is in the unit of the price."""

    line: Line
    price: Price | None
    counted: Decimal | None
    amount: Decimal | None
    problem: str = ""
    stale: bool = False


@dataclass(frozen=True, slots=True)
class DivisionTotal:
    """What is known of one division, and how many of its lines have no price."""

    division: str
    title: str
    amount: Decimal
    missing: int


@dataclass(frozen=True, slots=True)
class Added:
    """One percentage: its name, what it is taken on and what it comes to.

    Amounts are None while prices miss.
    """

    key: str
    name: str
    percent: Decimal
    base: Decimal | None
    amount: Decimal | None
    on: str = ""


@dataclass(frozen=True, slots=True)
class Quote:
    """The priced takeoff. `total` and everything above the divisions is None until every line has a price."""

    lines: tuple[PricedLine, ...]
    divisions: tuple[DivisionTotal, ...]
    direct: Decimal | None
    added: tuple[Added, ...]
    price: Decimal | None
    taxes: tuple[Added, ...]
    total: Decimal | None
    missing: tuple[str, ...]
    stale: tuple[str, ...]

    @property
    def priced(self) -> bool:
        """Every line has a price."""
        return not self.missing


def price_line(line: Line, prices: Mapping[str, Price], on: date, stale_after_days: int) -> PricedLine:
    """One line at its price; the amount is rounded half up to the cent."""
    price = prices.get(line.code)
    if price is None:
        return PricedLine(line, None, None, None, f"no price for {line.code}")
    counted = convert(line.quantity, line.unit, price.unit)
    if counted is None:
        problem = f"{line.code} is priced by the {price.unit}, but counted by the {line.unit}"
        return PricedLine(line, None, None, None, problem)
    amount = cents(counted * price.amount)
    return PricedLine(line, price, counted, amount, "", price.stale(on, stale_after_days))


def make_quote(lines: Iterable[Line], prices: Mapping[str, Price], rates: Rates, on: date) -> Quote:
    """Direct cost by division, contingency, overhead and profit, taxes.

    Contingency is taken on the direct cost, overhead on both, profit on all three; a tax on `materials` on
    the direct cost of material lines, a tax on the `price` on everything before tax. `on` is the day it is
    priced.
    """
    priced = tuple(price_line(line, prices, on, rates.stale_after_days) for line in lines)
    missing = tuple(dict.fromkeys(p.line.code for p in priced if p.amount is None))
    stale = tuple(dict.fromkeys(p.line.code for p in priced if p.stale))
    divisions = tuple(
        _division(code, priced) for code in DIVISIONS if any(p.line.division == code for p in priced)
    )
    direct = None if missing else sum((d.amount for d in divisions), ZERO)
    materials = sum((p.amount for p in priced if p.amount is not None and p.line.kind == "material"), ZERO)

    added: list[Added] = []
    running = direct
    for key, name, percent in (
        ("contingency", "Contingency", rates.contingency),
        ("overhead", "Overhead", rates.overhead),
        ("profit", "Profit", rates.profit),
    ):
        amount = _percent(running, percent)
        added.append(Added(key, name, percent, running, amount))
        running = None if running is None or amount is None else running + amount
    price = running
    taxes = []
    for index, tax in enumerate(rates.taxes):
        base = price if tax.base == "price" else None if missing else materials
        taxes.append(
            Added(f"tax_{index + 1}", tax.name, tax.percent, base, _percent(base, tax.percent), tax.base)
        )
    total = None if price is None else price + sum((t.amount for t in taxes if t.amount is not None), ZERO)
    return Quote(priced, divisions, direct, tuple(added), price, tuple(taxes), total, missing, stale)


def _division(code: str, priced: tuple[PricedLine, ...]) -> DivisionTotal:
    mine = [p for p in priced if p.line.division == code]
    known = sum((p.amount for p in mine if p.amount is not None), ZERO)
    return DivisionTotal(code, DIVISIONS[code], known, sum(1 for p in mine if p.amount is None))


def _percent(base: Decimal | None, percent: Decimal) -> Decimal | None:
    return None if base is None else cents(base * percent / HUNDRED)
