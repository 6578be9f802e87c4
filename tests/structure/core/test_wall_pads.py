"""Bars in the pads of a whole wall."""

from __future__ import annotations

from typing import Any

import pytest

from structure.core.cases import run_case
from structure.core.errors import InputError

BOTH = {
    "left": {"span": "10 ft", "support": "simple"},
    "right": {"span": "10 ft", "support": "simple"},
}
GIVEN: dict[str, Any] = {
    "levels": [{"name": "Floor", "kind": "floor", **BOTH, "dead": "12 psf", "live": "40 psf"}],
    "opening": {"clear_width": "12 ft", "ceiling_height": "8 ft"},
    "soil": {"allowable": "1500 psf"},
    "below": {"ground": "crawl", "height": "3 ft"},
    "search": {"families": ["lvl"], "lvl_grades": ["2.0E-2900F"]},
    "posts": {"grade": "No.2"},
}


def pads(**pad: Any) -> list[dict[str, Any]]:
    result = run_case({"kind": "wall", "code": "us", "given": GIVEN | {"pad": pad}})
    return [each["result"] for each in result["footings"]]


def test_pads_are_plain_unless_a_bar_is_named() -> None:
    assert [each["bars"] for each in pads()] == [None, None]


def test_a_named_bar_is_counted_and_thins_the_pads() -> None:
    plain, reinforced = pads(), pads(reinforcement={"bar": "#4"})
    assert len(reinforced) == 2
    for bare, with_bars in zip(plain, reinforced, strict=True):
        assert with_bars["passes"] is True
        assert with_bars["bars"]["bar"] == "#4"
        assert with_bars["bars"]["count"] >= 2
        assert with_bars["thickness"]["value"] <= bare["thickness"]["value"]


def test_an_unknown_bar_is_named() -> None:
    with pytest.raises(InputError) as caught:
        pads(reinforcement={"bar": "#2"})
    assert caught.value.field == "given.pad.reinforcement.bar"
