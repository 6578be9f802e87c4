"""Roots of polynomials that are known beforehand, several at once, each inside its own segment."""

from __future__ import annotations

import numpy as np
import pytest

from structure.core.statics.roots import monotone_roots, quadratic_roots


def _product(scale: float, *roots: float) -> list[float]:
    """Ascending coefficients of scale (t - r1)(t - r2)..."""
    return (scale * np.polynomial.polynomial.polyfromroots(roots)).tolist()  # type: ignore[no-any-return]


def test_both_roots_of_a_parabola_inside_its_segment() -> None:
    rows = np.array([_product(1.0, 2.0, 5.0), _product(-3.0, 0.5, 7.25), _product(1e-9, 1.0, 6.0)])
    found = quadratic_roots(rows, np.array([8.0, 8.0, 8.0]))
    assert found == pytest.approx(np.array([[2.0, 5.0], [0.5, 7.25], [1.0, 6.0]]), rel=1e-9)


@pytest.mark.parametrize(
    ("coefficients", "roots"),
    [
        ([-6.0, 2.0, 0.0], {3.0}),  # a line
        ([-6.0, 2.0, 1e-14], {3.0}),  # all but a line
        (_product(2.0, -4.0, 3.0), {3.0}),  # the other one before the segment
        (_product(2.0, 3.0, 40.0), {3.0}),  # the other one behind it
        ([1.0, 0.0, 1.0], set()),  # none
        ([5.0, 0.0, 0.0], set()),  # a constant
    ],
)
def test_a_missing_root_is_put_on_an_end(coefficients: list[float], roots: set[float]) -> None:
    found = quadratic_roots(np.array([coefficients]), np.array([10.0]))[0]
    assert found[0] <= found[1]
    assert all(0.0 <= root <= 10.0 for root in found)
    inside = {round(float(root), 9) for root in found if 0.0 < root < 10.0}
    assert inside >= roots
    # What is no root is an end, or the place where a parabola without roots is nearest to one.
    assert inside - roots <= {0.0}


def test_the_one_root_of_each_piece_between_cuts() -> None:
    rows = np.array([_product(1.0, 1.0, 4.0, 6.5), _product(-2.0, 0.25, 3.0, 5.0)])
    cuts = np.array([[2.3, 5.4], [1.5, 4.1]])
    found = monotone_roots(rows, cuts, np.array([8.0, 7.0]))
    assert found == pytest.approx(np.array([[1.0, 4.0, 6.5], [0.25, 3.0, 5.0]]), abs=1e-12)


def test_a_piece_without_a_root_gives_the_end_nearer_to_one() -> None:
    rows = np.array([_product(1.0, -2.0), _product(1.0, 12.0)])
    found = monotone_roots(rows, np.empty((2, 0)), np.array([10.0, 10.0]))
    assert found.tolist() == [[0.0], [10.0]]


def test_a_steep_root_is_found_to_the_last_bits() -> None:
    """Newton's step from the middle leaves the bracket; it is halved until a step stays inside."""
    rows = np.array([[-1e-9, 0.0, 0.0, 1.0]])  # t**3 = 1e-9
    found = monotone_roots(rows, np.empty((1, 0)), np.array([1000.0]))
    assert float(found[0, 0]) == pytest.approx(1e-3, rel=1e-12)
