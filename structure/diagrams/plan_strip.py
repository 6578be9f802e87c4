"""The wall seen from above as a strip: opening, beam, posts, pads and the two shoring lines, to scale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from structure.diagrams import words
from structure.diagrams.svg import Drawing

WIDTH = 540.0


@dataclass(frozen=True, slots=True)
class PlanStrip:
    """Lengths in inches from the left end of the beam. `posts` are (mark, position, width)."""

    beam_length: float
    beam_width: float
    beam_mark: str
    opening: float
    posts: Sequence[tuple[str, float, float]]
    pads: Sequence[tuple[str, float, float]] = field(default_factory=tuple)
    shores: Sequence[tuple[str, float, float]] = field(default_factory=tuple)
    point_loads: Sequence[float] = field(default_factory=tuple)
    name: str = "plan"


def plan_strip(plan: PlanStrip) -> str:
    """SVG plan; `shores` are (mark, stand-off with sign, length)."""
    run_off = max([24.0, *((length - plan.beam_length) / 2 + 6 for _, _, length in plan.shores)])
    k = (WIDTH - 24) / (plan.beam_length + 2 * run_off)
    reach = max(
        [20.0, *(abs(off) + 8 for _, off, _ in plan.shores), *(side / 2 + 4 for _, _, side in plan.pads)]
    )
    y0 = 30 + reach * k
    pad = Drawing(WIDTH, y0 + reach * k + 56, "Plan of the opening", _desc(plan), plan.name)

    def x(at: float) -> float:
        return 12 + (at + run_off) * k

    pad.text((10, 14), "PRELIMINARY", strong=True)
    pad.text((WIDTH - 10, 14), "plan, to scale", anchor="end", faint=True)
    centre = plan.beam_length / 2
    half_wall = 2.25
    for a, b in (
        (-run_off, centre - plan.opening / 2),
        (centre + plan.opening / 2, plan.beam_length + run_off),
    ):
        pad.box(x(a), y0 - half_wall * k, (b - a) * k, 2 * half_wall * k, "tint")
    for _mark, off, length in plan.shores:
        y = y0 + off * k
        pad.box(x(centre - length / 2), y - 1.75 * k, length * k, 3.5 * k, "wash")
        pad.line((x(centre - length / 2), y), (x(centre + length / 2), y), "dash")
    for mark, off, _length in plan.shores:
        pad.text(
            (x(centre), y0 + off * k + (-5 if off < 0 else 12)),
            f"shoring {mark}",
            anchor="middle",
            faint=True,
        )
    for mark, at, side in plan.pads:
        pad.box(x(at - side / 2), y0 - side / 2 * k, side * k, side * k, "concrete")
        pad.text((x(at - side / 2) + 4, y0 + side / 2 * k - 5), mark)
    pad.box(x(0), y0 - plan.beam_width / 2 * k, plan.beam_length * k, plan.beam_width * k, "new")
    for mark, at, width in plan.posts:
        pad.box(
            x(at - width / 2),
            y0 - max(plan.beam_width, 3.5) / 2 * k,
            width * k,
            max(plan.beam_width, 3.5) * k,
            "solid",
        )
        pad.text((x(at), y0 - max(plan.beam_width / 2 * k, 4) - 6), mark, anchor="middle", strong=True)
    for at in plan.point_loads:
        pad.dot((x(at), y0), 3.2, "open")
    pad.text(
        (x(centre), y0 - max(plan.beam_width / 2 * k, 4) - 6), plan.beam_mark, anchor="middle", strong=True
    )
    y = y0 + reach * k + 26
    pad.dimension(
        x(centre - plan.opening / 2),
        x(centre + plan.opening / 2),
        y,
        f"clear opening {words.length(plan.opening, 'us')}",
    )
    pad.dimension(x(0), x(plan.beam_length), y + 22, f"beam {words.length(plan.beam_length, 'us')}")
    return pad.svg()


def _desc(plan: PlanStrip) -> str:
    posts = ", ".join(mark for mark, _, _ in plan.posts)
    pads = ", ".join(f"{mark} {words.length(side, 'us')} square" for mark, _, side in plan.pads)
    return (
        f"Beam {plan.beam_mark} {words.length(plan.beam_length, 'us')} long over a clear opening of "
        f"{words.length(plan.opening, 'us')} on posts {posts or 'not worked out'}; pads {pads or 'none'}."
    )
