"""Why a size fails and how close it is, in words."""

from __future__ import annotations

from structure.core.trace import Check
from structure.core.units import quantity

NAMES = {
    "bending": "Bending",
    "shear": "Shear",
    "bearing": "Bearing",
    "support_bearing": "Crushing of the support",
    "web_yielding": "Yielding of the web over a bearing",
    "web_crippling": "Crippling of the web over a bearing",
    "deflection_live": "Live deflection",
    "deflection_total": "Total deflection",
    "deflection_permanent": "Deflection under what stays",
    "bearing_near_support": "Crushing by the loads near a support",
}


def sentence(check: Check, code: str = "us") -> str:
    """Why a check fails, in words."""
    over = (check.ratio - 1) * 100
    much = f"{over:.1f} % too much" if over < 10 else f"{over:.0f} % too much"
    if check.ratio >= 3:
        much = f"{check.ratio:.0f} times what is allowed"
    demand, capacity = (_shown(check, value, code) for value in (check.demand, check.capacity))
    verb = "is" if check.dimension == "length" else "takes"
    name = NAMES.get(check.name, check.name)
    return f"{name} {verb} {demand} where {capacity} is allowed under {check.combination}: {much}."


def closeness(check: Check) -> str:
    """How near the governing check of a passing section is, in words."""
    return f"{NAMES.get(check.name, check.name)} governs at {check.ratio * 100:.0f} % of what is allowed."


def _shown(check: Check, value: float, code: str) -> str:
    held = quantity(value, check.dimension, code)
    # Inches and kilonewtons have decimals, pounds and millimetres hardly any.
    number = (
        f"{held['value']:,.2f}"
        if (check.dimension == "length") == (code == "us")
        else f"{held['value']:,.0f}"
    )
    return f"{number} {held['unit']}"
