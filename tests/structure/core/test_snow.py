"""Roof snow from ground snow: ASCE 7-16 7.3 and 7.4."""

from __future__ import annotations

from typing import Any

import pytest

from structure.core.cases.registry import run_case
from structure.core.errors import InputError


def answer(ground: str = "40 psf", **given: Any) -> dict[str, Any]:
    whole = {"ground": ground, "Ce": 1.0, "Ct": 1.0, "Is": 1.0} | given
    return run_case({"kind": "snow", "code": "us", "given": whole})


def roof(ground: str = "40 psf", **given: Any) -> float:
    return float(answer(ground, **given)["roof"]["value"])


def test_flat_roof() -> None:
    assert roof("40 psf", Ce=0.9, Ct=1.1, Is=1.1) == pytest.approx(0.7 * 0.9 * 1.1 * 1.1 * 40)


@pytest.mark.parametrize(
    ("slope", "Ct", "Cs"),
    [
        ("30 deg", 1.0, 1.0),
        ("50 deg", 1.0, 0.5),  # (70 - 50)/(70 - 30)
        ("70 deg", 1.0, 0.0),
        ("37.5 deg", 1.1, 1.0),
        ("53.75 deg", 1.1, 0.5),  # (70 - 53.75)/32.5
        ("45 deg", 1.2, 1.0),
        ("57.5 deg", 1.2, 0.5),  # (70 - 57.5)/25
        ("57.5 deg", 1.3, 0.5),
        ("40 deg", 1.05, 30 / 32.5),  # between the curves: the colder one
    ],
)
def test_slope_factor_of_a_roof_that_holds_its_snow(slope: str, Ct: float, Cs: float) -> None:
    result = answer(slope=slope, Ct=Ct)
    assert result["Cs"] == pytest.approx(Cs)
    assert result["roof"]["value"] == pytest.approx(Cs * 0.7 * Ct * 40)


def test_a_given_factor_stands_in_place_of_the_curve() -> None:
    result = answer(Cs=0.8)
    assert result["roof"]["value"] == pytest.approx(0.8 * 28)
    assert any("slope was not given" in remark for remark in result["remarks"])


def test_a_slippery_factor_is_remarked_on() -> None:
    assert any("slippery" in remark for remark in answer(Cs=0.6, slope="26.57 deg")["remarks"])


@pytest.mark.parametrize(("ground", "least"), [("15 psf", 15), ("20 psf", 20), ("25 psf", 20)])
def test_the_low_slope_minimum_governs_where_it_is_more(ground: str, least: float) -> None:
    result = answer(ground)
    assert result["roof"]["value"] == pytest.approx(least)
    assert result["balanced"]["value"] == pytest.approx(0.7 * float(ground.split()[0]))
    assert any("7.3.4" in remark for remark in result["remarks"])
    assert roof(ground, slope="20 deg") == pytest.approx(0.7 * float(ground.split()[0]))


def test_what_is_left_out_is_said() -> None:
    words = " ".join(answer()["remarks"])
    for left_out in ("partial", "unbalanced", "drift", "sliding"):
        assert left_out in words


def test_above_seventy_psf_the_prescriptive_rules_end() -> None:
    assert not any("R301.2.3" in remark for remark in answer("70 psf")["remarks"])
    assert any("R301.2.3" in remark for remark in answer("71 psf")["remarks"])


def test_each_step_is_kept() -> None:
    steps = answer(slope="50 deg")["steps"]
    assert [step["symbol"] for step in steps] == ["p_f", "C_s", "p_s"]
    assert steps[0]["clause"] == "ASCE 7-16 7.3-1"


@pytest.mark.parametrize(
    ("field", "value"),
    [("Ce", 3), ("Ct", 0.5), ("Is", "1.0"), ("ground", "-5 psf"), ("slope", "95 deg"), ("Cs", 1.2)],
)
def test_bad_fields_are_named(field: str, value: Any) -> None:
    with pytest.raises(InputError) as caught:
        answer(**{field: value})
    assert caught.value.field == f"given.{field}"
