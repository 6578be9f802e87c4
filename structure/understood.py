"""What a typed quantity was understood as, in both systems, that of the house first."""

from __future__ import annotations

from structure.core.errors import InputError
from structure.core.units import read_quantity
from structure.diagrams import words
from structure.shown import IMPERIAL, METRIC, metric, shown_in

_SQUARE_FOOT = 144.0
_SQUARE_METRE = 0.09290304  # of a square foot


def understood(text: str, dimension: str) -> str:
    """`read as 12'-6\" (3.81 m)`, in metric `read as 3.81 m (12'-6\")`; empty where nothing readable was typed."""
    if not text.strip():
        return ""
    try:
        value = read_quantity(text, dimension, dimension)
    except InputError:
        return ""
    return f"read as {told(value, dimension)}"


def told(value: float, dimension: str) -> str:
    """A value of the us system in the unit of the house with the other one beside it."""
    if dimension == "length":
        return words.length(value, "us")
    other = IMPERIAL if metric() else METRIC
    with shown_in(other):
        beside = _alone(value, dimension)
    first = _alone(value, dimension)
    return first if first == beside else f"{first} ({beside})"


def _alone(value: float, dimension: str) -> str:
    """In the one unit that is spoken now."""
    if dimension == "force":
        return words.force(value, "us", both=False)
    if dimension == "line_load":
        return words.line_load(value, "us", both=False)
    if dimension == "pressure":
        psf = value * _SQUARE_FOOT
        return f"{psf * words.KPA_PER_PSF:,.3g} kPa" if metric() else f"{psf:,.4g} psf"
    if dimension == "stress":
        return f"{value * words.MPA_PER_PSI:,.3g} MPa" if metric() else f"{value:,.0f} psi"
    if dimension == "area":
        feet = value / _SQUARE_FOOT
        return f"{feet * _SQUARE_METRE:,.4g} m\u00b2" if metric() else f"{feet:,.4g} ft\u00b2"
    return f"{value:,.4g}"
