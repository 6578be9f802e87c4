"""A beam with its loads and supports, and under it shear, moment and deflection on one length scale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from structure.diagrams import words
from structure.diagrams.svg import Drawing, Point

WIDTH = 540.0
LEFT, RIGHT = 22.0, 22.0
ROW, ARROW = 38.0, 19.0
STRIP = 100.0


@dataclass(frozen=True, slots=True)
class BeamLoad:
    """One load in the engine's unit; `end_value` differs from `value` for a trapezoid."""

    case: str
    shape: str
    value: float
    start: float
    end: float
    end_value: float | None = None


@dataclass(frozen=True, slots=True)
class Extreme:
    """An exact extreme: where, how much, and how it is written."""

    at: float
    value: float
    words: str


@dataclass(frozen=True, slots=True)
class Curve:
    """One line of results. Points include every break; labels come from `extremes`, never from points."""

    kind: str
    title: str
    points: Sequence[Point]
    extremes: Sequence[Extreme]


@dataclass(frozen=True, slots=True)
class BeamDrawing:
    """A beam of `length` on `supports` (positions from the left end of everything)."""

    code: str
    length: float
    supports: Sequence[float]
    loads: Sequence[BeamLoad]
    reactions: Sequence[str]
    curves: Sequence[Curve]
    label: str
    name: str = "beam"


def beam_diagram(beam: BeamDrawing) -> str:
    """SVG of the beam. Load arrows are as long as their load, all rows on one scale."""
    return _Beam(beam).draw()


class _Beam:
    def __init__(self, beam: BeamDrawing) -> None:
        self.beam = beam
        self.k = (WIDTH - LEFT - RIGHT) / beam.length
        self.rows = _rows(beam.loads)
        self.beam_y = 40 + ROW * len(self.rows)
        height = self.beam_y + 68 + STRIP * len(beam.curves) + 8
        self.pad = Drawing(WIDTH, height, f"Beam: {beam.label}", self._desc(), beam.name)
        spread = [abs(v) for ld in beam.loads if ld.shape != "point" for v in _ends(ld)]
        points = [abs(ld.value) for ld in beam.loads if ld.shape == "point"]
        self.per_spread = ARROW / max(spread) if spread and max(spread) > 0 else 0.0
        self.per_point = ARROW / max(points) if points and max(points) > 0 else 0.0

    def x(self, at: float) -> float:
        return LEFT + at * self.k

    def _desc(self) -> str:
        code = self.beam.code
        loads = "; ".join(f"{ld.case.replace('_', ' ')} {_load_words(ld, code)}" for ld in self.beam.loads)
        found = "; ".join(f"{c.title}: {', '.join(e.words for e in c.extremes)}" for c in self.beam.curves)
        return f"Loads: {loads or 'none'}. {found}."

    def draw(self) -> str:
        pad, beam = self.pad, self.beam
        pad.text((LEFT, 14), "PRELIMINARY", strong=True)
        pad.text((WIDTH - RIGHT, 14), beam.label, anchor="end", strong=True)
        for index, row in enumerate(self.rows):
            self._load_row(row, 28 + ROW * index)
        y = self.beam_y
        pad.box(self.x(0), y - 4, beam.length * self.k, 8, "new")
        for index, at in enumerate(beam.supports):
            self._support(index, at, y + 4)
        marks = sorted({0.0, *beam.supports, beam.length})
        for a, b in pairwise(marks):
            if b - a > 1e-9:
                pad.dimension(self.x(a), self.x(b), y + 56, words.length(b - a, beam.code))
        for index, curve in enumerate(beam.curves):
            self._curve(curve, y + 68 + STRIP * index)
        return pad.svg()

    def _support(self, index: int, at: float, y: float) -> None:
        x = self.x(at)
        self.pad.area([(x, y), (x + 6, y + 9), (x - 6, y + 9)], "open")
        if index < len(self.beam.reactions):
            last = index + 1 == len(self.beam.supports)
            anchor = "start" if index == 0 else "end" if last else "middle"
            shift = -6 if index == 0 else 6 if last else 0
            self.pad.text((x + shift, y + 24), self.beam.reactions[index], anchor=anchor, strong=True)

    def _load_row(self, row: Sequence[BeamLoad], top: float) -> None:
        pad, code = self.pad, self.beam.code
        said = ", ".join(dict.fromkeys(_load_words(ld, code) for ld in row))
        pad.text((LEFT, top + 9), f"{row[0].case.replace('_', ' ')}: {said}")
        foot = top + 14 + ARROW
        for load in row:
            if load.shape == "point":
                size = abs(load.value) * self.per_point
                pad.arrow_down(
                    self.x(load.start),
                    foot - size,
                    foot,
                    2.2,
                    f' data-load="{load.value:.6g}" data-length="{size:.6g}"',
                )
            else:
                self._spread(load, foot)

    def _spread(self, load: BeamLoad, foot: float) -> None:
        first, last = _ends(load)
        span = load.end - load.start
        count = max(2, round(span * self.k / 26) + 1)
        tops: list[Point] = []
        lines: list[list[Point]] = []
        for i in range(count):
            share = i / (count - 1)
            size = abs(first + (last - first) * share) * self.per_spread
            x = self.x(load.start + span * share)
            tops.append((x, foot - size))
            if size > 0.4:
                wing = min(2.2, size / 2)
                lines.append([(x, foot - size), (x, foot)])
                lines.append([(x - wing, foot - wing * 1.6), (x, foot), (x + wing, foot - wing * 1.6)])
        lines.append([tops[0], tops[-1]])
        most = max(abs(first), abs(last))
        mark = f' data-load="{most:.6g}" data-length="{most * self.per_spread:.6g}"'
        self.pad.strokes(lines, "load", mark)
        self.pad.line((self.x(load.start), foot), (self.x(load.end), foot), "hair")

    def _curve(self, curve: Curve, top: float) -> None:
        pad = self.pad
        pad.text((LEFT, top + 13), curve.title, strong=True)
        high = max([0.0, *(e.value for e in curve.extremes), *(v for _, v in curve.points)])
        low = min([0.0, *(e.value for e in curve.extremes), *(v for _, v in curve.points)])
        reach = max(high - low, 1e-30)
        tall = STRIP - 44
        scale = tall / reach
        down = curve.kind == "deflection"
        zero = top + 27 + ((-low if down else high) * scale)
        sign = 1.0 if down else -1.0
        track = [(self.x(at), zero + sign * value * scale) for at, value in curve.points]
        if track:
            pad.area([(track[0][0], zero), *track, (track[-1][0], zero)], curve.kind)
            pad.path(track, curve.kind)
        pad.line((self.x(0), zero), (self.x(self.beam.length), zero), "thin")
        for at in self.beam.supports:
            pad.line((self.x(at), zero - 3), (self.x(at), zero + 3), "thin")
        for extreme in curve.extremes:
            self._extreme(extreme, zero + sign * extreme.value * scale, zero, across=curve.kind == "shear")

    def _extreme(self, extreme: Extreme, y: float, zero: float, *, across: bool) -> None:
        """Dot and words; a shear's words stand across the zero line, clear of its slanting curve."""
        x = self.x(extreme.at)
        self.pad.dot((x, y), 2.4)
        half = len(extreme.words) * 3.1
        if x - half < LEFT:
            anchor, x = "start", x + 5
        elif x + half > WIDTH - RIGHT:
            anchor, x = "end", x - 5
        else:
            anchor = "middle"
        above = y <= zero
        if across:
            y = zero + (12 if above else -5)
        else:
            inside = abs(y - zero) > 18
            y += (14 if above else -6) if inside else (-5 if above else 12)
        self.pad.text((x, y), extreme.words, anchor=anchor)


def _rows(loads: Sequence[BeamLoad]) -> list[list[BeamLoad]]:
    """Loads of one case and one shape share a row, in the order they come."""
    rows: dict[tuple[str, bool], list[BeamLoad]] = {}
    for load in loads:
        rows.setdefault((load.case, load.shape == "point"), []).append(load)
    return list(rows.values())


def _ends(load: BeamLoad) -> tuple[float, float]:
    return load.value, load.value if load.end_value is None else load.end_value


def _load_words(load: BeamLoad, code: str) -> str:
    if load.shape == "point":
        return f"{words.force(load.value, code)} at {words.length(load.start, code, both=False)}"
    first, last = _ends(load)
    if first == last:
        return words.line_load(first, code)
    return f"{words.line_load(first, code, both=False)} to {words.line_load(last, code)}"
