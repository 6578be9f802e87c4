"""Wood beams by the NDS, each figure by a hand sum that stands beside it."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from structure.core.cases.registry import run_case
from structure.core.clauses import US_DEFAULT
from structure.core.errors import InputError, OutOfScope
from structure.core.materials import LvlSection, SawnSection
from structure.core.members.beam import BeamQuestion, BeamResult, Limits, check_beam
from structure.core.members.beam_demand import analyse_question
from structure.core.members.beam_stability import effective_length, unbraced
from structure.core.statics.model import BeamLine, Load

SPAN = 144.0  # in
JOIST = SawnSection("SPF", "No.2", 3, 1.5, 9.25)


def ask(
    *loads: Load, spans: tuple[float, ...] = (SPAN,), left: float = 0.0, right: float = 0.0, **given: Any
) -> BeamResult:
    held: dict[str, Any] = {"section": JOIST, "bracing": "continuous", "self_weight": False, "pattern": False}
    line = BeamLine(spans, left, right)
    return check_beam(BeamQuestion(line=line, loads=loads, **(held | given)), US_DEFAULT)


def uniform(case: str, plf: float, length: float = SPAN) -> Load:
    return Load.uniform(case, plf / 12, 0.0, length)


def case(**given: Any) -> dict[str, Any]:
    base: dict[str, Any] = {
        "spans": ["12 ft"],
        "loads": [{"case": "live", "shape": "uniform", "value": "300 lbf/ft"}],
        "bracing": "continuous",
        "section": {
            "family": "sawn",
            "species": "SPF",
            "grade": "No.2",
            "plies": 3,
            "width": "1.5 in",
            "depth": "9.25 in",
        },
    }
    held = {name: value for name, value in (base | given).items() if value is not None}
    return run_case({"kind": "beam", "code": "us", "given": held})


# --- bending -------------------------------------------------------------------------------------------


def test_bending_of_a_simple_span() -> None:
    result = ask(uniform("dead", 100), uniform("live", 300))
    # M = 400/12 x 144^2 / 8 = 86,400 lb-in; S = 4.5 x 9.25^2 / 6 = 64.17 in3; Fb' = 875 x 1.1 = 962.5 psi.
    check = result.checks["bending"]
    assert check.demand == pytest.approx(1346.4, abs=0.05)
    assert check.capacity == pytest.approx(962.5)
    assert check.combination == "D+L"
    assert check.ratio == pytest.approx(1346.38 / 962.5, rel=1e-5)


def test_the_combination_with_the_worst_ratio_counts_not_the_worst_moment() -> None:
    # D alone 250 plf at C_D 0.9: 277.8; D + L 270 at 1.0: 270; D + Lr 280 at 1.25: 224.
    result = ask(uniform("dead", 250), uniform("live", 20), uniform("roof_live", 30))
    assert result.checks["bending"].combination == "D"
    assert result.factors["CD"] == 0.9


def test_repetitive_members() -> None:
    plain, shared = ask(uniform("live", 300)), ask(uniform("live", 300), repetitive=True)
    assert shared.adjusted["Fb"] == pytest.approx(plain.adjusted["Fb"] * 1.15)
    lvl = LvlSection("2.0E-2900F", 3, 1.75, 14.0)
    assert ask(uniform("live", 300), section=lvl, repetitive=True).factors["Cr"] == 1.04


@pytest.mark.parametrize(("unbraced", "l_e"), [(60.0, 2.06 * 60), (120.0, 1.63 * 120 + 3 * 9.25)])
def test_effective_length_under_uniform_load(unbraced: float, l_e: float) -> None:
    result = ask(uniform("live", 100), bracing=unbraced, section=replace(JOIST, plies=1))
    steps = {step.symbol: step for step in result.checks["bending"].steps}
    assert steps["l_e"].result == pytest.approx(l_e)
    # R_B^2 = l_e d / b^2; F_bE = 1.2 x 510,000 / R_B^2; equation 3.3-6 by hand.
    F_bE = 1.2 * 510_000 / (l_e * 9.25 / 1.5**2)
    a = F_bE / 962.5
    assert result.factors["CL"] == pytest.approx((1 + a) / 1.9 - (((1 + a) / 1.9) ** 2 - a / 0.95) ** 0.5)


@pytest.mark.parametrize(
    ("loads", "bracing", "l_e"),
    [
        ((Load.point("live", 1000.0, 72.0),), "ends", 1.37 * 144 + 3 * 9.25),
        ((Load.point("live", 1000.0, 72.0),), 72.0, 1.11 * 72),
        ((Load.point("live", 1000.0, 72.0),), 48.0, 2.06 * 48),
        ((Load.point("live", 1000.0, 60.0),), "ends", 1.84 * 144),
        ((uniform("live", 50), Load.point("live", 500.0, 72.0)), "ends", 1.84 * 144),
        ((Load.trapezoid("live", 1.0, 9.0, 0.0, SPAN),), "ends", 1.84 * 144),
    ],
)
def test_table_row_follows_the_load(loads: tuple[Load, ...], bracing: float | str, l_e: float) -> None:
    result = ask(*loads, bracing=bracing)
    assert {step.symbol: step.result for step in result.checks["bending"].steps}["l_e"] == pytest.approx(l_e)


def test_self_weight_beside_a_centre_load_is_footnote_one() -> None:
    result = ask(Load.point("live", 1000.0, 72.0), bracing="ends", self_weight=True)
    assert any(step.note == "footnote 1, other loads" for step in result.checks["bending"].steps)


def test_overhang_rows() -> None:
    line = BeamLine((SPAN,), 0.0, 60.0)
    for load, text, d, l_e in (
        (Load.point("live", 500.0, 204.0), "cantilever, point load at the free end", 9.25, 1.87 * 60),
        (Load.point("live", 500.0, 204.0), "cantilever, point load at the free end", 7.25, 1.44 * 60 + 21.75),
        (uniform("live", 50, 204.0), "cantilever, uniform load", 9.25, 1.33 * 60),
        (uniform("live", 50, 204.0), "cantilever, uniform load", 7.25, 0.90 * 60 + 21.75),
        (Load.uniform("live", 5.0, 144.0, 170.0), "footnote 1, other loads", 9.25, 2.06 * 60),
    ):
        question = BeamQuestion(line=line, loads=(load,), self_weight=False, bracing="ends")
        _, bottom = unbraced(analyse_question(question, (0.0,)))
        assert bottom.rows[0][1].text == text
        assert bottom.lengths[0][1] == 60.0
        assert effective_length(bottom.rows[0][1], bottom.lengths[0], d)[1] == pytest.approx(l_e)


def test_the_span_beside_an_overhang_hogs_over_its_whole_length_unless_the_top_is_held() -> None:
    tip = Load.point("live", 500.0, 204.0)
    # Just enough dead load to keep the far support down.
    held = Load.uniform("dead", 2.9, 0.0, SPAN)
    ends = ask(tip, held, right=60.0, bracing="ends", section=replace(JOIST, plies=1)).checks["bending"]
    assert {step.symbol: step.result for step in ends.steps}["l_e"] == pytest.approx(1.84 * 144)


def test_no_deeper_than_wide_needs_no_bracing() -> None:
    post = SawnSection("SPF", "No.2", 1, 3.5, 3.5)
    assert ask(uniform("live", 10), section=post, bracing="ends").factors["CL"] == 1.0


def test_hogging_takes_the_distance_to_contraflexure() -> None:
    length = 2 * SPAN
    both = ask(uniform("live", 150, length), spans=(SPAN, SPAN), section=replace(JOIST, plies=1))
    steps = {step.symbol: step for step in both.checks["bending"].steps}
    # Two equal spans: M = -w L^2 / 8 over the middle, nothing at L / 4 from it.
    assert both.checks["bending"].demand == pytest.approx(150 / 12 * SPAN**2 / 8 / (1.5 * 9.25**2 / 6))
    assert steps["l_e"].values[1].value == pytest.approx(SPAN / 4, rel=1e-6)
    assert both.factors["CL"] < 1.0
    braced = ask(
        uniform("live", 150, length), spans=(SPAN, SPAN), section=replace(JOIST, plies=1),
        bottom_bracing="continuous",
    )  # fmt: skip
    assert braced.factors["CL"] == 1.0
    ends = ask(
        uniform("live", 150, length), spans=(SPAN, SPAN), section=replace(JOIST, plies=1), bracing="ends"
    )
    assert {s.symbol: s for s in ends.checks["bending"].steps}["l_e"].values[1].value == pytest.approx(SPAN)


def test_too_slender_is_refused_with_its_clause() -> None:
    result = case(
        spans=["30 ft"],
        bracing="ends",
        loads=[{"case": "live", "shape": "uniform", "value": "10 lbf/ft"}],
        section={"family": "lvl", "grade": "2.0E-2900F", "plies": 1, "width": "1.75 in", "depth": "24 in"},
    )
    # l_e = 1.84 x 360 is not used: uniform, 1.63 x 360 + 72 = 658.8; R_B = sqrt(658.8 x 24) / 1.75 = 71.9.
    assert result["status"] == "refused"
    assert result["clause"] == "NDS 2018 3.3.3.7"
    assert "71.9" in result["reason"]


@pytest.mark.parametrize(
    ("depth", "bracing", "which"), [(18.0, "continuous", "CV"), (18.0, "ends", "CL"), (9.5, "ends", "both")]
)
def test_volume_factor_against_stability(depth: float, bracing: str, which: str) -> None:
    section = LvlSection("2.0E-2900F", 1, 1.75, depth)
    result = ask(uniform("live", 100), section=section, bracing=bracing)
    C_V, C_L = (12 / depth) ** (1 / 9), result.factors["CL"]
    expected = {"CV": C_V, "CL": C_L, "both": C_V * C_L}[which]
    assert result.adjusted["Fb"] == pytest.approx(2900 * expected)
    if which == "CL":
        assert C_L < C_V < 1
    if which == "both":
        # C_V over 1 is in F_b* when C_L is found.
        l_e = 1.63 * SPAN + 3 * depth
        a = 1.2 * 1_006_000 * 1.75**2 / (l_e * depth) / (2900 * C_V)
        by_hand = (1 + a) / 1.9 - (((1 + a) / 1.9) ** 2 - a / 0.95) ** 0.5
        assert result.factors["CL"] == pytest.approx(by_hand)


def test_a_load_that_pulls_up_is_refused() -> None:
    # Dead load down and an equal live load up would cancel: no combination here keeps 0.6D against what lifts.
    for lifting in (
        uniform("live", -100),
        Load.point("snow", -500.0, 40.0),
        Load.trapezoid("dead", 50 / 12, -1 / 12, 0.0, SPAN),
    ):
        with pytest.raises(OutOfScope, match="pulls up"):
            ask(uniform("dead", 100), lifting)


def test_a_support_that_lifts_under_a_pattern_is_told() -> None:
    result = ask(uniform("live", 300.0, SPAN + 100.0), right=100.0, bracing="ends", pattern=True)
    assert any("lifts with" in remark for remark in result.remarks)


def test_an_overhang_that_lifts_its_far_support_is_refused() -> None:
    tip, arm = 500.0, 60.0
    with pytest.raises(OutOfScope, match="lifts off support 1 from the left"):
        ask(Load.point("live", tip, SPAN + arm), right=arm, bracing="ends")
    # Dead load on the span holds it down from P a / L = w L / 2 on.
    w = 2 * tip * arm / SPAN**2
    for share in (0.999, 1.001):
        loads = (Load.point("live", tip, SPAN + arm), Load.uniform("dead", share * w, 0.0, SPAN))
        if share < 1:
            with pytest.raises(OutOfScope):
                ask(*loads, right=arm)
        else:
            result = ask(*loads, right=arm)
            assert "hogging" in result.checks["bending"].note
            assert not any("lifts with" in remark for remark in result.remarks)


def test_the_other_side_of_a_layup_is_told_only_where_it_has_one() -> None:
    result = ask(uniform("live", 100.0, SPAN + 120.0), right=120.0)
    assert "hogging" in result.checks["bending"].note
    assert not any("laid as it is marked" in remark for remark in result.remarks)


@pytest.mark.parametrize(("count", "k"), [(2, 1.68), (3, 1.54), (4, 1.68), (5, 1.73), (6, 1.78), (7, 1.84)])
def test_equal_point_loads_braced_at_each(count: int, k: float) -> None:
    part = SPAN / (count + 1)
    loads = [Load.point("live", 300.0, part * (n + 1)) for n in range(count)]
    stable = ask(*loads, bracing=part)
    l_e = next(s for s in stable.checks["bending"].steps if s.symbol == "l_e")
    assert l_e.result == pytest.approx(k * part)
    uneven = ask(*loads[:-1], Load.point("live", 301.0, part * count), bracing=part)
    other = next(s for s in uneven.checks["bending"].steps if s.symbol == "l_e")
    assert other.result != pytest.approx(k * part)
    # Equal in sum but not case by case: not equal under every combination.
    mixed = ask(*loads[:-1], Load.point("dead", 300.0, part * count), bracing=part)
    last = next(s for s in mixed.checks["bending"].steps if s.symbol == "l_e")
    assert last.result != pytest.approx(k * part)


# --- shear ---------------------------------------------------------------------------------------------


def test_shear_at_the_face_and_at_d() -> None:
    face = ask(uniform("live", 300)).checks["shear"]
    # V = 25 x 72 = 1,800 lb: 1.5 x 1800 / 41.625 = 64.86 psi; at d: 25 x (72 - 9.25) = 1,568.75 lb.
    assert face.demand == pytest.approx(64.86, abs=0.005)
    assert face.capacity == pytest.approx(135.0)
    within = ask(uniform("live", 300), shear_at="d").checks["shear"]
    assert within.demand == pytest.approx(1.5 * 1568.75 / 41.625)
    assert str(within.clause) == "NDS 2018 3.4.3.1"


def test_point_load_within_d_counts_in_part() -> None:
    point = Load.point("live", 2000.0, 6.0)
    # The load counts 2000 x 6/9.25 = 1297.30 lb, of which 138/144 comes to the near support: 1243.24 lb.
    within = ask(point, shear_at="d").checks["shear"]
    assert within.demand == pytest.approx(1.5 * 2000 * 6 / 9.25 * 138 / 144 / 41.625)
    far = ask(Load.point("live", 2000.0, 20.0), shear_at="d").checks["shear"]
    assert far.demand == pytest.approx(1.5 * 2000 * 124 / 144 / 41.625)


def test_shear_at_d_is_never_more_than_at_the_face() -> None:
    spans = (90.0, 120.0)
    loads = (uniform("dead", 100, 230.0), uniform("live", 200, 230.0), Load.point("snow", 900.0, 95.0))
    face = ask(*loads, spans=spans, right=20.0, pattern=True).checks["shear"]
    within = ask(*loads, spans=spans, right=20.0, pattern=True, shear_at="d").checks["shear"]
    assert 0.5 * face.demand < within.demand < face.demand


# --- deflection ----------------------------------------------------------------------------------------


def test_deflection_live_and_total_with_creep() -> None:
    result = ask(uniform("dead", 100), uniform("live", 200))
    EI = 1.4e6 * 4.5 * 9.25**3 / 12
    live = 5 * 200 / 12 * SPAN**4 / (384 * EI)
    assert result.checks["deflection_live"].demand == pytest.approx(live)
    assert result.checks["deflection_live"].capacity == pytest.approx(0.4)  # 144 / 360
    assert result.checks["deflection_total"].demand == pytest.approx(live * 1.75)  # 1.5 x 100 + 200
    assert "the dead part times 1.5" in result.checks["deflection_total"].note
    assert "creep" not in result.checks["deflection_live"].note
    assert result.checks["deflection_total"].capacity == pytest.approx(0.6)
    plain = ask(uniform("dead", 100), uniform("live", 200), deflection=Limits(creep=False))
    assert plain.checks["deflection_total"].demand == pytest.approx(live * 1.5)


def test_wet_service_creeps_twice_and_is_softer() -> None:
    dry = ask(uniform("dead", 100)).checks["deflection_total"].demand
    wet = ask(uniform("dead", 100), wet=True).checks["deflection_total"].demand
    assert wet == pytest.approx(dry * 2.0 / 1.5 / 0.9)


def test_overhang_against_twice_its_length() -> None:
    result = ask(Load.point("live", 400.0, 204.0), uniform("dead", 30), right=60.0)
    EI = 1.4e6 * 4.5 * 9.25**3 / 12
    check = result.checks["deflection_live"]
    assert check.demand == pytest.approx(400 * 60**2 * (144 + 60) / (3 * EI))
    assert check.capacity == pytest.approx(120 / 360)
    assert "right overhang" in check.note


def test_companion_loads_in_deflection() -> None:
    result = ask(uniform("live", 100), uniform("snow", 90))
    # 0.75 x (100 + 90) = 142.5 is more than either alone.
    assert result.checks["deflection_live"].combination == "0.75L+0.75S"


def test_pattern_of_live_load_bends_a_span_more_than_load_everywhere() -> None:
    loads = (uniform("dead", 50, 2 * SPAN), uniform("live", 200, 2 * SPAN))
    everywhere = ask(*loads, spans=(SPAN, SPAN))
    pattern = ask(*loads, spans=(SPAN, SPAN), pattern=None)
    assert pattern.checks["deflection_live"].demand > 1.5 * everywhere.checks["deflection_live"].demand
    assert pattern.moment_extremes()[0] > everywhere.moment_extremes()[0]
    assert pattern.moment_extremes()[1] == pytest.approx(everywhere.moment_extremes()[1])


# --- bearing -------------------------------------------------------------------------------------------


def test_bearing_at_the_end_and_inside() -> None:
    result = case(spans=["12 ft", "12 ft"], pattern=False, bearing="3 in", self_weight=False)
    # R = 3/8 w L = 1,350 lb at the ends, 10/8 w L = 4,500 lb inside with C_b = 3.375 / 3.
    assert result["reactions"]["1"]["max"]["value"] == pytest.approx(4500)
    check = result["checks"]["bearing"]
    assert check["demand"]["value"] == pytest.approx(4500 / 4.5 / 3)
    assert check["capacity"]["value"] == pytest.approx(425 * 3.375 / 3)
    assert result["bearing"]["0"]["required"]["value"] == pytest.approx(1350 / 425 / 4.5)
    assert result["bearing"]["1"]["required"]["value"] == pytest.approx(4500 / 425 / 4.5 - 0.375)


def test_support_is_crushed_without_area_factor() -> None:
    result = case(bearing=["3.5 in", "5.5 in"], support={"species": "SPF-S"}, self_weight=False)
    check = result["checks"]["support_bearing"]
    assert check["demand"]["value"] == pytest.approx(1800 / 4.5 / 3.5)
    assert check["capacity"]["value"] == 335.0
    assert "SPF-S" in check["note"]


# --- the whole result ----------------------------------------------------------------------------------


def test_self_weight_is_in_dead_and_reported_apart() -> None:
    result = case()
    line = 29.0977 * 4.5 * 9.25 / 144  # SPF at 19 % moisture, see the data tests
    assert result["self_weight"]["line"]["value"] == pytest.approx(line, rel=1e-4)
    assert result["reactions"]["0"]["by_case"]["dead"]["value"] == pytest.approx(line * 6, rel=1e-4)
    assert result["reactions"]["0"]["max"]["value"] == pytest.approx((line + 300) * 6, rel=1e-4)


def test_every_check_keeps_clause_combination_and_steps() -> None:
    result = case(bearing="3.5 in")
    for name, check in result["checks"].items():
        assert check["clause"], name
        assert check["combination"], name
        assert check["steps"], name
        assert check["ratio"] == pytest.approx(check["demand"]["value"] / check["capacity"]["value"])
    assert result["ratio"] == max(check["ratio"] for check in result["checks"].values())
    assert result["governing"] in result["checks"]


def test_ratio_of_exactly_one_passes() -> None:
    # The reference value is the stress itself.
    stress = ask(uniform("live", 300)).checks["bending"].demand
    section = SawnSection("SP", "No.2", 3, 1.5, 9.25, properties={"Fb": stress, "Fv": 500.0, "E": 9e6})
    assert ask(uniform("live", 300), section=section).checks["bending"].passes


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ({"section": None}, "given.section: read nothing"),
        ({"notch": "1 in"}, "given.notch"),
        ({"treated": True}, "given.treated"),
        ({"plies": 2}, "given.plies"),
        ({"spans": ["-12 ft"]}, "given.spans"),
        ({"spans": ["12"]}, "given.spans"),
        ({"bearing": ["3 in", "3 in", "3 in"]}, "given.bearing: read '3 lengths'"),
        ({"support": {}}, "given.support.species"),
        ({"bracing": "somehow"}, "given.bracing"),
        ({"loads": [], "self_weight": False}, "given.loads"),
        ({"search": {"families": ["sawn"]}}, "given.section: read 'both'"),
    ],
)
def test_bad_input_names_its_field(given: dict[str, Any], words: str) -> None:
    with pytest.raises(InputError) as error:
        case(**given)
    assert words in str(error.value)


@pytest.mark.parametrize(
    ("given", "clause"),
    [
        ({"spans": ["40 ft"]}, "IRC 2021 R301.1.3"),
        ({"spans": ["3 in"]}, "IRC 2021 R301.1.3"),
        ({"spans": ["6 ft"], "overhang": {"right": "7 ft"}}, "common practice"),
        ({"loads": [{"case": "live", "shape": "uniform", "value": "20000 lbf/ft"}]}, "common practice"),
        ({"section": None, "search": {"families": ["psl"]}}, "NDS 2018 8.2"),
        ({"special": ["hot_tub"]}, "common practice"),
        ({"special": ["braced_wall"]}, "IRC 2021 R602.10"),
        (
            {
                "section": {
                    "family": "sawn", "species": "SPF", "grade": "No.2", "width": "5.5 in", "depth": "3.5 in",
                }
            },
            "NDS 2018 4.3.7",
        ),
        (
            {
                "wet": True,
                "section": {"family": "lvl", "grade": "2.0E-2900F", "width": "1.75 in", "depth": "14 in"},
            },
            "NDS 2018 8.1.4",
        ),
    ],
)  # fmt: skip
def test_out_of_scope_names_its_clause(given: dict[str, Any], clause: str) -> None:
    result = case(**given)
    assert result["status"] == "refused"
    assert result["clause"].startswith(clause)
    assert result["reason"]
