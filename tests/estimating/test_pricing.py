"""Money: rounding, missing and stale prices, percentages, alternates, what changed."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import ROUND_HALF_UP, Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.core.compare import changes
from estimating.core.document import estimate_document
from estimating.core.lines import Line, Rule
from estimating.core.numbers import cents, measured, plain, whole_up
from estimating.core.options import alternates, beam_options
from estimating.core.pricing import Price, make_quote
from estimating.core.rates import Rates, Tax, read_percent, read_price, read_rates
from estimating.core.settings import DEFAULT_SETTINGS, TakeoffSettings
from estimating.core.takeoff import takeoff
from estimating.core.units import convert
from structure.core.errors import InputError
from tests.estimating.samples import DAY, prices, rates, schedule

PLAIN = Rates(Decimal(10), Decimal(12), Decimal(8), (Tax("Sales tax", Decimal("6.5"), "materials"),))


def line(
    quantity: str, code: str = "a", kind: str = "material", unit: str = "ft", division: str = "06"
) -> Line:
    return Line(
        code, code, Decimal(quantity), unit, kind, division, f"{division}-10", ("B1",), Rule("counted")
    )


def price(amount: str, code: str = "a", unit: str = "ft", dated: date = DAY) -> dict[str, Price]:
    return {code: Price(code, unit, Decimal(amount), "Invented", dated)}


@pytest.mark.parametrize(
    ("amount", "rounded"),
    [("0.005", "0.01"), ("0.0049", "0.00"), ("2.675", "2.68"), ("1.005", "1.01"), ("10", "10.00")],
)
def test_cents_round_half_up(amount: str, rounded: str) -> None:
    assert cents(Decimal(amount)) == Decimal(rounded)


def test_a_quote_by_hand() -> None:
    """10 ft at 2.345 is 23.45; 2 h at 60.00 is 120.00; 143.45 direct.

    Contingency 10 %: 14.345, so 14.35. Overhead 12 % of 157.80: 18.936, so 18.94. Profit 8 % of 176.74: 14.1392,
    so 14.14. Before tax 190.88. Tax 6.5 % of the 23.45 of materials: 1.52425, so 1.52. Total 192.40.
    """
    held = price("2.345") | price("60", "h", "hour")
    quote = make_quote([line("10"), line("2", "h", "labour", "hour", "09")], held, PLAIN, DAY)
    assert [d.amount for d in quote.divisions] == [Decimal("23.45"), Decimal("120.00")]
    assert quote.direct == Decimal("143.45")
    assert [a.amount for a in quote.added] == [Decimal("14.35"), Decimal("18.94"), Decimal("14.14")]
    assert quote.price == Decimal("190.88")
    assert [t.amount for t in quote.taxes] == [Decimal("1.52")]
    assert quote.total == Decimal("192.40")
    assert quote.priced


def test_a_missing_price_is_missing_and_there_is_no_total() -> None:
    quote = make_quote([line("10"), line("2", "b")], price("2"), PLAIN, DAY)
    assert quote.lines[1].amount is None
    assert quote.missing == ("b",)
    assert (quote.direct, quote.price, quote.total) == (None, None, None)
    assert not quote.priced
    assert quote.divisions[0].amount == Decimal("20.00")
    assert quote.divisions[0].missing == 1
    assert all(row.amount is None for row in (*quote.added, *quote.taxes))


def test_a_price_in_another_unit_is_converted_and_in_another_dimension_is_missing() -> None:
    """10 ft is 3.048 m."""
    metric = make_quote([line("10")], price("3", unit="m"), PLAIN, DAY)
    assert metric.lines[0].counted == Decimal("3.048")
    assert metric.lines[0].amount == Decimal("9.14")
    strange = make_quote([line("10")], price("3", unit="each"), PLAIN, DAY)
    assert strange.missing == ("a",)
    assert "priced by the each, but counted by the ft" in strange.lines[0].problem


@pytest.mark.parametrize(("age", "stale"), [(60, False), (61, True), (0, False)])
def test_a_price_goes_stale_after_its_days(age: int, stale: bool) -> None:
    quote = make_quote([line("1")], price("1", dated=DAY - timedelta(days=age)), PLAIN, DAY)
    assert quote.lines[0].stale is stale
    assert quote.stale == (("a",) if stale else ())


money = st.decimals(min_value=Decimal("0.0001"), max_value=5000, places=4)
amounts = st.decimals(min_value=Decimal("0.001"), max_value=5000, places=3)


@given(st.lists(st.tuples(amounts, money), min_size=1, max_size=20), st.decimals(0, 100, places=3))
def test_totals_are_sums_of_what_is_shown(rows: list[tuple[Decimal, Decimal]], percent: Decimal) -> None:
    lines = [line(str(q), f"c{n}") for n, (q, _) in enumerate(rows)]
    held = {f"c{n}": Price(f"c{n}", "ft", p, "Invented", DAY) for n, (_, p) in enumerate(rows)}
    quote = make_quote(lines, held, Rates(percent, percent, percent, (Tax("T", percent),)), DAY)
    expected = sum((q * p).quantize(Decimal("0.01"), ROUND_HALF_UP) for q, p in rows)
    assert quote.direct == expected
    parts = [a.amount for a in quote.added if a.amount is not None]
    assert quote.price == expected + sum(parts)
    assert quote.total == quote.price + sum(t.amount for t in quote.taxes if t.amount is not None)


@given(amounts)
def test_feet_to_metres_and_back(quantity: Decimal) -> None:
    there = convert(quantity, "ft", "m")
    assert there is not None
    back = convert(there, "m", "ft")
    assert back is not None
    assert abs(back - quantity) <= Decimal("0.003")


def test_conversion_factors_are_the_defined_ones() -> None:
    assert convert(Decimal(1), "yd3", "ft3") == 27
    assert convert(Decimal(100), "ft", "m") == Decimal("30.480")
    assert convert(Decimal(1), "lb", "kg") == Decimal("0.454")
    assert convert(Decimal(1), "ft", "ft2") is None
    assert convert(Decimal(1), "each", "bag") is None


@pytest.mark.parametrize("value", [float("nan"), float("inf"), -0.1])
def test_no_quantity_is_negative_or_endless(value: float) -> None:
    with pytest.raises(ValueError, match="finite"):
        measured(value)


def test_whole_up_and_plain() -> None:
    assert whole_up(7.0000000001) == 7
    assert whole_up(7.001) == 8
    assert plain(Decimal("12.500")) == "12.5"
    assert plain(Decimal("100")) == "100"
    assert plain(Decimal("1E+2")) == "100"


@pytest.mark.parametrize(
    "text", ["", None, "0", "-1", "free", "1e3", "1,50", "1.23456", "9999999", "1..2", "=1", 1.5, "٣"]
)
def test_a_price_that_cannot_be_used_names_its_field(text: object) -> None:
    with pytest.raises(InputError, match=r"^Unit price: read .*; accepted is a price above zero"):
        read_price(text, "Unit price")


def test_prices_and_percentages_as_people_type_them() -> None:
    assert read_price("$1,450.00", "p") == 1450
    assert read_percent("7.5 %", "p") == Decimal("7.5")
    with pytest.raises(InputError, match="from 0 to 100"):
        read_percent("101", "Contingency")


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"contingency": None}, "contingency"),
        ({"taxes": [{"name": "", "percent": "5"}]}, "taxes[0].name"),
        ({"taxes": [{"name": "T", "percent": "x"}]}, "taxes[0].percent"),
        ({"taxes": [{"name": "T", "percent": "5", "base": "labour"}]}, "taxes[0].base"),
        ({"valid_days": 0}, "valid_days"),
    ],
)
def test_rates_that_cannot_be_used_name_their_field(change: dict[str, Any], field: str) -> None:
    with pytest.raises(InputError) as caught:
        read_rates({**rates().as_data(), **change})
    assert caught.value.field == field


def test_rates_survive_a_round_trip() -> None:
    assert read_rates(rates().as_data()) == rates()


def test_the_invented_book_prices_the_sample_wall_in_both_units() -> None:
    for units in ("imperial", "metric"):
        document = estimate_document(schedule(), TakeoffSettings(units=units), prices(), rates(), DAY)
        assert document["missing"] == []
        assert document["priced"]
        assert Decimal(document["total"]) > Decimal(document["direct"]) > 0


def test_alternates_are_priced_as_a_whole() -> None:
    """What an alternate adds is what the quote comes to with it, less what it comes to without."""
    base = make_quote(takeoff(schedule()).lines, prices(), rates(), DAY)
    found = {
        option.title: option for option in alternates(schedule(), DEFAULT_SETTINGS, prices(), rates(), DAY)
    }
    unpainted = make_quote(takeoff(schedule(), TakeoffSettings(paint=False)).lines, prices(), rates(), DAY)
    assert base.total is not None
    assert unpainted.total is not None
    assert found["Painting by the owner"].difference == unpainted.total - base.total < 0
    assert set(found) == {"Concrete mixed from bags", "Painting by the owner", "Floor patch by the owner"}


def test_an_alternate_with_a_missing_price_has_no_difference() -> None:
    held = {code: p for code, p in prices().items() if code != "concrete-bag-80lb"}
    option = alternates(schedule(), DEFAULT_SETTINGS, held, rates(), DAY)[0]
    assert (option.difference, option.missing) == (None, ("concrete-bag-80lb",))


def test_beams_side_by_side() -> None:
    beam = schedule()["beam"]
    shallow = {**beam, "depth_in": 16.0, "label": "shallow"}
    same, other = beam_options(schedule(), [beam, shallow], DEFAULT_SETTINGS, prices(), rates(), DAY)
    assert same.difference == 0
    assert other.title == "shallow"
    assert other.difference is not None
    assert other.difference < 0


def test_changes_between_revisions() -> None:
    before = estimate_document(schedule(), DEFAULT_SETTINGS, prices(), rates(), DAY)["lines"]
    dearer = prices() | price("99.00", "alarm", "each")
    no_paint = TakeoffSettings(paint=False)
    after = estimate_document(schedule(), no_paint, dearer, rates(), DAY)["lines"]
    found = {(change.kind, change.description) for change in changes(before, after)}
    assert ("gone", "Paint and primer") in found
    assert ("changed", "Smoke or carbon monoxide alarm, fitted") in found
    assert changes(before, before) == []
    total = sum((change.difference or Decimal(0) for change in changes(before, after)), Decimal(0))
    sums = [sum(Decimal(row["amount"]) for row in rows) for rows in (before, after)]
    assert total == sums[1] - sums[0]


def test_document_is_the_same_for_the_same_inputs() -> None:
    one = estimate_document(schedule(), DEFAULT_SETTINGS, prices(), rates(), DAY)
    two = estimate_document(schedule(), DEFAULT_SETTINGS, prices(), rates(), DAY)
    assert one == two
    assert one["valid_until"] == "2026-12-25"
