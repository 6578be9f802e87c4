"""Flitch beams: sharing by stiffness, plates and bolts, what is refused."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structure.core.cases.registry import run_case
from structure.core.clauses import US_DEFAULT
from structure.core.errors import InputError, OutOfScope
from structure.core.materials.flitch import Bolts, FlitchSection
from structure.core.materials.lvl import LvlSection
from structure.core.materials.sawn import SawnSection
from structure.core.members.beam import BeamQuestion, check_beam
from structure.core.statics.model import BeamLine, Load

WOOD = SawnSection("DF-L", "No.2", plies=2, width=1.5, depth=11.25)
SECTION = FlitchSection(WOOD, thickness=0.5, plate_depth=11.0)
GIVEN = {
    "family": "flitch",
    "wood": {"family": "sawn", "species": "DF-L", "grade": "No.2", "width": "1.5 in", "depth": "11.25 in"},
    "thickness": "1/2 in",
}


def question(section: FlitchSection, *loads: Load, span: float = 192.0) -> BeamQuestion:
    line = BeamLine((span,))
    held = loads or (Load.uniform("dead", 10.0, 0.0, span), Load.uniform("live", 25.0, 0.0, span))
    return BeamQuestion(line, held, section=section, bracing="continuous", self_weight=False)


def beam(**given: Any) -> dict[str, Any]:
    base = {
        "spans": ["16 ft"],
        "loads": [{"case": "live", "shape": "uniform", "value": "400 lbf/ft"}],
        "section": GIVEN,
        "self_weight": False,
    }
    return run_case({"kind": "beam", "code": "us", "given": base | given})


def test_both_parts_bend_to_one_curve() -> None:
    result = check_beam(question(SECTION), US_DEFAULT)
    wood, steel = result.checks["bending"], result.checks["plate_bending"]
    M = result.moment_extremes()[0]
    # Strain at the edge of the wood over that of the plate is as their distances from the middle.
    strain = wood.demand / 1.6e6, steel.demand / (SECTION.plate_inertia / 5.5) / 29e6
    assert strain[0] / strain[1] == pytest.approx(11.25 / 11.0)
    assert wood.demand * WOOD.section_modulus + steel.demand == pytest.approx(M)


@settings(max_examples=40, deadline=None)
@given(st.floats(0.25, 0.9), st.floats(6.0, 11.2), st.floats(0.02, 0.1))
def test_more_steel_is_never_worse_for_the_wood(t: float, h: float, more: float) -> None:
    thin = check_beam(question(replace(SECTION, thickness=t, plate_depth=h)), US_DEFAULT)
    thick = check_beam(question(replace(SECTION, thickness=t + more, plate_depth=h)), US_DEFAULT)
    assert thick.checks["bending"].ratio < thin.checks["bending"].ratio
    assert thick.checks["deflection_total"].ratio < thin.checks["deflection_total"].ratio
    assert thick.factors["ks"] > thin.factors["ks"]


def test_shear_and_bearing_are_those_of_the_wood_alone() -> None:
    flitch = check_beam(replace(question(SECTION), bearing=(3.5,)), US_DEFAULT)
    wood = check_beam(replace(question(SECTION), section=WOOD, bearing=(3.5,)), US_DEFAULT)
    for name in ("shear", "bearing"):
        assert flitch.checks[name].ratio == wood.checks[name].ratio


def test_the_wood_is_held_sideways_by_its_own_width() -> None:
    free = replace(question(SECTION), bracing="ends")
    flitch, wood = check_beam(free, US_DEFAULT), check_beam(replace(free, section=WOOD), US_DEFAULT)
    assert flitch.factors["CL"] == wood.factors["CL"] < 1


def test_a_longer_duration_weakens_wood_and_bolts_not_the_plate() -> None:
    snow = Load.uniform("snow", 30.0, 0.0, 192.0)
    bolts = Bolts(spacing=16.0, at_supports=4)
    section = replace(SECTION, bolts=bolts)
    live = check_beam(question(section, replace(snow, case="live")), US_DEFAULT).checks
    short = check_beam(question(section, snow), US_DEFAULT).checks
    for name in ("bending", "bolts", "support_bolts"):
        assert live[name].ratio == pytest.approx(1.15 * short[name].ratio)
    assert live["plate_bending"].ratio == pytest.approx(short["plate_bending"].ratio)


def test_given_bolts_are_checked_and_a_wide_spacing_fails() -> None:
    close = check_beam(question(replace(SECTION, bolts=Bolts(spacing=12.0))), US_DEFAULT)
    wide = check_beam(question(replace(SECTION, bolts=Bolts(spacing=30.0))), US_DEFAULT)
    assert wide.checks["bolts"].demand == pytest.approx(2.5 * close.checks["bolts"].demand)
    assert close.checks["bolt_spacing"].passes
    assert not wide.checks["bolt_spacing"].passes
    assert "support_bolts" not in close.checks


def test_the_spacing_that_is_asked_for_just_uses_a_bolt_up() -> None:
    heavy = question(SECTION, Load.trapezoid("live", 40.0, 90.0, 0.0, 192.0))
    spacing = check_beam(heavy, US_DEFAULT).more["bolts"]["spacing"]["value"]
    at_it = replace(heavy, section=replace(SECTION, bolts=Bolts(spacing=spacing)))
    # The heavier end of the load counts.
    assert check_beam(at_it, US_DEFAULT).checks["bolts"].ratio == pytest.approx(1.0)
    assert check_beam(at_it, US_DEFAULT).checks["bolts"].demand == pytest.approx(
        check_beam(at_it, US_DEFAULT).factors["ks"] * 90.0 * spacing
    )


def test_point_loads_ask_for_bolts_of_their_own() -> None:
    load = Load.point("live", 6000.0, 60.0)
    plan = check_beam(question(SECTION, load), US_DEFAULT).more["bolts"]
    # 0.7385 x 6000 lbf by 872 lbf a bolt.
    assert plan["at_points"] == [{"at": {"value": 60.0, "unit": "in"}, "bolts": 6}]
    assert plan["spacing"]["value"] == 24.0


def test_several_plates_share_and_a_ply_between_serves_both() -> None:
    three = FlitchSection(replace(WOOD, plies=3), plates=2, thickness=0.25, plate_depth=11.0)
    plan = check_beam(question(three), US_DEFAULT).more["bolts"]
    one = check_beam(question(replace(three, plates=1)), US_DEFAULT).more["bolts"]
    assert one["value"]["value"] < plan["value"]["value"] < 2 * one["value"]["value"]


def test_composite_plies_need_the_gravity_that_their_maker_states() -> None:
    wood = LvlSection("2.0E-2900F", plies=2, width=1.75, depth=11.875)
    silent = check_beam(question(FlitchSection(wood, plate_depth=11.5)), US_DEFAULT)
    assert silent.more["bolts"] == {}
    assert any("gravity" in each for each in silent.remarks)
    told = check_beam(question(FlitchSection(wood, plate_depth=11.5, gravity=0.5)), US_DEFAULT)
    assert told.more["bolts"]["value"]["value"] > 0


@pytest.mark.parametrize(
    ("change", "error"),
    [
        ({"plates": 2}, OutOfScope),
        ({"thickness": 0.125}, OutOfScope),
        ({"thickness": 1.5}, OutOfScope),
        ({"plate_depth": 12.0}, InputError),
        ({"steel": "A999"}, InputError),
    ],
)
def test_layouts_that_are_not_covered(change: dict[str, Any], error: type[Exception]) -> None:
    with pytest.raises(error):
        replace(SECTION, **change)


def test_steel_of_another_grade_is_entered() -> None:
    own = replace(SECTION, steel="of the shop", properties={"Fy": 50000.0, "Fu": 65000.0})
    result = check_beam(question(own), US_DEFAULT)
    assert result.checks["plate_bending"].capacity == pytest.approx(
        50 / 36 * check_beam(question(SECTION), US_DEFAULT).checks["plate_bending"].capacity
    )
    assert any("as entered" in each for each in result.remarks)


def test_plies_too_shallow_for_two_rows_of_bolts_are_refused() -> None:
    shallow = FlitchSection(replace(WOOD, depth=5.5), plate_depth=5.25, bolts=Bolts(diameter=1.0))
    with pytest.raises(OutOfScope, match="to each edge"):
        check_beam(question(shallow, span=60.0), US_DEFAULT)


def test_a_case_reads_plies_plates_and_bolts() -> None:
    result = beam(section=GIVEN | {"bolts": {"spacing": "16 in", "at_supports": 4}, "plate_depth": "11 in"})
    assert result["section"] == "2-2x12 DF-L No.2 + plate 1/2 x 11 A36"
    assert result["size"]["width"]["value"] == 3.5
    assert set(result["checks"]) >= {"bending", "plate_bending", "shear", "bolts", "support_bolts"}
    assert result["reference"]["Fy"]["value"] == 36000


def test_a_case_names_what_it_cannot_read() -> None:
    with pytest.raises(InputError) as error:
        beam(section=GIVEN | {"wood": GIVEN["wood"] | {"grade": "No.9"}})
    assert error.value.field == "given.section.wood.grade"
    with pytest.raises(InputError) as error:
        beam(section=GIVEN | {"bolts": {"spacing": "16"}})
    assert error.value.field == "given.section.bolts.spacing"
    notched = beam(notch={"side": "compression", "depth": "1 in", "length": "3 in"})
    assert notched["status"] == "refused"
    assert notched["clause"] == "NDS 2018 3.2.3"
