"""Roots of many low polynomials at once, each inside its own segment."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.float64]


def quadratic_roots(coefficients: Array, h: Array) -> Array:
    """Both roots of c0 + c1 t + c2 t^2 in [0, h], ascending; a missing root is put on an end.

    `coefficients`: (..., segments, 3); `h`: (segments,); result (..., segments, 2).
    """
    c, b, a = coefficients[..., 0], coefficients[..., 1], coefficients[..., 2]
    inside = np.sqrt(np.maximum(b * b - 4 * a * c, 0.0))
    # The larger root first, then the other from the product: no cancellation when a is tiny.
    q = -(b + np.copysign(inside, b)) / 2
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        first, second = q / a, c / q
    both = np.stack((first, second), axis=-1)
    both = np.where(np.isfinite(both), both, 0.0)
    return np.sort(np.clip(both, 0.0, h[:, None]), axis=-1)


def monotone_roots(coefficients: Array, cuts: Array, h: Array) -> Array:
    """The root in each piece between neighbouring cuts, where the polynomial is monotone.

    `coefficients`: (..., segments, n); `cuts`: (..., segments, k) ascending distances in [0, h]; result
    (..., segments, k + 1) ascending, a piece without a root giving one of its ends. Newton steps kept
    inside a bracket that is halved whenever they would leave it.
    """
    width = np.broadcast_to(h[:, None], (*cuts.shape[:-1], 1))
    ends = np.concatenate((np.zeros_like(width), cuts, width), axis=-1)
    low, high = ends[..., :-1].copy(), ends[..., 1:].copy()
    c = coefficients[..., None, :]
    f_low, f_high = _value(c, low), _value(c, high)
    crossing = np.flatnonzero((f_low * f_high < 0).ravel())
    found = np.where(np.abs(f_low) <= np.abs(f_high), low, high)
    if not crossing.size:
        return found
    spread = np.broadcast_to(c, (*low.shape, c.shape[-1])).reshape(-1, c.shape[-1])[crossing]
    slope = spread[:, 1:] * np.arange(1.0, spread.shape[-1])
    a, b = low.ravel()[crossing], high.ravel()[crossing]
    # A bracket is turned so that the value at its first end is negative.
    rising = f_low.ravel()[crossing] < 0
    negative, positive = np.where(rising, a, b), np.where(rising, b, a)
    t = (negative + positive) / 2
    tolerance = 4e-16 * np.maximum(np.abs(a), np.abs(b)) + 1e-15 * (b - a)
    for _ in range(80):
        value = _value(spread, t)
        below = value < 0
        negative, positive = np.where(below, t, negative), np.where(below, positive, t)
        with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
            step = t - value / _value(slope, t)
        lower, upper = np.minimum(negative, positive), np.maximum(negative, positive)
        kept = (step >= lower) & (step <= upper)
        following = np.where(kept, step, (negative + positive) / 2)
        moved = np.abs(following - t)
        t = following
        if np.all(moved <= tolerance):
            break
    flat = found.ravel()
    flat[crossing] = t
    return flat.reshape(found.shape)


def _value(coefficients: Array, t: Array) -> Array:
    result: Array = np.asarray(coefficients[..., -1])
    for power in range(coefficients.shape[-1] - 2, -1, -1):
        result = result * t + coefficients[..., power]
    return result
