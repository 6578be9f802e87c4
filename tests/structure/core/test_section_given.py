"""Every section of the catalogue can be asked for again by the words that it gives of itself."""

from __future__ import annotations

import pytest

from structure.core.cases.grammars import SECTION, read_section
from structure.core.catalogue import Search, stock_sections
from structure.core.catalogue.stock import FAMILIES
from structure.core.clauses import DEFAULT_EDITIONS
from structure.core.materials.flitch import Bolts, FlitchSection
from structure.core.materials.lvl import LvlSection
from structure.core.materials.scl import PslSection
from structure.core.materials.section import Section
from structure.core.materials.steel import SteelSection

EDITIONS = DEFAULT_EDITIONS["us"]
ENTERED = {"Fb": 2650.0, "Fv": 280.5, "Fc_perp": 640.0, "E": 1_950_000.0}


def again(section: Section) -> Section:
    return read_section(SECTION.read(section.given, "section", "us"), "section", "us", EDITIONS)


@pytest.mark.parametrize("family", FAMILIES)
def test_a_stock_section_comes_back_as_it_was(family: str) -> None:
    for section in stock_sections(Search(families=(family,))):
        assert again(section) == section


@pytest.mark.parametrize(
    "section",
    [
        LvlSection(grade="a product in hand", plies=3, depth=9.5, properties=ENTERED),
        PslSection(grade="", plies=2, width=3.5, depth=14.0, properties=ENTERED),
        SteelSection(shape="W8x18", grade="old mill", properties={"Fy": 33_000.0}),
        FlitchSection(
            wood=LvlSection(grade="2.0E-2900F", plies=3, depth=11.875),
            plates=2,
            thickness=0.375,
            plate_depth=11.5,
            steel="A572-50",
            bolts=Bolts(0.625, 16.0, 4),
            gravity=0.5,
        ),
    ],
    ids=lambda section: section.family,
)
def test_what_was_entered_comes_back_with_it(section: Section) -> None:
    found = again(section)
    assert found.properties == section.properties
    assert found.given == section.given
    assert found.weight == section.weight
