"""One nail, bolt or screw under the Canadian code, and what a nail carries in one plane. N, mm, MPa."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from structure.core.clauses import Editions
from structure.core.codes.ca import fasteners as o86
from structure.core.errors import InputError, OutOfScope
from structure.core.members.fastener import Fastener, Kind
from structure.core.trace import Step
from structure.data.loader import Table, table

USUAL_BOLT = 12.7  # mm, 9.23.8.3.


def held() -> Table:
    """The table of nails, distances and patterns."""
    return table("ca/fasteners")


def nail_names() -> tuple[str, ...]:
    """The nails that are held by name."""
    return tuple(str(row["name"]) for row in held().content["nail"])


def relative_density(species: str) -> float:
    """Relative density of a species group. Raises InputError for one that is not held."""
    known = table("ca/wood_factors").content["relative_density"]
    if species not in known:
        raise InputError("species", species, f"a species whose relative density is held: {', '.join(known)}")
    return float(known[species])


def make_fastener(read: Mapping[str, Any], editions: Editions) -> Fastener:
    """From the typed record of a `fastener` field.

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
        raise InputError("diameter", None, "a length with a unit, such as 12.7 mm")
    else:
        words = "bolt" if kind == "bolt" else "structural screw"
        length = None if kind == "bolt" else read["length"]
        made = Fastener(kind, f"{read['diameter']:g} mm {words}", read["diameter"], length, None)
    return replace(made, capacity=read["capacity"], source=read["source"] or "", code="ca")


def _nail(read: Mapping[str, Any], editions: Editions) -> Fastener:
    name, diameter, length = read["name"], read["diameter"], read["length"]
    mark = ""
    if name is not None:
        if diameter is not None or length is not None:
            raise InputError("name", name, "a name, or a diameter and a length, not both")
        row = next(row for row in held().content["nail"] if row["name"] == name)
        diameter, length = float(row["diameter"]), float(row["length"])
        mark = f"sizes of {name} nails, {row['mark']}" if row["mark"] else ""
    elif diameter is None or length is None:
        raise InputError(
            "name", None, f"a nail by name ({', '.join(nail_names())}), or its diameter and length"
        )
    if not 1.0 < diameter < 10.0:
        raise InputError("diameter", f"{diameter:g} mm", "a nail from 1 to 10 mm thick")
    strength = read["yield"] if read["yield"] is not None else float(o86.nail_yield(d=diameter))
    label = f"{name} nail" if name else f"{length:g} mm by {diameter:g} mm nail"
    return Fastener("nail", label, diameter, length, strength, mark=mark, code="ca")


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of wood that a nail goes through or into: relative density and thickness [mm]."""

    G: float
    thickness: float


@dataclass(frozen=True, slots=True)
class NailValue:
    """Least yield mode of one nail in one plane [N], how deep it reaches [mm], and every mode."""

    n_u: float
    mode: str
    modes: Mapping[str, float]
    penetration: float | None
    steps: tuple[Step, ...]


def nail_value(
    fastener: Fastener, side: Piece, main: Piece, editions: Editions, *, double: bool = False
) -> NailValue:
    """n_u of a nail driven through `side` into `main`, or, double, through `main` into a far piece like `side`.

    CSA O86 12.9.4.2. A stated capacity stands in its place. Raises OutOfScope for bolts and screws without one,
    for a nail that does not reach far enough, and for a side member too thin for it.
    """
    if fastener.capacity is not None:
        return NailValue(fastener.capacity, "stated", {}, None, ())
    if fastener.kind != "nail" or fastener.length is None or fastener.F_yb is None:
        raise OutOfScope(
            o86.BOLTS.at(editions),
            f"{fastener.label}: bolts and screws across the grain also split the wood, which is not worked out here; "
            "enter the factored resistance that the engineer or the maker states",
        )
    d = fastener.diameter
    through = side.thickness + (main.thickness if double else 0.0)
    last = side.thickness if double else main.thickness
    reach = min(fastener.length - through, last)
    _reaches(fastener, side, main, reach, editions, double=double)
    f_1 = o86.embedding.step(
        editions, f_0=o86.F_SIDE, G=side.G, p=o86.POWER_SIDE, d=d, d_0=o86.D_EMBED, note="f_1, side"
    )
    f_2 = o86.embedding.step(
        editions, f_0=o86.F_SIDE, G=main.G, p=o86.POWER_SIDE, d=d, d_0=o86.D_EMBED, note="f_2, main"
    )
    f_3 = o86.embedding.step(
        editions, f_0=o86.F_MAIN, G=main.G, p=o86.POWER_MAIN, d=d, d_0=o86.D_EMBED, note="f_3, main"
    )
    yields = {"f_1": f_1.result, "f_3": f_3.result, "f_y": fastener.F_yb, "d": d}
    t_1 = min(side.thickness, reach) if double else side.thickness
    modes = {
        "a": o86.mode_a.step(editions, f_1=f_1.result, d=d, t_1=t_1),
        "d": o86.mode_hinge.step(editions, note="side", **yields, t=t_1),
        "g": o86.mode_g.step(editions, note="two hinges", **yields),
    }
    if double:
        modes["c"] = o86.mode_c.step(editions, f_2=f_2.result, d=d, t_2=main.thickness)
    else:
        modes["b"] = o86.mode_b.step(editions, f_2=f_2.result, d=d, t_2=reach)
        modes["e"] = o86.mode_hinge.step(editions, note="main", **yields, t=reach)
        modes["f"] = o86.mode_f.step(editions, f_1=f_1.result, f_2=f_2.result, d=d, t_1=t_1, t_2=reach)
    mode = min(sorted(modes), key=lambda name: modes[name].result)
    return NailValue(
        modes[mode].result,
        mode,
        {name: modes[name].result for name in sorted(modes)},
        reach,
        (f_1, f_2, f_3, modes[mode]),
    )


def _reaches(
    fastener: Fastener, side: Piece, main: Piece, reach: float, editions: Editions, *, double: bool
) -> None:
    d = fastener.diameter
    if reach < o86.LEAST_POINT * d - 1e-9:
        raise OutOfScope(
            o86.PENETRATION.at(editions),
            f"{fastener.label}: it reaches {max(reach, 0.0):.0f} mm into the piece that holds it, less than 5 "
            f"diameters ({o86.LEAST_POINT * d:.0f} mm); a longer one",
        )
    thin = side.thickness < o86.LEAST_SIDE * d - 1e-9
    if thin or (double and main.thickness < o86.LEAST_MIDDLE * d - 1e-9):
        raise OutOfScope(
            o86.PENETRATION.at(editions),
            f"{fastener.label}: a piece of {side.thickness if thin else main.thickness:g} mm is too thin for it",
        )
