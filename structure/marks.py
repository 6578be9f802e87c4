"""Marks of a schedule: what a member is called on drawing and site, and its sizes as the takeoff reads them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from structure.core.units import read_quantity
from structure.diagrams import words

LENGTHS = {"ply_width": "ply_width_in", "depth": "depth_in", "length": "length_in", "height": "height_in",
           "side": "side_in", "thickness": "thickness_in"}


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
    return Mark(mark, kind, sealed_title(kind, data), data)


def sealed_title(kind: str, data: Mapping[str, Any]) -> str:
    """How a sealed member is written in the schedule: as on the drawing, with its length or size."""
    label = str(data.get("label", ""))
    if kind == "beam":
        return f"{label}, {words.length(data['length_in'], 'us')} long"
    if kind == "post":
        return f"{label}, {words.length(data['height_in'], 'us')} tall"
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
def marks_of(results, inputs): raise NotImplementedError
