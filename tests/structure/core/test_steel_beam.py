"""Steel beams: strength against numbers worked apart, unbraced segments, and what is refused."""

from __future__ import annotations

from dataclasses import replace
from math import pi, sqrt
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structure.core.clauses import US_DEFAULT
from structure.core.errors import OutOfScope
from structure.core.materials.steel import SteelSection
from structure.core.materials.steel_shapes import shape, shapes
from structure.core.members.beam import BeamQuestion, check_beam, prepare
from structure.core.members.beam_question import Limits, Notch, Support
from structure.core.members.steel_segments import segments
from structure.core.members.steel_strength import strength, weak_strength
from structure.core.statics.model import BeamLine, Load

E = 29e6
FT = 12.0


def section(label: str = "W8x24", grade: str = "A992", **properties: float) -> SteelSection:
    return SteelSection(shape=label, grade=grade, properties=properties)


def question(**given: Any) -> BeamQuestion:
    line = given.pop("line", BeamLine((16 * FT,)))
    loads = given.pop("loads", (Load.uniform("live", 50.0, 0.0, line.length),))
    base: dict[str, Any] = {"line": line, "loads": loads, "section": section(), "self_weight": False}
    return BeamQuestion(**(base | given))


def bent(label: str, L_b: float, C_b: float = 1.0, grade: str = "A992") -> float:
    """Nominal moment of a W shape or channel by chapter F, written anew: kip and in inside, kip-ft out."""
    s, F_y, e = shape(label), 50.0, 29000.0
    M_p = F_y * s.Z_x
    L_p = 1.76 * s.r_y * sqrt(e / F_y)
    c = 1.0 if s.form == "W" else s.h_o / 2 * sqrt(s.I_y / s.C_w)
    x = s.J * c / s.S_x / s.h_o
    L_r = 1.95 * s.r_ts * e / 0.7 / F_y * sqrt(x + sqrt(x**2 + 6.76 * (0.7 * F_y / e) ** 2))
    M = M_p
    if L_b > L_r:
        a = (L_b / s.r_ts) ** 2
        M = min(M, C_b * pi**2 * e / a * sqrt(1 + 0.078 * x * a) * s.S_x)
    elif L_b > L_p:
        M = min(M, C_b * (M_p - (M_p - 0.7 * F_y * s.S_x) * (L_b - L_p) / (L_r - L_p)))
    if s.form == "W":
        f, p, r = s.b / 2 / s.t_f, 0.38 * sqrt(e / F_y), sqrt(e / F_y)
        if f > p:
            M = min(M, M_p - (M_p - 0.7 * F_y * s.S_x) * (f - p) / (r - p))
    return M / 12


@pytest.mark.parametrize("label", [each.label for each in shapes("W")] + [each.label for each in shapes("C")])
@pytest.mark.parametrize("L_b", [0.0, 60.0, 150.0, 400.0])
def test_every_open_shape_against_the_chapter_written_anew(label: str, L_b: float) -> None:
    grade = "A992"
    held = strength(section(label, grade), US_DEFAULT)
    got = float(held.nominal(np.array([L_b]), np.array([1.14]))[0])
    assert got / 12000 == pytest.approx(bent(label, L_b, 1.14), rel=1e-9)


@pytest.mark.parametrize(
    ("label", "grade"),
    [
        ("W10x12", "A992"),
        ("W18x50", "A992"),
        ("C12x25", "A36"),
        ("HSS12x4x3/16", "A500 Gr C"),
        ("Pipe4STD", "A53"),
    ],
)
@settings(max_examples=40, deadline=None)
@given(st.floats(0.0, 500.0), st.floats(1.0, 2.3))
def test_the_sheet_is_the_number(label: str, grade: str, L_b: float, C_b: float) -> None:
    held = strength(section(label, grade), US_DEFAULT)
    _, M_n, _ = held.sheet(L_b, C_b, US_DEFAULT)
    assert M_n == pytest.approx(float(held.nominal(np.array([L_b]), np.array([C_b]))[0]), rel=1e-12)


@pytest.mark.parametrize("label", ["W8x10", "W12x14", "W16x31", "C10x15.3", "HSS12x4x3/16"])
def test_longer_unbraced_is_never_stronger(label: str) -> None:
    held = strength(section(label, "A500 Gr C" if label.startswith("H") else "A992"), US_DEFAULT)
    lengths = np.linspace(0.0, 40 * FT, 400)
    moments = held.nominal(lengths, np.ones_like(lengths))
    assert (np.diff(moments) <= 1e-6).all()
    assert moments[0] == pytest.approx(held.capped)


def test_a_square_tube_and_a_pipe_do_not_buckle_sideways() -> None:
    for each in (section("HSS6x6x1/4", "A500 Gr C"), section("Pipe4STD", "A53 Gr B")):
        held = strength(each, US_DEFAULT)
        assert held.nominal(np.array([5000.0]), np.array([1.0]))[0] == held.capped


def test_bending_about_the_weak_axis() -> None:
    # AISC Companion, Example F.5: 136 kip-ft (1,630 kip-in rounded up).
    _, M_n = weak_strength(section("W12x58"), US_DEFAULT)
    assert M_n / 12000 == pytest.approx(50 * 32.5 / 12)
    # Example H.1B: noncompact flanges, 4,151 kip-in or 346 kip-ft.
    _, noncompact = weak_strength(section("W14x99"), US_DEFAULT)
    assert noncompact / 12000 == pytest.approx(346, abs=0.5)
    _, tube = weak_strength(section("HSS6x4x3/8", "A500 Gr C"), US_DEFAULT)
    assert tube == pytest.approx(50e3 * 8.94)
    _, pipe = weak_strength(section("Pipe4STD", "A53 Gr B"), US_DEFAULT)
    assert pipe == pytest.approx(35e3 * 4.05)
    with pytest.raises(OutOfScope, match="weak axis"):
        weak_strength(section("C10x20"), US_DEFAULT)


@pytest.mark.parametrize(
    ("label", "F_y", "clause"),
    [
        ("W12x14", 160e3, "F4"),
        ("W6x15", 240e3, "F3.2"),
        ("HSS10x2x1/8", 190e3, "F7.3"),
        ("C3x4.1", 400e3, "F3.2"),
    ],
)
def test_parts_too_slender_are_refused_with_their_clause(label: str, F_y: float, clause: str) -> None:
    with pytest.raises(OutOfScope) as told:
        strength(section(label, "as tested", Fy=F_y), US_DEFAULT)
    assert str(told.value.clause) == f"AISC 360-16 {clause}"


# Table 3-1 of the AISC Manual: C_b of a simple span. Rows: loads, braces, C_b of the segment that governs.
THIRDS = (Load.point("live", 100.0, 64.0), Load.point("live", 100.0, 128.0))


@pytest.mark.parametrize(
    ("loads", "bracing", "C_b"),
    [
        ((Load.uniform("live", 50.0, 0.0, 192.0),), "ends", 1.14),
        ((Load.uniform("live", 50.0, 0.0, 192.0),), 96.0, 1.30),
        ((Load.uniform("live", 50.0, 0.0, 192.0),), 64.0, 1.01),
        ((Load.uniform("live", 50.0, 0.0, 192.0),), 48.0, 1.06),
        ((Load.uniform("live", 50.0, 0.0, 192.0),), 38.4, 1.00),
        ((Load.point("live", 100.0, 96.0),), "ends", 1.32),
        ((Load.point("live", 100.0, 96.0),), 96.0, 1.67),
        (THIRDS, "ends", 1.14),
        (THIRDS, 64.0, 1.00),
    ],
)
def test_gradient_factors_of_the_manual(loads: tuple[Load, ...], bracing: Any, C_b: float) -> None:
    asked = question(loads=loads, bracing=bracing, section=section("W12x14"))
    found = check_beam(asked, US_DEFAULT)
    assert found.factors["Cb"] == pytest.approx(C_b, abs=0.005)
    assert found.checks["bending"].steps[0].symbol == "C_b"
    assert found.checks["bending"].steps[0].result == pytest.approx(found.factors["Cb"])


def test_braces_that_do_not_divide_the_span_stand_from_either_end() -> None:
    demands = prepare(question(line=BeamLine((20 * FT,)), bracing=8 * FT), (0.0,), US_DEFAULT)
    sagging = sorted((each.start / FT, each.end / FT) for each in segments(demands).held if not each.hogging)
    assert sagging == [(0.0, 4.0), (0.0, 8.0), (4.0, 12.0), (8.0, 16.0), (12.0, 20.0), (16.0, 20.0)]


def test_braces_without_number_are_one_segment() -> None:
    demands = prepare(question(bracing=0.001), (0.0,), US_DEFAULT)
    held = segments(demands)
    assert len(held.held) == 2
    assert held.L_b.max() <= 16 * FT
    assert check_beam(question(bracing=0.001), US_DEFAULT).factors["Cb"] == 1.0


@settings(max_examples=25, deadline=None)
@given(st.floats(1.0, 15.0), st.floats(0.1, 15.9), st.floats(10.0, 200.0))
def test_a_beam_seen_from_behind_is_the_same(brace: float, at: float, w: float) -> None:
    L = 16 * FT
    loads = (Load.point("live", 2000.0, at * FT), Load.trapezoid("dead", w, 2 * w, 0.0, L))
    mirror = (Load.point("live", 2000.0, L - at * FT), Load.trapezoid("dead", 2 * w, w, 0.0, L))
    one = check_beam(question(loads=loads, bracing=brace * FT), US_DEFAULT)
    other = check_beam(question(loads=mirror, bracing=brace * FT), US_DEFAULT)
    for name, check in one.checks.items():
        assert other.checks[name].ratio == pytest.approx(check.ratio, rel=1e-6)


def test_hogging_under_a_held_top_takes_the_length_to_contraflexure_and_no_gradient() -> None:
    line = BeamLine((20 * FT, 20 * FT))
    loads = (Load.uniform("dead", 100.0, 0.0, line.length),)
    demands = prepare(question(line=line, loads=loads, bracing="continuous"), (0.0,), US_DEFAULT)
    held = segments(demands)
    hogging = [n for n, each in enumerate(held.held) if each.hogging]
    # A two-span beam under the same load all along: its moment is nothing at a quarter from the middle.
    assert held.L_b[0, hogging] == pytest.approx([5 * FT, 5 * FT])
    assert (held.C_b[:, hogging] == 1.0).all()
    assert (held.L_b[0, [n for n in range(len(held.held)) if n not in hogging]] == 0.0).all()


def test_hogging_with_a_held_bottom_is_not_unbraced() -> None:
    line = BeamLine((20 * FT, 20 * FT))
    loads = (Load.uniform("live", 60.0, 0.0, line.length),)
    free = check_beam(question(line=line, loads=loads, section=section("W12x14"), bracing="ends"), US_DEFAULT)
    both = question(
        line=line, loads=loads, section=section("W12x14"), bracing="continuous", bottom_bracing="continuous"
    )
    held = check_beam(both, US_DEFAULT)
    assert held.checks["bending"].capacity == pytest.approx(50e3 * 17.4 / 1.67)
    assert free.ratio > held.ratio


def test_the_free_end_has_no_gradient() -> None:
    line = BeamLine((12 * FT,), 0.0, 6 * FT)
    # What stands over the far support holds it down and bends nothing.
    loads = (Load.point("live", 3000.0, line.length), Load.point("dead", 2000.0, 0.0))
    found = check_beam(question(line=line, loads=loads, bracing="ends", pattern=False), US_DEFAULT)
    demands = prepare(question(line=line, loads=loads, bracing="ends", pattern=False), (0.0,), US_DEFAULT)
    held = segments(demands)
    tip = [n for n, each in enumerate(held.held) if each.bay == 1]
    assert (held.C_b[:, tip] == 1.0).all()
    # In the span the moment runs in a straight line to nothing, which is 1.67.
    assert held.C_b.max() == pytest.approx(1.667, abs=0.001)
    assert found.checks["bending"].demand == pytest.approx(3000 * 6 * FT)


def test_deflection_has_no_creep() -> None:
    loads = (Load.uniform("dead", 50.0, 0.0, 192.0),)
    for creep in (True, False):
        found = check_beam(question(loads=loads, deflection=Limits(creep=creep)), US_DEFAULT)
        want = 5 * 50.0 * 192.0**4 / 384 / E / 82.7
        assert found.checks["deflection_total"].demand == pytest.approx(want)
    assert all("NDS" not in str(step.clause) for step in found.checks["deflection_total"].steps)


def test_load_duration_does_not_count() -> None:
    one = check_beam(question(loads=(Load.uniform("live", 50.0, 0.0, 192.0),)), US_DEFAULT)
    other = check_beam(question(loads=(Load.uniform("snow", 50.0, 0.0, 192.0),)), US_DEFAULT)
    assert one.checks["bending"].ratio == other.checks["bending"].ratio


def test_webs_are_checked_where_a_bearing_is_given_and_the_length_asked_for_just_holds() -> None:
    heavy = (Load.uniform("live", 400.0, 0.0, 192.0),)
    short = check_beam(question(loads=heavy, bracing="continuous", bearing=(1.0,)), US_DEFAULT)
    needed = short.supports[0].required
    assert needed > 1.0
    assert max(short.checks["web_crippling"].ratio, short.checks["web_yielding"].ratio) > 1.0
    enough = check_beam(question(loads=heavy, bracing="continuous", bearing=(needed,)), US_DEFAULT)
    worst = max(enough.checks["web_crippling"].ratio, enough.checks["web_yielding"].ratio)
    assert worst == pytest.approx(1.0, abs=1e-9)
    assert "web_yielding" not in check_beam(question(loads=heavy), US_DEFAULT).checks


def test_away_from_the_end_the_web_holds_more() -> None:
    line = BeamLine((12 * FT,), 3 * FT, 3 * FT)
    loads = (Load.uniform("live", 200.0, 0.0, line.length),)
    asked = question(line=line, loads=loads, bearing=(3.5,), bracing="continuous", pattern=False)
    inside = check_beam(asked, US_DEFAULT)
    at_end = check_beam(replace(asked, line=BeamLine((18 * FT,)), loads=loads), US_DEFAULT)
    # J10.2: (5 k + l_b) / (2.5 k + l_b); J10.3: twice as much, less what a long bearing adds at the end.
    k, l_b = 0.794, 3.5
    yielding = inside.checks["web_yielding"].capacity / at_end.checks["web_yielding"].capacity
    assert yielding == pytest.approx((5 * k + l_b) / (2.5 * k + l_b))
    assert 1.5 < inside.checks["web_crippling"].capacity / at_end.checks["web_crippling"].capacity < 2.0


def test_a_plate_spreads_the_load_until_it_would_be_too_thick() -> None:
    soft = Support(425.0, "SPF")

    def asked(w: float) -> BeamQuestion:
        loads = (Load.uniform("live", w, 0.0, 192.0),)
        return question(loads=loads, bracing="continuous", bearing=(3.5,), support=soft)

    small, wide, much = (check_beam(asked(w), US_DEFAULT) for w in (40.0, 120.0, 400.0))
    assert small.more["plates"] == {}
    assert wide.more["plates"]["0"]["width"]["value"] > 6.5
    assert wide.checks["support_bearing"].passes
    assert any("a steel plate 3.5 x " in each for each in wide.remarks)
    assert much.more["plates"] == {}
    assert not much.checks["support_bearing"].passes


def test_a_notched_beam_is_refused() -> None:
    with pytest.raises(OutOfScope, match="coped"):
        check_beam(question(notch=Notch("tension", 1.0, 2.0)), US_DEFAULT)


def test_a_round_tube_on_a_bearing_is_refused() -> None:
    asked = question(section=section("Pipe4STD", "A53 Gr B"), bearing=(3.5,))
    with pytest.raises(OutOfScope, match="saddle"):
        check_beam(asked, US_DEFAULT)


def test_a_long_tube_past_its_elastic_limit_is_refused() -> None:
    slender = section("HSS10x2x1/8", "as tested", Fy=130e3)
    asked = question(
        line=BeamLine((49 * FT,)), section=slender, loads=(Load.uniform("live", 1.0, 0.0, 49 * FT),)
    )
    with pytest.raises(OutOfScope) as told:
        check_beam(asked, US_DEFAULT)
    assert str(told.value.clause) == "AISC 360-16 F7.4"


def test_what_is_said_of_a_steel_beam() -> None:
    found = check_beam(question(section=section("W8x10"), self_weight=True), US_DEFAULT)
    told = " ".join(found.remarks)
    assert "weighs 160 lbf in one piece" in told
    assert "4 persons, or a lift" in told
    assert "flange noncompact, web compact" in told
    assert "give the bearing length" in told
    light = check_beam(
        question(
            line=BeamLine((10 * FT,)), loads=(Load.uniform("live", 5.0, 0.0, 120.0),), section=section("W6x9")
        ),
        US_DEFAULT,
    )
    assert any("two persons can carry it in" in each for each in light.remarks)


@pytest.mark.parametrize("w", [10.0, 50.0, 200.0])
def test_moment_force_and_length_are_what_is_printed(w: float) -> None:
    found = check_beam(
        question(loads=(Load.uniform("live", w, 0.0, 192.0),), bracing="continuous"), US_DEFAULT
    )
    data = found.as_data()
    assert data["checks"]["bending"]["demand"]["unit"] == "lbf*ft"
    assert data["checks"]["bending"]["demand"]["value"] == pytest.approx(w * 192.0**2 / 8 / 12)
    assert data["checks"]["shear"]["demand"]["unit"] == "lbf"
    assert data["adjusted"]["Fy"]["value"] == 50e3
    assert data["local_buckling"]["web"]["class"] == "compact"
