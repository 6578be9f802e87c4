"""What lies where along a wall line: points, pieces of constant load, and what a beam takes of them."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from structure.core.statics.model import Load
from structure.core.units import quantity


@dataclass(frozen=True, slots=True)
class Point:
    """A concentrated load that keeps its case, value [lbf] and place along the wall line [in]."""

    case: str
    value: float
    at: float
    level: str = ""

    def as_data(self, code: str = "us") -> dict[str, Any]:
        return {
            "case": self.case,
            "value": quantity(self.value, "force", code),
            "at": quantity(self.at, "length", code),
            "level": self.level,
        }


@dataclass(frozen=True, slots=True)
class Segment:
    """A piece of the wall line with constant loads by case [lbf/in]; an open end is None [in]."""

    start: float | None
    end: float | None
    line: Mapping[str, float]

    def as_data(self, code: str = "us") -> dict[str, Any]:
        return {
            "start": None if self.start is None else quantity(self.start, "length", code),
            "end": None if self.end is None else quantity(self.end, "length", code),
            "line": {case: quantity(value, "line_load", code) for case, value in self.line.items()},
        }


Extent = tuple[Mapping[str, float], float | None, float | None]


def segments(extents: Iterable[Extent]) -> tuple[Segment, ...]:
    """Loads that reach from start to end (None: as far as the line goes) added up piece by piece."""
    held = [
        (line, -math.inf if start is None else start, math.inf if end is None else end)
        for line, start, end in extents
    ]
    cases = list(dict.fromkeys(case for line, _, _ in held for case in line))
    cuts = sorted({edge for _, start, end in held for edge in (start, end)})
    return tuple(
        Segment(
            None if left == -math.inf else left,
            None if right == math.inf else right,
            {
                case: sum(line.get(case, 0.0) for line, start, end in held if start <= left and right <= end)
                for case in cases
            },
        )
        for left, right in pairwise(cuts)
    )


def peak(pieces: Sequence[Segment]) -> dict[str, float]:
    """The largest load of each case anywhere along the line [lbf/in]."""
    cases = dict.fromkeys(case for piece in pieces for case in piece.line)
    return {case: max(piece.line[case] for piece in pieces) for case in cases}


def beam_loads(
    pieces: Sequence[Segment], points: Sequence[Point], start: float, length: float
) -> tuple[list[Load], list[Point]]:
    """What lands on a beam that lies from `start` over `length` of the wall line [in].

    Loads of the statics engine, measured from the beam's left end, and the points that lie beyond it:
    those stay with the wall that stays.
    """
    loads = []
    for piece in pieces:
        left = max(start, -math.inf if piece.start is None else piece.start) - start
        right = min(start + length, math.inf if piece.end is None else piece.end) - start
        if right > left:
            loads += [Load.uniform(case, w, left, right) for case, w in piece.line.items() if w]
    inside = [point for point in points if start <= point.at <= start + length]
    loads += [Load.point(point.case, point.value, point.at - start) for point in inside]
    return loads, [point for point in points if point not in inside]
