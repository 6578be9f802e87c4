"""One nail, bolt or structural screw as it is asked about, and what it carries in one shear plane.

US: lbf, inches, psi.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any, Literal

from structure.core.clauses import Editions
from structure.core.codes.us import fasteners as nds
from structure.core.codes.us.fasteners_value import (
    DowelValue,
    Holding,
    held_table,
    lateral_value,
    nail_yield,
)
from structure.core.errors import InputError, OutOfScope
from structure.core.materials.section import inches
from structure.core.trace import Step
from structure.core.units import quantity

Kind = Literal["nail", "bolt", "structural_screw"]


@dataclass(frozen=True, slots=True)
class Fastener:
    """`length` None goes through everything, as a bolt does; `capacity` is one stated by its maker, with `source`."""

    kind: Kind
    label: str
    diameter: float
    length: float | None
    F_yb: float | None
    capacity: float | None = None
    source: str = ""
    mark: str = ""
    code: str = "us"

    def as_data(self) -> dict[str, Any]:
        """Plain data: the takeoff names it by `label`."""
        return {
            "kind": self.kind,
            "label": self.label,
            "diameter": quantity(self.diameter, "length", self.code),
            "length": None if self.length is None else quantity(self.length, "length", self.code),
            "Fyb": None if self.F_yb is None else quantity(self.F_yb, "stress", self.code),
            "stated": None if self.capacity is None else quantity(self.capacity, "force", self.code),
            "source": self.source,
        }


def nail_names() -> tuple[str, ...]:
    """The nails that are held by name."""
    return tuple(str(row["name"]) for row in held_table().content["nail"])


def make_fastener(read: Mapping[str, Any], editions: Editions) -> Fastener:
    """From the typed record of a `fastener` field: kind, name, diameter, length, yield, capacity, source.

    Raises InputError where a nail has neither a name nor both sizes, or a capacity comes without its source.
    """
    kind: Kind = read["kind"]
    if read["capacity"] is not None and not read["source"]:
        raise InputError("source", None, "where the stated capacity is printed")
    if kind == "nail":
        made = _nail(read, editions)
    elif read["name"] is not None:
        raise InputError("name", read["name"], "a name for nails only; give the diameter")
    elif read["diameter"] is None:
        raise InputError("diameter", None, "a length with a unit, such as 1/2 in")
    elif kind == "bolt":
        bolt = held_table().content["bolt"]
        stated = read["yield"]
        made = Fastener(
            kind,
            f"{inches(read['diameter'])} in bolt",
            read["diameter"],
            None,
            float(bolt["yield_psi"]) if stated is None else stated,
            mark="" if stated is not None else f"bending yield {bolt['yield_psi']:,.0f} psi, {bolt['mark']}",
        )
    else:
        made = Fastener(
            kind, f"{read['diameter']:g} in structural screw", read["diameter"], read["length"], None
        )
    return replace(made, capacity=read["capacity"], source=read["source"] or "")


def _nail(read: Mapping[str, Any], editions: Editions) -> Fastener:
    name, diameter, length = read["name"], read["diameter"], read["length"]
    mark = ""
    if name is not None:
        if diameter is not None or length is not None:
            raise InputError("name", name, "a name, or a diameter and a length, not both")
        row = next(row for row in held_table().content["nail"] if row["name"] == name)
        diameter, length = float(row["diameter"]), float(row["length"])
        mark = f"sizes of {name}, {row['mark']}" if row["mark"] else ""
    elif diameter is None or length is None:
        raise InputError(
            "name", None, f"a nail by name ({', '.join(nail_names())}), or its diameter and length"
        )
    label = f"{name} nail" if name else f"{length:g} in by {diameter:g} in nail"
    strength = read["yield"]
    if strength is None:
        strength = nail_yield(diameter, editions)
        mark = "; ".join(
            filter(None, (mark, "bending yield by " + held_table().content["nail_yield"]["mark"]))
        )
    return Fastener("nail", label, diameter, length, strength, mark=mark)


@dataclass(frozen=True, slots=True)
class PlaneValue:
    """What one fastener carries in one shear plane [lbf], before C_D, with how far it reaches."""

    value: DowelValue | None
    reference: float
    penetration: float | None
    C_p: float
    steps: tuple[Step, ...]


def plane_value(
    fastener: Fastener,
    main: Holding,
    side: Holding,
    editions: Editions,
    *,
    double: bool = False,
    angle: float = 0.0,
) -> PlaneValue:
    """Z of a fastener driven through `side` (and, double, through `main` into the far side). NDS 12.3, 12.1.6.

    `length` of the holdings is the thickness of the pieces. A nail that reaches less than 10 diameters keeps
    p / 10 D of its value. A stated capacity stands in place of Z. Raises OutOfScope where a nail reaches less
    than 6 diameters, and for a structural screw without a stated capacity.
    """
    if fastener.capacity is not None:
        return PlaneValue(None, fastener.capacity, None, 1.0, ())
    if fastener.F_yb is None:
        raise OutOfScope(
            nds.YIELD.at(editions),
            f"{fastener.label}: only its maker's paper gives what it carries; enter that and its source",
        )
    D = fastener.diameter
    C_p, reach, before = 1.0, None, []
    if fastener.length is not None:
        through = side.length + (main.length if double else 0.0)
        last = side.length if double else main.length
        reach = min(fastener.length - through, last)
        if reach < nds.LEAST_PENETRATION * D - 1e-9:
            raise OutOfScope(
                nds.NAIL_PENETRATION.at(editions),
                f"{fastener.label}: it reaches {max(reach, 0.0):.2f} in into the piece that holds it, less than 6 "
                f"diameters ({nds.LEAST_PENETRATION * D:.2f} in); a longer one",
            )
        step = nds.penetration_factor.step(editions, p=reach, D=D)
        C_p, before = step.result, [step]
        if not double:
            # The share is of the value at 10 diameters, as the printed tables have it.
            main = replace(main, length=max(reach, nds.FULL_PENETRATION * D))
    found = lateral_value(
        diameter=D, F_yb=fastener.F_yb, main=main, side=side, editions=editions, double=double, angle=angle
    )
    return PlaneValue(found, found.Z, reach, C_p, (*before, *found.steps))
