"""Pieces round corners: the closed form, brute force, and a piece moved through the corner step by step."""

from __future__ import annotations

import math
import random
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from structure.core.clauses import US_DEFAULT
from structure.core.errors import InputError
from structure.core.members.carry_in import (
    CarryQuestion,
    Turn,
    carry_in,
    ladder,
    longest_round,
    tilted,
    turn_at,
)

WIDTHS = st.floats(20.0, 120.0)
PIECE = CarryQuestion(5.25, 18.0, 240.0, 2.0, plies=3, turns=(Turn("hall", 36.0, 48.0, 96.0),))


def test_whole_numbers_of_the_ladder() -> None:
    assert ladder(27.0, 64.0) == pytest.approx(125.0)
    assert ladder(48.0, 48.0) == pytest.approx(48 * 8**0.5)


@given(WIDTHS, WIDTHS)
def test_a_piece_that_gets_thin_tends_to_the_ladder(a: float, b: float) -> None:
    assert longest_round(a, b, 0.0)[0] == pytest.approx(ladder(a, b), rel=1e-12)
    assert longest_round(a, b, 1e-9)[0] == pytest.approx(ladder(a, b), rel=1e-8)


@given(WIDTHS, WIDTHS, st.floats(0.1, 19.0))
def test_nothing_of_the_turn_is_tighter_than_what_is_told(a: float, b: float, w: float) -> None:
    longest, _ = longest_round(a, b, w)
    angles = [n * math.pi / 2 / 997 for n in range(1, 997)]
    sampled = min(turn_at(a, b, w, math.sin(t), math.cos(t)) for t in angles)
    assert longest <= max(0.0, sampled) + 1e-9
    assert longest >= max(0.0, sampled) * (1 - 1e-3) - 1e-3
    assert longest <= ladder(a, b)


def test_a_piece_of_that_length_turns_without_touching() -> None:
    """Both ends slide along the outer walls; the inner side must stay off the inner corner."""
    source = random.Random(6)
    for _ in range(50):
        a, b = source.uniform(30, 90), source.uniform(30, 90)
        w = source.uniform(1, 20)
        longest, _ = longest_round(a, b, w)

        def gap(length: float, a: float = a, b: float = b, w: float = w) -> float:
            least = math.inf
            for n in range(1, 2000):
                t = n * math.pi / 4000
                # Outer edge from (L cos t, 0) to (0, L sin t); the corner stands at (b, a) off the outer walls.
                least = min(least, b * math.sin(t) + a * math.cos(t) - length * math.sin(t) * math.cos(t) - w)
            return least

        assert gap(longest * 0.9999) > -1e-6
        assert gap(longest * 1.001) < 0


def test_a_wider_or_deeper_piece_is_never_longer() -> None:
    def longest(**changes: float) -> float:
        return carry_in(replace(PIECE, **changes), US_DEFAULT).whole[0].longest  # type: ignore[arg-type]

    assert longest(width=7.0) <= longest() <= longest(width=3.5)
    assert longest(depth=24.0) <= longest() <= longest(depth=9.25)


def test_tilting_helps_under_a_high_ceiling_alone() -> None:
    low = carry_in(replace(PIECE, turns=(Turn("hall", 36.0, 48.0, 20.0),)), US_DEFAULT).whole[0]
    high = carry_in(PIECE, US_DEFAULT).whole[0]
    assert low.carried == "on edge, level"
    assert high.carried == "on edge, tilted"
    assert high.longest > low.longest
    assert tilted(100.0, 50.0, 10.0) == pytest.approx((90**2 + 40**2) ** 0.5)


def test_a_section_that_does_not_enter_passes_not_at_all() -> None:
    shut = replace(PIECE, turns=(Turn("slot", 5.0, 48.0, 17.0),))
    found = carry_in(shut, US_DEFAULT)
    assert found.whole[0].longest == 0.0
    assert found.as_data()["passes"] is False
    assert found.as_data()["splice"]


def test_a_single_ply_is_longer_and_lighter() -> None:
    found = carry_in(PIECE, US_DEFAULT)
    assert found.by_ply[0].longest > found.whole[0].longest
    assert found.ply_weight == pytest.approx(found.weight / 3)
    assert found.ply_people <= found.people


def test_nothing_is_known_without_a_way() -> None:
    data = carry_in(replace(PIECE, turns=()), US_DEFAULT).as_data()
    assert data["longest"] is None
    assert data["passes"] is None


@pytest.mark.parametrize(("weight", "people"), [(51.0, 1), (51.1, 2), (102.0, 2), (102.1, 3), (5.0, 1)])
def test_people_are_rounded_up(weight: float, people: int) -> None:
    assert carry_in(replace(PIECE, weight=weight / 240.0), US_DEFAULT).people == people


@pytest.mark.parametrize("name", ["width", "depth", "length", "weight", "limit"])
def test_sizes_of_nothing_are_told(name: str) -> None:
    with pytest.raises(InputError):
        carry_in(replace(PIECE, **{name: 0.0}), US_DEFAULT)  # type: ignore[arg-type]
