"""A small pen for SVG: strokes take the colour of the page, words are escaped, nothing is styled inline.

Every mark carries a class, so that a style sheet can colour it, and a presentation attribute, so that
it also reads when no style sheet is near (a saved file, a printed package).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from html import escape

Point = tuple[float, float]

_STROKES = {
    "heavy": 'class="ink-heavy" stroke="currentColor" stroke-width="2.4" fill="none"',
    "line": 'class="ink" stroke="currentColor" stroke-width="1.25" fill="none"',
    "thin": 'class="ink-thin" stroke="currentColor" stroke-width="0.7" fill="none"',
    "hair": 'class="dim" stroke="currentColor" stroke-width="0.7" stroke-opacity="0.5" fill="none"',
    "dim": 'class="dim" stroke="currentColor" stroke-width="0.7" fill="none"',
    "dash": 'class="ink-hidden" stroke="currentColor" stroke-width="0.9" stroke-dasharray="5 3" fill="none"',
    "cut": 'class="ink-thin" stroke="currentColor" stroke-width="0.7" stroke-dasharray="9 3 2 3" fill="none"',
    "load": 'class="load-line" stroke="currentColor" stroke-width="1" fill="none"',
    "shear": 'class="shear" stroke="currentColor" stroke-width="1.8" fill="none" stroke-linejoin="round"',
    "moment": 'class="moment" stroke="currentColor" stroke-width="1.8" fill="none" stroke-linejoin="round"',
    "deflection": 'class="deflect" stroke="currentColor" stroke-width="1.8" fill="none" stroke-linejoin="round"',
}
_FILLS = {
    "load": 'class="load" fill="currentColor"',
    "solid": 'fill="currentColor"',
    "wash": 'fill="currentColor" fill-opacity="0.07"',
    "tint": 'fill="currentColor" fill-opacity="0.18"',
    "wood": 'class="wood" fill="currentColor" fill-opacity="0.35" stroke="currentColor" stroke-width="1"',
    "new": 'class="wood-new" fill="currentColor" fill-opacity="0.6" stroke="currentColor" stroke-width="1.5"',
    "concrete": 'class="concrete" fill="currentColor" fill-opacity="0.4" stroke="currentColor"',
    "steel": 'class="steel" fill="currentColor" fill-opacity="0.25" stroke="currentColor" stroke-width="1"',
    "paper": 'class="paper" fill="none" stroke="currentColor" stroke-width="1"',
    "open": 'class="ink" fill="none" stroke="currentColor" stroke-width="1.25"',
    "shear": 'class="shear-area" fill="currentColor" fill-opacity="0.1"',
    "moment": 'class="moment-area" fill="currentColor" fill-opacity="0.1"',
    "deflection": 'class="deflect-area" fill="currentColor" fill-opacity="0.1"',
}
TEXT, SMALL_TEXT = 12, 11  # as in the style sheet, so that a saved file looks the same


def number(value: float) -> str:
    """A coordinate with at most two decimals and no trailing zeros."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


@dataclass
class Drawing:
    """One picture. `title` and `desc` are what a screen reader says in its place."""

    width: float
    height: float
    title: str
    desc: str
    name: str = "drawing"
    marks: list[str] = field(default_factory=list)

    def line(self, a: Point, b: Point, pen: str = "line", extra: str = "") -> None:
        """A straight stroke."""
        self.marks.append(
            f'<line x1="{number(a[0])}" y1="{number(a[1])}" x2="{number(b[0])}" y2="{number(b[1])}" '
            f"{_STROKES[pen]}{extra}/>"
        )

    def path(self, points: Sequence[Point], pen: str = "line", *, closed: bool = False) -> None:
        """Strokes through points."""
        self.marks.append(f'<path d="{_track(points, closed)}" {_STROKES[pen]}/>')

    def strokes(self, lines: Iterable[Sequence[Point]], pen: str = "line", extra: str = "") -> None:
        """Many open lines as one mark."""
        track = " ".join(_track(points, False) for points in lines)
        self.marks.append(f'<path d="{track}" {_STROKES[pen]}{extra}/>')

    def area(self, points: Sequence[Point], fill: str = "wash", extra: str = "") -> None:
        """A filled outline."""
        self.marks.append(f'<path d="{_track(points, True)}" {_FILLS[fill]}{extra}/>')

    def box(self, x: float, y: float, width: float, height: float, fill: str = "member") -> None:
        """An upright rectangle from its top left corner."""
        self.marks.append(
            f'<rect x="{number(x)}" y="{number(y)}" width="{number(max(width, 0))}" '
            f'height="{number(max(height, 0))}" {_FILLS[fill]}/>'
        )

    def dot(self, at: Point, radius: float = 2.2, fill: str = "solid") -> None:
        """A small filled circle."""
        self.marks.append(
            f'<circle cx="{number(at[0])}" cy="{number(at[1])}" r="{number(radius)}" {_FILLS[fill]}/>'
        )

    def text(
        self,
        at: Point,
        words: str,
        *,
        anchor: str = "start",
        strong: bool = False,
        faint: bool = False,
        load: bool = False,
        turn: float | None = None,
    ) -> None:
        """Words at a baseline point: plain, `strong`, `faint` (one size down) or the words of a `load`."""
        kind = "txt-small" if faint else "txt-load" if load else "txt-strong" if strong else "txt"
        weight = ' font-weight="600"' if strong or load else ""
        size = SMALL_TEXT if faint else TEXT
        spin = f' transform="rotate({number(turn)} {number(at[0])} {number(at[1])})"' if turn else ""
        self.marks.append(
            f'<text class="{kind}" x="{number(at[0])}" y="{number(at[1])}" font-size="{size}" '
            f'text-anchor="{anchor}" fill="currentColor"{weight}{spin}>{escape(words)}</text>'
        )

    def arrow_down(self, x: float, top: float, tip: float, thickness: float, extra: str = "") -> None:
        """A solid load arrow from `top` to its `tip`, its shaft `thickness` wide."""
        head = min(max(thickness * 1.5, 5.0), (tip - top) * 0.6)
        half, wing = thickness / 2, max(thickness * 1.1, 3.4)
        neck = tip - head
        self.area(
            [
                (x - half, top),
                (x + half, top),
                (x + half, neck),
                (x + wing, neck),
                (x, tip),
                (x - wing, neck),
                (x - half, neck),
            ],
            "load",
            extra,
        )

    def arrow_up(self, x: float, tip: float, foot: float, thickness: float) -> None:
        """A reaction arrow standing on `foot` and pointing up to `tip`."""
        head, half = min(6.0, (foot - tip) * 0.6), thickness / 2
        self.area(
            [
                (x - half, foot),
                (x + half, foot),
                (x + half, tip + head),
                (x + 4, tip + head),
                (x, tip),
                (x - 4, tip + head),
                (x - half, tip + head),
            ],
            "open",
        )

    def dimension(self, a: float, b: float, y: float, words: str, *, witness: float = 0.0) -> None:
        """A horizontal dimension with slash ticks; `witness` is the y from which witness lines come."""
        for x in (a, b):
            if witness:
                self.line((x, witness), (x, y + 3 if witness < y else y - 3), "hair")
            self.line((x - 3, y + 3), (x + 3, y - 3), "dim")
        self.line((a, y), (b, y), "dim")
        self.text(((a + b) / 2, y - 4), words, anchor="middle", faint=True)

    def height_mark(self, x: float, top: float, bottom: float, words: str) -> None:
        """A vertical dimension, its words turned to read from the right."""
        for y in (top, bottom):
            self.line((x - 3, y + 3), (x + 3, y - 3), "dim")
        self.line((x, top), (x, bottom), "dim")
        self.text((x - 4, (top + bottom) / 2), words, anchor="middle", faint=True, turn=-90)

    def ground(self, left: float, right: float, y: float, *, step: float = 9.0) -> None:
        """The ground line with its short slanting strokes."""
        self.line((left, y), (right, y), "line")
        x = left + 2
        while x < right - 2:
            self.line((x, y + 5), (x + 5, y), "hair")
            x += step

    def svg(self) -> str:
        """The whole picture as well-formed SVG text that scales with its column."""
        name = escape(self.name, quote=True)
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" role="img" '
            f'viewBox="0 0 {number(self.width)} {number(self.height)}" '
            f'aria-labelledby="{name}-title {name}-desc" font-family="inherit">'
            f'<title id="{name}-title">{escape(self.title)}</title>'
            f'<desc id="{name}-desc">{escape(self.desc)}</desc>{"".join(self.marks)}</svg>'
        )


def _track(points: Iterable[Point], closed: bool) -> str:
    track = " ".join(f"{'L' if i else 'M'}{number(x)} {number(y)}" for i, (x, y) in enumerate(points))
    return f"{track} Z" if closed else track
