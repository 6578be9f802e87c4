"""Stock lengths and cuts: every piece once, nothing over-full, close to the least that is possible."""

from __future__ import annotations

import itertools
import math
from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.core.stock import Cut, CutPlan, first_fit_decreasing, fits, pack
from structure.core.errors import InputError

STOCK = [96.0, 120.0, 144.0, 168.0, 192.0, 216.0, 240.0]
KERF = 0.125
pieces = st.lists(st.integers(min_value=4, max_value=480).map(lambda n: n / 2), min_size=1, max_size=14)


def plan_of(lengths: list[float], stock: list[float] = STOCK, kerf: float = KERF) -> CutPlan:
    return pack("x", "x", [Cut(f"M{n}", length) for n, length in enumerate(lengths)], stock, kerf)


@given(pieces)
def test_every_piece_is_cut_once_and_no_board_is_over_full(lengths: list[float]) -> None:
    plan = plan_of(lengths)
    cut = Counter((c.mark, c.length) for board in plan.boards for c in board.cuts)
    assert cut == Counter((f"M{n}", length) for n, length in enumerate(lengths))
    for board in plan.boards:
        assert fits([c.length for c in board.cuts], board.stock, KERF)
        assert board.left >= -1e-6
        assert board.stock in STOCK


@given(pieces)
def test_bought_is_never_less_than_the_exact_lower_bound(lengths: list[float]) -> None:
    """No plan buys less than the pieces with a kerf less each board, in steps of two feet."""
    plan = plan_of(lengths)
    need = sum(lengths) + KERF * (len(lengths) - len(plan.boards))
    assert plan.bought >= math.ceil(round(need / 24, 9)) * 24 - 1e-6
    assert plan.net == pytest.approx(sum(lengths))


def least_boards(lengths: list[float], stock: float, kerf: float) -> int:
    """The least number of boards by trying every grouping: exact, for a few pieces only."""
    best = len(lengths)

    def place(index: int, boards: list[list[float]]) -> None:
        nonlocal best
        if len(boards) >= best:
            return
        if index == len(lengths):
            best = len(boards)
            return
        for board in boards:
            if fits([*board, lengths[index]], stock, kerf):
                board.append(lengths[index])
                place(index + 1, boards)
                board.pop()
        place(index + 1, [*boards, [lengths[index]]])

    place(0, [])
    return best


@given(st.lists(st.integers(min_value=10, max_value=240).map(float), min_size=1, max_size=7))
def test_first_fit_decreasing_is_within_its_proven_bound_of_the_exact_least(lengths: list[float]) -> None:
    """11/9 of the least and 6/9 more (Dosa 2007); a kerf between pieces is a length on each piece and the board."""
    boards = first_fit_decreasing([Cut("M", length) for length in lengths], 240.0, KERF)
    least = least_boards(lengths, 240.0, KERF)
    assert least <= len(boards) <= 11 / 9 * least + 6 / 9


def test_shortest_stock_that_serves_is_bought() -> None:
    """Four pieces of 91 1/2 in: two a board of 16 ft, never one of 20 ft."""
    plan = plan_of([91.5] * 4)
    assert plan.counts() == [(192.0, 2)]


def test_exact_least_total_length_for_a_mixed_list() -> None:
    """All groupings of five pieces tried: no cheaper way to buy them than the plan found."""
    lengths = [130.0, 100.0, 60.0, 60.0, 40.0]
    best = math.inf
    for labels in itertools.product(range(5), repeat=5):
        groups = [[p for p, at in zip(lengths, labels, strict=True) if at == g] for g in set(labels)]
        sizes = [next((s for s in STOCK if fits(g, s, KERF)), math.inf) for g in groups]
        best = min(best, sum(sizes))
    assert plan_of(lengths).bought == best


def test_kerf_is_counted_between_pieces() -> None:
    assert fits([48.0, 48.0], 96.0, 0.0)
    assert not fits([48.0, 48.0], 96.0, 0.125)
    assert fits([48.0, 47.875], 96.0, 0.125)


def test_longer_than_stock_is_a_special_order_in_two_foot_steps() -> None:
    plan = plan_of([250.0, 90.0])
    assert plan.special
    assert [(b.stock, len(b.cuts)) for b in plan.boards] == [(264.0, 1), (96.0, 1)]


@pytest.mark.parametrize("length", [0.0, -1.0, float("nan")])
def test_a_piece_without_length_is_refused(length: float) -> None:
    with pytest.raises(InputError, match="cut for M0"):
        plan_of([length])
