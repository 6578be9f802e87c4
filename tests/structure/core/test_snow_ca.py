"""Specified snow by NBC 9.4.2.2. and 4.1.6.2."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from structure.core.cases.registry import run_case
from structure.core.errors import InputError

PLACE = {"Ss": "2.4 kPa", "Sr": "0.2 kPa", "climate_source": "NBC 2020 Table C-2, typed for a test"}


def answer(**changes: Any) -> dict[str, Any]:
    return run_case({"kind": "snow", "code": "ca", "given": PLACE | changes})


def roof(**changes: Any) -> float:
    return float(answer(**changes)["roof"]["value"])


def test_a_roof_of_4300_mm_is_still_narrow_and_an_unknown_one_is_wide() -> None:
    assert roof(roof_width="4.3 m") == pytest.approx(0.45 * 2.4 + 0.2)
    assert roof(roof_width="4301 mm") == pytest.approx(0.55 * 2.4 + 0.2)
    unknown = answer()
    assert unknown["roof"] == {"value": pytest.approx(0.55 * 2.4 + 0.2), "unit": "kPa"}
    assert any("width" in remark for remark in unknown["remarks"])


def test_part_9_never_gives_less_than_1_kPa() -> None:
    found = answer(Ss="0.8 kPa", Sr="0.1 kPa", roof_width="9 m")
    assert found["roof"]["value"] == pytest.approx(1.0)
    assert any("least snow" in remark for remark in found["remarks"])


def test_a_basic_factor_asks_for_part_4_unless_the_rule_is_named() -> None:
    assert answer(Cb=0.8)["rule"] == "part4"
    assert answer(Cb=0.45, rule="part9")["roof"]["value"] == pytest.approx(0.45 * 2.4 + 0.2)
    assert answer(rule="part4")["Cb"] == 0.8


@pytest.mark.parametrize(
    ("slope", "slippery", "C_s"),
    [
        (30, False, 1.0),
        (50, False, 0.5),
        (70, False, 0.0),
        (15, True, 1.0),
        (37.5, True, 0.5),
        (60, True, 0.0),
    ],
)
def test_the_slope_factor(slope: float, slippery: bool, C_s: float) -> None:
    found = answer(Cb=0.8, slope=f"{slope} deg", slippery=slippery)
    assert found["Cs"] == pytest.approx(C_s)
    snow = 2.4 * 0.8 * C_s
    assert found["roof"]["value"] == pytest.approx(snow + min(0.2, snow))


def test_rain_is_no_more_than_the_snow_that_holds_it() -> None:
    assert roof(Cb=0.8, Ss="0.2 kPa", Sr="0.4 kPa") == pytest.approx(2 * 0.16)


def test_importance_multiplies_rain_as_well() -> None:
    assert roof(Cb=0.8, Is=1.15) == pytest.approx(1.15 * (0.8 * 2.4 + 0.2))


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"Cw": 0.75}, "given.Cw"),
        ({"Is": 1.15}, "given.Is"),
        ({"Cb": 0.6, "rule": "part9"}, "given.Cb"),
        ({"slope": "90 deg"}, "given.slope"),
        ({"ground": "30 psf"}, "given.ground"),
        ({"Ss": None}, "given.Ss"),
        ({"Sr": "-0.1 kPa"}, "given.Sr"),
    ],
)
def test_what_cannot_be_meant_is_named(changes: dict[str, Any], field: str) -> None:
    with pytest.raises(InputError) as caught:
        answer(**changes)
    assert caught.value.field == field


def test_a_place_without_its_source_is_told() -> None:
    assert any("read" in remark for remark in answer(climate_source=None)["remarks"])
    assert not any("Nobody said" in remark for remark in answer()["remarks"])


@given(st.floats(0.5, 8.0), st.floats(0.0, 1.0), st.floats(0.01, 1.0))
def test_more_snow_or_rain_on_the_ground_is_never_less_on_the_roof(
    S_s: float, S_r: float, more: float
) -> None:
    for rule in ("part9", "part4"):
        least = roof(Ss=f"{S_s:.6f} kPa", Sr=f"{S_r:.6f} kPa", rule=rule)
        assert roof(Ss=f"{S_s + more:.6f} kPa", Sr=f"{S_r:.6f} kPa", rule=rule) >= least
        assert roof(Ss=f"{S_s:.6f} kPa", Sr=f"{S_r + more:.6f} kPa", rule=rule) >= least


def test_psf_is_read_as_well() -> None:
    assert roof(Ss="50 psf", Sr="4 psf", roof_width="30 ft") == pytest.approx(31.5 * 0.04788025898)
