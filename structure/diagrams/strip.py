"""Beams cut across, side by side at one scale: lumber hatched, steel outlined, all hung from one line."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from structure.diagrams import words
from structure.diagrams.svg import Drawing, Point

SCALE = 7.0  # user units to an inch
LEFT, TOP, GAP, FAMILY_GAP = 56.0, 66.0, 18.0, 26.0
LEAST_CELL = 46.0
HATCH = 7.0


@dataclass(frozen=True, slots=True)
class Cut:
    """One section: sizes in inches. `form` is that of a steel shape, `plates` lie between plies of lumber."""

    number: str
    family: str
    label: str
    width: float
    depth: float
    plies: int = 1
    form: str = ""
    web: float = 0.0
    flange: float = 0.0
    plates: Sequence[tuple[float, float]] = ()
    passes: bool = True
    weight: str = ""


@dataclass(frozen=True, slots=True)
class Strip:
    """What hangs from the line: `room` is the depth that the headroom asked for leaves, 0 asks nothing."""

    cuts: Sequence[Cut]
    room: float = 0.0
    flush: bool = False
    titles: Mapping[str, str] = field(default_factory=dict)
    name: str = "strip"


def section_strip(strip: Strip) -> str:
    """SVG of every section at one scale; under each its number and depth."""
    deepest = max([cut.depth for cut in strip.cuts] + [strip.room])
    places = list(_places(strip.cuts))
    width = places[-1][1] + max(places[-1][2], LEAST_CELL) + 24.0
    height = TOP + deepest * SCALE + 52.0
    drawing = Drawing(width, height, "Beams cut across, at one scale", _desc(strip), strip.name)
    drawing.line((LEFT - 22, TOP), (width - 8, TOP), "heavy")
    level = "top of the joists" if strip.flush else "underside of the joists"
    drawing.text((8, TOP - 8), level, faint=True)
    if strip.room:
        y = TOP + strip.room * SCALE
        drawing.line((LEFT - 22, y), (width - 8, y), "dash")
        drawing.text((8, y - 5), "headroom asked for", faint=True)
    for cut, x, cell in places:
        _draw(drawing, cut, x + (cell - cut.width * SCALE) / 2)
        middle, foot = x + cell / 2, TOP + deepest * SCALE + 18
        drawing.text((middle, foot), cut.number, anchor="middle", strong=True)
        drawing.text((middle, foot + 15), words.length(cut.depth, "us", both=False), anchor="middle")
        said = cut.weight if cut.passes else "fails"
        drawing.text((middle, foot + 29), said, anchor="middle", faint=True)
    _families(drawing, strip, places)
    return drawing.svg()


def _places(cuts: Sequence[Cut]) -> Iterator[tuple[Cut, float, float]]:
    """Each section with the left edge and width of its cell; a wider gap between families."""
    x, before = LEFT, ""
    for cut in cuts:
        x += FAMILY_GAP if before and cut.family != before else 0.0
        cell = max(cut.width * SCALE, LEAST_CELL)
        yield cut, x, cell
        x, before = x + cell + GAP, cut.family


def _families(drawing: Drawing, strip: Strip, places: Sequence[tuple[Cut, float, float]]) -> None:
    """The name of each family over its sections, with a bracket from the first to the last."""
    ends: dict[str, tuple[float, float]] = {}
    for cut, x, cell in places:
        first, _ = ends.get(cut.family, (x, 0.0))
        ends[cut.family] = (first, x + cell)
    for n, (family, (first, last)) in enumerate(ends.items()):
        # Names of narrow neighbours would run into each other on one line.
        y = 18.0 if n % 2 == 0 else 34.0
        drawing.text((first, y), strip.titles.get(family, family), strong=True)
        drawing.line((first, 42.0), (last, 42.0), "dim")
        drawing.line((first, 38.0), (first, 46.0), "dim")


def _draw(drawing: Drawing, cut: Cut, x: float) -> None:
    if cut.form:
        _steel(drawing, cut, x)
    else:
        _wood(drawing, cut, x)
    if not cut.passes:
        w, d = cut.width * SCALE, cut.depth * SCALE
        drawing.strokes([[(x, TOP), (x + w, TOP + d)], [(x, TOP + d), (x + w, TOP)]], "dash")


def _wood(drawing: Drawing, cut: Cut, x: float) -> None:
    """Plies with their hatch; steel plates stand between them, spread over the joints."""
    plates = list(cut.plates)
    thick = sum(each for each, _ in plates)
    ply = (cut.width - thick) / cut.plies * SCALE
    for n in range(cut.plies):
        drawing.box(x, TOP, ply, cut.depth * SCALE, "wood")
        drawing.strokes(_hatch(x, TOP, ply, cut.depth * SCALE, rising=n % 2 == 0), "thin")
        x += ply
        if plates and n < cut.plies - 1:
            thickness, depth = plates.pop(0)
            drawing.box(x, TOP + (cut.depth - depth) / 2 * SCALE, thickness * SCALE, depth * SCALE, "steel")
            x += thickness * SCALE


def _hatch(x: float, y: float, w: float, h: float, *, rising: bool) -> list[list[Point]]:
    """Lines at 45 degrees inside a box."""
    lines: list[list[Point]] = []
    shift = HATCH
    while shift < w + h:
        a = (min(shift, w), max(shift - w, 0.0))
        b = (max(shift - h, 0.0), min(shift, h))
        ends = [a, b] if not rising else [(a[0], h - a[1]), (b[0], h - b[1])]
        lines.append([(x + px, y + py) for px, py in ends])
        shift += HATCH
    return lines


def _steel(drawing: Drawing, cut: Cut, x: float) -> None:
    w, d = cut.width * SCALE, cut.depth * SCALE
    web, flange = max(cut.web * SCALE, 1.2), max(cut.flange * SCALE, 1.2)
    bottom, right = TOP + d, x + w
    if cut.form == "HSS":
        drawing.area([(x, TOP), (right, TOP), (right, bottom), (x, bottom)], "steel")
        drawing.box(x + web, TOP + flange, w - 2 * web, d - 2 * flange, "paper")
        return
    left_web = x if cut.form == "C" else x + (w - web) / 2
    right_web = left_web + web
    outline = [(x, TOP), (right, TOP), (right, TOP + flange), (right_web, TOP + flange)]
    outline += [(right_web, bottom - flange), (right, bottom - flange), (right, bottom), (x, bottom)]
    if cut.form != "C":
        outline += [(x, bottom - flange), (left_web, bottom - flange)]
        outline += [(left_web, TOP + flange), (x, TOP + flange)]
    drawing.area(outline, "steel")


def _desc(strip: Strip) -> str:
    told = [
        f"{cut.number}: {cut.label}, {words.length(cut.depth, 'us')} deep{'' if cut.passes else ', fails'}"
        for cut in strip.cuts
    ]
    return "; ".join(told) + "."
