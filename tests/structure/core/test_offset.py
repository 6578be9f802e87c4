"""A wall above against its support below: IRC R502.4."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from structure.core.cases.registry import run_case
from structure.core.errors import InputError

ABOVE = {"from": "exterior face", "distance": "150 in", "to": "centre", "thickness": "4.5 in"}
BELOW = ABOVE | {"distance": "144 in"}


def answer(**given: Any) -> dict[str, Any]:
    whole = {"above": ABOVE, "below": BELOW, "joist_depth": "9.25 in"} | given
    return run_case({"kind": "offset", "code": "us", "given": whole})


def test_near_face_is_half_a_thickness_short_of_the_centre() -> None:
    near = ABOVE | {"distance": "147.75 in", "to": "near_face"}
    assert answer(above=near)["offset"]["value"] == pytest.approx(6)


def test_the_shift_of_the_reference_faces_counts() -> None:
    # Foundation face 2 in outside of the framed face: below moves 2 in away, so 8 in off.
    assert answer(wall_shift="-2 in")["offset"]["value"] == pytest.approx(8)
    assert answer(wall_shift="2 in")["offset"]["value"] == pytest.approx(4)


@pytest.mark.parametrize(
    ("offset", "tolerance", "aligned"),
    [
        ("9 in", "0.25 in", True),  # 9.25 is the limit itself
        ("9.1 in", "0.25 in", "within tolerance"),
        ("9.5 in", "0.25 in", "within tolerance"),  # 9.5 - 0.25 is not beyond 9.25
        ("9.51 in", "0.25 in", False),
        ("9.25 in", "0 in", True),
        ("9.26 in", "0 in", False),
    ],
)
def test_three_answers_about_the_limit(offset: str, tolerance: str, aligned: object) -> None:
    above, below = ABOVE | {"distance": offset}, BELOW | {"distance": "0 in"}
    assert answer(above=above, below=below, tolerance=tolerance)["aligned"] == aligned


@pytest.mark.parametrize(
    ("offset", "stacks"), [("4 in", True), ("4.4 in", "within tolerance"), ("5 in", False)]
)
def test_stacking_is_an_answer_of_its_own(offset: str, stacks: object) -> None:
    above, below = ABOVE | {"distance": offset}, BELOW | {"distance": "0 in"}
    result = answer(above=above, below=below, tolerance="0.25 in")
    assert result["stacks"] == stacks
    assert result["aligned"] is True


def test_tolerances_add() -> None:
    above, below = ABOVE | {"tolerance": "0.5 in"}, BELOW | {"tolerance": "0.75 in"}
    assert answer(above=above, below=below, tolerance="0.25 in")["tolerance"]["value"] == pytest.approx(1.5)


def test_along_the_joists_only_a_wall_that_stacks_is_in_line() -> None:
    off = answer(framing="parallel")
    assert (off["limit"], off["aligned"], off["stacks"]) == (None, False, False)
    assert any("doubled joists or a beam" in remark for remark in off["remarks"])
    on = answer(framing="parallel", above=BELOW)
    assert (on["aligned"], on["stacks"]) == (True, True)


def test_a_large_offset_is_a_defect_and_no_evidence() -> None:
    result = answer(above=ABOVE | {"distance": "180 in"})
    assert result["aligned"] is False
    assert any("no evidence that the wall does not bear" in remark for remark in result["remarks"])
    assert result["clause"] == "IRC 2021 R502.4"


@given(st.floats(0, 300), st.floats(0, 300), st.floats(-20, 20))
def test_above_and_below_change_places_without_a_change(above: float, below: float, shift: float) -> None:
    one = answer(
        above=ABOVE | {"distance": f"{above:.6f} in"},
        below=BELOW | {"distance": f"{below:.6f} in"},
        wall_shift=f"{shift:.6f} in",
    )
    other = answer(
        above=BELOW | {"distance": f"{below:.6f} in"},
        below=ABOVE | {"distance": f"{above:.6f} in"},
        wall_shift=f"{-shift:.6f} in",
    )
    assert one["offset"]["value"] == pytest.approx(other["offset"]["value"], abs=1e-9)


@pytest.mark.parametrize("field", ["above", "below", "joist_depth"])
def test_what_is_missing_is_named(field: str) -> None:
    with pytest.raises(InputError) as caught:
        answer(**{field: None})
    assert caught.value.field == f"given.{field}"


METRIC = {"from": "exterior face", "distance": "4500 mm", "to": "centre", "thickness": "114 mm"}


@pytest.mark.parametrize(
    ("off", "supports_floor", "aligned"),
    [
        (600, True, True),
        (601, True, False),
        (601, False, True),
        (900, False, True),
        (901, False, False),
    ],
)
def test_the_canadian_limit_is_600_mm_with_a_floor_and_900_mm_without(
    off: int, supports_floor: bool, aligned: bool
) -> None:
    below = METRIC | {"distance": f"{4500 - off} mm"}
    whole = {"above": METRIC, "below": below, "joist_depth": "235 mm", "supports_floor": supports_floor}
    found = run_case({"kind": "offset", "code": "ca", "given": whole})
    assert found["limit"] == {"value": 600 if supports_floor else 900, "unit": "mm"}
    assert found["offset"] == {"value": pytest.approx(off), "unit": "mm"}
    assert found["aligned"] is aligned
    assert found["clause"] == "NBC 2020 9.23.9.8."


def test_along_the_joists_canada_allows_for_no_offset_either() -> None:
    whole = {"above": METRIC, "below": METRIC | {"distance": "13 ft"}, "joist_depth": "9 1/4 in"}
    found = run_case({"kind": "offset", "code": "ca", "given": whole | {"framing": "parallel"}})
    assert found["limit"] is None
    assert found["offset"]["value"] == pytest.approx(4500 - 13 * 304.8)
    assert found["aligned"] is False
