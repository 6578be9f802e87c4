"""Joists in hangers: counts, loads by case, what the maker states."""

from __future__ import annotations

from dataclasses import replace

import pytest

from structure.core.clauses import US_DEFAULT
from structure.core.errors import InputError, OutOfScope
from structure.core.members.hangers import (
    HangerQuestion,
    HangingSide,
    Rating,
    check_hangers,
    joist_count,
    joist_reaction,
)

FLOOR = HangingSide(144.0, {"dead": 12 / 144, "live": 40 / 144})
ASKED = HangerQuestion(180.0, 16.0, {"left": FLOOR})


def test_the_reaction_of_a_simple_joist() -> None:
    assert joist_reaction(52 / 144, 16.0, 144.0) == pytest.approx(416.0)


@pytest.mark.parametrize(
    ("width", "spacing", "count"), [(180, 16, 12), (192, 16, 13), (191.9, 16, 12), (8, 16, 1)]
)
def test_joists_over_an_opening(width: float, spacing: float, count: int) -> None:
    assert joist_count(width, spacing) == count


def test_the_heavier_side_asks_for_the_rating_and_the_line_load_is_its_share() -> None:
    light = HangingSide(96.0, FLOOR.pressures)
    found = check_hangers(replace(ASKED, sides={"left": light, "right": FLOOR}), US_DEFAULT)
    assert found.worst.worst == pytest.approx(416.0)
    assert found.count == 24
    assert found.sides["left"].worst == pytest.approx(416.0 * 96 / 144)
    assert found.sides["right"].line["live"] * 16.0 == pytest.approx(found.sides["right"].by_case["live"])


def test_without_a_rating_there_is_a_question_with_the_load() -> None:
    found = check_hangers(ASKED, US_DEFAULT)
    assert found.state == "question"
    assert "416 lbf" in found.questions[0]


def test_a_rating_just_met_passes_and_the_next_less_fails() -> None:
    met = check_hangers(replace(ASKED, rating=Rating(416.0, "paper", 1.5)), US_DEFAULT)
    missed = check_hangers(replace(ASKED, rating=Rating(415.9, "paper", 1.5)), US_DEFAULT)
    assert (met.state, missed.state) == ("passes", "fails")


def test_a_rating_that_tells_no_nails_leaves_a_question() -> None:
    assert check_hangers(replace(ASKED, rating=Rating(500.0, "paper")), US_DEFAULT).state == "question"


def test_a_beam_thinner_than_the_rating_or_the_nails_ask_for_fails() -> None:
    for rating in (Rating(500.0, "paper", nail_length=3.0), Rating(500.0, "paper", least_breadth=3.5)):
        found = check_hangers(replace(ASKED, rating=rating, breadth=1.75), US_DEFAULT)
        assert found.state == "fails"
        assert check_hangers(replace(ASKED, rating=rating, breadth=3.5), US_DEFAULT).state == "passes"


def test_dead_load_alone_takes_nine_tenths_of_a_rating() -> None:
    heavy = HangingSide(144.0, {"dead": 50 / 144, "live": 1 / 144})
    found = check_hangers(replace(ASKED, sides={"left": heavy}), US_DEFAULT)
    assert found.worst.combination == "D"
    assert found.worst.worst == pytest.approx(400.0 / 0.9)


def test_what_cannot_be_meant_is_told() -> None:
    with pytest.raises(InputError):
        check_hangers(replace(ASKED, sides={}), US_DEFAULT)
    with pytest.raises(InputError):
        check_hangers(replace(ASKED, sides={"left": HangingSide(144.0, {})}), US_DEFAULT)
    with pytest.raises(OutOfScope):
        check_hangers(replace(ASKED, sides={"left": HangingSide(144.0, {"live": -1.0})}), US_DEFAULT)
