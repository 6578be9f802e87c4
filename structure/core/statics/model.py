"""A beam on its supports and the loads on it. Any consistent unit system."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from itertools import accumulate, pairwise
from typing import Literal

CASES = ("dead", "live", "roof_live", "snow", "construction")
Shape = Literal["uniform", "trapezoid", "point"]


@dataclass(frozen=True)
class BeamLine:
    """A continuous beam of constant stiffness: spans between supports, and what hangs over the ends.

    Positions run from the left end over everything. Raises ValueError for a span that is not
    positive or an overhang that is negative.
    """

    spans: tuple[float, ...]
    overhang_left: float = 0.0
    overhang_right: float = 0.0

    def __post_init__(self) -> None:
        if not self.spans or min(self.spans) <= 0:
            raise ValueError("every span must be more than zero")
        if min(self.overhang_left, self.overhang_right) < 0:
            raise ValueError("an overhang must be zero or more")

    @cached_property
    def supports(self) -> tuple[float, ...]:
        """Positions of the supports from the left end of the beam."""
        return tuple(accumulate(self.spans, initial=self.overhang_left))

    @cached_property
    def length(self) -> float:
        """From end to end, overhangs included."""
        return self.supports[-1] + self.overhang_right

    @cached_property
    def bays(self) -> tuple[Bay, ...]:
        """Overhangs and spans from left to right."""
        held = self.supports
        bays = [Bay("span", n, a, b) for n, (a, b) in enumerate(pairwise(held))]
        if self.overhang_left > 0:
            bays.insert(0, Bay("left", -1, 0.0, held[0]))
        if self.overhang_right > 0:
            bays.append(Bay("right", -1, held[-1], self.length))
        return tuple(bays)


@dataclass(frozen=True)
class Bay:
    """One span (with its number) or one overhang (`left`, `right`)."""

    kind: Literal["span", "left", "right"]
    number: int
    start: float
    end: float

    @property
    def length(self) -> float:
        return self.end - self.start


@dataclass(frozen=True)
class Load:
    """One load of one case. Down is positive, uplift negative; a point load has start == end."""

    case: str
    shape: Shape
    value: float
    start: float
    end: float
    end_value: float

    @classmethod
    def uniform(cls, case: str, w: float, start: float, end: float) -> Load:
        """A load per length of `w` from `start` to `end`."""
        return cls(case, "uniform", w, start, end, w)

    @classmethod
    def trapezoid(cls, case: str, w0: float, w1: float, start: float, end: float) -> Load:
        """A load per length that runs in a straight line from `w0` at `start` to `w1` at `end`."""
        return cls(case, "trapezoid", w0, start, end, w1)

    @classmethod
    def point(cls, case: str, P: float, at: float) -> Load:
        """A force at one place."""
        return cls(case, "point", P, at, at, P)

    @property
    def total(self) -> float:
        """The whole force."""
        if self.shape == "point":
            return self.value
        return (self.value + self.end_value) / 2 * (self.end - self.start)

    def clipped(self, start: float, end: float) -> Load | None:
        """The part of a spread load between two places; None where there is none.

        A point load is kept when it stands from `start` up to, not including, `end`.
        """
        if self.shape == "point":
            return self if start <= self.start < end else None
        a, b = max(start, self.start), min(end, self.end)
        if b <= a:
            return None
        slope = (self.end_value - self.value) / (self.end - self.start)
        first, last = (self.value + slope * (place - self.start) for place in (a, b))
        return Load(self.case, self.shape, first, a, b, last)
