"""The invented book against what the engine may offer: nothing it sizes by default goes without a price."""

from __future__ import annotations

from decimal import Decimal

import pytest

from estimating.core.items import ITEMS
from estimating.core.sections import STEEL_FORMS, Section
from estimating.core.units import UNITS, convert
from structure.core.catalogue import Search, stock_sections
from structure.core.catalogue.stock import FAMILIES
from structure.core.materials.flitch import FlitchSection
from tests.estimating.samples import book, prices


def code(family: str, width: float, depth: float, species: str, grade: str) -> str:
    return Section(family, 1, width, depth, species, grade).code


@pytest.mark.parametrize("family", FAMILIES)
def test_every_beam_of_the_catalogue_has_a_price(family: str) -> None:
    wanted = set()
    for section in stock_sections(Search(families=(family,))):
        wood = section.wood if isinstance(section, FlitchSection) else section
        if wood.family == "steel":
            wanted.add(STEEL_FORMS[wood.rolled.form])
        else:
            words = (getattr(wood, "species", ""), wood.grade)
            wanted.add(code(wood.family, wood.ply_width, wood.depth, *words))
    assert wanted
    assert sorted(wanted - set(prices())) == []


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
