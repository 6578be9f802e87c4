"""Extremes of a handful of rows in plain floats, where array calls would cost more than the arithmetic.

The same pieces and roots as `Response` takes over arrays. Rows are lists of segments, a segment the four
ascending coefficients of its moment (and for deflection its two starts); `x` are the breaks, one more
than there are segments. Each answer is (least, place, largest, place).
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence

Segment = Sequence[float]
Found = tuple[float, float, float, float]
LEVEL = 1e-14  # of its segment's moments: below it a moment over a support is rounding, not a turn
CLOSE = 1e-10  # of a segment: the next step of Newton's method is then below the last bit
MOST_STEPS = 80


def moment_extremes(row: Sequence[Segment], x: Sequence[float]) -> Found:
    """Least and largest moment of one row."""
    low = high = row[0][0]
    at_low = at_high = x[0]
    for i, (a, b, c, d) in enumerate(row):
        if a > high:
            high, at_high = a, x[i]
        elif a < low:
            low, at_low = a, x[i]
        for t in _turns(b, c, d, x[i + 1] - x[i]):
            value = a + t * (b + t * (c + t * d))
            if value > high:
                high, at_high = value, min(x[i] + t, x[i + 1])
            elif value < low:
                low, at_low = value, min(x[i] + t, x[i + 1])
    h = x[-1] - x[-2]
    value = a + h * (b + h * (c + h * d))
    if value > high:
        high, at_high = value, x[-1]
    elif value < low:
        low, at_low = value, x[-1]
    return low, at_low, high, at_high


def shear_extremes(row: Sequence[Segment], x: Sequence[float]) -> Found:
    """Least and largest shear of one row, both sides of each jump."""
    low = high = row[0][1]
    at_low = at_high = x[0]
    for i, (_, b, c, d) in enumerate(row):
        h = x[i + 1] - x[i]
        if b > high:
            high, at_high = b, x[i]
        elif b < low:
            low, at_low = b, x[i]
        if d:
            t = -c / (3 * d)
            if 0 < t < h:
                value = b + t * (2 * c + t * 3 * d)
                if value > high:
                    high, at_high = value, min(x[i] + t, x[i + 1])
                elif value < low:
                    low, at_low = value, min(x[i] + t, x[i + 1])
        value = b + h * (2 * c + h * 3 * d)
        if value > high:
            high, at_high = value, x[i + 1]
        elif value < low:
            low, at_low = value, x[i + 1]
    return low, at_low, high, at_high


def deflection_extremes(row: Sequence[Segment], starts: Sequence[Segment], x: Sequence[float]) -> Found:
    """Least and largest EI times deflection of one row."""
    low = high = starts[0][0]
    at_low = at_high = x[0]
    for place, value in deflection_turns(row, starts, x):
        if value > high:
            high, at_high = value, place
        elif value < low:
            low, at_low = value, place
    return low, at_low, high, at_high


def deflection_turns(
    row: Sequence[Segment], starts: Sequence[Segment], x: Sequence[float]
) -> Iterator[tuple[float, float]]:
    """Breaks and places where the slope is nothing, from left to right, with EI times deflection there.

    The slope has at most one root where the moment keeps its sign, so each segment is cut where it does not.
    """
    for i, (a, b, c, d) in enumerate(row):
        h = x[i + 1] - x[i]
        y, slope = starts[i]
        yield x[i], y
        b2, c3, d4 = b / 2, c / 3, d / 4
        end = slope - h * (a + h * (b2 + h * (c3 + h * d4)))
        last = a + h * (b + h * (c + h * d))
        level = LEVEL * (abs(a) + abs(b * h) + abs(c * h * h) + abs(d * h * h * h))
        turns = _turns(b, c, d, h)
        values = (a, last, *[a + t * (b + t * (c + t * d)) for t in turns]) if turns else (a, last)
        if min(values) >= -level or max(values) <= level:
            if slope * end >= 0:
                continue
            roots: Sequence[float] = (_root(slope, a, b, c, d, 0.0, h, slope, end),)
        else:
            roots = tuple(_slope_roots(slope, (a, b, c, d), turns, h))
        for t in roots:
            yield (
                min(x[i] + t, x[i + 1]),
                y + t * (slope - t * (a / 2 + t * (b / 6 + t * (c / 12 + t * d / 20)))),
            )
    yield x[-1], y + h * (slope - h * (a / 2 + h * (b / 6 + h * (c / 12 + h * d / 20))))


def moment_zeros(row: Sequence[Segment], x: Sequence[float]) -> list[float]:
    """Places where the moment of one row changes its sign."""
    found = []
    for i, (a, b, c, d) in enumerate(row):
        h = x[i + 1] - x[i]
        found += [x[i] + t for t in _moment_roots((a, b, c, d), _turns(b, c, d, h), h)]
    return found


def moment_at(row: Sequence[Segment], x: Sequence[float], place: float) -> float:
    """The moment of one row at one place."""
    i = min(bisect_right(x, place) - 1, len(row) - 1)
    (a, b, c, d), t = row[i], place - x[i]
    return a + t * (b + t * (c + t * d))


def deflection_at(
    row: Sequence[Segment], starts: Sequence[Segment], x: Sequence[float], place: float
) -> float:
    """EI times deflection of one row at one place."""
    i = min(bisect_right(x, place) - 1, len(row) - 1)
    (a, b, c, d), (y, slope), t = row[i], starts[i], place - x[i]
    return y + t * (slope - t * (a / 2 + t * (b / 6 + t * (c / 12 + t * d / 20))))


def _turns(b: float, c: float, d: float, h: float) -> Sequence[float]:
    """Where the shear b + 2 c t + 3 d t^2 is zero inside a segment, ascending."""
    if not d:
        # A straight line has a root inside where its ends differ in sign.
        return (-b / (2 * c),) if b * (b + 2 * c * h) < 0 else ()
    inside = c * c - 3 * d * b
    if inside <= 0:
        return ()
    q = -(c + (inside**0.5 if c >= 0 else -(inside**0.5)))
    roots = (q / (3 * d), b / q if q else 0.0)
    return sorted(t for t in roots if 0 < t < h)


def _moment_roots(M: Segment, turns: Sequence[float], h: float) -> list[float]:
    """The roots of the moment inside a segment; between its turns it is monotone."""
    a, b, c, d = M
    ends = (0.0, *turns, h)
    values = [a + t * (b + t * (c + t * d)) for t in ends]
    return [
        _root(a, -b, -2 * c, -3 * d, 0.0, ends[k], ends[k + 1], values[k], values[k + 1])
        for k in range(len(ends) - 1)
        if values[k] * values[k + 1] < 0
    ]


def _slope_roots(slope: float, M: Segment, turns: Sequence[float], h: float) -> Iterator[float]:
    """The roots of the slope where the moment changes its sign inside the segment."""
    a, b, c, d = M
    cuts = (0.0, *_moment_roots(M, turns, h), h)
    at = [slope - t * (a + t * (b / 2 + t * (c / 3 + t * d / 4))) for t in cuts]
    for k in range(len(cuts) - 1):
        if at[k] * at[k + 1] < 0:
            yield _root(slope, a, b, c, d, cuts[k], cuts[k + 1], at[k], at[k + 1])


def _root(
    f: float, a: float, b: float, c: float, d: float, low: float, high: float, at_low: float, at_high: float
) -> float:
    """The root in a bracket of f - (a t + b t^2/2 + c t^3/3 + d t^4/4), where it is monotone.

    Newton steps, halving the bracket whenever they would leave it.
    """
    b2, c3, d4 = b / 2, c / 3, d / 4
    close = CLOSE * (high - low)
    t = low + (high - low) * at_low / (at_low - at_high)
    for _ in range(MOST_STEPS):
        value = f - t * (a + t * (b2 + t * (c3 + t * d4)))
        if value * at_low > 0:
            low = t
        else:
            high = t
        grade = a + t * (b + t * (c + t * d))
        following = t + value / grade if grade else low - 1.0
        if not low <= following <= high:
            following = (low + high) / 2
        if abs(following - t) <= close:
            return following
        t = following
    return t
