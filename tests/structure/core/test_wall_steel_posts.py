"""A wall on steel posts: pipe or tube in the place of lumber, on its cap and base plates, down to the pad."""

from __future__ import annotations

import copy
from typing import Any

import pytest

from structure.core.cases.registry import run_case
from structure.core.materials.steel_shapes import shape
from structure.core.members.post_search import STEEL

WALL: dict[str, Any] = {
    "levels": [
        {
            "name": "Floor",
            "kind": "floor",
            "framing": "perpendicular",
            "left": {"span": "13 ft", "support": "simple"},
            "right": {"span": "13 ft", "support": "simple"},
            "dead": "12 psf",
            "live": "40 psf",
        }
    ],
    "opening": {"clear_width": "12 ft", "ceiling_height": "8 ft 1 in"},
    "soil": {"allowable": "2000 psf"},
    "below": {"ground": "slab"},
    "search": {"families": ["lvl"]},
    "posts": {"steel": "pipe"},
}


def answered(**changes: Any) -> dict[str, Any]:
    given = copy.deepcopy(WALL) | changes
    return run_case({"kind": "wall", "code": "us", "given": given})


@pytest.mark.parametrize("kind", STEEL)
def test_the_lightest_that_passes_is_taken_and_checked_as_it_is_alone(kind: str) -> None:
    result = answered(posts={"steel": kind})
    post = result["posts"][0]
    tried = [row["section"] for row in post["candidates"]]
    assert tried == [f"{shape} {STEEL[kind][0]}" for shape in sorted_by_area(kind)]
    first = next(row["section"] for row in post["candidates"] if row["passes"])
    assert post["member"]["label"] == first
    assert post["member"]["given"]["family"] == "steel"
    loads = [
        {"case": case, "value": f"{held['value']!r} {held['unit']}"} for case, held in post["loads"].items()
    ]
    alone = run_case(
        {
            "kind": "post",
            "code": "us",
            "given": {
                "height": f"{post['member']['height']['value']!r} in",
                "loads": loads,
                "section": post["member"]["given"],
                "plate": {"species": "SPF"},
            },
        }
    )
    assert post["result"]["ratio"] == pytest.approx(alone["ratio"], rel=1e-12)
    assert post["result"]["governing"] == alone["governing"]


def sorted_by_area(kind: str) -> list[str]:
    return sorted(STEEL[kind][1], key=lambda label: shape(label).A)


def test_the_beam_stands_on_its_whole_bearing_and_the_pad_under_the_base_plate() -> None:
    result = answered()
    seat = result["posts"][0]["seat"]
    beam = result["beam"]["chosen"]["size"]
    assert seat["along"]["value"] == 4.5
    assert seat["across"]["value"] == beam["width"]["value"]
    assert not seat["turned"]
    assert any("P1: a cap plate 4.5 in by" in remark for remark in result["remarks"])
    assert result["footings"][0]["result"]["passes"]


def test_steel_goes_on_below_the_floor() -> None:
    below = {"ground": "basement", "height": "7 ft 6 in", "way": "new_post"}
    result = answered(below=below)
    kinds = {post["mark"]: post["member"]["family"] for post in result["posts"]}
    assert kinds == {"P1": "steel", "P1B": "steel", "P2": "steel", "P2B": "steel"}
    assert all(pad["result"]["passes"] for pad in result["footings"])
