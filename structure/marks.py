"""Marks of a schedule: what a member is called on drawing and site, and its sizes as the takeoff reads them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from structure.core.units import read_quantity
from structure.diagrams import words
from structure.diagrams.words import MM_PER_INCH
from structure.measured import beam_extras, measured, plates_of
from structure.results import beam_of
from structure.shown import inches, metric, value_in

# Typed name -> stored name, dimension, and what the engine's unit is multiplied with.
TYPED = {
    "ply_width": ("ply_width_in", "length", 1.0),
    "depth": ("depth_in", "length", 1.0),
    "length": ("length_in", "length", 1.0),
    "height": ("height_in", "length", 1.0),
    "side": ("side_in", "length", 1.0),
    "width": ("width_in", "length", 1.0),
    "thickness": ("thickness_in", "length", 1.0),
    "plate_thickness": ("plate_thickness_in", "length", 1.0),
    "plate_depth": ("plate_depth_in", "length", 1.0),
    "cover": ("cover_in", "length", 1.0),
    "weight": ("weight_lb_ft", "line_load", 12.0),
}
BACK = {stored: (typed, dimension) for typed, (stored, dimension, _) in TYPED.items()}
#: What the sealed form asks of each kind, as it is stored: only that can differ from the preliminary sizes.
ASKED: Mapping[str, frozenset[str]] = {
    kind: frozenset(names.split())
    for kind, names in {
        "beam": "family label length_in plies ply_width_in depth_in species grade shape plates "
        "plate_thickness_in plate_depth_in bolts",
        "post": "family label height_in plies ply_width_in depth_in species grade fastening shape",
        "footing": "label side_in width_in thickness_in bar bars cross_bars existing",
    }.items()
}
KN_M = 4.4482216152605 / 304.8  # of a pound to the foot
#: What the engine counted for a beam as it stands: it holds only while these of its sizes do.
COUNTED = ("family", "plies", "ply_width_in", "depth_in", "length_in", "species", "grade", "shape")


@dataclass(frozen=True, slots=True)
class Mark:
    """One member: mark, kind, how it is written, sizes as plain data with lengths in inches."""

    mark: str
    kind: str
    title: str
    data: Mapping[str, Any] = field(default_factory=dict)


def sealed_mark(mark: str, kind: str, typed: Mapping[str, Any]) -> Mark:
    """A mark from what was typed of the sealed design; lengths as typed become inches, weights lb/ft."""
    data: dict[str, Any] = {}
    for name, value in typed.items():
        if value in ("", None):
            continue
        if name in TYPED:
            stored, dimension, scale = TYPED[name]
            data[stored] = read_quantity(value, dimension, name) * scale
        else:
            data[name] = value
    if kind == "footing":
        data.setdefault("width_in", data["side_in"])
        data["concrete_in3"] = data["side_in"] * data["width_in"] * data["thickness_in"]
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
    side, width = data["side_in"], data.get("width_in", data["side_in"])
    size = f"{words.length(side, 'us')} square"
    if abs(side - width) > 1 / 32:
        size = f"{words.length(side, 'us')} by {words.length(width, 'us')}"
    bars = (
        f", {data['bars']} and {data.get('cross_bars', data['bars'])} {data['bar']}"
        if data.get("bars")
        else ""
    )
    return f"{label}, {size}, {words.length(data['thickness_in'], 'us')} thick{bars}"


def sealed_initial(mark: Any) -> dict[str, Any]:
    """The sizes of a stored mark as a person would type them, to start the sealed form from."""
    initial: dict[str, Any] = {}
    for name, value in mark.data.items():
        if name not in BACK:
            initial[name] = value
            continue
        typed, dimension = BACK[name]
        exact = dimension == "line_load"
        initial[typed] = _weight(value) if exact else words.length(value, "us", both=False)
    initial.setdefault("label", mark.title)
    initial.setdefault("family", "sawn")
    if mark.data.get("width_in") == mark.data.get("side_in"):
        initial.pop("width", None)
    return initial


def _weight(pounds: float) -> str:
    """A weight by length as the house's people type it."""
    return f"{pounds * KN_M:.6g} kN/m" if metric() else f"{pounds:g} lbf/ft"


def still_counted(sealed: Mark, preliminary: Mapping[str, Any]) -> dict[str, Any]:
    """What the engine counted for the preliminary beam and the drawing does not give, while the beam is the same."""
    if any(not _same(sealed.data.get(name), preliminary.get(name)) for name in COUNTED):
        return {}
    return {name: value for name, value in preliminary.items() if name not in sealed.data}


def _same(a: Any, b: Any) -> bool:
    if isinstance(a, int | float) and isinstance(b, int | float):
        return abs(a - b) <= 1 / 32
    return (a or "") == (b or "")


def marks_of(results: Mapping[str, Any], inputs: Mapping[str, Any]) -> list[Mark]:
    """The preliminary schedule of an answered wall: B1, P1 P2, F1 F2, plates, hangers, S1 S2."""
    beam = beam_of(results)
    if beam is None:
        return []
    held = results["beam"]
    length = inches(held["length"])
    size = _size(beam["member"]) | {"length_in": length, "mounting": held["mounting"]}
    marks = [Mark("B1", "beam", sealed_title("beam", size), size | beam_extras(held, length))]
    marks += [mark for post in results["posts"] for mark in _post_marks(post, inputs)]
    marks += [_footing_mark(each) for each in results["footings"]]
    marks += _hanger_marks(held)
    return marks + _shoring_marks(results["shoring"] or {}, inputs)


def _hanger_marks(held: Mapping[str, Any]) -> list[Mark]:
    """The joists that hang on a flush beam, with the load of the worst of them where it is known."""
    count = held.get("hangers") or 0
    if not count:
        return []
    data: dict[str, Any] = {"count": count}
    told, title = held.get("hangers_data") or {}, f"{count} joist hangers"
    if told.get("status") == "ok":
        data["load_lb"] = value_in(told["required"], "lbf")
        title += f", each for at least {words.force(data['load_lb'], 'us')}"
    return [Mark("H1", "hanger", title, data)]


def _size(member: Mapping[str, Any]) -> dict[str, Any]:
    """A section as the takeoff reads it; members of older runs are of wood and say nothing more."""
    if "given" in member:
        return measured(member)
    return {
        "family": member["family"],
        "plies": member["plies"],
        "ply_width_in": inches(member["ply_width"]),
        "depth_in": inches(member["depth"]),
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
    size = _size(member) | {"height_in": inches(member["height"])}
    if size["family"] == "steel":
        size |= plates_of({"foot": post["result"].get("plate")})
    else:
        size["fastening"] = member.get("fastening") or "nailed"
    plate = {
        "family": "sawn",
        "plies": 1,
        "ply_width_in": 1.5 if inputs["case"]["code"] == "us" else 38 / MM_PER_INCH,
        "depth_in": size["depth_in"],
        "species": inputs["case"]["given"]["posts"]["plate_species"],
        "grade": "No.2",
        "label": "plate under " + post["mark"],
        "length_in": inches(member["width"]),
    }
    return [
        Mark(post["mark"], "post", sealed_title("post", size), size),
        Mark(f"L{post['mark'][1:]}", "plate", f"Plate under {post['mark']}", plate),
    ]


def _footing_mark(footing: Mapping[str, Any]) -> Mark:
    result = footing["result"]
    thick = inches(result["thickness"])
    # Pads of older runs are square and say their side alone.
    side, width = (inches(result.get(name, result["side"])) for name in ("length", "width"))
    bars = result.get("bars")
    data = {
        "label": "Concrete pad with bars" if bars else "Plain concrete pad",
        "side_in": side,
        "width_in": width,
        "thickness_in": thick,
        "concrete_in3": side * width * thick,
        "existing": False,
    }
    if bars:
        data |= {
            "bar": bars["bar"],
            "bars": bars["along_length"]["count"],
            "cross_bars": bars["along_width"]["count"],
            "cover_in": inches(bars["cover"]),
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
            "length_in": inches(held["length"]),
            "shores": held["shores"],
            "height_in": inches(held["shore_length"]),
            "spacing_in": inches(held["spacing"]),
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
    nominal = f"{round(width + 0.5)}x{round(depth + 0.5)}"
    if given["width"].endswith("mm"):
        # As the Canadian yard writes it: actual millimetres, then the name it is called by.
        nominal = f"{width * MM_PER_INCH:.0f}x{depth * MM_PER_INCH:.0f} ({nominal})"
    label = f"{plies}{nominal} {given['species']} {given['grade']}"
    return {
        "family": given["family"],
        "plies": given["plies"],
        "ply_width_in": width,
        "depth_in": depth,
        "species": given["species"],
        "grade": given["grade"],
        "label": label,
    }
