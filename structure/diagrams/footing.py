"""One post from the beam to the soil, to scale: plies, plates or base, pad, ground."""

from __future__ import annotations

from dataclasses import dataclass

from structure.diagrams import words
from structure.diagrams.svg import Drawing

WIDTH, TALL = 540.0, 350.0
BREAK = 30.0


@dataclass(frozen=True, slots=True)
class PostDrawing:
    """A post and what it stands on; lengths in inches, the load in the unit of `code`."""

    code: str
    mark: str
    label: str
    height: float
    width: float
    plies: int
    load: float | None
    beam_depth: float = 0.0
    beam_label: str = ""
    pad_side: float = 0.0
    pad_thickness: float = 0.0
    pad_mark: str = ""
    foot: str = ""
    name: str = "post"


def post_detail(post: PostDrawing) -> str:
    """SVG of the post, drawn at one scale with the middle of the post broken out."""
    shown = min(post.height, BREAK)
    beam = max(post.beam_depth, 6.0)
    pad_side = post.pad_side or post.width * 3
    thick = post.pad_thickness
    k = min(
        (WIDTH - 330) / max(pad_side, post.width * 3),
        (TALL - 96) / (beam + shown + 6 + max(thick, 6.0)),
    )
    drawing = Drawing(WIDTH, TALL, f"Post {post.mark}: {post.label}", _desc(post), post.name)
    x0 = WIDTH / 2 - 18
    half = post.width * k / 2
    y = 40.0
    drawing.text((10, 14), "PRELIMINARY", strong=True)
    drawing.text((WIDTH - 10, 14), post.mark, anchor="end", strong=True)
    reach = max(half * 2.4, 30)
    drawing.box(x0 - half, y, reach + half, beam * k, "new")
    drawing.text((x0 + reach + 6, y + 12), post.beam_label or "beam")
    top = y + beam * k
    foot = top + shown * k
    ply = post.width * k / max(post.plies, 1)
    for i in range(max(post.plies, 1)):
        drawing.box(x0 - half + i * ply, top, ply, foot - top, "new")
        drawing.line((x0 - half + i * ply, top), (x0 - half + i * ply, foot), "thin")
    drawing.line((x0 + half, top), (x0 + half, foot), "thin")
    middle = (top + foot) / 2
    for shift in (-3, 3):
        drawing.path(
            [
                (x0 - half - 8, middle + shift + 3),
                (x0 - 4, middle + shift + 3),
                (x0, middle + shift - 5),
                (x0 + 4, middle + shift + 5),
                (x0 + half + 8, middle + shift - 3),
            ],
            "thin",
        )
    drawing.height_mark(x0 - half - 20, top, foot, words.length(post.height, "us"))
    drawing.text((x0 + half + 12, middle - 2), post.label, strong=True)
    if post.load is not None:
        drawing.text((x0 + half + 12, middle + 12), words.force(post.load, post.code))
    plate = 1.5 * k
    drawing.box(x0 - half - 6, foot, 2 * half + 12, plate, "wood")
    ground = foot + plate
    if thick:
        side = post.pad_side * k / 2
        drawing.area(
            [
                (x0 - side, ground),
                (x0 + side, ground),
                (x0 + side, ground + thick * k),
                (x0 - side, ground + thick * k),
            ],
            "concrete",
        )
        drawing.path(
            [
                (x0 - side, ground),
                (x0 + side, ground),
                (x0 + side, ground + thick * k),
                (x0 - side, ground + thick * k),
            ],
            "line",
            closed=True,
        )
        drawing.ground(60, x0 - side, ground + 1)
        drawing.ground(x0 + side, WIDTH - 60, ground + 1)
        drawing.line((x0 - side - 14, ground + thick * k), (x0 + side + 14, ground + thick * k), "hair")
        drawing.text((x0 + side + 6, ground + thick * k / 2 + 4), words.length(thick, "us", both=False))
        drawing.dimension(
            x0 - side,
            x0 + side,
            ground + thick * k + 26,
            words.length(post.pad_side, "us"),
            witness=ground + thick * k + 4,
        )
        drawing.text((x0 - side - 6, ground + thick * k / 2 + 4), post.pad_mark, anchor="end", strong=True)
    else:
        drawing.ground(8, WIDTH - 8, ground)
        drawing.text((x0, ground + 22), post.foot or "no pad was worked out here", anchor="middle")
    return drawing.svg()


def _desc(post: PostDrawing) -> str:
    load = f" under {words.force(post.load, post.code)}" if post.load is not None else ""
    pad = (
        f" on pad {post.pad_mark} {words.length(post.pad_side, 'us')} square and "
        f"{words.length(post.pad_thickness, 'us')} thick"
        if post.pad_thickness
        else " with no pad worked out"
    )
    return f"{post.label}, {words.length(post.height, 'us')} tall{load},{pad}."
