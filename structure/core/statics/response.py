"""What a beam does under its loads, as arrays that add and scale."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import comb

import numpy as np
import numpy.typing as npt

from structure.core.statics import few
from structure.core.statics.model import BeamLine
from structure.core.statics.roots import monotone_roots, quadratic_roots

Array = npt.NDArray[np.float64]
FEW = 300  # rows times segments up to which plain floats are faster than arrays, as measured

# From the coefficients of a quintic over 0 to 1 to its control points in each quarter, between which it lies.
_CONTROL = np.array(
    [
        [
            sum(comb(k, j) * n ** (k - j) * comb(i, j) / comb(5, j) for j in range(min(i, k) + 1)) / 4**k
            for n in range(4)
            for i in range(6)
        ]
        for k in range(6)
    ]
)


@dataclass(frozen=True, slots=True)
class Extremes:
    """The least and the largest value and where each is; arrays by row where a response has rows."""

    min: Array
    at_min: Array
    max: Array
    at_max: Array

    @property
    def largest(self) -> Array:
        """The value that is largest without its sign, with its sign."""
        return np.where(-self.min > self.max, self.min, self.max)

    @property
    def at_largest(self) -> Array:
        return np.where(-self.min > self.max, self.at_min, self.at_max)


@dataclass(frozen=True, eq=False)
class Response:
    """The exact response of one beam to one set of loads, or to many (leading axis: rows).

    Down is positive for loads and deflection, up for reactions, sagging for moment. Deflection and slope
    are EI times themselves, so a response serves every section. Coefficients ascend in the distance from
    the start of each segment. `packed` holds everything side by side, so that rows add and scale in one step.
    """

    line: BeamLine
    breaks: Array
    packed: Array

    @classmethod
    def packed_rows(
        cls, line: BeamLine, breaks: Sequence[float], rows: Sequence[Sequence[float]]
    ) -> Response:
        """From rows of plain numbers in the order in which they are packed."""
        width = 6 * (len(breaks) - 1) + len(line.supports) + 1
        return cls(line, np.array(breaks), np.array(rows, dtype=np.float64).reshape(len(rows), width))

    @cached_property
    def moments(self) -> Array:
        """Moment coefficients (..., segments, 4)."""
        count = len(self.breaks) - 1
        return self.packed[..., : 4 * count].reshape(*self.packed.shape[:-1], count, 4)

    @cached_property
    def starts(self) -> Array:
        """EI times deflection and slope at the segment starts (..., segments, 2)."""
        count = len(self.breaks) - 1
        return self.packed[..., 4 * count : 6 * count].reshape(*self.packed.shape[:-1], count, 2)

    @property
    def reactions(self) -> Array:
        """Reactions (..., supports)."""
        return self.packed[..., 6 * (len(self.breaks) - 1) : -1]

    @property
    def tip(self) -> Array:
        """The force on the very end of the beam."""
        return np.asarray(self.packed[..., -1])

    def __getitem__(self, row: int | slice | npt.NDArray[np.generic]) -> Response:
        """One row, or some rows, of a response that has rows."""
        return Response(self.line, self.breaks, self.packed[row])

    def __len__(self) -> int:
        return int(self.packed.shape[0])

    def combined(self, factors: Array) -> Response:
        """Rows added up with `factors` (new rows by old rows); a flat list of factors gives one response."""
        return Response(self.line, self.breaks, factors @ self.packed)

    def __mul__(self, factor: float) -> Response:
        return Response(self.line, self.breaks, self.packed * factor)

    __rmul__ = __mul__

    def __add__(self, other: Response) -> Response:
        """Both load sets at once. Raises ValueError for another beam."""
        if self.line != other.line:
            raise ValueError("responses of different beams cannot be added")
        mine, theirs = self, other
        if not np.array_equal(self.breaks, other.breaks):
            both = _union(self.breaks, other.breaks, self.line.length)
            mine, theirs = self.refined(both), other.refined(both)
        return Response(self.line, mine.breaks, mine.packed + theirs.packed)

    def refined(self, places: Sequence[float] | Array) -> Response:
        """The same response with further breaks, so that it can be cut or added there."""
        breaks = _union(self.breaks, np.asarray(places, dtype=float), self.line.length)
        segment = np.clip(
            np.searchsorted(self.breaks, (breaks[:-1] + breaks[1:]) / 2) - 1, 0, len(self.breaks) - 2
        )
        t = breaks[:-1] - self.breaks[segment]
        M, Y = self.moments[..., segment, :], self.deflections[..., segment, :]
        moments = np.stack(
            (
                _value(M, t),
                _value(_derived(M), t),
                M[..., 2] + 3 * M[..., 3] * t,
                M[..., 3],
            ),
            axis=-1,
        )
        starts = np.stack((_value(Y, t), _value(_derived(Y), t)), axis=-1)
        flat = [each.reshape(*self.packed.shape[:-1], -1) for each in (moments, starts)]
        rest = self.packed[..., 6 * (len(self.breaks) - 1) :]
        return Response(self.line, breaks, np.concatenate((*flat, rest), axis=-1))

    def between(self, start: float, end: float) -> Response:
        """The part between two breaks alone: what `refined` leaves out is not copied along."""
        first, last = (int(np.abs(self.breaks - place).argmin()) for place in (start, end))
        shape, count = self.packed.shape[:-1], len(self.breaks) - 1
        parts = (self.moments[..., first:last, :], self.starts[..., first:last, :])
        packed = (*(part.reshape(*shape, -1) for part in parts), self.packed[..., 6 * count :])
        return Response(self.line, self.breaks[first : last + 1], np.concatenate(packed, axis=-1))

    @property
    def shears(self) -> Array:
        """Shear coefficients (..., segments, 3)."""
        return _derived(self.moments)

    @cached_property
    def deflections(self) -> Array:
        """Coefficients of EI times deflection (..., segments, 6)."""
        M = self.moments
        result: Array = np.concatenate((self.starts, -M / np.array([2.0, 6.0, 12.0, 20.0])), axis=-1)
        return result

    @property
    def lengths(self) -> Array:
        """Lengths of the segments."""
        result: Array = np.diff(self.breaks)
        return result

    def shear(self, x: float, side: str = "right") -> Array:
        """Shear at `x`; where it jumps, the value just right or just left (`side`) of the place."""
        return self._at(self.shears, x, side)

    def moment(self, x: float) -> Array:
        """Moment at `x`, sagging positive."""
        return self._at(self.moments, x)

    def deflection(self, x: float) -> Array:
        """EI times deflection at `x`, down positive."""
        return self._at(self.deflections, x)

    def slope(self, x: float) -> Array:
        """EI times slope at `x`, positive where the beam goes down to the right."""
        return self._at(_derived(self.deflections), x)

    def _at(self, coefficients: Array, x: float, side: str = "right") -> Array:
        which = np.searchsorted(self.breaks, x, side="left" if side == "left" else "right") - 1
        segment = int(np.clip(which, 0, len(self.breaks) - 2))
        return _value(coefficients[..., segment, :], x - float(self.breaks[segment]))

    def shear_extremes(self, start: float | None = None, end: float | None = None) -> Extremes:
        """Least and largest shear, jumps at point loads and supports included."""
        held, part = self._window(start, end)
        if held._few(part):
            return held._each(part, few.shear_extremes)
        return held._extremes(held.shears, held._shear_turns, part)

    def moment_extremes(self, start: float | None = None, end: float | None = None) -> Extremes:
        """Least and largest moment (signed) and where."""
        held, part = self._window(start, end)
        if held._few(part):
            return held._each(part, few.moment_extremes)
        return held._extremes(held.moments, held._shear_zeros, part)

    def deflection_extremes(self, start: float | None = None, end: float | None = None) -> Extremes:
        """Least and largest EI times deflection and where."""
        held, part = self._window(start, end)
        if held._few(part):
            return held._each(part, few.deflection_extremes, starts=True)
        return held._extremes(held.deflections, held._slope_zeros, part)

    def deflection_by_bay(self) -> tuple[Extremes, ...]:
        """Deflection extremes of each overhang and span from left to right (see `BeamLine.bays`)."""
        return tuple(self.deflection_extremes(bay.start, bay.end) for bay in self.line.bays)

    def deflection_bounds(self) -> Array:
        """What EI times deflection does not exceed in each bay without its sign, (..., bays): its control points."""
        points = np.abs((self.deflections * self.lengths[:, None] ** np.arange(6.0)) @ _CONTROL)
        starts = [self._places.index(bay.start) for bay in self.line.bays]
        bounds: Array = np.maximum.reduceat(points.max(axis=-1), starts, axis=-1)
        return bounds

    def contraflexures(self) -> tuple[float, ...]:
        """Places where the moment of a single response changes its sign."""
        scale = float(np.abs(self.moments[..., 0]).max(initial=0.0))
        found: list[float] = []
        places = self.breaks[:-1, None] + self._moment_zeros
        step = 1e-6 * self.line.length
        for place in np.unique(places):
            before, after = (
                self.moment(max(0.0, place - step)),
                self.moment(min(self.line.length, place + step)),
            )
            turns = before * after < 0 and abs(before - after) > 1e-12 * scale
            if turns and (not found or place - found[-1] > step):
                found.append(float(place))
        return tuple(found)

    @cached_property
    def _shear_turns(self) -> Array:
        """Where the shear of a segment turns, under load that changes along it."""
        V = self.shears
        with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
            turn = np.where(V[..., 2] != 0, -V[..., 1] / (2 * V[..., 2]), 0.0)
        return np.asarray(np.clip(turn, 0.0, self.lengths)[..., None])

    @cached_property
    def _shear_zeros(self) -> Array:
        return quadratic_roots(self.shears, self.lengths)

    @cached_property
    def _moment_zeros(self) -> Array:
        return monotone_roots(self.moments, self._shear_zeros, self.lengths)

    @cached_property
    def _slope_zeros(self) -> Array:
        return monotone_roots(_derived(self.deflections), self._moment_zeros, self.lengths)

    def _window(self, start: float | None, end: float | None) -> tuple[Response, slice]:
        """The segments between two places; what is known of the beam is kept where no new break is needed."""
        a = 0.0 if start is None else start
        b = self.line.length if end is None else end
        places = self._places
        if a in places and b in places:
            return self, slice(places.index(a), places.index(b))
        held = self.refined([a, b])
        # A place closer to a break than the slack is that break.
        first, last = (int(np.abs(held.breaks - place).argmin()) for place in (a, b))
        return held, slice(first, max(last, first + 1))

    @cached_property
    def _places(self) -> list[float]:
        """The breaks as plain numbers."""
        held: list[float] = self.breaks.tolist()
        return held

    def _few(self, part: slice) -> bool:
        """Whether plain floats are faster than arrays for these segments of all rows."""
        rows = int(self.packed.size) // int(self.packed.shape[-1])
        return bool(rows * (part.stop - part.start) <= FEW)

    def _each(self, part: slice, find: Callable[..., few.Found], *, starts: bool = False) -> Extremes:
        """Extremes row by row in plain floats."""
        x = self._places[part.start : part.stop + 1]
        M = self.moments[..., part, :].reshape(-1, len(x) - 1, 4).tolist()
        if starts:
            Y = self.starts[..., part, :].reshape(-1, len(x) - 1, 2).tolist()
            found = [find(row, start, x) for row, start in zip(M, Y, strict=True)]
        else:
            found = [find(row, x) for row in M]
        columns = np.array(found).T.reshape(4, *self.packed.shape[:-1])
        return Extremes(*columns)

    def _extremes(self, coefficients: Array, inner: Array, part: slice) -> Extremes:
        """Extremes over segment ends and the places `inner` (distances from the segment starts)."""
        inner = inner[..., part, :]
        h = np.broadcast_to(self.lengths[part, None], (*inner.shape[:-1], 1))
        t = np.concatenate((np.zeros_like(h), inner, h), axis=-1)
        values = _value(coefficients[..., part, None, :], t)
        # a + (b - a) need not be b, and the two sides of b differ in shear: an end is its breakpoint to the last bit.
        first, last = self.breaks[:-1][part, None], self.breaks[1:][part, None]
        places = np.where(t >= h, last, np.minimum(first + t, last))
        flat = values.reshape(*values.shape[:-2], -1)
        where = places.reshape(flat.shape)
        low, high = flat.argmin(axis=-1)[..., None], flat.argmax(axis=-1)[..., None]

        def pick(source: Array, index: npt.NDArray[np.intp]) -> Array:
            taken: Array = np.take_along_axis(source, index, axis=-1)[..., 0]
            return taken

        return Extremes(pick(flat, low), pick(where, low), pick(flat, high), pick(where, high))


def _value(coefficients: Array, t: Array | float) -> Array:
    """Polynomials (last axis ascending) at `t`."""
    result: Array = coefficients[..., -1]
    for power in range(coefficients.shape[-1] - 2, -1, -1):
        result = result * t + coefficients[..., power]
    return np.asarray(result, dtype=np.float64)


def _derived(coefficients: Array) -> Array:
    """Coefficients of the derivative."""
    result: Array = coefficients[..., 1:] * np.arange(1.0, coefficients.shape[-1])
    return result


def _union(breaks: Array, places: Array, length: float) -> Array:
    """Breaks with further places, none closer than the slack to another; held breaks win."""
    slack = 1e-9 * length
    far = [p for p in places.tolist() if np.abs(breaks - p).min() > slack]
    return np.unique(np.concatenate((breaks, far)))
