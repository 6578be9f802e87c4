"""What goes with the beam of a wall: each part answers by itself and stops nothing."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from structure.core.cases import run_case
from structure.core.clauses import US_DEFAULT
from structure.core.codes.us.loads import DEFAULT_JOIST_SPACING
from structure.core.errors import InputError
from structure.core.materials.lvl import LvlSection
from structure.core.materials.sawn import SawnSection
from structure.core.members.carry_in import Turn
from structure.core.members.hangers import Rating
from structure.core.takedown import Layer, Level, Side
from structure.core.wall_connections import Connections, Placed, Room, connect, hanger_count, hanging_sides

FLOOR = Level(
    "Floor",
    "floor",
    left=Side("simple", 144.0),
    right=Side("continuous", 120.0),
    dead=(Layer("all", 12 / 144),),
    pressures={"live": 40 / 144},
)
SAWN = SawnSection(species="DF-L", grade="No.1", plies=3, width=1.5, depth=11.25)
LVL = LvlSection(grade="2.0E-2900F", plies=2, width=1.75, depth=11.875)
FLUSH = Placed(SAWN, FLOOR, 108.0, 117.0, 96.0, flush=True, joist_depth=9.25)


def _parts(**changes: Any) -> tuple[dict[str, Any], list[str]]:
    return connect(replace(FLUSH, **changes), US_DEFAULT)


def test_joists_of_both_sides_hang_on_a_flush_beam_alone() -> None:
    assert set(hanging_sides(FLOOR, flush=True)) == {"left", "right"}
    assert hanging_sides(FLOOR, flush=False) == {}
    assert hanging_sides(replace(FLOOR, framing="parallel"), flush=True) == {}
    assert hanger_count(FLOOR, 108.0, flush=True) == 2 * (int(108 // DEFAULT_JOIST_SPACING) + 1)
    assert hanger_count(replace(FLOOR, right=None), 108.0, flush=True) == 7
    assert hanger_count(FLOOR, 108.0, flush=False) == 0


def test_a_dropped_beam_is_loaded_from_the_top_and_has_no_hangers() -> None:
    data, _ = _parts(flush=False)
    assert data["hangers_data"] is None
    assert data["fastening"]["loaded"] == "top"
    assert data["headroom"]["clear"]["value"] == pytest.approx(96 - 11.25 - 0.5)


def test_the_plies_pass_on_what_the_hangers_bring() -> None:
    data, _ = _parts()
    line = data["hangers_data"]["sides"]["left"]["line"]
    both = data["fastening"]["transfer"]["demand"]["value"]
    left = line["dead"]["value"] + line["live"]["value"]
    right = data["hangers_data"]["sides"]["right"]["line"]["dead"]["value"]
    assert both == pytest.approx(2 / 3 * left - 1 / 3 * right)


def test_composite_plies_and_unknown_hangers_are_told_as_questions() -> None:
    data, remarks = _parts(section=LVL)
    assert data["fastening"]["state"] == data["hangers_data"]["state"] == "question"
    assert any(each.startswith("Ply fastening: ") for each in remarks)
    assert any(each.startswith("Hangers: ") for each in remarks)


def test_what_is_told_answers_them() -> None:
    told = Connections(
        gravity=0.5,
        gravity_source="paper",
        rating=Rating(500.0, "paper", nail_length=1.5),
        way=(Turn("hall", 60.0, 60.0, 96.0),),
    )
    data, remarks = _parts(section=LVL, told=told)
    assert data["fastening"]["state"] == data["hangers_data"]["state"] == "passes"
    assert data["carry"]["passes"] is True
    assert not [each for each in remarks if each.startswith(("Ply", "Hangers"))]


def test_hangers_that_are_not_rated_for_it_are_told() -> None:
    data, remarks = _parts(told=Connections(rating=Rating(300.0, "paper", nail_length=1.5)))
    assert data["hangers_data"]["state"] == "fails"
    assert "Hangers: what is told does not carry the load." in remarks


def test_a_low_beam_is_told_and_a_basement_may_be_lower() -> None:
    low = {"flush": False, "height": 90.0}
    data, remarks = _parts(**low)
    assert data["headroom"]["passes"] is False
    assert any("R305.1" in each for each in remarks)
    data, remarks = _parts(**low, room=Room("basement_other", board=0.0))
    assert data["headroom"]["passes"] is True
    assert not any("R305.1" in each for each in remarks)


def test_a_refused_part_stops_no_other() -> None:
    class Iron(SawnSection):
        material = "steel"

    iron = Iron(species="DF-L", grade="No.1", plies=3, width=1.5, depth=11.25)
    data, _ = _parts(section=iron)
    assert data["fastening"]["status"] == "refused"
    assert data["hangers_data"]["questions"][-1].startswith("Steel beam")
    assert data["headroom"]["status"] == "ok"


GIVEN: dict[str, Any] = {
    "levels": [
        {
            "name": "Floor",
            "kind": "floor",
            "left": {"span": "12 ft", "support": "simple"},
            "right": {"span": "12 ft", "support": "simple"},
            "dead": "12 psf",
            "live": "40 psf",
        }
    ],
    "opening": {"clear_width": "8 ft", "ceiling_height": "8 ft"},
    "soil": {"allowable": "2000 psf"},
    "beam": {
        "family": "sawn",
        "species": "SPF",
        "grade": "No.2",
        "plies": 2,
        "width": "1.5 in",
        "depth": "9.25 in",
    },
}


@pytest.mark.parametrize(
    ("name", "given"),
    [
        ("given.connections.gravity_source", {"connections": {"specific_gravity": 0.5}}),
        ("given.connections.fastener.diameter", {"connections": {"fastener": {"kind": "bolt"}}}),
        (
            "given.below.blocks.section.plies",
            {
                "below": {
                    "ground": "crawl",
                    "height": "3 ft",
                    "blocks": {
                        "count": 2,
                        "height": "9 in",
                        "section": {
                            "family": "sawn",
                            "species": "SPF",
                            "grade": "Stud",
                            "width": "1.5 in",
                            "depth": "9.25 in",
                            "plies": 2,
                        },
                    },
                }
            },
        ),
    ],
)
def test_what_is_half_told_is_told_back_with_its_place(name: str, given: dict[str, Any]) -> None:
    with pytest.raises(InputError) as told:
        run_case({"kind": "wall", "code": "us", "given": GIVEN | given})
    assert told.value.field == name
