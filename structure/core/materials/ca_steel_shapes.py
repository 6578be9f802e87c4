"""Rolled and hollow shapes in metric labels, as a Canadian steel yard names them: W200x27, HSS76x76x4.8, HSS73x4.8.

mm and their powers, N/mm of weight. A label in inches (W8x18, HSS3x3x3/16) finds the metric shape that it is.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache, lru_cache
from math import sqrt
from typing import Any

from structure.core.codes.ca import steel_geometry as geometry
from structure.core.errors import InputError
from structure.core.materials.steel_shapes import Form, Shape, number_of
from structure.data.loader import table

# S shapes are rolled I shapes like W shapes, and the rules treat them as such.
TABLES: Mapping[str, Form] = {"ca/steel_w": "W", "ca/steel_s": "W", "ca/steel_c": "C", "ca/steel_hss": "HSS"}
ROUND = "ca/steel_round"
_LABEL = re.compile(r"(PIPE|HSS|HS|W|C|S)([0-9X./-]+)(STD|XS)?")
KILOGRAM = 9.80665e-3  # N/mm for 1 kg/m
POUNDS_A_FOOT = 1.48816  # kg/m
# Nominal depths in inches and in mm.
NOMINAL = {
    3: 75,
    4: 100,
    5: 130,
    6: 150,
    7: 180,
    8: 200,
    9: 230,
    10: 250,
    12: 310,
    14: 360,
    15: 380,
    16: 410,
    18: 460,
}
SAME_MASS = 0.015  # a mass told in lb/ft or with decimals is the shape that is this near
SAME_SIDE, SAME_WALL = 0.6, 0.06  # mm
LARGEST_INCH = 24.0  # a side up to here is told in inches
LEAST_WALL = 2.0  # mm


def shape(label: str, wall: float = 1.0) -> Shape:
    """The shape of a label; `wall`: share of a tube's wall that counts.

    Raises InputError for a label that no table holds, naming what is held near it.
    """
    kind, numbers, weight = _read(label)
    if kind in ("HSS", "HS") and len(numbers) == 3:
        held = _tube(numbers)
        return held if wall == 1.0 else _worked_out(held, wall)
    if kind in ("HSS", "HS", "PIPE") and len(numbers) == 2 and not weight:
        return _round(*_round_size(label, kind == "PIPE", *numbers), wall)
    if kind == "PIPE" and len(numbers) == 1 and weight:
        return _pipe(label, numbers[0], weight, wall)
    if kind in ("W", "C", "S") and len(numbers) == 2 and not weight:
        return _rolled(kind, *numbers)
    raise _unknown(label)


def _read(label: str) -> tuple[str, tuple[float, ...], str]:
    plain = re.sub(r"ROUND|[\sØ]", "", label.upper().replace("×", "X")).rstrip(".-")
    match = _LABEL.fullmatch(plain)
    numbers = [number_of(part) for part in match[2].split("X")] if match else [None]
    if match is None or any(not value for value in numbers):
        raise _unknown(label)
    return match[1], tuple(float(value or 0.0) for value in numbers), match[3] or ""


def _unknown(label: str, near: str = "") -> InputError:
    return InputError(
        "shape", label, near or "a shape held, such as W200x27, C200x17, HSS89x89x4.8 or HSS73x4.8"
    )


@cache
def _held(form: Form) -> tuple[Shape, ...]:
    return tuple(
        _shape(form, name, dict(zip(table(name).content["columns"], cells, strict=True)))
        for name, held in TABLES.items()
        if held == form
        for cells in table(name).content["rows"]
    )


def _rolled(form: str, nominal: float, mass: float) -> Shape:
    """A W or S shape or a channel: by its own label, or the one whose mass is the same."""
    held = _held("C" if form == "C" else "W")
    for each in held:
        if each.label == f"{form}{nominal:g}x{mass:g}":
            return each
    told = f"{form}{nominal:g}x{mass:g}"
    if nominal in NOMINAL:
        nominal, mass = float(NOMINAL[int(nominal)]), mass * POUNDS_A_FOOT
    row = [each for each in held if each.label.startswith(f"{form}{nominal:g}x")]
    best = min(row, key=lambda each: abs(each.W / KILOGRAM - mass), default=None)
    # Whole kg/m are a label of the table, and not another shape near it.
    meant = told != f"{form}{nominal:g}x{round(mass)}"
    if best is None or not meant or abs(best.W / KILOGRAM - mass) > SAME_MASS * mass:
        labels = ", ".join(each.label for each in row[:12])
        raise _unknown(told, f"a shape held; of that size {labels}" if labels else "")
    return best


def _tube(numbers: tuple[float, ...]) -> Shape:
    H, B, t = numbers
    if H <= LARGEST_INCH:
        H, B, t = H * 25.4, B * 25.4, t * 25.4
    for each in _held("HSS"):
        same = abs(each.d - H) <= SAME_SIDE and abs(each.b - B) <= SAME_SIDE
        if same and (abs(each.t_w - t) <= SAME_WALL or each.label.endswith(f"x{t:g}")):
            return each
    near = [e.label for e in _held("HSS") if abs(e.d - H) <= SAME_SIDE and abs(e.b - B) <= SAME_SIDE]
    raise _unknown(f"HSS{H:g}x{B:g}x{t:g}", f"a shape held; of that size {', '.join(near)}" if near else "")


def _round_size(label: str, pipe: bool, D: float, t: float) -> tuple[float, float, str]:
    """Outside diameter, wall and label of a round tube, told in mm or in inches."""
    if D <= LARGEST_INCH:
        D, t = D * 25.4, t * 25.4
    sizes = table(ROUND).content
    D = (
        min(sizes["diameters"], key=lambda size: abs(size - D))
        if _near(sizes["diameters"], D, SAME_SIDE)
        else D
    )
    t = min(sizes["walls"], key=lambda size: abs(size - t)) if _near(sizes["walls"], t, SAME_WALL) else t
    if not (LEAST_WALL <= t <= D / 4 and sizes["diameters"][0] <= D <= sizes["diameters"][-1]):
        raise _unknown(label, "a round tube of 27 to 324 mm with a wall from 2 mm to a quarter of that")
    return float(D), float(t), f"Pipe{D:.0f}x{t:.1f}" if pipe else f"HSS{D:.0f}x{t:.1f} round"


def _near(sizes: list[float], value: float, slack: float) -> bool:
    return any(abs(size - value) <= slack for size in sizes)


def _pipe(label: str, size: float, weight: str, wall: float) -> Shape:
    for inch, dn, D, standard, strong in table(ROUND).content["pipes"]:
        if size in (inch, dn):
            t = standard if weight == "STD" else strong
            return _round(D, t, f"Pipe{dn}{weight}", wall)
    raise _unknown(label, "standard (STD) or extra strong (XS) pipe of 2 to 6 in, DN50 to DN150")


@lru_cache(maxsize=256)
def _round(D: float, nominal: float, label: str, wall: float) -> Shape:
    """A round tube from its diameter and the wall that counts; its weight is that of the whole wall."""
    t = float(geometry.design_wall(n=wall, t_nom=nominal))
    A, I = float(geometry.round_area(D=D, t=t)), float(geometry.round_inertia(D=D, t=t))  # noqa: E741
    Z, W = float(geometry.round_plastic_modulus(D=D, t=t)), geometry.round_area(D=D, t=nominal)
    r, S = sqrt(I / A), I / (D / 2)
    return Shape(
        form="round", table=ROUND, label=label, W=float(geometry.steel_weight(A=W, gamma=geometry.DENSITY)),
        A=A, d=D, b=D, t_w=t, t_f=t, k=0.0, web=D / t, flange=D / t, I_x=I, S_x=S, Z_x=Z, r_x=r, I_y=I,
        S_y=S, Z_y=Z, r_y=r, J=2 * I, C_w=0.0, r_ts=r, h_o=D - t,
    )  # fmt: skip


@lru_cache(maxsize=256)
def _worked_out(held: Shape, wall: float) -> Shape:
    """A rectangular tube whose wall counts for less than the nominal one."""
    t = float(geometry.design_wall(n=wall, t_nom=held.t_w))
    x, y = {"H": held.d, "B": held.b, "t": t}, {"H": held.b, "B": held.d, "t": t}
    A = float(geometry.tube_area(**x))
    I_x, I_y = float(geometry.tube_inertia(**x)), float(geometry.tube_inertia(**y))
    row = {
        "label": held.label, "W": held.W / KILOGRAM, "A": A, "d": held.d, "b": held.b, "wall": t,
        "Ix": I_x, "Sx": I_x / (held.d / 2), "Zx": float(geometry.tube_plastic_modulus(**x)), "rx": sqrt(I_x / A),
        "Iy": I_y, "Sy": I_y / (held.b / 2), "Zy": float(geometry.tube_plastic_modulus(**y)), "ry": sqrt(I_y / A),
        "J": float(geometry.tube_torsion(**x)),
    }  # fmt: skip
    return _shape("HSS", held.table, row)


def _shape(form: Form, name: str, row: Mapping[str, Any]) -> Shape:
    """A row of a table. Width over thickness as CSA S16 11.3.2 counts it."""
    d, b, A, I_y = (float(row[column]) for column in ("d", "b", "A", "Iy"))
    S_x, C_w = float(row["Sx"]), float(row.get("Cw", 0.0))
    if form == "HSS":
        t_w = t_f = float(row["wall"])
        k = geometry.OUTER_CORNER * t_w
        web, flange = (side / t_w - 4 for side in (d, b))
    else:
        t_w, t_f, k = (float(row[column]) for column in ("w", "t", "k"))
        web, flange = (d - 2 * t_f) / t_w, (b / 2 if form == "W" else b) / t_f
    return Shape(
        form=form, table=name, label=str(row["label"]), W=float(row["W"]) * KILOGRAM, A=A, d=d, b=b, t_w=t_w,
        t_f=t_f, k=k, web=web, flange=flange, I_x=float(row["Ix"]), S_x=S_x, Z_x=float(row["Zx"]),
        r_x=float(row["rx"]), I_y=I_y, S_y=float(row["Sy"]), Z_y=float(row["Zy"]), r_y=float(row["ry"]),
        J=float(row["J"]), C_w=C_w, r_ts=sqrt(sqrt(I_y * C_w) / S_x), h_o=d - t_f,
    )  # fmt: skip
