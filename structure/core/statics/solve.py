"""Continuous beams solved exactly: piecewise polynomials between load points, three moments at supports.

For a beam of constant stiffness the shear is a quadratic, the moment a cubic and the deflection a
quintic in each segment between neighbouring breaks (supports, load ends, point loads). Nothing is
meshed. Many load sets on one beam are solved together, one row each.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from structure.core.statics.model import Bay, BeamLine, Load
from structure.core.statics.response import Response

Array = npt.NDArray[np.float64]


def analyse(line: BeamLine, loads: Sequence[Load]) -> Response:
    """The exact response of the beam to all the loads together.

    Raises ValueError for a load off the beam.
    """
    return analyse_sets(line, [loads])[0]


def analyse_sets(line: BeamLine, sets: Sequence[Sequence[Load]]) -> Response:
    """One response with a row for each set of loads, all on the same breaks.

    The stiffness matrix of the supports is factored once for all rows. Raises ValueError for a load
    off the beam.
    """
    breaks = _breaks(line, [load for loads in sets for load in loads])
    spread = _spread(line, breaks, sets)
    bays = [_free(bay, breaks, spread) for bay in line.bays]
    return _assemble(line, breaks, bays, spread)


@dataclass(frozen=True, slots=True)
class _Spread:
    """Loads on the segments: intensity at the segment start, its slope, and forces at the breaks."""

    w: Array
    slope: Array
    forces: Array


@dataclass(slots=True)
class _BayPart:
    """One bay: its segments and the shear and moment of its own loads with nothing holding it up."""

    bay: Bay
    first: int
    last: int
    x: Array
    h: Array
    w: Array
    slope: Array
    V0: Array
    M0: Array
    V_end: Array
    M_end: Array


def _breaks(line: BeamLine, loads: Sequence[Load]) -> Array:
    slack = 1e-9 * line.length
    places = {place for load in loads for place in (load.start, load.end)}
    if places and (min(places) < -slack or max(places) > line.length + slack):
        raise ValueError("a load is off the beam")
    # Ends and supports first: a place closer than the slack to a held one is the held one.
    held = sorted({0.0, *line.supports, line.length})
    for place in sorted(places):
        if min(abs(place - other) for other in held) > slack:
            held.append(place)
    return np.array(sorted(held))


def _index(breaks: Array, place: float) -> int:
    return int(np.abs(breaks - place).argmin())


def _spread(line: BeamLine, breaks: Array, sets: Sequence[Sequence[Load]]) -> _Spread:
    segments = len(breaks) - 1
    w = np.zeros((len(sets), segments))
    slope = np.zeros_like(w)
    forces = np.zeros((len(sets), segments + 1))
    for row, loads in enumerate(sets):
        for load in loads:
            a = _index(breaks, load.start)
            if load.shape == "point":
                forces[row, a] += load.value
                continue
            b = _index(breaks, load.end)
            if b <= a:
                continue
            grade = (load.end_value - load.value) / (load.end - load.start)
            w[row, a:b] += load.value + grade * (breaks[a:b] - load.start)
            slope[row, a:b] += grade
    return _Spread(w, slope, forces)


def _free(bay: Bay, breaks: Array, spread: _Spread) -> _BayPart:
    first, last = _index(breaks, bay.start), _index(breaks, bay.end)
    x = breaks[first:last] - breaks[first]
    h = np.diff(breaks[first : last + 1])
    w, slope = spread.w[:, first:last], spread.slope[:, first:last]
    P = spread.forces[:, first:last].copy()
    if bay.kind != "left":
        P[:, 0] = 0.0  # a force on a support goes straight into it
    V0 = -(np.cumsum(P, axis=1) + _before(w * h + slope * h**2 / 2))
    gained = V0 * h - w * h**2 / 2 - slope * h**3 / 6
    V_end = V0[:, -1] - w[:, -1] * h[-1] - slope[:, -1] * h[-1] ** 2 / 2
    return _BayPart(bay, first, last, x, h, w, slope, V0, _before(gained), V_end, gained.sum(axis=1))


def _before(values: Array) -> Array:
    """The sum of everything before each place in a row."""
    total = np.zeros_like(values)
    np.cumsum(values[:, :-1], axis=1, out=total[:, 1:])
    return total


def _moment(part: _BayPart, V_start: Array, M_start: Array) -> Array:
    """Moment coefficients of a bay once its start shear and start moment are known."""
    coefficients = np.empty((*part.w.shape, 4))
    coefficients[..., 0] = part.M0 + M_start[:, None] + V_start[:, None] * part.x
    coefficients[..., 1] = part.V0 + V_start[:, None]
    coefficients[..., 2] = -part.w / 2
    coefficients[..., 3] = -part.slope / 6
    return coefficients


def _slopes(M: Array, h: Array) -> tuple[Array, Array, Array, Array]:
    """Slope and deflection at the segment starts and at the end for a start that lies level at zero.

    Stiffness is left out: all are EI times themselves. Down is positive, so the slope falls with sagging.
    """
    turned = -(M[..., 0] * h + M[..., 1] * h**2 / 2 + M[..., 2] * h**3 / 3 + M[..., 3] * h**4 / 4)
    T = _before(turned)
    sunk = T * h - (
        M[..., 0] * h**2 / 2 + M[..., 1] * h**3 / 6 + M[..., 2] * h**4 / 12 + M[..., 3] * h**5 / 20
    )
    return T, _before(sunk), turned.sum(axis=1), sunk.sum(axis=1)


def _support_moments(
    line: BeamLine, parts: Sequence[_BayPart], left: Array, right: Array
) -> tuple[Array, list[Array]]:
    """Moments over all supports by the three-moment equations, and the simple-span moment coefficients."""
    rows = left.shape[0]
    simple = [_moment(p, -p.M_end / p.bay.length, np.zeros(rows)) for p in parts]
    starts, ends = [], []
    for part, M in zip(parts, simple, strict=True):
        _, _, turned, sunk = _slopes(M, part.h)
        starts.append(-sunk / part.bay.length)
        ends.append(starts[-1] + turned)
    moments = np.zeros((rows, len(parts) + 1))
    moments[:, 0], moments[:, -1] = left, right
    inner = len(parts) - 1
    if inner:
        L = np.array(line.spans)
        matrix = np.zeros((inner, inner))
        known = np.empty((inner, rows))
        for k in range(inner):
            matrix[k, k] = (L[k] + L[k + 1]) / 3
            known[k] = ends[k] - starts[k + 1]
            if k + 1 < inner:
                matrix[k, k + 1] = matrix[k + 1, k] = L[k + 1] / 6
        known[0] -= left * L[0] / 6
        known[-1] -= right * L[-1] / 6
        moments[:, 1:-1] = np.linalg.solve(matrix, known).T
    return moments, starts


def _assemble(line: BeamLine, breaks: Array, bays: Sequence[_BayPart], spread: _Spread) -> Response:
    rows = spread.w.shape[0]
    zero = np.zeros(rows)
    spans = [part for part in bays if part.bay.kind == "span"]
    left = next((part for part in bays if part.bay.kind == "left"), None)
    right = next((part for part in bays if part.bay.kind == "right"), None)
    tip = spread.forces[:, -1] if right else zero
    M_left = left.M_end if left else zero
    V_right = tip - right.V_end if right else zero
    M_right = -(right.M_end + V_right * right.bay.length) if right else zero
    moments, simple_starts = _support_moments(line, spans, M_left, M_right)

    M = np.empty((rows, len(breaks) - 1, 4))
    turn = np.empty((rows, len(breaks) - 1))
    sink = np.empty_like(turn)
    # What the beam brings to each support: shear just right of it less shear just left of it.
    reactions = spread.forces[:, [_index(breaks, place) for place in line.supports]].copy()
    first_slope = last_slope = zero
    for n, part in enumerate(spans):
        a, b = moments[:, n], moments[:, n + 1]
        V_start = (b - a - part.M_end) / part.bay.length
        own = _moment(part, V_start, a)
        start = simple_starts[n] + part.bay.length * (a / 3 + b / 6)
        T, Y, turned, _ = _slopes(own, part.h)
        M[:, part.first : part.last] = own
        turn[:, part.first : part.last] = start[:, None] + T
        sink[:, part.first : part.last] = Y + start[:, None] * part.x
        reactions[:, n] += V_start
        reactions[:, n + 1] -= V_start + part.V_end
        first_slope = start if n == 0 else first_slope
        last_slope = start + turned
    if left:
        own = _moment(left, zero, zero)
        T, Y, turned, sunk = _slopes(own, left.h)
        start = first_slope - turned
        M[:, : left.last] = own
        turn[:, : left.last] = start[:, None] + T
        sink[:, : left.last] = Y + start[:, None] * left.x - (sunk + start * left.bay.length)[:, None]
        reactions[:, 0] -= left.V_end
    if right:
        own = _moment(right, V_right, M_right)
        T, Y, _, _ = _slopes(own, right.h)
        M[:, right.first :] = own
        turn[:, right.first :] = last_slope[:, None] + T
        sink[:, right.first :] = Y + last_slope[:, None] * right.x
        reactions[:, -1] += V_right
    return Response(line, breaks, reactions, M, np.stack((sink, turn), axis=-1), spread.forces[:, -1])
