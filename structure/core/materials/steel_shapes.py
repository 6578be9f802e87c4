"""Rolled and hollow shapes of structural steel, found by the label that a shop writes.

Inches and their powers, lbf/in of weight; symbols as in AISC 360.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache
from typing import Any, Literal

from structure.core.codes.us import steel
from structure.core.errors import InputError
from structure.data.loader import table

Form = Literal["W", "C", "HSS", "round"]
# S shapes are rolled I shapes like W shapes, and the rules treat them as such.
TABLES: Mapping[str, Form] = {
    "us/steel_w": "W",
    "us/steel_s": "W",
    "us/steel_c": "C",
    "us/steel_hss": "HSS",
    "us/steel_round": "round",
}
_LABEL = re.compile(r"(PIPE|HSS|W|C|S)([0-9X./-]+)(STD|XS)?")
_PART = re.compile(r"(?:(\d+)-)?(\d+)/(\d+)|\d+(?:\.\d*)?|\.\d+")
SLACK = 0.002  # in: a wall told as 0.188 is the 3/16 of the table
CORNER = 1.5  # walls: the least outside corner of a tube, so the least spread of a force into its webs


@dataclass(frozen=True, slots=True)
class Shape:
    """One shape of a table. `k`: outer face to the web toe of the fillet; `web`, `flange`: width over thickness.

    A tube has two webs and equal walls, a round one neither web nor flange: then these are its D/t.
    """

    form: Form
    table: str
    label: str
    W: float
    A: float
    d: float
    b: float
    t_w: float
    t_f: float
    k: float
    web: float
    flange: float
    I_x: float
    S_x: float
    Z_x: float
    r_x: float
    I_y: float
    S_y: float
    Z_y: float
    r_y: float
    J: float
    C_w: float
    r_ts: float
    h_o: float

    @property
    def webs(self) -> int:
        """How many webs carry a force across the beam."""
        return 2 if self.form == "HSS" else 1

    @property
    def turned(self) -> Shape:
        """The same tube bent about its other axis."""
        return replace(
            self, d=self.b, b=self.d, web=self.flange, flange=self.web, I_x=self.I_y, S_x=self.S_y,
            Z_x=self.Z_y, r_x=self.r_y, I_y=self.I_x, S_y=self.S_x, Z_y=self.Z_x, r_y=self.r_x,
        )  # fmt: skip


def shape(label: str) -> Shape:
    """The shape of a label such as `W8x18`, `C10X15.3`, `HSS3-1/2x3-1/2x1/4`, `Pipe3STD`.

    Raises InputError for a label that no table holds, naming what is held near it.
    """
    key = _key(label)
    held = _held()
    if key is None or key not in held:
        raise InputError("shape", label, _accepted(key))
    return held[key]


def shapes(form: Form) -> tuple[Shape, ...]:
    """Every shape held of one form, in the order of its tables."""
    return tuple(each for each in _held().values() if each.form == form)


@cache
def _held() -> Mapping[tuple[Any, ...], Shape]:
    found: dict[tuple[Any, ...], Shape] = {}
    for name, form in TABLES.items():
        content = table(name).content
        for cells in content["rows"]:
            row = dict(zip(content["columns"], cells, strict=True))
            key = _key(str(row["label"]))
            assert key is not None  # noqa: S101 - the table is ours
            found[key] = _shape(form, name, row)
    return found


def _shape(form: Form, name: str, row: Mapping[str, Any]) -> Shape:
    def number(column: str, other: float = 0.0) -> float:
        return float(row.get(column, other))

    I_x, S_x, Z_x, r_x = (number(column) for column in ("Ix", "Sx", "Zx", "rx"))
    if form in ("W", "C"):
        d, b, t_w, t_f, k = (number(column) for column in ("d", "bf", "tw", "tf", "kdes"))
        # Half a flange sticks out of a W shape, all of it out of a channel.
        flange = float(steel.width_to_thickness(b=b / 2 if form == "W" else b, t=t_f))
        web = number("h_tw")
    elif form == "HSS":
        d, b, t_w = number("Ht"), number("B"), number("tdes")
        t_f, k = t_w, CORNER * t_w
        web, flange = (float(steel.wall_slenderness(H=side, t=t_w)) for side in (d, b))
    else:
        d, t_w = number("OD"), number("tdes")
        b, t_f, k = d, t_w, 0.0
        web = flange = float(steel.width_to_thickness(b=d, t=t_w))
    return Shape(
        form=form, table=name, label=str(row["label"]),
        W=number("W") / 12, A=number("A"), d=d, b=b, t_w=t_w, t_f=t_f, k=k,
        web=web, flange=flange, I_x=I_x, S_x=S_x, Z_x=Z_x, r_x=r_x, I_y=number("Iy", I_x), S_y=number("Sy", S_x),
        Z_y=number("Zy", Z_x), r_y=number("ry", r_x), J=number("J"), C_w=number("Cw"), r_ts=number("rts"),
        h_o=number("ho"),
    )  # fmt: skip


def _key(label: str) -> tuple[Any, ...] | None:
    """A label as its letters and numbers, so that `HSS 3.5 x 3.5 x 0.25` is `HSS3-1/2X3-1/2X1/4`."""
    plain = re.sub(r"\s+", "", label).upper().replace("×", "X").rstrip(".")
    match = _LABEL.fullmatch(plain)
    if match is None or (match[1] == "PIPE") != (match[3] is not None):
        return None
    numbers = [number_of(part) for part in match[2].split("X")]
    if None in numbers:
        return None
    if match[1] == "HSS" and len(numbers) == 3:
        numbers[-1] = _sixteenths(float(numbers[-1] or 0.0))
    return (match[1], *numbers, *filter(None, (match[3],)))


def number_of(text: str) -> float | None:
    """`3-1/2`, `.25`, `4.8`; None for anything else."""
    match = _PART.fullmatch(text)
    if match is None or (match[3] and int(match[3]) == 0):
        return None
    if match[3]:
        return float(int(match[1] or 0) + Fraction(int(match[2]), int(match[3])))
    return float(text)


def _sixteenths(value: float) -> float:
    nearest = round(value * 16) / 16
    return nearest if abs(nearest - value) <= SLACK else value


def _accepted(key: tuple[Any, ...] | None) -> str:
    near: Iterator[str] = iter(())
    if key is not None and len(key) > 1:
        near = (each.label for held, each in _held().items() if held[:2] == key[:2] and len(held) == len(key))
    labels = sorted(near, key=len)[:12]
    if labels:
        return f"a shape held; of that size {', '.join(labels)}"
    return "a shape held, such as W8x18, C10x15.3, HSS4x4x1/4 or Pipe3-1/2STD"
