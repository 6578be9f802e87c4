"""Wood crushed across the grain by NDS 3.10, by hand sums."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structure.core.cases.registry import run_case
from structure.core.errors import InputError

GIVEN: dict[str, Any] = {
    "species": "SPF",
    "width": "3 in",
    "length": "3 in",
    "distance_to_end": "12 in",
    "loads": [{"case": "dead", "value": "1000 lbf"}, {"case": "live", "value": "2000 lbf"}],
}


def answer(**given: Any) -> dict[str, Any]:
    held = {name: value for name, value in (GIVEN | given).items() if value is not None}
    return run_case({"kind": "bearing", "code": "us", "given": held})


@pytest.mark.parametrize(
    ("length", "distance", "factor"),
    [
        ("3 in", "3 in", 1.125),
        ("3 in", "2.9 in", 1.0),
        ("5.5 in", "12 in", 5.875 / 5.5),
        ("6 in", "12 in", 1.0),
    ],
)
def test_area_factor_only_three_inches_in_and_under_six_long(
    length: str, distance: str, factor: float
) -> None:
    result = answer(length=length, distance_to_end=distance)
    assert result["factors"]["Cb"] == pytest.approx(factor)
    assert result["capacity"]["value"] == pytest.approx(425 * factor * 3 * float(length.split()[0]))


def test_load_duration_does_not_count() -> None:
    snow = answer(loads=[{"case": "snow", "value": "3000 lbf"}])
    dead = answer(loads=[{"case": "dead", "value": "3000 lbf"}])
    assert snow["capacity"] == dead["capacity"]


def test_section_and_species_give_the_same_answer() -> None:
    stud = {"family": "sawn", "species": "SPF", "grade": "No.2", "width": "1.5 in", "depth": "3.5 in"}
    assert answer(section=stud, species=None)["capacity"] == answer()["capacity"]
    own = answer(section=stud | {"properties": {"Fc_perp": "400 psi"}}, species=None)
    assert own["reference"]["Fc_perp"]["value"] == 400


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({"species": None}, "given.species"),
        (
            {
                "section": {
                    "family": "sawn",
                    "species": "SPF",
                    "grade": "No.2",
                    "width": "1.5 in",
                    "depth": "3.5 in",
                }
            },
            "given.species",
        ),
        ({"width": "0 in"}, "given.width"),
        ({"species": "Oak"}, "given.species"),
        ({"loads": [{"case": "live", "value": "0 lbf"}]}, "given.loads"),
    ],
)
def test_bad_input_names_its_field(given: dict[str, Any], field: str) -> None:
    with pytest.raises(InputError) as caught:
        answer(**given)
    assert caught.value.field == field


@settings(max_examples=80, deadline=None)
@given(
    load=st.floats(200, 20000), width=st.floats(1.5, 7), distance=st.sampled_from(["0 in", "2 in", "4 in"])
)
def test_required_length_is_just_used_up(load: float, width: float, distance: str) -> None:
    loads = [{"case": "live", "value": f"{load} lbf"}]
    held = {"loads": loads, "width": f"{width} in", "distance_to_end": distance}
    length = answer(**held)["required_length"]["value"]
    if length < 0.05:
        return
    assert answer(**held, length=f"{length * (1 + 1e-9)} in")["passes"]
    assert not answer(**held, length=f"{length * 0.99} in")["passes"]
