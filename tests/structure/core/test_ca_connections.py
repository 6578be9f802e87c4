"""Plies, nails, hangers, blocks, clear heights and carrying under the Canadian code."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structure.core.cases.registry import run_case
from structure.core.errors import InputError

BEAM = {
    "family": "sawn",
    "species": "SPF",
    "grade": "No.1/No.2",
    "plies": 3,
    "width": "38 mm",
    "depth": "286 mm",
}
SPF = {"species": "SPF", "thickness": "38 mm"}
HUNG = [{"case": "dead", "value": "1 kN/m"}, {"case": "live", "value": "3.8 kN/m"}]


def answer(kind: str, **given_: Any) -> dict[str, Any]:
    return run_case({"kind": kind, "code": "ca", "given": given_})


def plies(**changes: Any) -> dict[str, Any]:
    return answer("ply_fastening", **({"section": BEAM, "loaded": "top", "length": "4 m"} | changes))


def nail(name: str = "76 mm common", **changes: Any) -> dict[str, Any]:
    asked = {"fastener": {"kind": "nail", "name": name}, "side": SPF, "main": SPF} | changes
    return answer("dowel", **asked)


def test_a_built_up_beam_has_two_rows_of_89_mm_nails_at_450_mm() -> None:
    found = plies()
    assert (found["rows"], found["spacing"]) == (2, {"value": 450.0, "unit": "mm"})
    assert found["fastener"]["length"] == {"value": 89.0, "unit": "mm"}
    assert found["least"]["clause"] == "NBC 2020 9.23.8.3."
    # 4 m less 100 mm at each end in spaces of 450 mm: nine spaces, ten nails, two rows, two joints.
    assert found["count"] == 2 * 10 * 2
    assert "100 to 150 mm" in found["words"]
    assert "lbf" not in str(found)
    assert " in " not in found["words"].replace(" in the row", "")


def test_bolts_of_half_an_inch_at_1200_mm() -> None:
    found = plies(fastener={"kind": "bolt", "diameter": "1/2 in"})
    assert (found["rows"], found["spacing"]["value"]) == (1, 1200.0)
    assert found["state"] == "passes"
    thin = plies(fastener={"kind": "bolt", "diameter": "9.5 mm"})
    assert thin["state"] == "question"


def test_a_shorter_nail_than_the_code_names_is_a_question() -> None:
    found = plies(fastener={"kind": "nail", "name": "76 mm common"})
    assert found["state"] == "question"
    assert "pattern" in found["questions"][0]


def test_fewer_nails_than_laid_down_are_a_question() -> None:
    assert plies(rows=1)["state"] == "question"
    assert plies(spacing="500 mm")["state"] == "question"
    assert plies(spacing="300 mm")["state"] == "passes"
    with pytest.raises(InputError):
        plies(rows=12)


def test_composite_plies_loaded_from_the_side_need_their_makers_word() -> None:
    lvl = {
        "family": "lvl",
        "grade": "in hand",
        "plies": 2,
        "width": "45 mm",
        "depth": "302 mm",
        "properties": {"fb": "36 MPa", "fv": "3.5 MPa", "fcp": "9 MPa", "E": "13000 MPa"},
    }
    silent = plies(section=lvl, loaded="side", left=HUNG)
    assert silent["state"] == "question"
    assert "kN/m" in silent["questions"][0]
    told = plies(section=lvl, loaded="side", left=HUNG, specific_gravity=0.5, gravity_source="its paper")
    assert told["checks"]["transfer"]["passes"]
    assert plies(section=lvl)["least"]["clause"].startswith("common practice")


def test_much_dead_load_lowers_what_a_nail_carries() -> None:
    heavy = [{"case": "dead", "value": "4 kN/m"}, {"case": "live", "value": "1 kN/m"}]
    found = plies(loaded="side", left=heavy)
    assert found["transfer"]["KD"] == pytest.approx(1 - 0.5 * 0.6020599913)
    assert found["value"]["resistance"]["value"] == pytest.approx(
        0.8 * found["value"]["nu"]["value"] * 0.69897, rel=1e-4
    )


def test_dead_load_that_meets_itself_does_not_last_in_the_fasteners() -> None:
    # Alike on both sides of two plies: dead load passes nothing on, live load on one side alone half of itself.
    alike = [{"case": "dead", "value": "4 kN/m"}, {"case": "live", "value": "1 kN/m"}]
    found = plies(section=BEAM | {"plies": 2}, loaded="side", left=alike, right=alike)
    assert found["transfer"]["demand"]["value"] == pytest.approx(1.5 * 1.0 / 2)
    assert found["transfer"]["KD"] == 1.0


@settings(deadline=None, max_examples=30)
@given(st.floats(0.5, 8.0), st.floats(0.1, 3.0))
def test_more_load_from_the_side_never_needs_fewer_nails(load: float, more: float) -> None:
    less, great = (
        plies(loaded="side", left=[{"case": "live", "value": f"{w:.6f} kN/m"}]) for w in (load, load + more)
    )
    assert great["per_metre"] > less["per_metre"]
    assert great["rows"] / great["spacing"]["value"] >= less["rows"] / less["spacing"]["value"] - 1e-12


def test_the_printed_nail_and_its_load_duration() -> None:
    assert nail()["resistance"]["value"] == pytest.approx(0.707, abs=5e-4)
    assert nail(duration=1.15)["resistance"]["value"] == pytest.approx(1.15 * 0.7074, abs=1e-3)
    assert nail(shear="single")["factors"] == {"phi": 0.8, "KD": 1.0}


def test_a_stated_resistance_stands_as_it_is() -> None:
    stated = {
        "kind": "structural_screw",
        "diameter": "6 mm",
        "length": "90 mm",
        "capacity": "1.5 kN",
        "source": "paper",
    }
    found = nail(fastener=stated, duration=0.65)
    assert found["mode"] == "stated"
    assert found["resistance"]["value"] == pytest.approx(0.65 * 1.5)


@pytest.mark.parametrize(
    ("changes", "clause"),
    [
        ({"fastener": {"kind": "bolt", "diameter": "12.7 mm"}}, "12.4"),
        ({"name": "63 mm common", "side": {"species": "SPF", "thickness": "51 mm"}}, "12.9.2.2"),
        ({"side": {"species": "SPF", "thickness": "9 mm"}}, "12.9.2.2"),
        ({"side": {"Fu": "400 MPa", "thickness": "3 mm"}}, "12.9.4.2"),
        ({"row": {"count": 3, "spacing": "50 mm", "EA_main": "1 MN", "EA_side": "1 MN"}}, "12.4"),
    ],
)
def test_what_is_not_worked_out_is_refused(changes: dict[str, Any], clause: str) -> None:
    found = nail(**changes)
    assert found["status"] == "refused"
    assert found["clause"] == f"CSA O86:19 {clause}"


@pytest.mark.parametrize(
    ("fastener", "field"),
    [
        ({"kind": "nail", "name": "16d common"}, "given.fastener.name"),
        ({"kind": "nail", "diameter": "4 mm"}, "given.fastener.name"),
        ({"kind": "nail", "name": "76 mm common", "length": "80 mm"}, "given.fastener.name"),
        ({"kind": "bolt"}, "given.fastener.diameter"),
        ({"kind": "bolt", "diameter": "12 mm", "capacity": "3 kN"}, "given.fastener.source"),
        ({"kind": "nail", "diameter": "12 mm", "length": "100 mm"}, "given.fastener.diameter"),
    ],
)
def test_fasteners_that_cannot_be_meant_are_named(fastener: dict[str, Any], field: str) -> None:
    with pytest.raises(InputError) as caught:
        nail(fastener=fastener)
    assert caught.value.field == field


SIDE = {
    "span": "3.6 m",
    "loads": [{"case": "dead", "value": "0.5 kPa"}, {"case": "live", "value": "1.9 kPa"}],
}


def test_a_hanger_is_held_against_its_factored_resistance() -> None:
    found = answer("hangers", clear_width="3.6 m", left=SIDE)
    assert found["required"] == {"value": pytest.approx(1.25 * 0.36 + 1.5 * 1.368), "unit": "kN"}
    assert found["combination"] == "1.25D+1.5L"
    assert found["spacing"] == {"value": 400.0, "unit": "mm"}
    rated = {"capacity": "2.6 kN", "source": "paper", "nail_length": "89 mm"}
    through = answer("hangers", clear_width="3.6 m", left=SIDE, rating=rated, beam_width="76 mm")
    assert through["state"] == "fails"
    assert "89 mm long" in through["fails"][0]


def test_dead_load_alone_asks_for_more_of_a_rating() -> None:
    found = answer("hangers", clear_width="3.6 m", left=SIDE | {"loads": SIDE["loads"][:1]})
    assert found["required"]["value"] == pytest.approx(1.4 * 0.36 / 0.65)


def test_squash_blocks_are_posts_of_the_canadian_code() -> None:
    block = {"family": "sawn", "species": "SPF", "grade": "No.2", "width": "38 mm", "depth": "140 mm"}
    loads = [{"case": "dead", "value": "10 kN"}, {"case": "live", "value": "20 kN"}]
    found = answer("squash_blocks", count=3, section=block, height="235 mm", plate="SPF", loads=loads)
    assert found["share"]["live"]["value"] == pytest.approx(20 / 3)
    # 0.8 x 5.3 MPa x 38 x 140 mm across the grain of the plate, against 42.5 / 3 kN.
    assert found["checks"]["plate_bearing"]["capacity"]["value"] == pytest.approx(0.8 * 5.3 * 38 * 140 / 1000)
    assert found["ratio"] == pytest.approx(42.5 / 3 / (0.8 * 5.3 * 38 * 140 / 1000))


@pytest.mark.parametrize(
    ("space", "required"),
    [("habitable", 2100), ("basement_other", 2000), ("secondary_suite", 1850), ("ontario_basement", 1950)],
)
def test_least_heights_under_a_beam(space: str, required: float) -> None:
    found = answer("headroom", ceiling_height="2440 mm", beam_depth="240 mm", space=space, board="0 mm")
    assert found["required"] == {"value": required, "unit": "mm"}
    assert found["clear"]["value"] == pytest.approx(2200)
    with pytest.raises(InputError):
        answer("headroom", ceiling_height="2440 mm", beam_depth="240 mm", space="basement_existing")


def test_people_are_counted_at_23_kg() -> None:
    found = answer("carry_in", width="45 mm", depth="302 mm", weight="100 N/m", length="5 m")
    assert found["weight"]["value"] == pytest.approx(0.5)
    assert found["people"] == 3
    assert "23 kg" in found["clause"]
    assert found["limit"]["unit"] == "kN"
