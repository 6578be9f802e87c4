"""Marks of a schedule: what a member is called on drawing and site, and its sizes as the takeoff reads them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from structure.core.units import read_quantity
from structure.diagrams import words
from structure.results import beam_of

LENGTHS = {
    "ply_width": "ply_width_in",
    "depth": "depth_in",
    "length": "length_in",
    "height": "height_in",
    "side": "side_in",
    "thickness": "thickness_in",
}


@dataclass(frozen=True, slots=True)
class Mark:
    """One member: mark, kind, how it is written, sizes as plain data with lengths in inches."""

    mark: str
    kind: str
    title: str
    data: Mapping[str, Any] = field(default_factory=dict)


def sealed_mark(mark: str, kind: str, typed: Mapping[str, Any]) -> Mark:
    """A mark from what was typed of the sealed design; lengths as typed become inches."""
    data: dict[str, Any] = {}
    for name, value in typed.items():
        if name in LENGTHS:
            data[LENGTHS[name]] = read_quantity(value, "length", name)
        elif value not in ("", None):
            data[name] = value
    if kind == "footing":
        data["concrete_in3"] = data["side_in"] ** 2 * data["thickness_in"]
        data["existing"] = bool(typed.get("existing"))
    if kind == "shoring":
        data["engineered"] = True
    return Mark(mark, kind, sealed_title(kind, data), data)


def sealed_title(kind: str, data: Mapping[str, Any]) -> str:
    """How a sealed member is written in the schedule: as on the drawing, with its length or size."""
    label = str(data.get("label", ""))
    if kind == "beam":
        return f"{label}, {words.length(data['length_in'], 'us')} long"
    if kind == "post":
        return f"{label}, {words.length(data['height_in'], 'us')} tall"
    if kind == "shoring":
        return label
    return f"{label}, {words.length(data['side_in'], 'us')} square, {words.length(data['thickness_in'], 'us')} thick"


def sealed_initial(mark: Any) -> dict[str, Any]:
    """The sizes of a stored mark as a person would type them, to start the sealed form from."""
    initial: dict[str, Any] = {}
    back = {stored: typed for typed, stored in LENGTHS.items()}
    for name, value in mark.data.items():
        if name in back:
            initial[back[name]] = words.length(value, "us", both=False)
        else:
            initial[name] = value
    initial.setdefault("label", mark.title)
    return initial


def marks_of(results: Mapping[str, Any], inputs: Mapping[str, Any]) -> list[Mark]:
    """The preliminary schedule of an answered wall: B1, P1 P2, F1 F2, plates, hangers, S1 S2."""
    beam = beam_of(results)
    if beam is None:
        return []
    length = results["beam"]["length"]["value"]
    size = _size(beam["member"]) | {"length_in": length, "mounting": results["beam"]["mounting"]}
    marks = [Mark("B1", "beam", sealed_title("beam", size), size)]
    marks += [mark for post in results["posts"] for mark in _post_marks(post, inputs)]
    marks += [_footing_mark(each) for each in results["footings"]]
    count = results["beam"].get("hangers") or 0
    if count:
        marks.append(Mark("H1", "hanger", f"{count} joist hangers", {"count": count}))
    return marks + _shoring_marks(results["shoring"] or {}, inputs)


def _size(member: Mapping[str, Any]) -> dict[str, Any]:
    """A section as the takeoff reads it."""
    return {
        "family": member["family"],
        "plies": member["plies"],
        "ply_width_in": member["ply_width"]["value"],
        "depth_in": member["depth"]["value"],
        "species": member["species"] or "",
        "grade": member["grade"] or "",
        "label": member["label"],
    }


def _post_marks(post: Mapping[str, Any], inputs: Mapping[str, Any]) -> list[Mark]:
    """A post and the plate under it; a post by its maker's statement has no plate of ours."""
    if post["result"] is None:
        return []
    member = post["member"]
    if member is None:
        label = "Adjustable or pipe post by its maker's paper"
        height = post["result"].get("height", {}).get("value", 0.0)
        return [Mark(post["mark"], "post", label, {"label": label, "stated": True, "height_in": height})]
    size = _size(member) | {
        "height_in": member["height"]["value"],
        "fastening": member.get("fastening") or "nailed",
    }
    plate = {
        "family": "sawn",
        "plies": 1,
        "ply_width_in": 1.5,
        "depth_in": size["depth_in"],
        "species": inputs["case"]["given"]["posts"]["plate_species"],
        "grade": "No.2",
        "label": "plate under " + post["mark"],
        "length_in": member["width"]["value"],
    }
    return [
        Mark(post["mark"], "post", sealed_title("post", size), size),
        Mark(f"L{post['mark'][1:]}", "plate", f"Plate under {post['mark']}", plate),
    ]


def _footing_mark(footing: Mapping[str, Any]) -> Mark:
    side, thick = footing["result"]["side"]["value"], footing["result"]["thickness"]["value"]
    data = {
        "label": "Plain concrete pad",
        "side_in": side,
        "thickness_in": thick,
        "concrete_in3": side**2 * thick,
        "existing": False,
    }
    return Mark(footing["mark"], "footing", sealed_title("footing", data), data)


def _shoring_marks(shoring: Mapping[str, Any], inputs: Mapping[str, Any]) -> list[Mark]:
    """A mark for each shoring wall of a plan; a refused plan has none."""
    if not shoring or shoring.get("status") == "refused":
        return []
    asked = inputs["case"]["given"]["shoring"]
    marks: list[Mark] = []
    for side in ("left", "right"):
        held = shoring.get(side) or {}
        if not held.get("needed"):
            continue
        data = {
            "side": side,
            "length_in": held["length"]["value"],
            "shores": held["shores"],
            "height_in": held["shore_length"]["value"],
            "spacing_in": held["spacing"]["value"],
            "reshore": bool(held["reshore"]),
            "passes": bool(held["passes"]),
            **{part: lumber_size(asked[part]) for part in ("header", "shore", "sill")},
        }
        title = (
            f"{side.capitalize()} shoring wall, {words.length(data['length_in'], 'us')} long, {data['shores']} "
            f"shores {data['shore']['label']} at {words.length(data['spacing_in'], 'us')}"
        )
        marks.append(Mark(f"S{len(marks) + 1}", "shoring", title, data))
    return marks


def lumber_size(given: Mapping[str, Any]) -> dict[str, Any]:
    """A section of the question as the takeoff reads it."""
    width, depth = (read_quantity(given[name], "length", name) for name in ("width", "depth"))
    plies = f"{given['plies']}-" if given["plies"] > 1 else ""
    label = f"{plies}{round(width + 0.5)}x{round(depth + 0.5)} {given['species']} {given['grade']}"
    return {
        "family": given["family"],
        "plies": given["plies"],
        "ply_width_in": width,
        "depth_in": depth,
        "species": given["species"],
        "grade": given["grade"],
        "label": label,
    }
