"""Shoring under the Canadian code: its own sums, prying, sizes of the trade and soil."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structure.core.cases.registry import run_case
from structure.core.errors import InputError

FLOOR = {
    "kind": "floor",
    "name": "floor",
    "left": {"span": "3.6 m", "support": "simple"},
    "right": {"span": "4.2 m", "support": "simple"},
    "dead": "0.5 kPa",
    "live": "1.9 kPa",
}
JOIST = {"family": "sawn", "species": "SPF", "grade": "No.1/No.2", "width": "38 mm", "depth": "235 mm"}


def answer(**changes: Any) -> dict[str, Any]:
    asked = {"levels": [FLOOR], "clear_opening": "3.6 m", "floor_below": "slab"} | changes
    return run_case({"kind": "shoring", "code": "ca", "given": asked})


def test_defaults_are_those_of_the_trade_in_metric() -> None:
    found = answer()
    assert found["left"]["stand_off"] == {"value": 900.0, "unit": "mm"}
    assert found["left"]["length"]["value"] == pytest.approx(3600 + 2 * 400)
    assert found["left"]["spacing"]["value"] in (1200.0, 800.0, 600.0, 400.0, 300.0)
    assert found["jacking"]["limit"] == {"value": 3.0, "unit": "mm"}
    told = " ".join(found["remarks"])
    assert "2440 mm" in told
    assert "900 mm" in told
    assert "2.4 m between" in found["bracing"][0]["text"]


def test_every_check_is_factored_but_the_ground() -> None:
    checks = answer()["left"]["checks"]
    for name in ("header_bending", "header_shear", "shore_buckling", "header_bearing", "joist_bearing"):
        assert checks[name]["combination"] == "1.25D+1.5L", name
        assert checks[name]["clause"].startswith("CSA O86:19")
    assert checks["ground"]["combination"] == "D+L"
    assert checks["ground"]["capacity"] == {"value": pytest.approx(75.0), "unit": "kPa"}
    # 5.76 kN/m on a shore every 1.2 m is more than this; joists bring point loads.
    assert checks["sill_bearing"]["demand"]["value"] > 1.2 * (1.25 * 1.2 + 1.5 * 4.56)


def test_construction_load_is_1_kPa_where_nothing_is_said() -> None:
    found = answer(levels=[FLOOR | {"live": "0.5 kPa"}])
    assert found["left"]["line"]["construction"]["value"] == pytest.approx(1.0 * 3.6**2 / 5.4)
    counted = next(row for row in found["loads"] if row["counted"])
    assert counted["pressure"] == {"value": pytest.approx(1.0), "unit": "kPa"}
    assert any("K_D 1.15" in remark for remark in found["remarks"])


def test_prying_is_factored_against_nine_tenths_of_the_dead_load() -> None:
    wall = {"height": "2.4 m", "weight": "0.32 kPa"}
    checks = answer(levels=[FLOOR | {"wall_above": wall}], joists={"section": JOIST})["left"]["checks"]
    pried = checks["far_end_uplift"]
    assert pried["demand"]["value"] == pytest.approx(1.25 * 0.768 * 0.9 / 2.7 + 1.5 * 1.9 * 0.81 / 5.4)
    assert pried["capacity"]["value"] == pytest.approx(0.9 * 0.6)
    assert pried["passes"] is False
    assert pried["clause"] == "NBC 2020 4.1.3.2."
    cleared = answer(levels=[FLOOR | {"wall_above": wall}], joists={"section": JOIST}, cleared=True)
    lone = cleared["left"]["checks"]["far_end_uplift"]
    assert lone["demand"]["value"] == pytest.approx(1.25 * 0.768 * 0.9 / 2.7)
    assert lone["passes"] is True


def test_joists_that_run_on_are_pried_by_factored_walls() -> None:
    through = {side: FLOOR[side] | {"support": "continuous"} for side in ("left", "right")}
    wall = {"height": "2.4 m", "weight": "1 kPa"}
    found = answer(levels=[FLOOR | through | {"wall_above": wall}], joists={"section": JOIST})
    assert found["left"]["support"] == "continuous"
    units = {value["unit"] for step in found["left"]["steps"] for value in step["values"]}
    assert units <= {"N/mm", "N/mm**2", "mm"}
    assert " in," not in str(found["left"]["steps"])


def test_the_takeoff_reads_inches_whatever_the_code() -> None:
    side = answer()["left"]
    schedule = side["schedule"]
    assert schedule["length_in"] == pytest.approx(4400 / 25.4)
    assert schedule["header"]["depth_in"] == pytest.approx(235 / 25.4)
    assert schedule["shore"]["ply_width_in"] == pytest.approx(89 / 25.4)
    assert schedule["height_in"] == pytest.approx(side["shore_length"]["value"] / 25.4)
    assert {row["length"]["unit"] for row in side["cut_list"]} == {"mm"}


@pytest.mark.parametrize(
    ("changes", "field", "word"),
    [
        ({"spacing": "100 mm"}, "given.spacing", "150 to 2400 mm"),
        ({"stand_off": "2.2 m"}, "given.stand_off.left", "1800 mm"),
        ({"height": "500 mm"}, "given.height", "500 mm"),
    ],
)
def test_bad_sizes_are_told_in_millimetres(changes: dict[str, Any], field: str, word: str) -> None:
    with pytest.raises(InputError) as caught:
        answer(**changes)
    assert caught.value.field == field
    assert word in str(caught.value)


def test_a_wall_on_unknown_joists_is_refused_with_its_line_load() -> None:
    found = answer(levels=[FLOOR | {"wall_above": {"height": "2.4 m", "weight": "0.32 kPa"}}])
    assert found["status"] == "refused"
    assert "0.768 kN/m" in found["reason"]
    assert found["left"]["line"]["unit"] == "kN/m"


def test_slender_shores_stop_the_plan() -> None:
    shore = JOIST | {"depth": "89 mm"}
    found = answer(shore=shore)
    assert found["passes"] is False
    assert "50" in " ".join(found["left"]["blocks"])


@settings(deadline=None, max_examples=12)
@given(st.floats(1.0, 2.0), st.floats(0.1, 1.5))
def test_more_live_load_is_never_easier(live: float, more: float) -> None:
    ratios = [
        answer(levels=[FLOOR | {"live": f"{q:.4f} kPa"}], spacing="600 mm")["ratio"]
        for q in (live, live + more)
    ]
    assert ratios[1] >= ratios[0]
