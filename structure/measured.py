"""A section as the takeoff reads it: plain data, lengths in inches, weights in pounds to the foot."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from structure.core.units import read_quantity
from structure.shown import inches, value_in

Row = Mapping[str, Any]


def measured(row: Row) -> dict[str, Any]:
    """From a row with `family`, `label`, `size`, and `given`, the section as a case writes it."""
    size, given = row["size"], row["given"]
    data: dict[str, Any] = {
        "family": row["family"],
        "plies": size["plies"],
        "ply_width_in": inches(size["ply_width"]),
        "depth_in": inches(size["depth"]),
        "species": given.get("species") or row.get("species") or "",
        "grade": given.get("grade") or row.get("grade") or "",
        "label": row["label"],
    }
    if row["family"] == "steel":
        data |= {
            "shape": given["shape"],
            "form": size["form"],
            "width_in": inches(size["width"]),
            "weight_lb_ft": value_in(size["weight"], "lbf/ft"),
        }
    if row["family"] == "flitch":
        data |= _flitch(size, given)
    return data


def _flitch(size: Row, given: Row) -> dict[str, Any]:
    wood, plate = given["wood"], size["plate"]
    return {
        "wood": wood["family"],
        "species": wood.get("species") or "",
        "grade": wood.get("grade") or "",
        "plates": plate["count"],
        "plate_thickness_in": inches(plate["thickness"]),
        "plate_depth_in": inches(plate["depth"]),
        "steel_grade": given.get("steel") or "",
        "bolt_in": read_quantity(given.get("bolts", {}).get("diameter", "1/2 in"), "length", "bolts"),
    }


def beam_extras(beam: Row, length: float) -> dict[str, Any]:
    """What holds a chosen beam together and what it stands on, where the engine has counted it.

    `beam` is the beam of an answered wall; runs from before the engine counted have none of it.
    """
    chosen = beam["chosen"]
    data: dict[str, Any] = {}
    fastening = beam.get("fastening") or {}
    if fastening.get("status") == "ok" and fastening.get("state") == "passes" and fastening.get("count"):
        fastener = fastening["fastener"]
        length_in = fastener["length"]
        data |= {
            "ply_fasteners": fastening["count"],
            "ply_fastener": fastener["label"],
            "ply_fastener_kind": fastener["kind"],
            "ply_fastener_in": inches(fastener["diameter"]),
            "ply_fastener_length_in": None if length_in is None else inches(length_in),
            "ply_rows": fastening["rows"],
            "ply_spacing_in": inches(fastening["spacing"]),
            "ply_source": str((fastening.get("least") or {}).get("clause") or "ply fastening rule"),
        }
    bolts = chosen.get("bolts")
    if bolts:
        rows = sum(bolts["at_supports"]) + sum(int(each["bolts"]) for each in bolts["at_points"])
        data["bolts"] = rows + max(int(length / inches(bolts["spacing"])) - 1, 0)
    return data | plates_of(chosen.get("plates") or {})


def plates_of(plates: Mapping[str, Row | None]) -> dict[str, Any]:
    """Bearing or base plates of the engine by their sizes; nothing where it gives none."""
    held = [plate for plate in plates.values() if plate]
    if not held:
        return {}
    sizes = {"length_in": "length", "width_in": "width", "thickness_in": "thickness"}
    return {
        "bearing_plates": [{stored: inches(plate[name]) for stored, name in sizes.items()} for plate in held]
    }
