"""Wall above and support below as measured from one exterior face, with the tolerance drawn as a band."""

from __future__ import annotations

from dataclasses import dataclass

from structure.diagrams import words
from structure.diagrams.svg import Drawing

WIDTH, HEIGHT = 540.0, 262.0


@dataclass(frozen=True, slots=True)
class OffsetDrawing:
    """Centres measured from the exterior face of the upper level, in inches; `limit` may be unknown."""

    above: float
    above_thickness: float
    below: float
    below_thickness: float
    tolerance: float
    limit: float | None
    wall_shift: float = 0.0
    name: str = "offset"


def offset_drawing(offset: OffsetDrawing) -> str:
    """SVG to scale about the two centres: the far exterior face is broken in, the offset is not."""
    middle = (offset.above + offset.below) / 2
    reach = max(
        abs(offset.above - offset.below) * 1.6,
        offset.above_thickness * 2,
        offset.below_thickness * 2,
        (offset.limit or 0.0) * 1.35,
        14.0,
    )
    k = (WIDTH - 150) / (2 * reach)
    xm = 90 + (WIDTH - 110) / 2
    pad = Drawing(WIDTH, HEIGHT, "Wall above against support below", _desc(offset), offset.name)

    def x(at: float) -> float:
        return xm + (at - middle) * k

    pad.text((10, 14), "PRELIMINARY", strong=True)
    pad.text((WIDTH - 10, 14), "to scale about the centres", anchor="end", faint=True)
    for top, bottom, thickness, centre, told in (
        (34, 104, offset.above_thickness, offset.above, "wall above"),
        (128, 198, offset.below_thickness, offset.below, "support below"),
    ):
        pad.box(x(centre - thickness / 2), top, thickness * k, bottom - top, "wood")
        for edge in (-thickness / 2, thickness / 2):
            pad.line((x(centre + edge), top), (x(centre + edge), bottom), "line")
        pad.line((x(centre), top - 4), (x(centre), bottom + 6), "cut")
        pad.box(24, top, 8, bottom - top, "concrete")
        pad.path([(84, top + 28), (80, top + 34), (88, top + 40), (84, top + 46)], "hair")
        pad.text((x(centre + thickness / 2) + 6, (top + bottom) / 2), told)
        pad.line((32, (top + bottom) / 2 + 12), (x(centre), (top + bottom) / 2 + 12), "thin")
        pad.text((38, (top + bottom) / 2 + 8), words.length(centre, "us", both=False))
    pad.box(86, 104, WIDTH - 96, 24, "tint")
    pad.line((86, 104), (WIDTH - 10, 104), "line")
    pad.line((86, 128), (WIDTH - 10, 128), "line")
    pad.text((92, 120), "floor", faint=True)
    if offset.limit is not None:
        pad.box(x(offset.below - offset.limit), 204, 2 * offset.limit * k, 7, "tint")
        pad.text(
            (x(offset.below), 224),
            f"limit {words.length(offset.limit, 'us', both=False)} either way",
            anchor="middle",
            faint=True,
        )
    pad.box(x(offset.above - offset.tolerance), 205.5, max(2 * offset.tolerance * k, 1.2), 4, "solid")
    gap = words.length(abs(offset.above - offset.below), "us")
    tolerance = words.length(offset.tolerance, "us", both=False)
    pad.text(
        (WIDTH / 2, 248),
        f"{gap} apart, centre to centre, give or take {tolerance}",
        anchor="middle",
        strong=True,
    )
    return pad.svg()


def _desc(offset: OffsetDrawing) -> str:
    gap = words.length(abs(offset.above - offset.below), "us")
    limit = "" if offset.limit is None else f" The limit is {words.length(offset.limit, 'us')}."
    return (
        f"Centre of the wall above at {words.length(offset.above, 'us')}, of the support below at "
        f"{words.length(offset.below, 'us')} from the same exterior face: {gap} apart, give or take "
        f"{words.length(offset.tolerance, 'us')}.{limit}"
    )
