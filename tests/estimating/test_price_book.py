"""The invented book against what the engine may offer: nothing it sizes by default goes without a price."""

from __future__ import annotations

from decimal import Decimal

import pytest

from estimating.core.items import ITEMS
from estimating.core.schedule import Section
from estimating.core.units import UNITS, convert
from structure.core.catalogue import Search
from structure.data.loader import table
from tests.estimating.samples import book, prices


def code(family: str, width: float, depth: float, species: str, grade: str) -> str:
    return Section(family, 1, width, depth, species, grade).code


def test_every_beam_of_the_catalogue_has_a_price() -> None:
    stock, held = table("us/stock").content, prices()
    wanted = [
        code("lvl", stock["lvl"]["width"], depth, "", row["grade"])
        for depth in stock["lvl"]["depths"]
        for row in table("us/lvl").rows
    ]
    wanted += [
        code("sawn", stock["sawn"]["width"], depth, species, grade)
        for depth in stock["sawn"]["depths"]
        for species in Search().species
        for grade in Search().grades
    ]
    assert [name for name in wanted if name not in held] == []


@pytest.mark.parametrize("species", Search().species)
def test_studs_and_small_timbers_have_a_price(species: str) -> None:
    held = prices()
    for grade in ("No.2", "Stud"):
        for width, depth in ((1.5, 3.5), (1.5, 5.5), (3.5, 3.5), (3.5, 5.5)):
            assert code("sawn", width, depth, species, grade) in held


def test_everything_in_the_catalogue_of_items_has_a_price_in_a_unit_that_fits() -> None:
    held = prices()
    assert [name for name in ITEMS if name not in held] == []
    for name, item in ITEMS.items():
        assert item.unit == "" or convert(Decimal(1), item.unit, held[name].unit) is not None


def test_the_book_says_that_it_is_invented() -> None:
    assert book()["invented"] is True
    assert "invented" in book()["name"].lower()
    assert all("invented" in row["supplier"] for row in book()["prices"])
    assert all(row["unit"] in UNITS for row in book()["prices"])
    codes = [row["code"] for row in book()["prices"]]
    assert len(codes) == len(set(codes))
