"""Loads, ends and members of a wall as plain data, in the units of its code."""

from __future__ import annotations

from typing import Any

from structure.core.members.checkdata import check_data
from structure.core.members.post import PostResult
from structure.core.takedown_line import Point
from structure.core.units import in_words, place_in_words, quantity
from structure.core.wall_ends import End, section_data
from structure.core.wall_question import WallQuestion


def load_data(load: Any, code: str) -> dict[str, Any]:
    """A load on the beam, from the beam's left support."""
    if load.shape == "point":
        return {
            "case": load.case,
            "shape": "point",
            "value": quantity(load.value, "force", code),
            "at": quantity(load.start, "length", code),
        }
    return {
        "case": load.case,
        "shape": load.shape,
        "value": quantity(load.value, "line_load", code),
        "end_value": quantity(load.end_value, "line_load", code),
        "start": quantity(load.start, "length", code),
        "end": quantity(load.end, "length", code),
    }


def left_outside(point: Point, code: str) -> str:
    """What is said of a point load that the beam does not take."""
    return (
        f"A {point.case.replace('_', ' ')} load of {in_words(point.value, 'force', code)} at "
        f"{place_in_words(point.at, code)} lies beyond the beam: it stays on the wall that "
        "stays, and must be followed down there."
    )


def add_end(result: dict[str, Any], end: End, question: WallQuestion, code: str) -> None:
    """Put the members of one end, and what must be said of them, into the result of the wall."""
    loads = {case: quantity(value, "force", code) for case, value in end.loads.items()}
    steps = [step.as_data() for step in end.steps]
    post: dict[str, Any] = {
        "mark": end.mark("P"),
        "end": end.name,
        "storey": "wall",
        "loads": loads,
        "steps": steps,
        "candidates": end.candidates,
        "result": None,
        "member": None,
    }
    if end.post is not None and end.seat is not None:
        post |= {
            "result": end.post.as_data(),
            "member": _post_member(end.post),
            "seat": {
                "along": quantity(end.seat.along, "length", code),
                "across": quantity(end.seat.across, "length", code),
                "turned": end.seat.turned,
            },
        }
        if end.seat.capped:
            result["remarks"].append(
                f"{end.mark('P')}: a cap plate {place_in_words(end.seat.along, code)} by "
                f"{place_in_words(end.seat.across, code)} carries the beam on the steel post; its "
                "thickness and welds, and holding the post's head, are the engineer's."
            )
        if end.seat.turned:
            result["remarks"].append(
                f"{end.mark('P')}: the post is turned, plies across the wall, so that the whole width of the beam "
                "stands on it (common practice); it stands out of a thinner wall."
            )
    result["posts"].append(post)
    beneath = question.beneath
    if beneath is not None and beneath.ground != "slab" and beneath.way in ("new_post", "stated_post"):
        held = end.below
        result["posts"].append(
            {
                "mark": f"{end.mark('P')}B",
                "end": end.name,
                "storey": beneath.ground,
                "loads": loads,
                "steps": steps,
                "candidates": end.below_candidates,
                "result": None if held is None else held.as_data(),
                "member": _post_member(held) if isinstance(held, PostResult) else None,
            }
        )
    if end.bearing is not None and end.seat is not None:
        result["bearing"].append(
            {
                "mark": end.mark("P"),
                "end": end.name,
                "length": quantity(end.seat.along, "length", code),
                "width": quantity(end.bearing.width, "length", code),
                "result": end.bearing.as_data(),
                "check": check_data(end.bearing.check, code),
            }
        )
    if end.footing is not None:
        pad = end.footing.as_data() | ({} if end.part9 is None else {"part9": dict(end.part9)})
        result["footings"].append({"mark": end.mark("F"), "end": end.name, "result": pad})
        result["remarks"] += end.footing.remarks
        if end.part9 is not None and end.part9["warning"]:
            result["remarks"].append(f"{end.mark('F')}: {end.part9['warning']}")
    if end.chain is not None:
        result["loadpath"].append(end.chain.as_data() | {"end": end.name})


def _post_member(post: PostResult) -> dict[str, Any]:
    code = post.question.section.code
    return section_data(post.question.section, post.question.fastened) | {
        "height": quantity(post.question.height, "length", code)
    }
