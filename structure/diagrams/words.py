"""Numbers as the trade reads them: feet and inches with metric beside, pounds with kilonewtons beside."""

from __future__ import annotations

from structure.core.measure import format_feet_inches

MM_PER_INCH = 25.4
NEWTONS_PER_POUND = 4.4482216152605


def inches(value: float, code: str) -> float:
    """A length of the engine in inches, whatever its code's unit is."""
    return value if code == "us" else value / MM_PER_INCH


def length(value: float, code: str, *, both: bool = True) -> str:
    """`12'-6" (3.81 m)` for us, `3,810 mm (12'-6")` for ca."""
    millimetres = value * MM_PER_INCH if code == "us" else value
    feet = format_feet_inches(inches(value, code))
    if code == "us":
        return f"{feet} ({metres(millimetres)})" if both else feet
    return f"{millimetres:,.0f} mm ({feet})" if both else f"{millimetres:,.0f} mm"


def metres(millimetres: float) -> str:
    """Metres from one metre up, millimetres below."""
    return f"{millimetres / 1000:.2f} m" if abs(millimetres) >= 1000 else f"{millimetres:.0f} mm"


def force(value: float, code: str, *, both: bool = True) -> str:
    """`8,450 lbf (37.6 kN)` for us, `37.6 kN` for ca."""
    newtons = value * NEWTONS_PER_POUND if code == "us" else value
    metric = f"{newtons / 1000:,.1f} kN"
    if code != "us":
        return metric
    return f"{value:,.0f} lbf ({metric})" if both else f"{value:,.0f} lbf"


def line_load(value: float, code: str, *, both: bool = True) -> str:
    """`850 lbf/ft (12.4 kN/m)` for us, `12.4 kN/m` for ca."""
    per_mm = value * NEWTONS_PER_POUND / MM_PER_INCH if code == "us" else value
    metric = f"{per_mm:,.1f} kN/m"
    if code != "us":
        return metric
    return f"{value * 12:,.0f} lbf/ft ({metric})" if both else f"{value * 12:,.0f} lbf/ft"


def moment(value: float, code: str, *, both: bool = True) -> str:
    """`42,500 lbf*ft (57.6 kN*m)` for us, `57.6 kN*m` for ca, with a raised dot."""
    newton_mm = value * NEWTONS_PER_POUND * MM_PER_INCH if code == "us" else value
    metric = f"{newton_mm / 1e6:,.1f} kN\u00b7m"
    if code != "us":
        return metric
    return f"{value / 12:,.0f} lbf\u00b7ft ({metric})" if both else f"{value / 12:,.0f} lbf\u00b7ft"


def small_length(value: float, code: str) -> str:
    """A deflection: `0.52 in (13.2 mm)` for us, `13.2 mm` for ca."""
    millimetres = value * MM_PER_INCH if code == "us" else value
    return f"{value:.2f} in ({millimetres:.1f} mm)" if code == "us" else f"{millimetres:.1f} mm"
