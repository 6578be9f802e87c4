"""Continuous beams solved exactly: piecewise polynomials between load points, three moments at supports.

For a beam of constant stiffness the shear is a quadratic, the moment a cubic and the deflection a
quintic in each segment between neighbouring breaks (supports, load ends, point loads). Nothing is
meshed. Written for plain floats: a beam has tens of segments and a handful of load sets, and for so
few numbers the call of an array function costs more than the arithmetic in it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from structure.core.statics.model import BeamLine, Load
from structure.core.statics.response import Response


def analyse(line: BeamLine, loads: Sequence[Load]) -> Response:
    """The exact response of the beam to all the loads together.

    Raises ValueError for a load off the beam.
    """
    return analyse_sets(line, [loads])[0]


def analyse_sets(line: BeamLine, sets: Sequence[Sequence[Load]]) -> Response:
    """One response with a row for each set of loads, all on the same breaks.

    Raises ValueError for a load off the beam.
    """
    breaks, index = _breaks(line, sets)
    frame = _framed(line, breaks, index)
    rows = [_solved(frame, _spread(index, breaks, loads)) for loads in sets]
    return Response.packed_rows(line, breaks, rows)


@dataclass(slots=True)
class _Spread:
    """Loads on the segments: intensity at the segment start, its slope, and forces at the breaks."""

    w: list[float]
    slope: list[float]
    forces: list[float]


@dataclass(slots=True)
class _Frame:
    """What the load sets share: the segments of each bay and the factored equations of three moments.

    `supports`: numbers of the breaks at supports; `h`: segment lengths; `x`: distance of each segment from
    the start of its bay; `reduced` and `pivots`: the equations at inner supports after elimination.
    """

    spans: tuple[float, ...]
    overhangs: tuple[float, float]
    supports: list[int]
    h: list[float]
    x: list[float]
    reduced: list[float]
    pivots: list[float]


def _breaks(line: BeamLine, sets: Sequence[Sequence[Load]]) -> tuple[list[float], dict[float, int]]:
    """All breaks, and the number of the break for every place of a load."""
    slack = 1e-9 * line.length
    fixed = {0.0, *line.supports, line.length}
    places = {place for loads in sets for load in loads for place in (load.start, load.end)}
    if places and (min(places) < -slack or max(places) > line.length + slack):
        raise ValueError("a load is off the beam")
    breaks: list[float] = []
    index: dict[float, int] = {}
    for place in sorted(fixed | places):
        # A place closer than the slack to another is that one; ends and supports stay where they are.
        if not breaks or place - breaks[-1] > slack:
            breaks.append(place)
        elif place in fixed:
            breaks[-1] = place
        index[place] = len(breaks) - 1
    return breaks, index


def _framed(line: BeamLine, breaks: list[float], index: dict[float, int]) -> _Frame:
    L = line.spans
    reduced: list[float] = []
    pivots: list[float] = []
    for k in range(len(L) - 1):
        pivot = (L[k] + L[k + 1]) / 3
        if k:
            pivot -= L[k] / 6 * reduced[-1]
        pivots.append(pivot)
        reduced.append(L[k + 1] / 6 / pivot)
    starts = [0.0, *line.supports]
    x, bay = [], 0
    for place in breaks[:-1]:
        while bay + 1 < len(starts) and place >= starts[bay + 1]:
            bay += 1
        x.append(place - starts[bay])
    return _Frame(
        L,
        (line.overhang_left, line.overhang_right),
        [index[place] for place in line.supports],
        [b - a for a, b in pairwise(breaks)],
        x,
        reduced,
        pivots,
    )


def _spread(index: dict[float, int], breaks: list[float], loads: Sequence[Load]) -> _Spread:
    segments = len(breaks) - 1
    w, slope, forces = [0.0] * segments, [0.0] * segments, [0.0] * (segments + 1)
    for load in loads:
        first, value, start = index[load.start], load.value, load.start
        if load.shape == "point":
            forces[first] += value
            continue
        last = index[load.end]
        if load.end_value == value:
            for i in range(first, last):
                w[i] += value
        elif last > first:
            grade = (load.end_value - value) / (load.end - start)
            for i in range(first, last):
                w[i] += value + grade * (breaks[i] - start)
                slope[i] += grade
    return _Spread(w, slope, forces)


@dataclass(slots=True)
class _Line:
    """Along the beam, a number for each segment start."""

    V: list[float]
    M: list[float]
    turn: list[float]
    sink: list[float]


def _solved(frame: _Frame, spread: _Spread) -> list[float]:
    """Everything about one load set, in the order in which `Response` packs it."""
    h, held, x = frame.h, frame.supports, frame.x
    line = _Line(*([0.0] * len(h) for _ in range(4)))
    V, M, turn, sink = line.V, line.M, line.turn, line.sink
    left, right = frame.overhangs
    before, after = range(held[0]), range(held[-1], len(h))
    reactions = [spread.forces[n] for n in held]

    # Overhangs carry their loads alone.
    M_left = M_right = 0.0
    if left:
        V_end, M_left = _carried(before, frame, spread, line, first=True)
        reactions[0] -= V_end
    if right:
        V_end, M_end = _carried(after, frame, spread, line)
        V_start = spread.forces[-1] - V_end
        M_right = -(M_end + V_start * right)
        reactions[-1] += V_start
        for i in after:
            M[i] += M_right + V_start * x[i]
            V[i] += V_start

    # Each span as a simple one: its end shears, and the slopes over its supports.
    slopes = []
    for n, L in enumerate(frame.spans):
        part = range(held[n], held[n + 1])
        if not _loaded(part, spread):
            slopes.append((0.0, 0.0))
            continue
        V_end, M_end = _carried(part, frame, spread, line)
        V_start = -M_end / L
        reactions[n] += V_start
        reactions[n + 1] -= V_start + V_end
        for i in part:
            M[i] += V_start * x[i]
            V[i] += V_start
        turned, sunk = _bent(part, frame, spread, line)
        slopes.append((-sunk / L, turned - sunk / L))

    # What the moments over the supports add to the spans, and then the overhangs follow their slopes.
    over = _over_supports(frame, slopes, M_left, M_right)
    for n, L in enumerate(frame.spans):
        a, grade = over[n], (over[n + 1] - over[n]) / L
        start = slopes[n][0] + L * (a / 3 + over[n + 1] / 6)
        reactions[n] += grade
        reactions[n + 1] -= grade
        for i in range(held[n], held[n + 1]):
            at = x[i]
            M[i] += a + grade * at
            V[i] += grade
            turn[i] += start - at * (a + grade * at / 2)
            sink[i] += at * (start - at * (a / 2 + grade * at / 6))
    if left:
        turned, sunk = _bent(before, frame, spread, line)
        start = slopes[0][0] + frame.spans[0] * (over[0] / 3 + over[1] / 6) - turned
        for i in before:
            turn[i] += start
            sink[i] += start * x[i] - (sunk + start * left)
    if right:
        _bent(after, frame, spread, line)
        start = slopes[-1][1] - frame.spans[-1] * (over[-2] / 6 + over[-1] / 3)
        for i in after:
            turn[i] += start
            sink[i] += start * x[i]
    packed: list[float] = []
    for i in range(len(h)):
        packed += (M[i], V[i], spread.w[i] / -2, spread.slope[i] / -6)
    for i in range(len(h)):
        packed += (sink[i], turn[i])
    return packed + reactions + [spread.forces[-1]]


def _loaded(part: range, spread: _Spread) -> bool:
    a, b = part.start, part.stop
    return any(spread.w[a:b]) or any(spread.slope[a:b]) or any(spread.forces[a:b])


def _carried(
    part: range, frame: _Frame, spread: _Spread, line: _Line, *, first: bool = False
) -> tuple[float, float]:
    """Shear and moment along a bay from its own loads with nothing holding it up; those at its end.

    A force on the support where the bay starts goes straight into it, unless it is the `first` place of all.
    """
    h, w, slope, forces, V, M = frame.h, spread.w, spread.slope, spread.forces, line.V, line.M
    shear = moment = 0.0
    for i in part:
        if first or i > part.start:
            shear -= forces[i]
        V[i], M[i] = shear, moment
        step, load, grade = h[i], w[i], slope[i]
        moment += step * (shear - step * (load / 2 + step * grade / 6))
        shear -= step * (load + step * grade / 2)
    return shear, moment


def _bent(part: range, frame: _Frame, spread: _Spread, line: _Line) -> tuple[float, float]:
    """Slope and deflection along a bay that starts level at zero; those at its end.

    Stiffness is left out: all are EI times themselves. Down is positive, so the slope falls with sagging.
    """
    h, w, slope, V, M, turn, sink = frame.h, spread.w, spread.slope, line.V, line.M, line.turn, line.sink
    turned = sunk = 0.0
    for i in part:
        turn[i], sink[i] = turned, sunk
        step, a, b, c, d = h[i], M[i], V[i], w[i] / -2, slope[i] / -6
        sunk += step * (turned - step * (a / 2 + step * (b / 6 + step * (c / 12 + step * d / 20))))
        turned -= step * (a + step * (b / 2 + step * (c / 3 + step * d / 4)))
    return turned, sunk


def _over_supports(
    frame: _Frame, ends: list[tuple[float, float]], M_left: float, M_right: float
) -> list[float]:
    """Moments over all supports: the slopes of neighbouring spans meet over the support between them."""
    L, count = frame.spans, len(frame.pivots)
    known = [ends[k][1] - ends[k + 1][0] for k in range(count)]
    if count:
        known[0] -= M_left * L[0] / 6
        known[-1] -= M_right * L[-1] / 6
    for k in range(count):
        if k:
            known[k] -= L[k] / 6 * known[k - 1]
        known[k] /= frame.pivots[k]
    for k in range(count - 2, -1, -1):
        known[k] -= frame.reduced[k] * known[k + 1]
    return [M_left, *known, M_right]
