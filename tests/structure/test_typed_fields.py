"""What people type: kept as typed, one clear sentence where it can not be meant, echoed where it can."""

from __future__ import annotations

import pytest
from django.core.exceptions import ValidationError

from structure.core.errors import InputError
from structure.dead_loads import dead_pressure, read_dead
from structure.fields import QuantityField, QuantityFormField, read_typed
from structure.models import HouseSection
from structure.starters import LEVELS, starter
from structure.understood import understood

BAD_LENGTHS = [
    "12",
    "12 ft 18 in",
    "-3 ft",
    "0 ft",
    "twelve feet",
    "12 psf",
    "nan ft",
    "inf m",
    "12 ft 6",
    "1e400 ft",
    "",
    " ",
]
GOOD_LENGTHS = {
    "12 ft 6 in": 150.0,
    "12'-6 1/2\"": 150.5,
    "3.81 m": 150.0,
    "16 ft": 192.0,
    "4 1/2 in": 4.5,
    "2,400 mm": 2400 / 25.4,
}


@pytest.mark.parametrize("text", [t for t in BAD_LENGTHS if t.strip()])
def test_a_bad_length_gets_one_sentence_with_field_read_and_accepted(text):
    field = QuantityFormField(dimension="length", label="Clear opening")
    with pytest.raises(ValidationError) as caught:
        field.clean(text)
    (sentence,) = caught.value.messages
    assert sentence.startswith(f"Clear opening: read {text!r}; accepted is ")
    assert sentence.endswith(".")
    assert sentence.count("\n") == 0


@pytest.mark.parametrize("text", [t for t in BAD_LENGTHS if not t.strip()])
def test_an_empty_length_is_required(text):
    with pytest.raises(ValidationError):
        QuantityFormField(dimension="length", label="Clear opening").clean(text)


@pytest.mark.parametrize(("text", "inches"), GOOD_LENGTHS.items())
def test_a_good_length_is_kept_as_typed_and_read_exactly(text, inches):
    field = QuantityFormField(dimension="length", label="Clear opening")
    assert field.clean(text) == text
    assert read_typed(text, "length", "x") == pytest.approx(inches, rel=1e-12)


def test_what_was_understood_is_told_in_both_systems():
    assert understood("3.81 m", "length") == "read as 12'-6\" (3.81 m)"
    assert understood("40 psf", "pressure") == "read as 40 psf (1.92 kPa)"
    assert understood("1.9 kPa", "pressure") == "read as 39.68 psf (1.9 kPa)"
    assert understood("4,800 lbf", "force") == "read as 4,800 lbf (21.4 kN)"
    assert understood("12", "length") == ""
    assert understood("", "length") == ""


def test_zero_is_taken_where_zero_can_be_and_a_sign_only_where_a_sign_can_be():
    assert read_typed("0 psf", "pressure", "snow", positive=False) == 0
    with pytest.raises(InputError):
        read_typed("-1 psf", "pressure", "snow", positive=False)
    assert read_typed("-1 in", "length", "shift", positive=None) == -1


def test_the_model_column_checks_like_the_form_and_comes_back_from_a_migration():
    column = HouseSection._meta.get_field("ground_snow")
    with pytest.raises(ValidationError) as caught:
        column.clean("30", None)
    assert caught.value.messages == [
        "ground snow: read '30'; accepted is a pressure with a unit, such as 40 psf or 1.9 kPa."
    ]
    _, path, args, kwargs = column.deconstruct()
    again = QuantityField(*args, **kwargs)
    assert (again.dimension, again.positive) == ("pressure", False)
    assert path == "structure.fields.QuantityField"


def test_an_unknown_dimension_is_a_mistake_in_the_program():
    with pytest.raises(ValueError, match="no dimension"):
        QuantityField(dimension="taste")


def test_dead_load_is_one_pressure_or_layers_by_name():
    assert read_dead(" 12 psf ", "Floor, dead load") == "12 psf"
    layers = read_dead("boards: 2.5 psf; joists: 3 psf\nceiling: 0.1 kPa", "Floor, dead load")
    assert [layer["layer"] for layer in layers] == ["boards", "joists", "ceiling"]
    assert dead_pressure("boards: 2.5 psf; joists: 3 psf") == pytest.approx(5.5 / 144)
    assert dead_pressure("boards") is None


@pytest.mark.parametrize(
    "text",
    [
        "",
        "12",
        "boards 2.5 psf; joists 3 psf",
        "boards: 2.5",
        "boards: -2 psf",
        ": 3 psf",
        "; ".join(f"l{n}: 1 psf" for n in range(13)),
    ],
)
def test_a_bad_dead_load_names_the_field(text):
    with pytest.raises(InputError) as caught:
        read_dead(text, "Floor, dead load")
    assert caught.value.field.startswith("Floor, dead load")


@pytest.mark.parametrize("shape", LEVELS)
def test_a_starting_guess_leaves_the_snow_to_the_person(shape):
    guess = starter(shape)
    assert "ground_snow" not in guess["section"]
    assert guess["levels"]
    for level in guess["levels"]:
        assert read_dead(level["dead"], "dead")
