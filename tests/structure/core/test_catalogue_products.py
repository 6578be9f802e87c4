"""Products in hand are tried beside the families, and steel by its forms."""

from __future__ import annotations

from typing import Any

import pytest

from structure.core.cases.registry import run_case
from structure.core.errors import InputError

VALUES = {"Fb": "2900 psi", "Fv": "290 psi", "Fc_perp": "625 psi", "E": "2000000 psi"}


def product(depth: str = "14 in", **more: Any) -> dict[str, Any]:
    section = {"family": "psl", "grade": "as stamped", "plies": 1, "width": "3.5 in", "depth": depth}
    return {**section, "properties": dict(VALUES), **more}


def searched(**search: Any) -> dict[str, Any]:
    given = {
        "spans": ["14 ft"],
        "loads": [{"case": "live", "shape": "uniform", "value": "400 lbf/ft"}],
        "bracing": "continuous",
        "search": search,
    }
    return run_case({"kind": "beam", "code": "us", "given": given})


def test_a_product_is_checked_as_it_would_be_alone() -> None:
    tried = searched(families=["lvl"], products=[product(), product("11.875 in")])["candidates"]
    rows = {row["section"]: row for row in tried if row["family"] == "psl"}
    assert set(rows) == {"3 1/2 x 14 PSL as stamped", "3 1/2 x 11 7/8 PSL as stamped"}
    assert len(tried) == len(searched(families=["lvl"])["candidates"]) + 2
    given = {
        "spans": ["14 ft"],
        "loads": [{"case": "live", "shape": "uniform", "value": "400 lbf/ft"}],
        "bracing": "continuous",
        "section": product(),
    }
    alone = run_case({"kind": "beam", "code": "us", "given": given})
    row = rows["3 1/2 x 14 PSL as stamped"]
    assert row["ratio"] == pytest.approx(alone["ratio"], rel=1e-12)
    assert row["governing"] == alone["governing"]
    assert row["given"]["properties"]["Fb"] == "2900.0 psi"


def test_products_alone_are_enough_and_obey_the_limits() -> None:
    tried = searched(families=[], products=[product(), product("18 in"), product(plies=3)], max_depth="16 in")
    assert [row["section"] for row in tried["candidates"]] == [
        "3 1/2 x 14 PSL as stamped",
        "3-ply 3 1/2 x 14 PSL as stamped",
    ]


def test_a_product_without_its_values_is_named() -> None:
    with pytest.raises(InputError) as refused:
        searched(families=["lvl"], products=[product(properties={"Fb": "2900 psi"})])
    assert refused.value.field.startswith("given.search.products[0]")
    assert "Fv, Fc_perp, E" in str(refused.value)


@pytest.mark.parametrize(("form", "letter"), [("W", "W"), ("C", "C"), ("HSS", "HSS")])
def test_steel_by_its_form(form: str, letter: str) -> None:
    rows = searched(families=["steel"], steel_forms=[form])["candidates"]
    assert rows
    assert all(row["section"].startswith(letter) for row in rows)
    assert len(rows) < len(searched(families=["steel"])["candidates"])
