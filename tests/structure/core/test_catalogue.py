"""The catalogue: what it offers equals every section checked alone, and it says why each other one fails."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, reject, settings
from hypothesis import strategies as st

from structure.core.cases.registry import run_case
from structure.core.catalogue import Search, search_beams, stock_sections
from structure.core.clauses import US_DEFAULT
from structure.core.errors import InputError, OutOfScope
from structure.core.members.beam import BeamQuestion
from structure.core.statics.model import BeamLine, Load
from structure.data.loader import table

PRACTICE: dict[str, Any] = {
    "spans": ["20 ft"],
    "loads": [
        {"case": "dead", "shape": "uniform", "value": "550 lbf/ft"},
        {"case": "live", "shape": "uniform", "value": "800 lbf/ft"},
        {"case": "snow", "shape": "uniform", "value": "200 lbf/ft"},
    ],
    "bracing": "continuous",
}


def search(**chosen: Any) -> dict[str, Any]:
    return run_case({"kind": "beam", "code": "us", "given": PRACTICE | {"search": chosen}})


@st.composite
def questions(draw: st.DrawFn) -> BeamQuestion:
    spans = tuple(draw(st.lists(st.floats(60.0, 260.0), min_size=1, max_size=3)))
    right = draw(st.sampled_from((0.0, 24.0)))
    line = BeamLine(spans, 0.0, right)
    loads = [
        Load.uniform("dead", draw(st.floats(5.0, 40.0)), 0.0, line.length),
        Load.uniform("live", draw(st.floats(5.0, 60.0)), 0.0, line.length),
    ]
    if draw(st.booleans()):
        loads.append(
            Load.point("snow", draw(st.floats(200.0, 4000.0)), draw(st.floats(0.1, 0.9)) * line.length)
        )
    return BeamQuestion(
        line=line,
        loads=tuple(loads),
        bracing=draw(st.sampled_from(("continuous", "ends", 48.0))),
        repetitive=draw(st.booleans()),
        self_weight=draw(st.booleans()),
        shear_at=draw(st.sampled_from(("face", "d"))),
        bearing=draw(st.sampled_from((None, (3.5,)))),
    )


@settings(max_examples=10, deadline=None)
@given(questions())
def test_the_sheet_of_a_candidate_has_the_ratios_of_the_search(question: BeamQuestion) -> None:
    """`tests/properties/test_catalogue_together.py` holds every candidate against a check of its own."""
    chosen = Search(species=("SPF", "SP"), lvl_grades=("2.0E-2900F",), max_plies=2)
    try:
        found = search_beams(question, chosen, US_DEFAULT)
    except OutOfScope:
        reject()  # a question that is refused as such
    assert len(found.candidates) == 2 * 4 * 2 + 10 * 2
    for candidate in found.candidates[::5]:
        if candidate.refusal is not None:
            assert candidate.result is None
            continue
        assert candidate.result is not None
        assert candidate.passes == candidate.result.passes
        for name, check in candidate.result.checks.items():
            assert check.steps
            assert candidate.checks[name].ratio == pytest.approx(check.ratio, rel=1e-12)


def test_the_ordinary_wall_is_offered_four_plies_and_says_why_lighter_ones_fail() -> None:
    result = search(families=["lvl"], lvl_grades=["2.0E-2900F"], max_depth="18 in")
    by_label = {each["section"]: each for each in result["candidates"]}
    four = by_label["4-ply 1 3/4 x 18 LVL 2.0E-2900F"]
    three = by_label["3-ply 1 3/4 x 18 LVL 2.0E-2900F"]
    assert four["passes"]
    assert four["close"].endswith("% of what is allowed.")
    assert not three["passes"]
    assert {each["check"] for each in three["fails"]} >= {"bending"}
    for each in result["candidates"]:
        if each["size"]["weight"]["value"] < four["size"]["weight"]["value"] and not each["passes"]:
            assert each["fails"]
            assert all(fail["why"].endswith(".") and fail["ratio"] > 1 for fail in each["fails"])
    assert result["section"] == next(each["section"] for each in result["candidates"] if each["passes"])
    assert result["passes"]


def test_the_whole_catalogue_is_tried_in_a_fixed_order() -> None:
    result = search()
    classes = len(table("us/lvl").rows)
    assert result["tried"] == len(result["candidates"]) == 4 * 4 * 5 + classes * 10 * 5
    weights = [each["size"]["weight"]["value"] for each in result["candidates"]]
    assert weights == sorted(weights)
    assert result == search()


def test_nothing_passes_is_said() -> None:
    result = search(families=["sawn"], max_depth="6 in")
    assert result["passes"] is False
    assert result["section"] is None
    assert result["passing"] == 0
    assert any("No stock size passes" in remark for remark in result["remarks"])


def test_a_slender_candidate_stays_with_its_reason() -> None:
    question = BeamQuestion(
        line=BeamLine((360.0,)), loads=(Load.uniform("live", 2.0, 0.0, 360.0),), bracing="ends"
    )
    found = search_beams(question, Search(families=("lvl",), max_plies=1), US_DEFAULT)
    deep = next(each for each in found.candidates if each.section.depth == 24.0)
    assert not deep.passes
    assert deep.fails[0]["clause"] == "NDS 2018 3.3.3.7"


@pytest.mark.parametrize(
    ("chosen", "words"),
    [
        ({"max_depth": "2 in"}, "given.search"),
        ({"families": ["lvl"], "lvl_grades": ["9E"]}, "given.search.lvl_grades: read '9E'"),
        ({"families": ["bamboo"]}, "given.search.families"),
        ({"species": ["Oak"]}, "given.search.species"),
        ({"max_plies": 9}, "given.search.max_plies"),
    ],
)
def test_bad_searches_name_the_field(chosen: dict[str, Any], words: str) -> None:
    with pytest.raises(InputError) as error:
        search(**chosen)
    assert words in str(error.value)


def test_a_grade_that_a_species_lacks_is_no_candidate() -> None:
    found = stock_sections(Search(families=("sawn",), species=("SPF", "DF-L"), grades=("No.1&Btr",)))
    assert {each.label.split()[1] for each in found} == {"DF-L"}
