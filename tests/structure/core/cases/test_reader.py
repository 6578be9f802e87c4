"""Typed values from plain data, and complaints that name the field, what was read and what is accepted."""

from __future__ import annotations

import copy
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from structure.core.cases import KINDS, registry, run_case
from structure.core.cases.reader import (
    LOADS,
    POST_LOADS,
    SECTION,
    Choice,
    Field,
    Flag,
    Integer,
    ListOf,
    Number,
    OneOf,
    Quantity,
    Record,
    Text,
    read_line,
    read_loads,
    read_post_loads,
    read_record,
)
from structure.core.errors import InputError, OutOfScope

FIELDS = (
    Field("span", Quantity("length", positive=True), required=True),
    Field("plies", Integer(1, 8), default=2),
    Field("bracing", OneOf(Choice(["continuous", "ends"]), Quantity("length")), default="ends"),
    Field("wet", Flag(), default=False),
    Field("end", Number(0.5, 2.0)),
    Field("names", ListOf(Text(10))),
    Field("inner", Record([Field("depth", Quantity("length"), default="9 1/4 in")])),
)


def test_typed_values_and_defaults() -> None:
    read = read_record(FIELDS, {"span": "12 ft 6 in", "bracing": "4 ft", "inner": {}}, "given", "us")
    assert read == {
        "span": 150.0,
        "plies": 2,
        "bracing": 48.0,
        "wet": False,
        "end": None,
        "names": None,
        "inner": {"depth": 9.25},
    }


def test_the_unit_system_is_that_of_the_code() -> None:
    assert read_record(FIELDS, {"span": "12 ft 6 in"}, "given", "ca")["span"] == pytest.approx(3810.0)


@pytest.mark.parametrize(
    ("data", "field", "word"),
    [
        ({}, "given.span", "length"),
        ({"span": "0 ft"}, "given.span", "more than zero"),
        ({"span": "-3 ft"}, "given.span", "more than zero"),
        ({"span": 12}, "given.span", "length"),
        ({"span": "12"}, "given.span", "length"),
        ({"span": "1e30 ft"}, "given.span", "length"),
        ({"span": "12 ft", "plies": 9}, "given.plies", "from 1 to 8"),
        ({"span": "12 ft", "plies": 2.0}, "given.plies", "whole number"),
        ({"span": "12 ft", "plies": True}, "given.plies", "whole number"),
        ({"span": "12 ft", "plies": 10**5000}, "given.plies", "whole number"),
        ({"span": "12 ft", "bracing": "middle"}, "given.bracing", "continuous or ends"),
        ({"span": "12 ft", "bracing": 3}, "given.bracing", "continuous or ends"),
        ({"span": "12 ft", "wet": "yes"}, "given.wet", "true or false"),
        ({"span": "12 ft", "end": float("nan")}, "given.end", "number"),
        ({"span": "12 ft", "end": float("inf")}, "given.end", "number"),
        ({"span": "12 ft", "end": 10**400}, "given.end", "number"),
        ({"span": "12 ft", "names": "a"}, "given.names", "list"),
        ({"span": "12 ft", "names": ["a", ""]}, "given.names[1]", "text"),
        ({"span": "12 ft", "names": ["x" * 11]}, "given.names[0]", "text"),
        ({"span": "12 ft", "inner": {"depht": "9 in"}}, "given.inner.depht", "depth is close"),
        ({"span": "12 ft", "spann": "9 in"}, "given.spann", "span is close"),
        ([], "given", "record"),
        (None, "given", "record"),
    ],
)
def test_complaints(data: Any, field: str, word: str) -> None:
    with pytest.raises(InputError) as caught:
        read_record(FIELDS, data, "given", "us")
    assert caught.value.field == field
    assert word in caught.value.accepted
    assert len(str(caught.value)) < 400


JUNK = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=20),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3),
    max_leaves=8,
)


@given(JUNK)
def test_whatever_is_given_is_read_or_complained_about(data: Any) -> None:
    for type_ in (LOADS, POST_LOADS, SECTION, Record(FIELDS), OneOf(Flag(), Quantity("force"))):
        complaint = ""
        try:
            type_.read(data, "given", "us")
        except InputError as error:
            complaint = error.field
        assert not complaint or complaint.startswith("given")


@pytest.mark.parametrize("word", ["wind", "earthquake", "uplift"])
def test_sideways_and_upward_load_cases_are_refused_with_a_clause(word: str) -> None:
    with pytest.raises(OutOfScope) as caught:
        LOADS.read([{"case": word, "shape": "point", "value": "3 kip", "at": "2 ft"}], "given.loads", "us")
    assert str(caught.value.clause) == "ASCE 7-16 2.4.1"


def _loads(*records: dict[str, Any]) -> Any:
    line = read_line([120.0], {"left": 24.0, "right": None})
    return read_loads(LOADS.read(list(records), "given.loads", "us"), "given.loads", "us", line)


def test_beam_loads() -> None:
    uniform, part, point = _loads(
        {"case": "dead", "shape": "uniform", "value": "120 lbf/ft"},
        {
            "case": "snow",
            "shape": "trapezoid",
            "value": "0 lbf/ft",
            "end_value": "240 lbf/ft",
            "start": "2 ft",
            "end": "8 ft",
        },
        {"case": "live", "shape": "point", "value": "-500 lbf", "at": "12 ft"},
    )
    assert (uniform.start, uniform.end, uniform.value) == (0.0, 144.0, 10.0)
    assert (part.start, part.end, part.value, part.end_value) == (24.0, 96.0, 0.0, 20.0)
    assert (point.start, point.value) == (144.0, -500.0)


@pytest.mark.parametrize(
    ("record", "field"),
    [
        ({"case": "dead", "shape": "point", "value": "1 kip", "at": "12 ft 1 in"}, "given.loads[0].at"),
        ({"case": "dead", "shape": "point", "value": "1 kip", "at": "-1 in"}, "given.loads[0].at"),
        ({"case": "dead", "shape": "point", "value": "1 kip"}, "given.loads[0].at"),
        ({"case": "dead", "shape": "point", "value": "1 kip/ft", "at": "1 ft"}, "given.loads[0].value"),
        ({"case": "dead", "shape": "uniform", "value": "40 psf"}, "given.loads[0].value"),
        ({"case": "dead", "shape": "uniform", "value": "40 plf", "end": "13 ft"}, "given.loads[0].end"),
        (
            {"case": "dead", "shape": "uniform", "value": "40 plf", "start": "5 ft", "end": "5 ft"},
            "given.loads[0].end",
        ),
        ({"case": "dead", "shape": "uniform", "value": "40 plf", "at": "5 ft"}, "given.loads[0].at"),
        ({"case": "dead", "shape": "triangle", "value": "40 plf"}, "given.loads[0].shape"),
        ({"case": "ice", "shape": "uniform", "value": "40 plf"}, "given.loads[0].case"),
        ({"case": "dead", "value": "40 plf"}, "given.loads[0].shape"),
    ],
)
def test_loads_that_cannot_be_meant(record: dict[str, Any], field: str) -> None:
    with pytest.raises(InputError) as caught:
        _loads(record)
    assert caught.value.field == field


def test_post_loads_of_one_case_add_up() -> None:
    records = POST_LOADS.read(
        [
            {"case": "dead", "value": "2 kip"},
            {"case": "dead", "value": "500 lbf"},
            {"case": "snow", "value": "1 kip"},
        ],
        "given.loads",
        "us",
    )
    assert read_post_loads(records) == {"dead": 2500.0, "snow": 1000.0}


def test_an_unknown_species_is_told_what_there_is() -> None:
    section = {"family": "sawn", "species": "Oak", "grade": "No.2", "width": "1.5 in", "depth": "9.25 in"}
    with pytest.raises(InputError, match="DF-L") as caught:
        SECTION.read(section, "given.section", "us")
    assert caught.value.field == "given.section.species"


CASE = {
    "kind": "statics",
    "code": "us",
    "given": {"spans": ["10 ft"], "loads": [{"case": "dead", "shape": "uniform", "value": "100 plf"}]},
}


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"kind": "roof"}, "case.kind"),
        ({"kind": None}, "case.kind"),
        ({"code": "uk"}, "case.code"),
        ({"givn": {}}, "case.givn"),
        ({"given": {"spans": []}}, "given.spans"),
        ({"edition": {"Eurocode": "5"}}, "edition.Eurocode"),
        ({"given": {"spans": ["10 ft"] * 7, "loads": []}}, "given.spans"),
    ],
)
def test_cases_that_cannot_be_run(change: dict[str, Any], field: str) -> None:
    with pytest.raises(InputError) as caught:
        run_case({**CASE, **change})
    assert caught.value.field == field


def test_what_is_not_covered_is_refused_and_not_guessed(monkeypatch: pytest.MonkeyPatch) -> None:
    kind = KINDS["statics"]
    american = replace(kind, solve={"us": kind.solve["us"]})
    monkeypatch.setattr(registry, "KINDS", {**KINDS, "statics": american})
    canadian = run_case({**CASE, "code": "ca"})
    assert canadian["status"] == "refused"
    assert "NBC 2020" in canadian["clause"]
    assert "not covered yet" in canadian["reason"]
    older = run_case({**CASE, "edition": {"NDS": "2015"}})
    assert older["status"] == "refused"
    assert older["clause"] == "NDS 2015"


def test_a_case_is_read_and_left_alone() -> None:
    before = copy.deepcopy(CASE)
    assert run_case(CASE)["status"] == "ok"
    assert before == CASE


@pytest.mark.parametrize("code", ["us", "ca"])
@pytest.mark.parametrize("name", list(KINDS))
def test_every_kind_describes_itself(name: str, code: str) -> None:
    schema = KINDS[name].schema(code)
    assert schema["kind"] == name
    assert schema["fields"]
    assert schema["results"], "the result paths of a kind belong to its schema"
    for field in KINDS[name].fields_of(code):
        if field.default_in(code) is not None:
            field.type.read(field.default_in(code), f"given.{field.name}", code)


def test_a_place_off_the_beam_is_told_with_its_unit() -> None:
    line = read_line([144.0])
    off = [{"case": "live", "shape": "point", "value": 100.0, "at": 156.0}]
    with pytest.raises(InputError, match=r"loads\[0\].at: read '13 ft'; accepted .* 12 ft long"):
        read_loads(off, "given.loads", "us", line)
    back = [{"case": "live", "shape": "uniform", "value": 1.0, "start": 96.0, "end": 36.0}]
    with pytest.raises(InputError, match="to the right of where the load starts, 8 ft"):
        read_loads(back, "given.loads", "us", line)


@pytest.mark.parametrize("name", ["id", "title", "source"])
@pytest.mark.parametrize("value", [7, 2.5, True, "x" * 5000, ["a", "b"]])
def test_free_fields_are_free(name: str, value: Any) -> None:
    case = {"kind": "snow", "code": "us", "given": {"ground": "50 psf", "Ce": 1.0, "Ct": 1.0, "Is": 1.0}}
    assert run_case(case | {name: value})["roof"]["value"] == pytest.approx(35.0)


@pytest.mark.parametrize(
    ("edition", "status"),
    [("NDS 2018, ASCE 7-16", "ok"), ("us", "ok"), ("IRC 2021; ACI 318-19", "ok"), ("NDS 2012", "refused")],
)
def test_editions_in_words(edition: str, status: str) -> None:
    case = {"kind": "snow", "code": "us", "given": {"ground": "50 psf", "Ce": 1.0, "Ct": 1.0, "Is": 1.0}}
    assert run_case(case | {"edition": edition})["status"] == status
    with pytest.raises(InputError, match="edition: read '1995'"):
        run_case(case | {"edition": "1995"})


def test_given_that_is_no_record_says_so() -> None:
    with pytest.raises(InputError, match=r"case.given: read \[1\]; accepted is a record of fields"):
        run_case({"kind": "snow", "code": "us", "given": [1]})


def test_a_grade_named_by_both_of_its_numbers() -> None:
    section = {
        "family": "sawn",
        "species": "SPF",
        "grade": "No.1/No.2",
        "width": "1.5 in",
        "depth": "7.25 in",
    }
    case = {"kind": "design_values", "code": "us", "given": {"section": section}}
    assert run_case(case)["reference"]["Fb"] == {"value": 875.0, "unit": "psi"}
    with pytest.raises(InputError, match=r"section.grade: read 'No.1/No.2'"):
        run_case({**case, "given": {"section": section | {"species": "HF"}}})


def test_uplift_is_not_lost_in_a_sum() -> None:
    with pytest.raises(OutOfScope, match="a live load that pulls up"):
        read_post_loads([{"case": "live", "value": 5000.0}, {"case": "live", "value": -4000.0}])


@pytest.mark.parametrize("side", ["left", "right"])
@pytest.mark.parametrize("written", ["1e-320 in", "1e-7 in", "0 in"])
def test_an_overhang_of_less_than_a_millionth_is_none(side: str, written: str) -> None:
    case: dict[str, Any] = {
        "kind": "beam",
        "code": "us",
        "given": {
            "spans": ["8 ft", "7 ft"],
            "loads": [{"case": "live", "shape": "uniform", "value": "200 lbf/ft"}],
            "section": {
                "family": "sawn",
                "species": "SPF",
                "grade": "No.2",
                "width": "3.5 in",
                "depth": "9.25 in",
            },
        },
    }
    without = run_case(case)
    case["given"]["overhang"] = {side: written}
    assert run_case(case)["ratio"] == without["ratio"]
