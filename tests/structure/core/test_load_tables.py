"""Shipped loads and soils: every value has a source or a mark, and a few cells are as printed."""

from __future__ import annotations

import pytest

from structure.core.codes.load_tables import Choice, dead_loads, live_loads, soils

EVERYTHING = [*live_loads(), *dead_loads(), *soils()]
CANADIAN = [*live_loads("ca"), *dead_loads("ca"), *soils("ca")]


@pytest.mark.parametrize("choice", EVERYTHING + CANADIAN, ids=lambda choice: f"{choice.code}-{choice.id}")
def test_every_value_says_where_it_comes_from(choice: Choice) -> None:
    assert choice.source
    if choice.mark:
        assert choice.mark.startswith(("common practice", "memory"))
    assert choice.as_data()["value"]["unit"] == ("psf" if choice.code == "us" else "kPa")


@pytest.mark.parametrize(
    "choices",
    [live_loads(), dead_loads(), soils(), live_loads("ca"), dead_loads("ca"), soils("ca")],
)
def test_names_and_ids_are_each_used_once(choices: tuple[Choice, ...]) -> None:
    assert len({choice.id for choice in choices}) == len(choices)
    assert len({choice.name for choice in choices}) == len(choices)


@pytest.mark.parametrize(
    ("name", "psf"),
    [
        ("rooms", 40),  # IRC 2021 Table R301.5
        ("sleeping", 30),
        ("attic_storage", 20),
        ("attic_empty", 10),
        ("garage", 50),
        ("roof_low", 20),  # IRC 2021 Table R301.6
        ("roof_medium", 16),
        ("roof_steep", 12),
        ("gypsum_1_2", 4 * 0.55),  # ASCE 7-16 Table C3.1-1a
        ("asphalt_shingles", 2),
        ("clay", 1500),  # IRC 2021 Table R401.4.1
        ("sand", 2000),
        ("gravel", 3000),
    ],
)
def test_cells_as_printed(name: str, psf: float) -> None:
    found = next(choice for choice in EVERYTHING if choice.id == name)
    assert found.value * 144 == pytest.approx(psf)


def test_joists_weigh_what_their_wood_does() -> None:
    for name, depth in (("joists_2x8_16", 7.25), ("joists_2x10_16", 9.25), ("joists_2x12_16", 11.25)):
        found = next(choice for choice in dead_loads() if choice.id == name)
        exact = 1.5 * depth / 144 * 35 / (16 / 12)
        assert exact <= found.value * 144 < exact + 0.1


@pytest.mark.parametrize(
    ("name", "kPa"),
    [
        ("rooms", 1.9),  # NBC Table 4.1.5.3.
        ("roof", 1.0),
        ("partitions", 0.2),  # NBC 2015 note A-9.15.2.4.(1)
        ("floor", 0.47),
        ("wall_veneer", 1.94),
    ],
)
def test_canadian_cells_as_printed(name: str, kPa: float) -> None:
    found = next(choice for choice in CANADIAN if choice.id == name)
    assert found.as_data()["value"] == {"value": pytest.approx(kPa), "unit": "kPa"}


def test_a_layer_weighs_no_less_in_one_code_than_in_the_other() -> None:
    same = {"gypsum_1_2": "gypsum_12_7", "hardwood": "hardwood", "asphalt_shingles": "asphalt_shingles"}
    for american, canadian in same.items():
        psf = next(c.value * 144 for c in EVERYTHING if c.id == american)
        kPa = next(c.value * 1000 for c in CANADIAN if c.id == canadian)
        assert 0 <= kPa - psf * 0.04788 < 0.011
