"""What a typed quantity was understood as, in feet and inches or pounds and in metric."""

from __future__ import annotations

from structure.core.errors import InputError
from structure.core.units import read_quantity
from structure.diagrams import words


def understood(text: str, dimension: str) -> str:
    """`read as 12'-6\" (3.81 m)`; empty where nothing, or nothing readable, was typed."""
    if not text.strip():
        return ""
    try:
        value = read_quantity(text, dimension, dimension)
    except InputError:
        return ""
    return f"read as {told(value, dimension)}"


def told(value: float, dimension: str) -> str:
    """A value of the us system in the trade's unit with the metric one beside it."""
    if dimension == "length":
        return words.length(value, "us")
    if dimension == "force":
        return words.force(value, "us")
    if dimension == "line_load":
        return words.line_load(value, "us")
    if dimension == "pressure":
        return f"{value * 144:,.4g} psf ({value * 6.894757293168:,.3g} kPa)"
    if dimension == "stress":
        return f"{value:,.0f} psi ({value * 0.006894757293168:,.3g} MPa)"
    return f"{value:,.4g}"
