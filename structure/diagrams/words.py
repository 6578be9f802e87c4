"""Numbers as the trade reads them, in the units that the house chose, with the other system beside where it helps.

`code` says what a value is in: inches and pounds of the United States engine, millimetres and newtons of the
Canadian one. What comes first is the house's choice.
"""

from __future__ import annotations

from structure.core.measure import format_feet_inches
from structure.shown import metric

MM_PER_INCH = 25.4
NEWTONS_PER_POUND = 4.4482216152605
KPA_PER_PSF = 0.04788025898033584
MPA_PER_PSI = 0.006894757293168


def inches(value: float, code: str) -> float:
    """A length of the engine in inches, whatever its code's unit is."""
    return value if code == "us" else value / MM_PER_INCH


def length(value: float, code: str, *, both: bool = True) -> str:
    """`12'-6" (3.81 m)` in feet and inches, `3.81 m (12'-6")` in metric."""
    millimetres = value * MM_PER_INCH if code == "us" else value
    feet = format_feet_inches(inches(value, code))
    return _pair(feet, exact_metres(millimetres) if metric() else metres(millimetres), both)


def metres(millimetres: float) -> str:
    """Metres from one metre up, millimetres below, for beside a length in feet."""
    return f"{millimetres / 1000:.2f} m" if abs(millimetres) >= 1000 else f"{millimetres:.0f} mm"


def exact_metres(millimetres: float) -> str:
    """To the millimetre: `3.81 m`, `3.812 m`, `286 mm`."""
    if abs(millimetres) < 999.5:
        return f"{millimetres:.0f} mm"
    text = f"{millimetres / 1000:.3f}"
    return f"{text[:-1] if text.endswith('0') else text} m"


def force(value: float, code: str, *, both: bool = True) -> str:
    """`8,450 lbf (37.6 kN)`; in metric `37.6 kN` alone, as Canadian drawings have it."""
    newtons = value * NEWTONS_PER_POUND if code == "us" else value
    return _load(f"{newtons / NEWTONS_PER_POUND:,.0f} lbf", _kilo(newtons / 1000, "kN"), both)


def line_load(value: float, code: str, *, both: bool = True) -> str:
    """`850 lbf/ft (12.4 kN/m)`, in metric `12.4 kN/m`."""
    per_mm = value * NEWTONS_PER_POUND / MM_PER_INCH if code == "us" else value
    feet = per_mm * MM_PER_INCH * 12 / NEWTONS_PER_POUND
    return _load(f"{feet:,.0f} lbf/ft", _kilo(per_mm, "kN/m"), both)


def moment(value: float, code: str, *, both: bool = True) -> str:
    """`42,500 lbf*ft (57.6 kN*m)`, in metric `57.6 kN*m`, with a raised dot."""
    newton_mm = value * NEWTONS_PER_POUND * MM_PER_INCH if code == "us" else value
    feet = newton_mm / NEWTONS_PER_POUND / MM_PER_INCH / 12
    return _load(f"{feet:,.0f} lbf\u00b7ft", _kilo(newton_mm / 1e6, "kN\u00b7m"), both)


def small_length(value: float, code: str) -> str:
    """A deflection or a thickness: `0.52 in (13.2 mm)`, in metric `13.2 mm` alone."""
    millimetres = value * MM_PER_INCH if code == "us" else value
    if metric():
        return f"{millimetres:.1f}".removesuffix(".0") + " mm"
    return f"{inches(value, code):.2f} in ({millimetres:.1f} mm)"


def pressure(psf: float, *, both: bool = True) -> str:
    """`40.0 psf (1.92 kPa)`, in metric `1.92 kPa`."""
    return _load(f"{psf:,.1f} psf", f"{psf * KPA_PER_PSF:.2f} kPa", both)


def stress(psi: float, *, both: bool = False) -> str:
    """`1,500 psi`, `10.3 MPa`."""
    return _load(f"{psi:,.1f} psi", f"{psi * MPA_PER_PSI:,.3g} MPa", both)


def weight(pounds: float) -> str:
    """What a piece weighs, to carry: `84 lb`, `38 kg`."""
    return f"{pounds * 0.45359237:,.0f} kg" if metric() else f"{pounds:,.0f} lb"


def weight_per_length(pounds: float) -> str:
    """What a foot or a metre of a section weighs: `22 lb/ft`, `33 kg/m`."""
    return f"{pounds * 0.45359237 / 0.3048:,.1f} kg/m" if metric() else f"{pounds:,.0f} lb/ft"


def _kilo(value: float, unit: str) -> str:
    """One decimal, two below ten where a tenth would hide much."""
    return f"{value:,.2f} {unit}" if metric() and abs(value) < 10 else f"{value:,.1f} {unit}"


def _load(imperial: str, si: str, both: bool) -> str:
    """Nobody asks for pounds where metric is spoken; where feet are, kilonewtons stand beside."""
    return si if metric() else _pair(imperial, si, both)


def _pair(imperial: str, si: str, both: bool) -> str:
    first, second = (si, imperial) if metric() else (imperial, si)
    return f"{first} ({second})" if both else first
