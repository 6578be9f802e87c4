"""Cells of IRC tables R602.7(1) and (2), from the loads of the model to the printed inch."""

from __future__ import annotations

import math

import pytest

from structure.core.cases import run_case
from structure.core.measure import read_feet_inches
from tests.published import kernels
from tests.published.irc_headers import DEPTH, MISSED, SELECTED, Cell, cell_of

CASES = {name: case for name, case in kernels.cases().items() if cell_of(name) is not None}


def _number(text: str) -> float:
    return float(text.split()[0])


@pytest.mark.parametrize("name", CASES)
def test_the_loads_of_a_case_are_those_of_the_model(name: str) -> None:
    cell, given = cell_of(name), CASES[name]["given"]
    assert cell is not None
    assert {load["case"]: _number(load["value"]) for load in given["loads"]} == pytest.approx(
        cell.loads, abs=0.001
    )
    section = given["section"]
    assert (section["plies"], _number(section["depth"])) == (cell.plies, DEPTH[cell.size])
    assert _number(section["properties"]["Fb"]) == pytest.approx(cell.F_b)
    assert given["repetitive"] == (cell.plies > 2)


@pytest.mark.parametrize("name", CASES)
def test_the_engine_comes_to_the_printed_inch(name: str) -> None:
    """Under loads spread evenly the ratio grows with the square of the span."""
    printed = read_feet_inches(CASES[name]["given"]["spans"][0])
    assert printed is not None
    longest = printed / math.sqrt(run_case(dict(CASES[name]))["checks"]["bending"]["ratio"])
    cell = cell_of(name)
    if cell in MISSED:
        assert 0.5 < abs(longest - printed) < 0.6
        assert f"{longest:.2f} in" in MISSED[cell]
    else:
        assert round(longest) == printed, f"{longest:.2f} in"


def test_the_family_covers_both_tables_and_the_selection_is_shipped() -> None:
    assert len(CASES) > 45
    assert {cell.carries for name in CASES if (cell := cell_of(name))} == {
        "rc", "rc-1cb", "rc-1cs", "1floor", "2floor",
    }  # fmt: skip
    assert {cell.name for cell in SELECTED} <= CASES.keys()
    assert cell_of("irc6027-1-rc-2-2x8-pg50-w24") == Cell("rc", 50, 24, 2, "2x8")
