"""Steel beams under CSA S16: moments against numbers worked apart, unbraced segments, webs, and what is refused."""

from __future__ import annotations

from math import pi, sqrt
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structure.core.cases.registry import run_case
from structure.core.clauses import CA_DEFAULT
from structure.core.codes.ca import steel, steel_bending
from structure.core.errors import InputError, OutOfScope
from structure.core.materials.ca_steel import CaSteelSection
from structure.core.materials.ca_steel_shapes import TABLES, shape
from structure.core.members.beam import BeamQuestion, check_beam, prepare
from structure.core.members.beam_question import Limits, Notch, Support
from structure.core.members.ca_steel_service import CaWeb, shear_resistance
from structure.core.members.ca_steel_strength import strength, weak_strength
from structure.core.members.steel_segments import segments
from structure.core.members.steel_web_bearing import check_steel_bearing
from structure.core.statics.model import BeamLine, Load
from structure.data.loader import table

E, G, PHI = 200e3, 77e3, 0.9
ROWS = {name: [str(row[0]) for row in table(name).content["rows"]] for name in TABLES}
W, C, HSS = (ROWS[f"ca/steel_{name}"] for name in ("w", "c", "hss"))


def section(label: str = "W200x27", grade: str = "345WM", **properties: float) -> CaSteelSection:
    return CaSteelSection(shape=label, grade=grade, properties=properties)


def question(**given: Any) -> BeamQuestion:
    line = given.pop("line", BeamLine((4000.0,)))
    loads = given.pop("loads", (Load.uniform("live", 10.0, 0.0, line.length),))
    base: dict[str, Any] = {"line": line, "loads": loads, "section": section(), "self_weight": False}
    return BeamQuestion(**(base | given))


def resisted(label: str, L: float, omega_2: float, F_y: float) -> float | None:
    """M_r of a W shape by 13.5 and 13.6, written anew: kN and m out; None where its web is class 4."""
    s = shape(label)
    f, w = s.b / 2 / s.t_f * sqrt(F_y), (s.d - 2 * s.t_f) / s.t_w * sqrt(F_y)
    if w > 1900:
        return None
    if f <= 170 and w <= 1700:
        M = s.Z_x * F_y
    elif f <= 200:
        M = s.S_x * F_y
    else:
        over = s.b / 2 - 200 / sqrt(F_y) * s.t_f
        M = (s.I_x - 4 * over * s.t_f * ((s.d - s.t_f) / 2) ** 2) / (s.d / 2) * F_y
    if L == 0:
        return PHI * M / 1e6
    M_u = omega_2 * pi / L * sqrt(E * s.I_y * G * s.J + (pi * E / L) ** 2 * s.I_y * s.C_w)
    return PHI * (min(M, 1.15 * M * (1 - 0.28 * M / M_u)) if M_u > 0.67 * M else M_u) / 1e6


@pytest.mark.parametrize("label", W)
@pytest.mark.parametrize("grade", ["345WM", "300W"])
@pytest.mark.parametrize("L", [0.0, 900.0, 2500.0, 6000.0])
def test_moments_of_w_shapes(label: str, grade: str, L: float) -> None:
    held = section(label, grade)
    want = resisted(label, L, 1.3, held.reference.value("Fy"))
    if want is None:
        with pytest.raises(OutOfScope, match="class 4"):
            strength(held, CA_DEFAULT)
        return
    found = strength(held, CA_DEFAULT)
    assert found.resistances(np.array([L]), np.array([1.3]))[0] / 1e6 == pytest.approx(want)
    steps, M_r, _ = found.sheet(L, 1.3, CA_DEFAULT)
    assert M_r / 1e6 == pytest.approx(want)
    assert steps[-1].result == pytest.approx(M_r)


@pytest.mark.parametrize("label", [*W[::6], *C[::4], *HSS[::12], "HSS114x4.8"])
@settings(max_examples=15, deadline=None)
@given(L=st.floats(0.0, 15_000.0), omega_2=st.floats(1.0, 2.5))
def test_the_sheet_is_what_all_segments_are_checked_by(label: str, L: float, omega_2: float) -> None:
    found = strength(section(label, "350W", Fy=300.0), CA_DEFAULT)
    _, M_r, _ = found.sheet(L, omega_2, CA_DEFAULT)
    assert found.resistances(np.array([L]), np.array([omega_2]))[0] == pytest.approx(M_r)
    assert M_r <= PHI * found.M.result * (1 + 1e-12)


@pytest.mark.parametrize("label", [*W[::5], *C[::5], "HSS203x102x6.4"])
def test_longer_unbraced_is_never_stronger_and_l_u_is_where_it_begins_to_count(label: str) -> None:
    found = strength(section(label, "350W"), CA_DEFAULT)
    lengths = np.linspace(1.0, 15_000.0, 300)
    M_r = found.resistances(lengths, np.ones(300))
    assert (np.diff(M_r) <= 1e-6).all()
    L_u = found.supported_length(CA_DEFAULT)
    assert L_u is not None
    at = found.resistances(np.array([0.999, 1.0, 1.001]) * L_u.result, np.ones(3))
    assert at[0] == pytest.approx(at[1], rel=1e-9)
    assert at[2] < at[1]


def test_what_cannot_buckle_sideways_has_no_such_length() -> None:
    for label in ("HSS102x102x6.4", "HSS114x4.8"):
        found = strength(section(label, "350W"), CA_DEFAULT)
        assert found.supported_length(CA_DEFAULT) is None
        assert found.resistances(np.array([9000.0]), np.ones(1))[0] == pytest.approx(PHI * found.M.result)


def test_a_printed_example_of_bending_and_compression() -> None:
    # Carleton University, teaching notes, example BC40: W250x101, 345 MPa, C_f 1000 kN.
    C_y = 12_900 * 345.0
    limits = [
        steel.axial_class_limit(n=n, F_y=345.0, c=c, C_f=1e6, phi=PHI, C_y=C_y)
        for n, c in zip(steel.WEB, steel.WEB_AXIAL, strict=True)
    ]
    assert limits == [pytest.approx(want, abs=0.006) for want in (53.46, 77.59, 85.69)]
    found = strength(section("W250x101", "A992"), CA_DEFAULT, 1e6)
    assert [part.kind for part in found.parts] == [1, 1]
    # kappa -0.8333 gives omega_2 of 1.083; printed M_u 847.1, M_p 483, M_r 420.1 kN*m.
    _, M_r, _ = found.sheet(5500.0, 1.75 - 1.05 * 0.83333 + 0.3 * 0.83333**2, CA_DEFAULT)
    assert M_r / 1e6 == pytest.approx(420.1, abs=0.1)


def test_printed_gradients() -> None:
    # The same notes: quarters of 280, 480 and 600 under 640, and of an even load.
    assert steel_bending.moment_gradient(M_max=640.0, M_a=280.0, M_b=480.0, M_c=600.0) == pytest.approx(
        1.31742, abs=1e-5
    )
    assert steel_bending.moment_gradient(M_max=8.0, M_a=6.0, M_b=8.0, M_c=6.0) == pytest.approx(
        1.1314, abs=1e-4
    )
    assert steel_bending.moment_gradient(M_max=1.0, M_a=1.0, M_b=1.0, M_c=1.0) == 1.0


def test_the_gradient_of_a_segment_is_held_to_its_most() -> None:
    # An overhang that bends the span both ways.
    line = BeamLine((6000.0,), 0.0, 2000.0)
    loads = (Load.uniform("dead", 5.0, 0.0, 6000.0), Load.uniform("dead", 16.0, 6000.0, 8000.0))
    held = segments(prepare(question(line=line, loads=loads, bracing="ends"), (0.0,), CA_DEFAULT))
    assert held.C_b.max() == 2.5
    tip = [n for n, each in enumerate(held.held) if each.bay == 1]
    assert (held.C_b[:, tip] == 1.0).all()


@pytest.mark.parametrize(("line", "times"), [(BeamLine((4000.0,)), 1.2), (BeamLine((4000.0, 4000.0)), 1.4)])
def test_what_stands_on_top_without_holding_makes_it_longer(line: BeamLine, times: float) -> None:
    plain = segments(prepare(question(line=line, bracing="ends"), (0.0,), CA_DEFAULT))
    loaded = segments(prepare(question(line=line, bracing="ends", top_loaded=True), (0.0,), CA_DEFAULT))
    assert loaded.L_b == pytest.approx(times * plain.L_b)
    assert (loaded.C_b == 1.0).all()
    held = segments(prepare(question(line=line, bracing="continuous", top_loaded=True), (0.0,), CA_DEFAULT))
    same = segments(prepare(question(line=line, bracing="continuous"), (0.0,), CA_DEFAULT))
    assert held.L_b == pytest.approx(same.L_b)


def test_factored_loads_and_no_creep() -> None:
    loads = (Load.uniform("live", 8.0, 0.0, 4000.0), Load.uniform("dead", 4.0, 0.0, 4000.0))
    found = check_beam(question(loads=loads, bracing="continuous"), CA_DEFAULT)
    assert found.checks["bending"].demand == pytest.approx((1.25 * 4 + 1.5 * 8) * 4000**2 / 8)
    assert found.checks["shear"].demand == pytest.approx((1.25 * 4 + 1.5 * 8) * 2000)
    for creep in (True, False):
        other = check_beam(question(loads=loads, deflection=Limits(creep=creep)), CA_DEFAULT)
        want = 5 * 12.0 * 4000**4 / 384 / E / 25.8e6
        assert other.checks["deflection_total"].demand == pytest.approx(want)
    assert all(check.clause.document == "CSA S16" for check in found.checks.values())


@pytest.mark.parametrize(("label", "grade", "n"), [("W200x27", "345WM", 0.66), ("W360x33", "345WM", None)])
def test_shear(label: str, grade: str, n: float | None) -> None:
    held = section(label, grade)
    s, F_y = held.rolled, held.reference.value("Fy")
    F_s = n * F_y if n else 670 * sqrt(F_y) / ((s.d - 2 * s.t_f) / s.t_w)
    assert shear_resistance(held, CA_DEFAULT)[-1].result == pytest.approx(PHI * s.d * s.t_w * F_s)
    assert F_s <= 0.66 * F_y


def test_the_web_over_a_bearing() -> None:
    held = section("W200x27", "A992")
    end, inside = CaWeb(held, 200.0), CaWeb(held, 210.0)
    assert (end.inside, inside.inside, CaWeb(section("HSS203x102x6.4", "350W"), 900.0).inside) == (
        False,
        True,
        False,
    )
    assert end.yielding(89.0, CA_DEFAULT).result == pytest.approx(0.75 * 5.8 * (89 + 4 * 8.4) * 345)
    assert inside.yielding(89.0, CA_DEFAULT).result == pytest.approx(0.80 * 5.8 * (89 + 10 * 8.4) * 345)
    assert inside.crippling(CA_DEFAULT).result == pytest.approx(1.45 * 0.80 * 5.8**2 * sqrt(345 * E))
    needed = end.required(160e3, CA_DEFAULT)
    assert end.yielding(needed, CA_DEFAULT).result == pytest.approx(160e3)
    assert end.required(1e3, CA_DEFAULT) == held.rolled.k
    assert end.required(0.0, CA_DEFAULT) == 0.0


@pytest.mark.parametrize("label", ["W200x27", "W310x39", "C250x30", "HSS203x102x6.4"])
@pytest.mark.parametrize("load", [4.0, 12.0, 30.0])
def test_the_length_asked_for_on_wood_is_the_shortest_that_passes(label: str, load: float) -> None:
    given = {"section": section(label, "350W"), "bracing": "continuous", "support": Support(5.3, "SPF")}
    given["loads"] = (Load.uniform("live", load, 0.0, 4000.0),)
    needed = check_beam(question(**given), CA_DEFAULT).supports[0].required

    def stands(length: float) -> bool:
        checks = check_beam(question(**given, bearing=(length,)), CA_DEFAULT).checks
        return checks["web_yielding"].passes and checks["support_bearing"].passes

    assert stands(needed * 1.0001)
    assert needed == pytest.approx(section(label, "350W").rolled.k) or not stands(needed * 0.999)


def test_the_plate_of_a_support_and_its_load_duration() -> None:
    dead = (Load.uniform("dead", 12.0, 0.0, 4000.0),)
    found = check_beam(
        question(loads=dead, bracing="continuous", bearing=(89.0,), support=Support(5.3, "SPF")), CA_DEFAULT
    )
    check = found.checks["support_bearing"]
    plate = found.more["plates"]["0"]
    width = plate["width"]["value"]
    # Dead load alone: K_D 0.65.
    assert check.capacity == pytest.approx(0.8 * 0.65 * 5.3 * width * 89.0)
    assert check.demand == pytest.approx(1.4 * 12.0 * 2000)
    assert width % 10 == 0
    assert any("steel plate" in remark and "300W" in remark for remark in found.remarks)


def test_weak_axis() -> None:
    w = weak_strength(section("W250x101", "A992"), CA_DEFAULT)
    assert w.sheet(0.0, 1.0, CA_DEFAULT)[1] == pytest.approx(PHI * 656_000 * 345)
    tube = weak_strength(section("HSS203x102x6.4", "350W"), CA_DEFAULT)
    assert tube.sheet(0.0, 1.0, CA_DEFAULT)[1] == pytest.approx(PHI * shape("HSS203x102x6.4").Z_y * 350)
    # W150x22 is class 4 about its strong axis, class 3 about the weak one.
    flat = weak_strength(section("W150x22", "345WM"), CA_DEFAULT)
    assert (flat.kind, flat.M.symbol) == (3, "M_y")


def test_remarks() -> None:
    found = check_beam(question(bracing="ends"), CA_DEFAULT)
    text = " ".join(found.remarks)
    for part in ("weighs 106 kg", "L_u", "top_loaded", "rolling over", "give the bearing length", "class 2"):
        assert part in text
    light = check_beam(question(line=BeamLine((1500.0,)), section=section("W150x18")), CA_DEFAULT)
    assert any("two persons can carry" in remark for remark in light.remarks)
    channel = check_beam(question(section=section("C250x30", "300W")), CA_DEFAULT)
    assert any("twists" in remark for remark in channel.remarks)
    odd = check_beam(question(shear_at="d", wet=True, repetitive=True), CA_DEFAULT)
    assert all(
        any(word in remark for remark in odd.remarks) for word in ("rule for wood", "paint", "share a load")
    )


def test_what_is_refused() -> None:
    with pytest.raises(OutOfScope, match="notched"):
        check_beam(question(notch=Notch("tension", 20.0, 100.0)), CA_DEFAULT)
    with pytest.raises(OutOfScope, match="saddle"):
        check_beam(question(section=section("HSS114x4.8", "350W"), bearing=(89.0,)), CA_DEFAULT)
    with pytest.raises(OutOfScope, match="stiffeners"):
        check_beam(question(section=section("W410x39"), bearing=(89.0,)), CA_DEFAULT)
    with pytest.raises(OutOfScope, match="class 4"):
        check_beam(question(section=section("HSS203x203x4.8", "350W", Fy=700.0)), CA_DEFAULT)
    with pytest.raises(OutOfScope, match="saddle"):
        check_steel_bearing(section("HSS114x4.8", "350W"), 89.0, 0.0, {"live": 1.0}, CA_DEFAULT)
    with pytest.raises(OutOfScope, match="pulls up"):
        check_steel_bearing(section(), 89.0, 0.0, {"live": -1.0}, CA_DEFAULT)
    with pytest.raises(InputError, match="at least one load"):
        check_steel_bearing(section(), 89.0, 0.0, {}, CA_DEFAULT)


def case(kind: str, **given: Any) -> dict[str, Any]:
    return run_case({"kind": kind, "code": "ca", "given": given})


def test_steel_through_a_case() -> None:
    held = {"family": "steel", "shape": "w200x27", "grade": "A992"}
    values = case("design_values", section=held)
    assert values["specified"]["Fy"] == {"value": 345.0, "unit": "MPa"}
    load = {"case": "live", "shape": "uniform", "value": "10 kN/m"}
    beam = case("beam", spans=["4 m"], loads=[load], section=held, bracing="ends")
    assert beam["section"] == "W200x27 A992"
    assert beam["self_weight"]["line"]["value"] == pytest.approx(26.6 * 9.80665e-3)
    assert beam["checks"]["bending"]["capacity"]["unit"] == "kN*m"
    assert beam["L_u"]["unit"] == "mm"
    assert beam["factors"]["omega2"] == pytest.approx(1.1314, abs=1e-4)
    top = case("beam", spans=["4 m"], loads=[load], section=held, bracing="ends", top_loaded=True)
    assert top["checks"]["bending"]["ratio"] > beam["checks"]["bending"]["ratio"]
    with pytest.raises(InputError, match="AISC 360"):
        run_case(
            {
                "kind": "beam",
                "code": "us",
                "given": {
                    "spans": ["12 ft"],
                    "loads": [{"case": "live", "shape": "uniform", "value": "300 lbf/ft"}],
                    "section": {"family": "steel", "shape": "W8x18"},
                    "top_loaded": True,
                },
            }
        )


def test_a_search_over_steel() -> None:
    load = {"case": "live", "shape": "uniform", "value": "12 kN/m"}
    found = case(
        "beam",
        spans=["5 m"],
        loads=[load],
        bracing="continuous",
        search={"families": ["steel"], "max_depth": "260 mm"},
    )
    assert found["passes"]
    tried = {each["section"] for each in found["candidates"]}
    assert {"W250x28 345WM", "HSS254x152x6.4 350W", "C250x30 300W"} <= tried
    assert not any("310x" in label for label in tried)
