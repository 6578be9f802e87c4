"""The house cut across the wall, to scale, with the loads coming down and growing on their way."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from structure.diagrams import words
from structure.diagrams.svg import Drawing

WIDTH = 540.0
LEFT, RIGHT, TOP = 30.0, 12.0, 28.0
THICKEST = 17.0
DEFAULT_STOREY = 96.0
DEFAULT_SPAN = 144.0


@dataclass(frozen=True, slots=True)
class Level:
    """One level of the section; lengths in inches, loads per length in the unit of `code`."""

    name: str
    kind: str
    left: float
    right: float
    left_support: str
    right_support: str
    framing: str = "perpendicular"
    wall_height: float = 0.0
    brought: float | None = None
    total: float | None = None


@dataclass(frozen=True, slots=True)
class HouseDrawing:
    """What the section shows. All lengths in inches; `total` loads None where nothing was computed."""

    code: str
    levels: Sequence[Level]
    ceiling_height: float
    joist_depth: float = 9.25
    opening: float = 0.0
    mounting: str = "dropped"
    beam_width: float = 0.0
    beam_depth: float = 0.0
    beam_label: str = ""
    headroom: float | None = None
    below: str = "slab"
    below_height: float = 0.0
    below_support: str = "none"
    rise: float = 4.0
    rise_given: bool = False
    end_loads: Sequence[tuple[str, float]] = field(default_factory=tuple)
    name: str = "section"


def house_section(house: HouseDrawing) -> str:
    """SVG of the section. Arrow widths are proportional to the load carried there."""
    return _Section(house).draw()


class _Section:
    def __init__(self, house: HouseDrawing) -> None:
        self.house = house
        self.left = max((lv.left for lv in house.levels), default=0.0) or DEFAULT_SPAN
        self.right = max((lv.right for lv in house.levels), default=0.0) or DEFAULT_SPAN
        self.eave = 12.0
        self.k = (WIDTH - LEFT - RIGHT) / (self.left + self.right + 2 * self.eave)
        self.joist = max(house.joist_depth, 5.0)
        self.x0 = LEFT + (self.eave + self.left) * self.k
        self.below_height = max(house.below_height, {"slab": 0.0, "crawl": 24.0}.get(house.below, 84.0))
        if house.below == "slab":
            self.below_height = 0.0
        self.heights = self._heights()
        peak = self.heights[0] + self._roof_rise() if house.levels else house.ceiling_height + 40
        self.zero = TOP + peak * self.k
        bottom = self.zero + (self.below_height + (self.joist if self.below_height else 0) + 16) * self.k
        self.pad = Drawing(
            WIDTH, bottom + 62, "Section of the house across the wall", self._desc(), house.name
        )
        loads = [lv.total or 0.0 for lv in house.levels]
        self.per_load = THICKEST / max(loads) if loads and max(loads) > 0 else 0.0

    def _heights(self) -> list[float]:
        """Height of the underside of each level over the floor of the opened storey, top level first."""
        heights: list[float] = []
        height = self.house.ceiling_height
        below = None
        for level in reversed(self.house.levels):
            if below is not None and not (level.kind == "roof" and below.kind == "attic"):
                height += self.joist + (below.wall_height or DEFAULT_STOREY)
            heights.append(height)
            below = level
        return heights[::-1]

    def _roof_rise(self) -> float:
        return (self.left + self.right) / 2 * self.house.rise / 12 + self.joist

    def y(self, height: float) -> float:
        return self.zero - height * self.k

    def x(self, offset: float) -> float:
        """Sheet x of a place `offset` inches right of the wall line."""
        return self.x0 + offset * self.k

    def _desc(self) -> str:
        code = self.house.code
        told = []
        for level in self.house.levels:
            if level.total is None:
                told.append(f"{level.name}: no load worked out yet")
            else:
                told.append(
                    f"{level.name} brings {words.line_load(level.brought or 0.0, code)}, "
                    f"in all {words.line_load(level.total, code)}"
                )
        return "From the roof down. " + "; ".join(told) + "."

    def draw(self) -> str:
        pad, house = self.pad, self.house
        pad.text((8, 14), "PRELIMINARY", strong=True)
        pad.text((WIDTH - 8, 14), "cut across the wall, to scale", anchor="end", faint=True)
        self._shell()
        for index, level in enumerate(house.levels):
            self._level(level, self.heights[index])
        for index in range(len(house.levels)):
            self._load(index)
        self._opened_storey()
        self._below()
        self._bottom_dimensions()
        return pad.svg()

    def _shell(self) -> None:
        top = self.heights[0] if self.heights else self.house.ceiling_height
        depth = 5.5 * self.k
        for offset, side in ((-self.left, -1), (self.right, 1)):
            x = self.x(offset)
            self.pad.box(min(x, x + side * depth), self.y(top), depth, self.y(0) - self.y(top), "wood")
        floor = self.y(0)
        a, b = self.x(-self.left) - depth, self.x(self.right) + depth
        if self.below_height:
            self._band(a, b, -self.joist, self.joist)
        else:
            self.pad.box(a, floor, b - a, 4 * self.k, "concrete")
            self.pad.line((a, floor), (b, floor), "line")

    def _band(self, a: float, b: float, under: float, depth: float) -> None:
        top = self.y(under + depth)
        self.pad.box(a, top, b - a, depth * self.k, "wash")
        self.pad.line((a, top), (b, top), "line")
        self.pad.line((a, top + depth * self.k), (b, top + depth * self.k), "thin")

    def _level(self, level: Level, height: float) -> None:
        pad = self.pad
        if level.kind == "roof":
            self._roof(level, height)
            return
        a, b = self.x(-self.left), self.x(self.right)
        self._band(a, b, height, self.joist)
        top = self.y(height + self.joist)
        if level.framing == "parallel":
            step = 16 * self.k
            x = self.x0 - step * int((self.x0 - a) / step)
            while x < b - 1:
                pad.box(x - 0.75 * self.k, top, 1.5 * self.k, self.joist * self.k, "wood")
                x += step
        else:
            for span, support, side in self._sides(level):
                if level.framing == "perpendicular" and support in ("simple", "continuous") and span > 0:
                    inner, outer = self.x0, self.x(side * span / 2)
                    pad.box(min(inner, outer), top, abs(outer - inner), self.joist * self.k, "tint")
        if level.framing == "perpendicular" and "simple" in (level.left_support, level.right_support):
            pad.line((self.x0, top), (self.x0, top + self.joist * self.k), "line")
        self._span_words(level, self.y(height) + 13)
        if level.kind == "attic":
            pad.text((self.x0 - 14, top - 5), level.name, strong=True, anchor="end")
        else:
            pad.text((a + 5, top - 5), level.name, strong=True)
        if level.wall_height:
            self._wall(height + self.joist, level.wall_height)

    def _sides(self, level: Level) -> tuple[tuple[float, str, int], tuple[float, str, int]]:
        return ((level.left, level.left_support, -1), (level.right, level.right_support, 1))

    def _span_words(self, level: Level, y: float) -> None:
        if level.framing == "parallel":
            self.pad.text((self.x(-self.left / 2), y), "joists along the wall", anchor="middle", faint=True)
            return
        for span, support, side in self._sides(level):
            if span > 0:
                told = {"simple": "ends here", "continuous": "runs over", "none": "not on this wall"}
                says = f"{words.length(span, 'us', both=False)} {told.get(support, support)}"
                self.pad.text((self.x(side * span / 2), y), says, anchor="middle", faint=True)

    def _roof(self, level: Level, height: float) -> None:
        pad, rise = self.pad, self.house.rise / 12
        a, b = -self.left - self.eave, self.right + self.eave
        ridge = (self.right - self.left) / 2
        half = (self.left + self.right) / 2
        peak = height + half * rise
        outline = [(a, height - self.eave * rise), (ridge, peak), (b, height - self.eave * rise)]
        upper = [(self.x(px), self.y(py + self.joist)) for px, py in outline]
        lower = [(self.x(px), self.y(py)) for px, py in outline]
        pad.area([*upper, *reversed(lower)], "wash")
        pad.path(upper, "heavy")
        pad.path(lower, "thin")
        if level.framing in ("truss_clear", "truss_interior"):
            self._truss(height, half, ridge, rise)
        elif level.left_support != "none" or level.right_support != "none":
            under = peak - abs(ridge) * rise
            pad.line((self.x0, self.y(under)), (self.x0, self.y(height)), "thin")
        y = upper[1][1] + 6
        pad.text((8, y), level.name, strong=True)
        if not self.house.rise_given:
            pad.text((8, y + 13), "drawn 4 in 12,", faint=True)
            pad.text((8, y + 25), "slope not given", faint=True)

    def _truss(self, height: float, half: float, ridge: float, rise: float) -> None:
        web = [(-0.5, 0.0), (-0.5, 0.5), (-0.17, 0.0), (0.0, 1.0), (0.17, 0.0), (0.5, 0.5), (0.5, 0.0)]
        points = [(self.x(ridge + u * half), self.y(height + v * half * rise)) for u, v in web]
        self.pad.path(points, "hair")
        self.pad.line((self.x(-self.left), self.y(height)), (self.x(self.right), self.y(height)), "line")

    def _wall(self, foot: float, height: float) -> None:
        half = 2.25
        self.pad.box(self.x(-half), self.y(foot + height), 2 * half * self.k, height * self.k, "wash")
        for side in (-half, half):
            self.pad.line((self.x(side), self.y(foot + height)), (self.x(side), self.y(foot)), "thin")

    def _load(self, index: int) -> None:
        """The arrow under level `index`: as thick as what has been gathered down to there."""
        level, house = self.house.levels[index], self.house
        if level.total is None or level.total <= 0:
            return
        height = self.heights[index]
        last = index + 1 == len(house.levels)
        if last:
            tip = self._beam_top()
            top = self.y(height + self.joist) + 1.5 if house.mounting == "dropped" else tip - 26
        else:
            foot = self.heights[index + 1] + self.joist
            top = self.y(height) + 3
            if level.kind == "roof" and foot >= height:
                top = self.y(height + min(self._roof_rise() * 0.62, 60.0))
            tip = self.y(foot)
        if tip - top < 11:
            top = tip - 11
        thickness = level.total * self.per_load
        self.pad.arrow_down(
            self.x0, top, tip, thickness, f' data-load="{level.total:.6g}" data-width="{thickness:.6g}"'
        )
        self._load_words(level, index, top, tip)

    def _load_words(self, level: Level, index: int, top: float, tip: float) -> None:
        code, total, brought = self.house.code, level.total or 0.0, level.brought or 0.0
        if level.kind == "roof":
            y = self.y(self.heights[0] + self._roof_rise()) + 4
            self.pad.text((WIDTH - 8, y), words.line_load(total, code), load=True, anchor="end")
            self.pad.text((WIDTH - 8, y + 13), "brought here", faint=True, anchor="end")
            return
        x = self.x0 + max(total * self.per_load * 1.1, 4) + 7
        last = index + 1 == len(self.house.levels)
        y = (top + tip) / 2 + 1
        if last:
            y = max(tip + 20, self.y(self.heights[index]) + 31)
        if last:
            x = self.x0 + max(self.house.beam_width / 2 * self.k, 8) + 10
        self.pad.text((x, y), words.line_load(total, code), load=True)
        more = (
            "brought here" if index == 0 else f"of it {words.line_load(brought, code, both=False)} from here"
        )
        self.pad.text((x, y + 14), more, faint=True)

    def _beam_top(self) -> float:
        house = self.house
        flush = house.mounting == "flush"
        return self.y(house.ceiling_height + (self.joist if flush else 0.0))

    def _opened_storey(self) -> None:
        house, pad = self.house, self.pad
        top = self._beam_top()
        depth = house.beam_depth or 12.0
        width = max((house.beam_width or 5.25) * self.k, 7.0)
        fill = "new" if house.beam_depth else "open"
        pad.box(self.x0 - width / 2, top, width, depth * self.k, fill)
        soffit = top + depth * self.k
        foot = self.y(0)
        for side in (-2.25, 2.25):
            pad.line((self.x(side), soffit), (self.x(side), foot), "dash")
        label = house.beam_label or "beam, not chosen yet"
        under = max(soffit + 13, self.y(house.ceiling_height) + 30)
        pad.text((self.x0 - width / 2 - 8, under), label, anchor="end", strong=True)
        pad.text((self.x0 - width / 2 - 8, under + 14), f"{house.mounting} beam", anchor="end", faint=True)
        if house.headroom is not None:
            xm = self.x(self.right) - 9
            pad.line((self.x0, soffit), (xm + 5, soffit), "hair")
            pad.height_mark(xm, soffit, foot, f"{words.length(house.headroom, 'us', both=False)} under it")
        pad.text((self.x0 - 9, foot - 7), "wall taken out", anchor="end", faint=True)
        pad.height_mark(
            self.x(-self.left) + 15,
            self.y(house.ceiling_height),
            foot,
            words.length(house.ceiling_height, "us", both=False),
        )

    def _below(self) -> None:
        house, pad = self.house, self.pad
        left, right = self.x(-self.left) - 6, self.x(self.right) + 6
        if not self.below_height:
            grade = self.y(0) + 4 * self.k
            pad.ground(4, WIDTH - 4, max(grade, self.y(0) + 3))
            return
        foot = self.y(-self.joist - self.below_height)
        for x, side in ((left, -1), (right, 1)):
            wide = 8 * self.k
            pad.box(
                x if side > 0 else x - wide,
                self.y(-self.joist),
                wide,
                foot - self.y(-self.joist) + 8,
                "concrete",
            )
        pad.ground(left + 2, right - 2, foot)
        pad.ground(4, left - 8 * self.k, self.y(-self.joist) + 8)
        pad.ground(right + 8 * self.k, WIDTH - 4, self.y(-self.joist) + 8)
        words_below = {"basement": "Basement", "crawl": "Crawl space"}.get(house.below, house.below)
        pad.text((left + 10, foot - 7), words_below, strong=True)
        self._support_below(foot)

    def _support_below(self, foot: float) -> None:
        pad, top = self.pad, self.y(-self.joist)
        kind = self.house.below_support
        told = {"wall": "wall below", "beam": "beam below", "post": "new posts at the ends"}.get(kind)
        if told is None:
            pad.text((self.x0, (top + foot) / 2 + 4), "nothing below recorded", anchor="middle", faint=True)
            return
        if kind == "wall":
            pad.box(self.x(-2.25), top, 4.5 * self.k, foot - top, "wash")
            for side in (-2.25, 2.25):
                pad.line((self.x(side), top), (self.x(side), foot), "thin")
        elif kind == "post":
            pad.box(self.x(-1.75), top, 3.5 * self.k, foot - top, "new")
            pad.box(self.x(-15), foot, 30 * self.k, 8 * self.k, "concrete")
        else:
            pad.box(self.x(-2.75), top, 5.5 * self.k, 9.5 * self.k, "wood")
            pad.line((self.x0, top + 9.5 * self.k), (self.x0, foot), "dash")
        pad.text((self.x0 + 10, (top + foot) / 2 + 6), told, faint=True)

    def _bottom_dimensions(self) -> None:
        y = self.pad.height - 26
        code = "us"
        for a, b, value in ((-self.left, 0.0, self.left), (0.0, self.right, self.right)):
            self.pad.dimension(self.x(a), self.x(b), y, words.length(value, code))
        self.pad.line((self.x0, y - 10), (self.x0, y + 6), "cut")
        self.pad.text((self.x0, y + 18), "wall line", anchor="middle")
