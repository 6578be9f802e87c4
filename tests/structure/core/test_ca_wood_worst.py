"""Canadian wood: the sum, place and axis that govern are the worst ones, and what they are told by."""

from __future__ import annotations

import math
from typing import Any

import pytest

from structure.core.cases.registry import run_case
from structure.core.materials.ca_sawn import CaSawnSection
from structure.core.members.ca_wood_bending import EFFECTIVE

SPF = {
    "family": "sawn",
    "species": "SPF",
    "grade": "No.1/No.2",
    "plies": 3,
    "width": "38 mm",
    "depth": "235 mm",
}


def uniform(case: str, value: float) -> dict[str, Any]:
    return {"case": case, "shape": "uniform", "value": f"{value} kN/m"}


def point(case: str, value: float, at: float) -> dict[str, Any]:
    return {"case": case, "shape": "point", "value": f"{value} kN", "at": f"{at} m"}


def ask(kind: str, **given: Any) -> dict[str, Any]:
    result = run_case({"kind": kind, "code": "ca", "given": given})
    assert result["status"] == "ok", result
    return result


def steps(check: dict[str, Any], symbol: str) -> list[dict[str, Any]]:
    return [step for step in check["steps"] if step["symbol"] == symbol]


def test_a_smaller_hogging_moment_governs_where_the_bottom_edge_is_free() -> None:
    given: dict[str, Any] = {
        "spans": ["4 m"],
        "overhang": {"right": "1 m"},
        "loads": [uniform("live", 1)],
        "pattern": False,
        "self_weight": False,
        "section": {**SPF, "plies": 1, "depth": "286 mm"},
        "bracing": "continuous",
    }
    free = ask("beam", **given, bottom_bracing="ends")
    held = ask("beam", **given, bottom_bracing="continuous")
    # 0.75 kN m over the support, 2.63 in the span; held at 4 m the bottom edge has C_B 39.
    C_B = math.sqrt(1.92 * 4000 * 286 / 38**2)
    K_L = 0.65 * 6500 / 0.87 / (C_B**2 * 11.8)
    M_r = 0.9 * 11.8 * 38 * 286**2 / 6 / 1e6
    assert "sagging" in held["checks"]["bending"]["note"]
    assert "hogging" in free["checks"]["bending"]["note"]
    assert free["checks"]["bending"]["ratio"] == pytest.approx(0.75 / (M_r * K_L), rel=1e-6)
    assert held["checks"]["bending"]["ratio"] == pytest.approx(
        1.5 * (4**2 - 1) ** 2 / 8 / 4**2 / M_r, rel=1e-6
    )


@pytest.mark.parametrize(("count", "k"), [(2, 1.68), (3, 1.54), (4, 1.68), (5, 1.73), (6, 1.78), (7, 1.84)])
def test_even_forces_braced_where_they_stand_have_their_row(count: int, k: float) -> None:
    loads = [point("live", 1, 4.2 * (n + 1) / (count + 1)) for n in range(count)]
    section = {**SPF, "plies": 1, "depth": "286 mm"}
    brace = f"{4200 / (count + 1)!r} mm"
    found = ask("beam", spans=["4.2 m"], loads=loads, bracing=brace, section=section, self_weight=False)
    length = steps(found["checks"]["bending"], "L_e")
    # At 610 mm and closer the pressed edge counts as held up to 6.5 times as deep as wide; this is 7.5 times.
    assert length[0]["values"][0]["value"] == k


def test_table_7_4_has_no_row_over_that_of_any_loading() -> None:
    assert max(EFFECTIVE.values()) == 1.92
    assert len(EFFECTIVE) == 11


def test_braces_at_610_mm_hold_lumber_of_six_and_a_half_times_its_width() -> None:
    given: dict[str, Any] = {
        "spans": ["3 m"], "loads": [uniform("live", 1)], "section": {**SPF, "plies": 1}, "self_weight": False,
    }  # fmt: skip
    assert ask("beam", **given, bracing="610 mm")["factors"]["KL"] == 1.0
    assert ask("beam", **given, bracing="611 mm")["factors"]["KL"] < 1.0


@pytest.mark.parametrize(
    "name", ["bending", "shear", "bearing", "bearing_near_support", "notch", "notch_fracture"]
)
def test_the_smaller_force_governs_where_it_stays_longer(name: str) -> None:
    # 1.25D+1.5C is 17.25 kN/m at 1.15; 1.25D+1.5L is 14.25 at 1 - 0.5 log10(6 / 4.5), which is worse.
    loads = [uniform("dead", 6), uniform("live", 4.5), uniform("construction", 6.5)]
    notch = {"side": "tension", "depth": "20 mm", "length": "60 mm"}
    found = ask(
        "beam", spans=["3 m"], loads=loads, section={**SPF, "plies": 1}, bracing="continuous", notch=notch,
        bearing="89 mm", self_weight=False,
    )  # fmt: skip
    assert found["checks"][name]["combination"] == "1.25D+1.5L"
    alone = ask(
        "beam", spans=["3 m"], loads=loads[:2], section={**SPF, "plies": 1}, bracing="continuous", notch=notch,
        bearing="89 mm", self_weight=False,
    )  # fmt: skip
    assert found["checks"][name]["ratio"] == pytest.approx(alone["checks"][name]["ratio"], rel=1e-12)


def test_own_weight_counts_in_the_duration_of_a_reaction() -> None:
    given: dict[str, Any] = {
        "spans": ["3 m"], "loads": [uniform("dead", 2), uniform("live", 2)], "section": SPF,
        "bracing": "continuous", "bearing": "89 mm",
    }  # fmt: skip
    own = 4.6e-6 * 114 * 235
    found = steps(ask("beam", **given)["checks"]["bearing"], "K_D")
    assert found[0]["result"] == pytest.approx(1 - 0.5 * math.log10((2 + own) / 2), rel=1e-9)
    assert not steps(ask("beam", **given, self_weight=False)["checks"]["bearing"], "K_D")


def post(section: dict[str, Any], **more: Any) -> dict[str, Any]:
    return ask(
        "post",
        **{"height": "2.4 m", "loads": [{"case": "live", "value": "20 kN"}], "section": section, **more},
    )


@pytest.mark.parametrize(
    ("plies", "depth", "weak"),
    [(3, 114, "across the plies"), (3, 140, "across the plies"), (5, 140, "across the depth")],
)
def test_the_weak_axis_is_the_less_stiff_one(plies: int, depth: int, weak: str) -> None:
    found = post({**SPF, "plies": plies, "depth": f"{depth} mm"})
    assert found["axes"]["weak"]["direction"] == weak


def test_a_built_up_post_off_centre_bends_ply_by_ply() -> None:
    found = post({**SPF, "depth": "140 mm"}, eccentricity="10 mm")
    part, K_Zc = 0.6, 6.3 * (114 * 2400) ** -0.13
    P_r = part * 0.8 * 11.5 * 114 * 140 * K_Zc / (1 + 11.5 * K_Zc * (2400 / 114) ** 3 / (35 * 6500))
    P_E = part * math.pi**2 * 6500 * 140 * 114**3 / 12 / 2400**2
    M_r = 0.9 * 11.8 * 3 * 140 * 38**2 / 6

    def u(P: float) -> float:
        return (P / P_r) ** 2 + max(P * 10 / M_r, P * 5 / M_r / (1 - P / P_E))

    capacity = found["checks"]["eccentricity"]["capacity"]["value"] * 1e3
    assert u(capacity) == pytest.approx(1.0, rel=1e-6)
    middle = steps(found["checks"]["eccentricity"], "u_mid")[0]["values"]
    assert next(each["value"] for each in middle if each["name"] == "P_E") == pytest.approx(P_E)


def test_plies_of_less_than_38_mm_are_no_built_up_column() -> None:
    section = {
        "family": "lvl", "grade": "thin", "plies": 3, "width": "32 mm", "depth": "140 mm",
        "properties": {"fb": "37 MPa", "fv": "3.6 MPa", "fcp": "9.4 MPa", "fc": "25 MPa", "E": "13800 MPa"},
    }  # fmt: skip
    given = {"height": "2.4 m", "loads": [{"case": "live", "value": "20 kN"}], "section": section}
    result = run_case({"kind": "post", "code": "ca", "given": given})
    assert result["status"] == "refused"
    assert result["clause"] == "CSA O86:19 6.5.5.4"
    assert post({**section, "width": "38 mm"})["passes"]


def test_a_plate_takes_the_contact_of_post_and_plate() -> None:
    section = {**SPF, "depth": "140 mm"}

    def capacity(**plate: Any) -> float:
        held = post(section, plate={"species": "SPF", "fcp": "5 MPa", **plate})["checks"]["plate_bearing"]
        return float(held["capacity"]["value"])

    assert capacity() == pytest.approx(0.8 * 5 * 114 * 140 / 1e3)
    # A plate narrower than the post; 89 over 38 mm counts K_Zcp of 1.15.
    assert capacity(width="89 mm") == pytest.approx(0.8 * 5 * 114 * 89 * 1.15 / 1e3)
    assert capacity(width="50 mm") == pytest.approx(0.8 * 5 * 114 * 50 * (0.85 + 0.15 * 50 / 38) / 1e3)
    # Away from its end K_B counts for the length along the plate, which is short of 150 mm either way.
    along = 1.10 - 0.10 * (114 - 100) / 50
    across = 1.10 - 0.10 * (140 - 100) / 50
    assert capacity(distance_to_end="75 mm") == pytest.approx(0.8 * 5 * 114 * 140 * along / 1e3)
    assert capacity(distance_to_end="75 mm", along="depth") == pytest.approx(
        0.8 * 5 * 114 * 140 * across / 1e3
    )


@pytest.mark.parametrize(("width", "depth", "wet"), [(89.0, 286.0, 0.84), (114.0, 114.0, 1.0)])
def test_wet_service_by_the_least_dimension(width: float, depth: float, wet: float) -> None:
    section = CaSawnSection("SPF", "SS", width=width, depth=depth)
    assert section.wet_factors(True)["fb"] == wet
    assert section.is_timber == (width >= 114)


def test_a_load_of_nothing_changes_nothing() -> None:
    section = {**SPF, "depth": "140 mm"}
    loads = [{"case": "live", "value": "20 kN"}, {"case": "snow", "value": "0 kN"}]
    assert post(section, loads=loads)["ratio"] == post(section)["ratio"]


def test_composite_lumber_has_no_size_factor_across_the_grain() -> None:
    section = {
        "family": "lvl", "grade": "in hand", "plies": 4, "width": "45 mm", "depth": "140 mm",
        "properties": {"fb": "37 MPa", "fv": "3.6 MPa", "fcp": "9.4 MPa", "E": "13800 MPa"},
    }  # fmt: skip
    found = ask(
        "beam",
        spans=["2 m"],
        loads=[uniform("live", 5)],
        section=section,
        bracing="continuous",
        bearing="89 mm",
    )
    near = found["checks"]["bearing_near_support"]["capacity"]["value"]
    assert near == pytest.approx(2 / 3 * 0.8 * 9.4 * 180 * 89 / 1e3)
    assert found["checks"]["bearing"]["capacity"]["value"] == pytest.approx(1.5 * near)
