"""The `dowel` kind: one nail or bolt loaded sideways."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from structure.core.cases.fastener_fields import FASTENER
from structure.core.cases.grammars import SPECIES, ByCode
from structure.core.cases.reader import Choice, Field, Integer, Kind, Number, Quantity, Record, Result
from structure.core.clauses import Editions
from structure.core.codes.us import fasteners as nds
from structure.core.codes.us.fasteners_value import Holding, group_of, held_table, steel_holding, wood_holding
from structure.core.errors import InputError
from structure.core.materials.species import specific_gravity
from structure.core.members.ca_dowel import answer as canadian
from structure.core.members.fastener import make_fastener, plane_value
from structure.core.trace import Step
from structure.core.units import quantity

_PIECE = Record(
    (
        Field("species", ByCode({code: Choice(names) for code, names in SPECIES.items()})),
        Field("specific_gravity", Number(min=0.2, max=0.8), doc="in place of a species"),
        Field("Fu", Quantity("stress", positive=True), doc="of a steel plate, in place of wood"),
        Field("thickness", Quantity("length", positive=True), required=True),
        Field("angle", Number(min=0, max=90), default=0, doc="of the load to the grain, degrees"),
    )
)
_ROW = Record(
    (
        Field("count", Integer(2, 20), required=True, doc="in line with the load"),
        Field("spacing", Quantity("length", positive=True), required=True),
        Field(
            "EA_main", Quantity("force", positive=True), required=True, doc="E times area of the main member"
        ),
        Field("EA_side", Quantity("force", positive=True), required=True, doc="of the side members together"),
    )
)


def _holding(read: Mapping[str, Any], name: str, diameter: float, editions: Editions) -> Holding:
    told = [key for key in ("species", "specific_gravity", "Fu") if read[key] is not None]
    if len(told) != 1:
        raise InputError(name, " and ".join(told) or None, "one of species, specific_gravity and Fu")
    try:
        if read["Fu"] is not None:
            return steel_holding(read["Fu"], read["thickness"], editions)
        G = read["specific_gravity"] if read["species"] is None else specific_gravity(read["species"])
        return wood_holding(G, diameter, read["thickness"], read["angle"], editions)
    except InputError as error:
        raise error.under(name) from None


def _solve(given: dict[str, Any], editions: Editions) -> dict[str, Any]:
    try:
        return _answer(given, editions)
    except InputError as error:
        raise error.under("given") from None


def _answer(given: dict[str, Any], editions: Editions) -> dict[str, Any]:
    try:
        fastener = make_fastener(given["fastener"], editions)
    except InputError as error:
        raise error.under("fastener") from None
    main = _holding(given["main"], "main", fastener.diameter, editions)
    side = _holding(given["side"], "side", fastener.diameter, editions)
    woods = [each["angle"] for each in (given["main"], given["side"]) if each["Fu"] is None]
    angle = max(woods, default=0.0)
    found = plane_value(fastener, main, side, editions, double=given["shear"] == "double", angle=angle)
    C_g = 1.0
    row_steps: tuple[Step, ...] = ()
    if given["row"] is not None:
        row = given["row"]
        C_g, row_steps = group_of(
            count=row["count"],
            spacing=row["spacing"],
            diameter=fastener.diameter,
            EA_m=row["EA_main"],
            EA_s=row["EA_side"],
            editions=editions,
            metal=given["side"]["Fu"] is not None,
        )
    adjusted = nds.adjusted_value.step(
        editions, Z=found.reference, C_D=given["duration"], C_p=found.C_p, C_g=C_g
    )
    remarks = [fastener.mark] if fastener.mark else []
    data: dict[str, Any] = {
        "fastener": fastener.as_data(),
        "Z": quantity(found.reference, "force"),
        "adjusted": quantity(adjusted.result, "force"),
        "factors": {"CD": given["duration"], "Cp": found.C_p, "Cg": C_g},
        "penetration": None if found.penetration is None else quantity(found.penetration, "length"),
        "bearing": {"main": quantity(main.F_e, "stress"), "side": quantity(side.F_e, "stress")},
        "clause": str(nds.YIELD.at(editions)),
        "sources": list(held_table().sources),
        "steps": [step.as_data() for step in (*found.steps, *row_steps, adjusted)],
        "remarks": remarks,
    }
    if found.value is not None:
        data |= {
            "mode": found.value.mode,
            "modes": {name: quantity(value, "force") for name, value in found.value.modes.items()},
            "terms": dict(found.value.terms),
        }
    return data


def _solve_ca(given: dict[str, Any], editions: Editions) -> dict[str, Any]:
    try:
        return canadian(given, editions)
    except InputError as error:
        raise error.under("given") from None


KIND = Kind(
    "dowel",
    (
        Field("fastener", FASTENER, required=True),
        Field(
            "main", _PIECE, required=True, doc="holds the point of a nail; the middle piece in double shear"
        ),
        Field("side", _PIECE, required=True, doc="under the head; the outer pieces in double shear"),
        Field("shear", Choice(("single", "double")), default="single"),
        Field(
            "duration",
            ByCode({"us": Number(min=0.9, max=2.0), "ca": Number(min=0.65, max=1.15)}),
            default=1.0,
            doc="C_D, or K_D in ca",
        ),
        Field("row", _ROW, doc="several in line with the load, for the group action factor"),
    ),
    solve={"us": _solve, "ca": _solve_ca},
    results=(
        Result("Z", "force", "us: reference value, or the stated capacity"),
        Result("nu", "force", "ca: unit lateral resistance of one plane"),
        Result("mode", "", "Im, Is, II, IIIm, IIIs or IV; ca: a to g"),
        Result("modes.<Im|Is|II|IIIm|IIIs|IV>", "force", "each mode"),
        Result("terms.<Re|Rt|k1|k2|k3|Ktheta|Rd_I|Rd_II|Rd_III>", "", "terms of the equations"),
        Result("bearing.<main|side>", "stress", "dowel bearing strength"),
        Result("penetration", "length", "into the piece that holds the point"),
        Result("factors.<CD|Cp|Cg>", "", "load duration, penetration of nails, group action"),
        Result("adjusted", "force", "what one fastener may carry"),
        Result("resistance", "force", "ca: factored resistance of one nail"),
    ),
    doc="One nail or bolt loaded sideways, NDS chapter 12 or CSA O86 12.9: single or double shear.",
)
