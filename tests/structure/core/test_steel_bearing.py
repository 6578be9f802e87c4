"""A steel shape on one bearing, and steel asked for through a case."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest

from structure.core.cases.registry import run_case
from structure.core.clauses import US_DEFAULT
from structure.core.errors import InputError, OutOfScope
from structure.core.materials.steel import SteelSection
from structure.core.members.steel_web_bearing import check_steel_bearing

W8 = SteelSection(shape="W8x24", grade="A992")


@pytest.mark.parametrize("label", ["W8x24", "W12x14", "C10x15.3", "S8x18.4"])
@pytest.mark.parametrize("end", [0.0, 2.0, 30.0])
@pytest.mark.parametrize("load", [10e3, 30e3, 80e3])
def test_the_length_asked_for_just_holds(label: str, end: float, load: float) -> None:
    section = SteelSection(shape=label, grade="A36")
    needed = check_steel_bearing(section, 3.0, end, {"live": load}, US_DEFAULT).required
    assert needed >= section.rolled.k
    # The force stands in the middle of the bearing; keep it where it was asked for.
    there = end + 3.0 / 2 - needed / 2
    if there < 0:
        return
    at = check_steel_bearing(section, needed, there, {"live": load}, US_DEFAULT)
    ratio = max(check.ratio for check in at.checks)
    assert ratio <= 1.0 + 1e-9
    if needed > section.rolled.k + 1e-9:
        assert ratio == pytest.approx(1.0, abs=1e-9)


def test_longer_bearing_holds_more_without_a_jump() -> None:
    capacity = [
        check_steel_bearing(W8, n / 100, 0.0, {"live": 1e3}, US_DEFAULT).checks[1].capacity
        for n in range(50, 600, 2)
    ]
    steps = [after / before for before, after in pairwise(capacity)]
    assert min(steps) > 1.0
    # One jump, where the force is half the depth from the end and J10-4 takes the place of J10-5.
    assert sum(step > 1.05 for step in steps) <= 1


def test_what_cannot_be_asked() -> None:
    with pytest.raises(InputError, match="at least one load"):
        check_steel_bearing(W8, 3.0, 0.0, {}, US_DEFAULT)
    with pytest.raises(OutOfScope, match="pulls up"):
        check_steel_bearing(W8, 3.0, 0.0, {"live": -1.0}, US_DEFAULT)
    with pytest.raises(OutOfScope, match="saddle"):
        check_steel_bearing(SteelSection(shape="Pipe4STD"), 3.0, 0.0, {"live": 1.0}, US_DEFAULT)


def case(kind: str, **given: Any) -> dict[str, Any]:
    return run_case({"kind": kind, "code": "us", "given": given})


def test_steel_through_a_case() -> None:
    section = {"family": "steel", "shape": "w8x24", "grade": "A992"}
    values = case("design_values", section=section)
    assert values["reference"]["Fy"]["value"] == 50e3
    assert values["size"]["section_modulus"]["value"] == 20.9
    assert values["factors"] == {}
    load = {"case": "live", "shape": "uniform", "value": "300 lbf/ft"}
    beam = case("beam", spans=["12 ft"], loads=[load], section=section)
    assert beam["section"] == "W8x24 A992"
    assert beam["self_weight"]["line"]["value"] == pytest.approx(24.0)
    post = case("post", height="8 ft", loads=[{"case": "live", "value": "10 kip"}], section=section)
    assert post["governing"] == "buckling"
    assert post["axes"]["weak"]["slenderness"] == pytest.approx(96 / 1.61)


@pytest.mark.parametrize(
    ("section", "field"),
    [
        ({"family": "steel", "grade": "A992"}, "given.section.shape"),
        ({"family": "steel", "shape": "W8x19", "grade": "A992"}, "given.section.shape"),
        ({"family": "steel", "shape": "W8x18", "grade": "A53"}, "given.section.grade"),
        ({"family": "steel", "shape": "W8x18", "grade": "A992", "depth": "8 in"}, "given.section.depth"),
        ({"family": "steel", "shape": "W8x18", "properties": {"Fb": "1 ksi"}}, "given.section.properties.Fb"),
        ({"family": "steel", "shape": "W8x18", "properties": {"Fy": "50"}}, "given.section.properties.Fy"),
    ],
)
def test_a_section_that_cannot_be_read_names_its_field(section: dict[str, Any], field: str) -> None:
    with pytest.raises(InputError) as told:
        case("design_values", section=section)
    assert told.value.field == field


@pytest.mark.parametrize("shape", ["W8x18", "W8x31", "W10x22", "W12x26", "W14x43", "C10x15.3"])
@pytest.mark.parametrize("load", ["900 lbf/ft", "2400 lbf/ft", "6000 lbf/ft"])
def test_the_length_asked_for_on_wood_is_the_shortest_that_passes(shape: str, load: str) -> None:
    def beam(bearing: str | None) -> dict[str, Any]:
        return case(
            "beam",
            spans=["12 ft"],
            loads=[{"case": "live", "shape": "uniform", "value": load}],
            section={"family": "steel", "shape": shape, "grade": "A36"},
            bracing="continuous",
            support={"species": "SPF"},
            **({} if bearing is None else {"bearing": bearing}),
        )

    def stands(bearing: float) -> bool:
        checks = beam(f"{bearing!r} in")["checks"]
        return all(checks[name]["passes"] for name in ("web_yielding", "web_crippling", "support_bearing"))

    needed = beam(None)["bearing"]["0"]["required"]["value"]
    assert stands(needed * 1.0001)
    k = SteelSection(shape=shape, grade="A36").rolled.k
    assert needed == pytest.approx(k) or not stands(needed * 0.999)
    assert any("counts a steel plate" in remark for remark in beam(None)["remarks"])
