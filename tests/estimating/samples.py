"""Invented schedules and prices that the tests of this room share."""

from __future__ import annotations

import copy
from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from estimating.core.pricing import Price
from estimating.core.rates import Rates, read_rates

DAY = date(2026, 11, 25)
BOOK = Path(__file__).parents[2] / "fixtures" / "price_book.yaml"


def section(**changes: Any) -> dict[str, Any]:
    """A single 2x4 SPF No.2, changed as asked."""
    plain = {
        "family": "sawn",
        "plies": 1,
        "ply_width_in": 1.5,
        "depth_in": 3.5,
        "species": "SPF",
        "grade": "No.2",
    }
    return {**plain, **changes}


def schedule(**changes: Any) -> dict[str, Any]:
    """A dropped four-ply LVL over a 20 ft opening, a post and a pad at each end, shored on both sides."""
    post = {"height_in": 91.5, "fastening": "nailed", **section(plies=4, depth_in=5.5)}
    pad = {"side_in": 36.0, "thickness_in": 14.0, "concrete_in3": 18144.0, "existing": False}
    side = {
        "length_in": 276.0, "height_in": 85.25, "shores": 18, "reshore": True, "shore": section(),
        "header": section(plies=2, depth_in=9.25), "sill": section(depth_in=5.5),
    }  # fmt: skip
    made = {
        "code": "us",
        "beam": {"mark": "B1", "family": "lvl", "plies": 4, "ply_width_in": 1.75, "depth_in": 18.0,
                 "length_in": 247.0, "grade": "2.0E-2900F"},
        "posts": [{"mark": "P1", **post}, {"mark": "P2", **post}],
        "footings": [{"mark": "F1", **pad}, {"mark": "F2", **pad}],
        "shoring": {"sides": [{"mark": "S1", **side}, {"mark": "S2", **side}]},
        "plates": [],
        "wall": {"length_in": 288.0, "height_in": 97.0, "thickness_in": 4.5},
        "opening_in": 240.0,
        "slab_cut": True,
        "flush": False,
        "hangers": 0,
        "rafter_tie": False,
    }  # fmt: skip
    return {**copy.deepcopy(made), **changes}


def steel(**changes: Any) -> dict[str, Any]:
    """A W14x22 beam over the 20 ft opening, as a schedule gives it."""
    plain = {
        "mark": "B1", "family": "steel", "shape": "W14x22", "form": "W", "grade": "A992", "plies": 1,
        "depth_in": 13.7, "width_in": 5.0, "weight_lb_ft": 22.0, "length_in": 240.0,
    }  # fmt: skip
    return {**plain, **changes}


def flitch(**changes: Any) -> dict[str, Any]:
    """Two 2x12 with a plate 1/2 in by 11 in between them, 20 ft long."""
    plain = {
        "mark": "B1", "family": "flitch", "wood": "sawn", "species": "SPF", "grade": "No.2", "plies": 2,
        "ply_width_in": 1.5, "depth_in": 11.25, "plates": 1, "plate_thickness_in": 0.5, "plate_depth_in": 11.0,
        "steel_grade": "A36", "bolts": 18, "bolt_in": 0.5, "length_in": 240.0,
    }  # fmt: skip
    return {**plain, **changes}


@cache
def book() -> dict[str, Any]:
    """The invented price book."""
    loaded: dict[str, Any] = yaml.safe_load(BOOK.read_text(encoding="utf-8"))
    return loaded


def prices() -> dict[str, Price]:
    """Its prices by code."""
    return {
        row["code"]: Price(row["code"], row["unit"], Decimal(row["price"]), row["supplier"], row["dated"])
        for row in book()["prices"]
    }


def rates() -> Rates:
    """Its rates."""
    return read_rates(book()["rates"])


def formula_cells(workbook: Any) -> Iterator[tuple[str, Any]]:
    """Every formula of an openpyxl workbook with the title of its sheet."""
    for sheet in workbook:
        for row in sheet.iter_rows():
            for cell in row:
                if cell.data_type == "f":
                    yield sheet.title, cell
