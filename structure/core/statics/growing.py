"""Sums in which one load grows, such as the self weight from the lightest section to the heaviest.

Between the least and the largest every response is a straight line in that load, so the largest value of a
sum anywhere in a part of the beam is convex: it lies below the chord between both ends. That rules out
most sums. Of the others the place of the extreme is followed from one end to the other where it can be
shown that no other place comes into question; where it cannot, all places are searched for every load.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from structure.core.statics import few
from structure.core.statics.model import Bay
from structure.core.statics.response import Extremes, Response

Array = npt.NDArray[np.float64]
Whole = npt.NDArray[np.intp]
Find = Callable[[Response, float, float], Extremes]
AT_ONCE = 400_000  # segments held at once while all places are searched
STEPS = 3  # at most, of Newton's method from a straight line between both ends
EVEN = 1e-13  # a chord no further over the best is as good as it
EXACT = 1e-14  # of a value: what an unfinished step may still change it by


class Entry(NamedTuple):
    """One extreme of one bay and row, at the least and at the largest load, and where.

    Values are above nothing: `sign` is what they were multiplied with, 0 where it differs between the ends.
    `scale` makes them comparable with those of other rows and bays.
    """

    bay: int
    row: int
    low: float
    high: float
    at_low: float
    at_high: float
    sign: float
    scale: float


def entries(
    extremes: Sequence[Extremes],
    rows: int,
    sign: float,
    by_bay: Sequence[float],
    by_row: Sequence[float],
    grows: bool = True,
) -> list[Entry]:
    """Entries of all bays and rows that are not nothing.

    The first rows of the extremes are the least load, the next ones the largest; with `grows` false both are
    the first. A sign of 0 takes the larger of both without its sign. `by_bay`, `by_row`: the scale.
    """
    found = []
    for bay, each in enumerate(extremes):
        signs = (sign,) if sign else (1.0, -1.0)
        columns = [
            (each.max.tolist(), each.at_max.tolist())
            if one > 0
            else ((-each.min).tolist(), each.at_min.tolist())
            for one in signs
        ]
        for row in range(rows):
            other = rows + row if grows else row
            n = m = 0
            if not sign:
                n = int(columns[1][0][row] > columns[0][0][row])
                m = int(columns[1][0][other] > columns[0][0][other])
            low, high = columns[n][0][row], columns[m][0][other]
            if low > 0 or high > 0:
                places = columns[n][1][row], columns[m][1][other]
                one = signs[n] if n == m else 0.0
                found.append(Entry(bay, row, low, high, *places, one, by_bay[bay] * by_row[row]))
    return found


@dataclass(frozen=True, eq=False)
class Growing:
    """Rows at the least and at the largest load, and the loads between as shares (0 to 1) of the way.

    `pressing` says that no load of any row pulls up, so that the moment is concave in every bay.
    """

    low: Response
    high: Response
    shares: Array
    pressing: bool = False

    def there(self, entry: Entry, *, deflection: bool = False) -> float:
        """The value at the largest load in the place of an extreme at the least: it is never below that line."""
        n = min(bisect_right(self._breaks, entry.at_low), len(self._breaks) - 1) - 1
        a, b, c, d = self.high.moments[entry.row, n].tolist()
        t = entry.at_low - self._breaks[n]
        if not deflection:
            return float(entry.sign * (a + t * (b + t * (c + t * d))))
        y, slope = self.high.starts[entry.row, n].tolist()
        return float(entry.sign * (y + t * (slope - t * (a / 2 + t * (b / 6 + t * (c / 12 + t * d / 20))))))

    def moment(self, entry: Entry) -> Array:
        """The largest moment of one sign at every share."""
        if entry.at_low == entry.at_high:
            return self._chord(entry)
        found = self._top(entry) if self.pressing and entry.sign > 0 else None
        return self._searched(entry, Response.moment_extremes) if found is None else found

    def shear(self, entry: Entry) -> Array:
        """The largest shear without its sign at every share."""
        if self.pressing and entry.sign and entry.at_low == entry.at_high:
            return self._chord(entry)
        return self._searched(entry, Response.shear_extremes)

    def deflection(self, entry: Entry) -> Array:
        """The largest EI times deflection without its sign at every share."""
        if entry.sign and entry.at_low == entry.at_high:
            return self._chord(entry)
        found = self._hump(entry) if entry.sign else None
        return self._searched(entry, Response.deflection_extremes) if found is None else found

    def _chord(self, entry: Entry) -> Array:
        """Where both ends have their extreme at one place: never above the chord, and there on it."""
        return entry.low + (entry.high - entry.low) * self.shares

    def _segment(self, entry: Entry) -> int | None:
        """The segment that holds both places, or None."""
        first, last = sorted((entry.at_low, entry.at_high))
        n = bisect_right(self._breaks, first) - 1
        return n if n + 1 < len(self._breaks) and last <= self._breaks[n + 1] else None

    @cached_property
    def _breaks(self) -> list[float]:
        held: list[float] = self.low.breaks.tolist()
        return held

    def _grown(self, low: Array, high: Array) -> Array:
        """Numbers of one row at every share, (numbers, shares)."""
        grown: Array = low[:, None] + (high - low)[:, None] * self.shares
        return grown

    def _places(self, entry: Entry, n: int) -> tuple[Array, float, float]:
        """Places in a segment in a straight line from one end to the other, and the bounds of all of them."""
        low, high = entry.at_low - self._breaks[n], entry.at_high - self._breaks[n]
        return low + (high - low) * self.shares, min(low, high), max(low, high)

    def _top(self, entry: Entry) -> Array | None:
        """The top of a concave moment; it lies between those of both ends. None if not in one segment."""
        n = self._segment(entry)
        if n is None:
            return None
        a, b, c, d = self._grown(self.low.moments[entry.row, n], self.high.moments[entry.row, n])
        t, least, most = self._places(entry, n)
        if not d.any():
            # Under an even load the shear is a straight line with its root at hand.
            if float(c.max()) >= 0:
                return None
            t = np.clip(b / (-2 * c), least, most)
            even: Array = a + t * (b + t * c)
            return even
        if np.any(c + 3 * d * least >= 0) or np.any(c + 3 * d * most >= 0):
            return None
        for _ in range(STEPS):
            t = np.clip(t - (b + t * (2 * c + t * 3 * d)) / (2 * c + t * 6 * d), least, most)
        shear = b + t * (2 * c + t * 3 * d)
        value: Array = a + t * (b + t * (c + t * d))
        done = shear * shear <= EXACT * np.abs(4 * (c + 3 * d * t) * value)
        return value if np.all(done) else None

    def _hump(self, entry: Entry) -> Array | None:
        """The top of a deflection followed from one end to the other; None where that is not proved.

        Between two points of no moment the deflection is concave at every share if it is at both ends, and
        its top lies between those of both ends. Everywhere else it stays below the chord.
        """
        n = self._segment(entry)
        if n is None:
            return None
        bay = self.low.line.bays[entry.bay]
        first, last = self._breaks.index(bay.start), self._breaks.index(bay.end)
        x = self._breaks[first : last + 1]
        left, right, parts = bay.start, bay.end, []
        for response, at in ((self.low, entry.at_low), (self.high, entry.at_high)):
            M: list[list[float]] = response.moments[entry.row, first:last].tolist()
            parts.append((M, response.starts[entry.row, first:last].tolist()))
            if entry.sign * few.moment_at(M, x, at) <= 0:
                return None
            zeros = few.moment_zeros(M, x)
            left = max((left, *(place for place in zeros if place <= at)))
            right = min((right, *(place for place in zeros if place > at)))
        if not left < min(entry.at_low, entry.at_high) <= max(entry.at_low, entry.at_high) < right:
            return None
        found = self._followed(entry, n)
        if found is None or (left == bay.start and right == bay.end and entry.bay in self._spans):
            return found  # between two supports all of the beam is concave, and nothing is outside
        low, high = (
            max(
                entry.sign * value
                for place, value in (
                    *few.deflection_turns(M, starts, x),
                    *((place, few.deflection_at(M, starts, x, place)) for place in (left, right)),
                )
                if not left < place < right
            )
            for M, starts in parts
        )
        return None if np.any(low + (high - low) * self.shares > found) else found

    @cached_property
    def _spans(self) -> set[int]:
        return {n for n, bay in enumerate(self.low.line.bays) if bay.kind == "span"}

    def _followed(self, entry: Entry, n: int) -> Array | None:
        """The deflection where its slope is nothing; None where the steps do not come to an end."""
        a, b, c, d = self._grown(self.low.moments[entry.row, n], self.high.moments[entry.row, n])
        y, slope = self._grown(self.low.starts[entry.row, n], self.high.starts[entry.row, n])
        t, least, most = self._places(entry, n)
        b2, c3, d4 = b / 2, c / 3, d / 4
        enough = EXACT * min(entry.low, entry.high)
        for _ in range(STEPS + 1):
            moment = a + t * (b + t * (c + t * d))
            rest = slope - t * (a + t * (b2 + t * (c3 + t * d4)))
            if np.all(rest * rest <= enough * np.abs(moment)):
                value: Array = y + t * (slope - t * (a / 2 + t * (b / 6 + t * (c / 12 + t * d / 20))))
                return value * entry.sign
            t = np.clip(t + rest / moment, least, most)
        return None

    def _searched(self, entry: Entry, find: Find) -> Array:
        """All places of the bay searched at every share; with the sign 0 the larger of both signs."""
        extremes = self.extremes(np.array([entry.row]), self.low.line.bays[entry.bay], find)
        up, down = extremes.max[0], -extremes.min[0]
        found: Array = np.maximum(up, down) if not entry.sign else up if entry.sign > 0 else down
        return found

    def extremes(self, rows: Whole, bay: Bay, find: Find) -> Extremes:
        """Extremes of the chosen rows in one bay at every share, (rows, shares)."""
        part, grown = self._parts[bay]
        step = max(1, AT_ONCE // (len(self.shares) * (len(part.breaks) - 1)))
        found = []
        for n in range(0, len(rows), step):
            some = rows[n : n + step]
            packed = part.packed[some][:, None, :] + grown[some][:, None, :] * self.shares[:, None]
            found.append(find(Response(part.line, part.breaks, packed), bay.start, bay.end))
        names = ("min", "at_min", "max", "at_max")
        return Extremes(*(np.concatenate([getattr(each, name) for each in found]) for name in names))

    @cached_property
    def _parts(self) -> dict[Bay, tuple[Response, Array]]:
        found = {}
        for bay in self.low.line.bays:
            part = self.low.between(bay.start, bay.end)
            found[bay] = part, self.high.between(bay.start, bay.end).packed - part.packed
        return found

    def response(self, rows: Whole) -> Response:
        """The chosen rows at every share, (rows, shares), along the whole beam."""
        grown = (self.high.packed[rows] - self.low.packed[rows])[:, None, :] * self.shares[:, None]
        return Response(self.low.line, self.low.breaks, self.low.packed[rows][:, None, :] + grown)


def governing(
    held: Sequence[Entry], shares: Array, exact: Callable[[Entry], Array]
) -> tuple[Array, npt.NDArray[np.intp]]:
    """The largest of all entries, each times its scale, at every share, and the number of the one that it is."""
    first = max(range(len(held)), key=lambda n: held[n].low * held[n].scale)
    last = max(range(len(held)), key=lambda n: held[n].high * held[n].scale)
    best = exact(held[first]) * held[first].scale
    which = np.full(len(shares), first, dtype=np.intp)
    least = float(best.min())
    order = [last, *range(len(held))]
    for n in order:
        each = held[n]
        if n == first or max(each.low, each.high) * each.scale <= least:
            continue
        chord = (each.low + (each.high - each.low) * shares) * each.scale
        if np.any(chord > best * (1 + EVEN)):
            values = exact(each) * each.scale
            which[values > best] = n
            best = np.maximum(values, best)
    return best, which
