"""The shoring walls: an elevation of one side and a cut through both, to scale."""

from __future__ import annotations

from dataclasses import dataclass

from structure.diagrams import words
from structure.diagrams.svg import Drawing

WIDTH = 540.0


@dataclass(frozen=True, slots=True)
class ShoringDrawing:
    """Lengths in inches. `shores` counts the studs of one side over `length`."""

    code: str
    side: str
    opening: float
    length: float
    height: float
    shores: int
    spacing: float
    header_depth: float = 3.0
    sill_depth: float = 1.5
    shore_width: float = 1.5
    header_label: str = ""
    shore_label: str = ""
    sill_label: str = ""
    line: float | None = None
    name: str = "shoring"


def shoring_elevation(plan: ShoringDrawing) -> str:
    """SVG of one shoring wall seen from the front, the opening marked behind it."""
    k = (WIDTH - 60) / max(plan.length, plan.opening, 1.0)
    x0 = 40.0
    top = 58.0
    foot = top + plan.height * k
    pad = Drawing(WIDTH, foot + 64, f"Shoring wall, {plan.side} side", _desc(plan), plan.name)
    pad.text((10, 14), "PRELIMINARY", strong=True)
    pad.text((WIDTH - 10, 14), f"{plan.side} side", anchor="end", strong=True)
    if plan.line is not None:
        _loads(pad, plan, x0, k, top)
    right = x0 + plan.length * k
    pad.box(x0, top, plan.length * k, plan.header_depth * k, "wood")
    sill = foot - plan.sill_depth * k
    pad.box(x0, sill, plan.length * k, plan.sill_depth * k, "wood")
    stud = plan.shore_width * k
    usable = plan.length * k - stud
    for i in range(plan.shores):
        x = x0 + (usable * i / (plan.shores - 1) if plan.shores > 1 else usable / 2)
        pad.box(x, top + plan.header_depth * k, stud, sill - top - plan.header_depth * k, "wood")
        pad.line((x, top + plan.header_depth * k), (x, sill), "thin")
        pad.line((x + stud, top + plan.header_depth * k), (x + stud, sill), "thin")
    pad.line((x0 + stud, sill), (right - stud, top + plan.header_depth * k), "dash")
    over = (plan.length - plan.opening) * k / 2
    for x in (x0 + over, right - over):
        pad.line((x, top - 6), (x, foot + 10), "cut")
    pad.ground(6, WIDTH - 6, foot)
    pad.height_mark(x0 - 12, top, foot, words.length(plan.height, "us"))
    pad.dimension(x0 + over, right - over, foot + 26, f"opening {words.length(plan.opening, 'us')}")
    pad.dimension(x0, right, foot + 48, f"shoring wall {words.length(plan.length, 'us')}")
    return pad.svg()


def _loads(pad: Drawing, plan: ShoringDrawing, x0: float, k: float, top: float) -> None:
    pad.text((x0, top - 28), f"{words.line_load(plan.line or 0.0, plan.code)} on the header")
    count = max(3, round(plan.length * k / 24))
    for i in range(count + 1):
        x = x0 + plan.length * k * i / count
        pad.line((x, top - 22), (x, top - 2), "thin")
        pad.path([(x - 2, top - 6), (x, top - 2), (x + 2, top - 6)], "thin")
    pad.line((x0, top - 22), (x0 + plan.length * k, top - 22), "line")


def _desc(plan: ShoringDrawing) -> str:
    return (
        f"{plan.shores} shores {plan.shore_label} at {words.length(plan.spacing, 'us')} under a "
        f"{plan.header_label} header {words.length(plan.length, 'us')} long on a {plan.sill_label} sill, "
        f"{words.length(plan.height, 'us')} tall, either end past the opening of "
        f"{words.length(plan.opening, 'us')}, braced against falling over."
    )


@dataclass(frozen=True, slots=True)
class ShoringCut:
    """The cut through both shoring walls; a side without a shore is None."""

    code: str
    height: float
    joist_depth: float
    wall_thickness: float
    left_stand_off: float | None
    right_stand_off: float | None
    reshore: bool = False
    name: str = "shoring-cut"


def shoring_cut(cut: ShoringCut) -> str:
    """SVG of wall, shores on both sides and the floor under, with the stand-off written."""
    reach = max(cut.left_stand_off or 0.0, cut.right_stand_off or 0.0, 24.0) * 1.7
    k = min(0.9 * WIDTH / (2 * reach), 270 / cut.height)
    x0, top = WIDTH / 2, 44.0
    ceiling = top + cut.joist_depth * k
    foot = ceiling + cut.height * k
    below = 46.0 if cut.reshore else 6.0
    pad = Drawing(WIDTH, foot + below + 44, "Cut through the shoring", _cut_desc(cut), cut.name)
    pad.text((10, 14), "PRELIMINARY", strong=True)
    pad.text((WIDTH - 10, 14), "cut across the wall", anchor="end", faint=True)
    left, right = x0 - reach * k, x0 + reach * k
    pad.box(left, top, right - left, cut.joist_depth * k, "wash")
    pad.line((left, top), (right, top), "line")
    pad.line((left, ceiling), (right, ceiling), "line")
    half = cut.wall_thickness * k / 2
    for side in (-half, half):
        pad.line((x0 + side, ceiling), (x0 + side, foot), "dash")
    pad.text((x0 + half + 6, ceiling + 18), "old wall", faint=True)
    for stand, sign in ((cut.left_stand_off, -1), (cut.right_stand_off, 1)):
        if stand is not None:
            _shore(pad, x0 + sign * stand * k, ceiling, foot, k, sign)
            a, b = sorted((x0, x0 + sign * stand * k))
            pad.dimension(a, b, foot + below + 24, words.length(stand, "us", both=abs(b - a) > 110))
            if cut.reshore:
                x = x0 + sign * stand * k
                pad.box(x - 2, foot + 8, 4, 38, "wash")
                pad.line((x, foot + 8), (x, foot + 46), "dash")
    pad.box(left, foot, right - left, 8, "wash")
    pad.line((left, foot), (right, foot), "line")
    if cut.reshore:
        pad.text((10, foot + 30), "shored again", faint=True)
        pad.text((10, foot + 44), "below to ground", faint=True)
    pad.ground(left, right, foot + (46 if cut.reshore else 8))
    return pad.svg()


def _shore(pad: Drawing, x: float, ceiling: float, foot: float, k: float, sign: int) -> None:
    wide = 3.5 * k
    header, sill = 3.0 * k, 1.5 * k
    pad.box(x - wide / 2, ceiling, wide, header, "wood")
    pad.box(x - wide / 2, ceiling + header, wide, foot - ceiling - header - sill, "wood")
    for edge in (-wide / 2, wide / 2):
        pad.line((x + edge, ceiling + header), (x + edge, foot - sill), "thin")
    pad.box(x - wide, foot - sill, 2 * wide, sill, "wood")
    pad.line(
        (x + sign * wide / 2, ceiling + (foot - ceiling) * 0.45),
        (x + sign * 34 * min(k, 1.4), foot - 1),
        "dash",
    )


def _cut_desc(cut: ShoringCut) -> str:
    told = []
    for name, stand in (("left", cut.left_stand_off), ("right", cut.right_stand_off)):
        told.append(f"{name}: {'none' if stand is None else words.length(stand, 'us') + ' from the wall'}")
    more = "; shored again on the levels below to the ground" if cut.reshore else ""
    return f"Shoring walls {', '.join(told)}{more}."
