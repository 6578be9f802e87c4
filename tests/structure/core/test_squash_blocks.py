"""Blocks through a floor cavity, and links that carry something already."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from structure.core.cases.loadpath import added
from structure.core.cases.registry import run_case
from structure.core.clauses import US_DEFAULT
from structure.core.errors import InputError
from structure.core.loadpath import Below, Duty, Link, LinkKind, State, follow, post_links, with_existing
from structure.core.materials.sawn import SawnSection
from structure.core.members.squash_blocks import BlocksQuestion, block_share, check_blocks

BLOCK = SawnSection(species="SPF", grade="No.2", plies=1, width=1.5, depth=5.5)
ASKED = BlocksQuestion(4, BLOCK, 9.25, {"dead": 4000.0, "live": 6000.0}, F_c_perp=425.0, plate="SPF")
GOOD = Duty("buckling", 0.7, True)


def test_like_blocks_share_alike() -> None:
    assert block_share(10000.0, 4) == 2500.0


@pytest.mark.parametrize("load", [1000.0, 5000.0, 9000.0, 14000.0, 30000.0])
def test_as_many_blocks_as_needed_pass_and_one_less_fails(load: float) -> None:
    loads = {"dead": load * 0.4, "live": load * 0.6}
    needed = check_blocks(replace(ASKED, loads=loads), US_DEFAULT).needed
    assert check_blocks(replace(ASKED, loads=loads, count=needed), US_DEFAULT).governing.passes
    if needed > 1:
        assert not check_blocks(replace(ASKED, loads=loads, count=needed - 1), US_DEFAULT).governing.passes


def test_a_higher_cavity_carries_no_more() -> None:
    low = check_blocks(ASKED, US_DEFAULT).checks["buckling"].capacity
    high = check_blocks(replace(ASKED, height=24.0), US_DEFAULT).checks["buckling"].capacity
    assert high < low


def test_without_a_plate_it_says_that_crushing_was_not_asked() -> None:
    found = check_blocks(replace(ASKED, F_c_perp=None), US_DEFAULT)
    assert "plate_bearing" not in found.checks
    assert any("not asked" in remark for remark in found.remarks)


def test_what_cannot_be_meant_is_told() -> None:
    double = SawnSection(species="SPF", grade="No.2", plies=2, width=1.5, depth=5.5)
    for changes in ({"count": 0}, {"section": double}, {"loads": {}}, {"height": 0.0}):
        with pytest.raises(InputError):
            check_blocks(replace(ASKED, **changes), US_DEFAULT)  # type: ignore[arg-type]


def test_what_was_there_before_is_added_case_by_case() -> None:
    loads, steps = added({"dead": 4000.0, "live": 6000.0}, {"dead": 2500.0, "snow": 3000.0}, US_DEFAULT)
    assert loads == {"dead": 6500.0, "live": 6000.0, "snow": 3000.0}
    assert len(steps) == 3
    assert with_existing(4000.0, 2500.0) == 6500.0
    assert added({"dead": 1.0}, {}, US_DEFAULT) == ({"dead": 1.0}, ())


def test_the_question_for_a_loaded_beam_names_both_loads() -> None:
    links = post_links(
        beam=Link(LinkKind.BEAM, "B1", check=GOOD),
        bearing=Link(LinkKind.BEARING, check=GOOD),
        post=Link(LinkKind.POST, "P1", check=GOOD),
        plate=True,
        storeys=[Below(LinkKind.BEAM_BELOW, blocks=GOOD, carries={"dead": 2000.0, "live": 1000.0})],
    )
    found = follow(mark="B1", reaction={"dead": 4000.0}, links=links, editions=US_DEFAULT)
    assert found.state is State.QUESTION
    assert "4,000 lbf" in found.questions[0]
    assert "3,000 lbf that it carries already" in found.questions[0]
    cavity = next(link for link in found.links if link.kind is LinkKind.FLOOR_CAVITY)
    assert cavity.state is State.PASSES


def _path(link: dict[str, Any]) -> dict[str, Any]:
    return {
        "kind": "loadpath",
        "code": "us",
        "given": {"loads": [{"case": "dead", "value": "4000 lbf"}], "links": [{"kind": "beam"}, link]},
    }


BLOCKS = {
    "count": 4,
    "section": {"family": "sawn", "species": "SPF", "grade": "No.2", "width": "1.5 in", "depth": "5.5 in"},
    "height": "9.25 in",
}
CARRIED = [{"case": "dead", "value": "100 lbf"}]


@pytest.mark.parametrize(
    "link",
    [
        {"kind": "pad", "blocks": BLOCKS},
        {"kind": "floor_cavity", "blocks": BLOCKS, "capacity": "9 kip"},
        {"kind": "floor_cavity", "blocks": BLOCKS | {"section": BLOCKS["section"] | {"plies": 2}}},  # type: ignore[operator]
        {"kind": "wall_below", "capacity": "9 kip", "demand": "3 kip", "existing_loads": CARRIED},
    ],
)
def test_links_told_twice_are_told_back(link: dict[str, Any]) -> None:
    with pytest.raises(InputError) as told:
        run_case(_path(link))
    assert told.value.field.startswith("given.links[1]")
