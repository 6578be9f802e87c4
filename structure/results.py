"""Reading the answer of the engine for a whole wall: the one place that knows its shape."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from structure.families import family_of
from structure.shown import inches, value_in

Row = Mapping[str, Any]


def candidates(results: Row) -> list[dict[str, Any]]:
    """Every beam tried, those that pass first and else in the order of the engine, lightest first.

    Each with its label, sizes, how close it is or why it fails, and `given`: the section as a case writes it.
    """
    beam = results.get("beam") or {}
    chosen = (beam.get("chosen") or {}).get("section")
    rows = [_candidate(each, n, chosen) for n, each in enumerate(beam.get("candidates") or [])]
    return sorted(rows, key=lambda row: not row["passes"])


def _candidate(each: Row, order: int, chosen: str | None) -> dict[str, Any]:
    size = each["size"]
    return {
        "key": each["section"],
        "label": each["section"],
        "order": order,
        "family": each["family"],
        "group": family_of(each),
        "species": each.get("species") or "",
        "grade": each.get("grade") or "",
        "width": inches(size["width"]) if "width" in size else inches(size["ply_width"]) * size["plies"],
        "depth": inches(size["depth"]),
        "plies": size["plies"],
        "ply_width": inches(size["ply_width"]),
        # Steel between lumber comes bolted; everything else is carried in piece by piece.
        "pieces": 1 if each["family"] == "flitch" else size["plies"],
        "weight": value_in(size["weight"], "lbf/ft") if "weight" in size else None,
        "ratio": each["ratio"],
        "governing": each["governing"],
        "passes": each["passes"],
        "chosen": each["section"] == chosen,
        "close": each["close"] or "",
        "fails": [f"{fail['why']} ({fail['clause']})" for fail in each["fails"]],
        "size": size,
        "given": section_given(each),
    }


def section_given(each: Row) -> dict[str, Any]:
    """The section of a candidate as a case writes it: the engine's own words where it gives them."""
    if each.get("given"):
        return dict(each["given"])
    size = each["size"]
    if each["family"] == "steel":
        grade = each["grade"]
        return {"family": "steel", "shape": each["section"].removesuffix(f" {grade}"), "grade": grade}
    given = {
        "family": each["family"],
        "grade": each["grade"],
        "plies": size["plies"],
        "width": f"{size['ply_width']['value']!r} in",
        "depth": f"{size['depth']['value']!r} in",
    }
    if each.get("species"):
        given["species"] = each["species"]
    return given


def beam_of(results: Row) -> Row | None:
    """The beam that was worked out, None where none passes."""
    return (results.get("beam") or {}).get("chosen")


def beam_size(results: Row) -> dict[str, Any] | None:
    """Width, depth (in) and label of that beam, for the drawings."""
    beam = beam_of(results)
    if beam is None:
        return None
    size = beam["size"]
    return {"width": inches(size["width"]), "depth": inches(size["depth"]), "label": beam["section"]}


def chains(results: Row) -> list[Row]:
    """Every reaction with its links down to the ground."""
    return list(results.get("loadpath") or [])


def refusals(results: Row) -> list[Row]:
    """What the engine would not answer, each with clause and reason."""
    return list(results.get("refusals") or [])


def remarks(results: Row) -> list[str]:
    """What the engine says beside the numbers."""
    return list(results.get("remarks") or [])


def checks_of(result: Row) -> list[tuple[str, Row]]:
    """Checks of a member, the one that governs first, the rest by how close they are."""
    held = result.get("checks") or {}
    return sorted(held.items(), key=lambda item: -item[1]["ratio"])
