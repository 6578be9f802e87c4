"""Grammars that several kinds share: spans, loads on a beam, loads on a post, and sections."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from structure.core.cases.types import (
    Choice,
    Field,
    Integer,
    ListOf,
    Number,
    Quantity,
    Record,
    Text,
    Variant,
)
from structure.core.clauses import DEFAULT_EDITIONS, Clause, Editions
from structure.core.errors import InputError, OutOfScope
from structure.core.materials import ca_sections
from structure.core.materials.flitch import Bolts, FlitchSection
from structure.core.materials.sections import (
    GlulamSection,
    LslSection,
    LvlSection,
    PslSection,
    SawnSection,
    Section,
    WoodSection,
)
from structure.core.materials.steel import SteelSection
from structure.core.statics.model import CASES, BeamLine, Load

_LATERAL = ("wind", "earthquake", "uplift")
_LATERAL_CLAUSE = {"us": Clause("ASCE 7", "2.4.1"), "ca": Clause("NBC", "4.1.3.2.")}


@dataclass(frozen=True, slots=True)
class LoadCase:
    """The case of a load. Wind, earthquake and uplift are known words that are refused as out of scope."""

    def read(self, value: Any, path: str, code: str) -> str:
        if isinstance(value, str) and value in _LATERAL:
            raise OutOfScope(
                _LATERAL_CLAUSE[code].at(DEFAULT_EDITIONS[code]),
                f"{path}: {value} loads are outside what a preliminary size covers; ask the engineer",
            )
        return Choice(CASES).read(value, path, code)

    def fits(self, value: Any) -> bool:
        return isinstance(value, str)

    def accepted(self) -> str:
        return Choice(CASES).accepted()

    def schema(self, code: str) -> dict[str, Any]:
        return Choice(CASES).schema(code) | {"refused": list(_LATERAL)}


LOAD_CASE = LoadCase()

_START = Field("start", Quantity("length", non_negative=True), doc="from the left end; default the left end")
_END = Field("end", Quantity("length", non_negative=True), doc="from the left end; default the right end")
BEAM_LOAD = Variant(
    "shape",
    {
        "uniform": (Field("value", Quantity("line_load"), required=True), _START, _END),
        "trapezoid": (
            Field("value", Quantity("line_load"), required=True, doc="at the start"),
            Field("end_value", Quantity("line_load"), required=True, doc="at the end"),
            _START,
            _END,
        ),
        "point": (
            Field("value", Quantity("force"), required=True),
            Field("at", Quantity("length", non_negative=True), required=True, doc="from the left end"),
        ),
    },
    common=(Field("case", LOAD_CASE, required=True),),
)
LOADS = ListOf(BEAM_LOAD)
SPANS = ListOf(Quantity("length", positive=True), min=1, max=6)
BEAM_OVERHANG = Record(
    (
        Field("left", Quantity("length", non_negative=True)),
        Field("right", Quantity("length", non_negative=True)),
    )
)
POST_LOADS = ListOf(
    Record(
        (
            Field("case", LOAD_CASE, required=True),
            Field("value", Quantity("force"), required=True, doc="down is positive"),
        )
    ),
    min=1,
)


def read_line(spans: Sequence[float], overhang: Mapping[str, float | None] | None = None) -> BeamLine:
    """A BeamLine from typed `spans` and `overhang` fields."""
    held = overhang or {}
    return BeamLine(tuple(spans), held.get("left") or 0.0, held.get("right") or 0.0)


def read_loads(records: Sequence[Mapping[str, Any]], path: str, code: str, line: BeamLine) -> list[Load]:
    """Loads of the statics engine from the typed records of a LOADS field.

    `path` is that of the list, such as `given.loads`. Raises InputError for a load that is off the
    beam or ends before it starts.
    """
    return [_read_load(record, f"{path}[{n}]", code, line) for n, record in enumerate(records)]


def _read_load(record: Mapping[str, Any], path: str, code: str, line: BeamLine) -> Load:
    if record["shape"] == "point":
        at = _on_beam(record["at"], f"{path}.at", code, line)
        return Load.point(record["case"], record["value"], at)
    start = _on_beam(0.0 if record["start"] is None else record["start"], f"{path}.start", code, line)
    end = _on_beam(line.length if record["end"] is None else record["end"], f"{path}.end", code, line)
    if end <= start:
        accepted = f"a place to the right of where the load starts, {_place(start, code)}"
        raise InputError(f"{path}.end", _place(end, code), accepted)
    if record["shape"] == "uniform":
        return Load.uniform(record["case"], record["value"], start, end)
    return Load.trapezoid(record["case"], record["value"], record["end_value"], start, end)


def _on_beam(place: float, path: str, code: str, line: BeamLine) -> float:
    # Lengths are typed in sixteenths or whole millimetres; a load right at the end may miss by rounding.
    slack = 1e-6 * line.length
    if place > line.length + slack:
        accepted = f"a place on the beam, which is {_place(line.length, code)} long"
        raise InputError(path, _place(place, code), accepted)
    return min(place, line.length)


def _place(length: float, code: str) -> str:
    """A length as people write it: feet, or millimetres."""
    return f"{length / 12:.6g} ft" if code == "us" else f"{length:g} mm"


def read_post_loads(records: Sequence[Mapping[str, Any]], code: str = "us") -> dict[str, float]:
    """Loads by case, added up, from the typed records of a POST_LOADS field.

    Raises OutOfScope for a load that pulls up: in a sum it would hide behind those that press down.
    """
    total: dict[str, float] = {}
    for record in records:
        if record["value"] < 0:
            raise OutOfScope(
                _LATERAL_CLAUSE[code].at(DEFAULT_EDITIONS[code]),
                f"a {record['case']} load that pulls up: uplift is the engineer's",
            )
        total[record["case"]] = total.get(record["case"], 0.0) + record["value"]
    return total


SPECIES = {
    "us": ("SPF", "SPF-S", "DF-L", "HF", "SP", "Northern"),
    "ca": ("SPF", "DF-L", "HF", "Northern"),
}
GRADES = {
    # One printed row of Spruce-Pine-Fir serves No.1 and No.2, and is often named by both.
    "us": ("SS", "No.1&Btr", "No.1", "No.2", "No.3", "Stud", "No.1/No.2"),
    "ca": ("SS", "No.1/No.2", "No.1&Btr", "No.1", "No.2", "No.3", "Stud"),
}
PROPERTIES = {
    "us": ("Fb", "Fb_neg", "Ft", "Fv", "Fc_perp", "Fc", "E", "Emin", "Fy", "Fu"),
    "ca": ("fb", "fb_neg", "fv", "fcp", "fc", "ft", "E", "E05", "Fy", "Fu"),
}


@dataclass(frozen=True, slots=True)
class ByCode:
    """Another type in each code, such as the grades of a species."""

    types: Mapping[str, Any]

    def read(self, value: Any, path: str, code: str) -> Any:
        return self.types[code].read(value, path, code)

    def fits(self, value: Any) -> bool:
        return any(each.fits(value) for each in self.types.values())

    def accepted(self) -> str:
        return str(self.types["us"].accepted())

    def schema(self, code: str) -> dict[str, Any]:
        return dict(self.types[code].schema(code))


_PROPERTIES = Field(
    "properties",
    ByCode(
        {
            code: Record([Field(name, Quantity("stress", positive=True)) for name in names])
            for code, names in PROPERTIES.items()
        }
    ),
    doc="stand in place of tabulated reference values, before factors",
)
_PLIES = Field("plies", Integer(1, 8), default=1)
_WIDTH = Field("width", Quantity("length", positive=True), required=True, doc="of one ply")
_DEPTH = Field("depth", Quantity("length", positive=True), required=True)
_FASTENING = Field(
    "fastening",
    ByCode({"us": Choice(("nailed", "bolted")), "ca": Choice(("nailed", "bolted", "shear_plates"))}),
    default="nailed",
    doc="of a built-up section",
)
_NAME = Field("grade", Text(40), doc="what the maker calls it; the values are in properties")
_SPECIES = Field("species", ByCode({c: Choice(s) for c, s in SPECIES.items()}), required=True)
_GRADE = Field("grade", ByCode({c: Choice(g) for c, g in GRADES.items()}), required=True)
# The plies of a flitch beam.
_PLY = {
    "sawn": (_SPECIES, _GRADE, _WIDTH, _DEPTH, _PROPERTIES),
    "lvl": (Field("grade", Text(40), required=True), _WIDTH, _DEPTH, _PROPERTIES),
}
SECTION = Variant(
    "family",
    {
        "sawn": (_SPECIES, _GRADE, _PLIES, _WIDTH, _DEPTH, _PROPERTIES, _FASTENING),
        "lvl": (Field("grade", Text(40), required=True), _PLIES, _WIDTH, _DEPTH, _PROPERTIES, _FASTENING),
        "psl": (_NAME, _PLIES, _WIDTH, _DEPTH, _PROPERTIES, _FASTENING),
        "lsl": (_NAME, _PLIES, _WIDTH, _DEPTH, _PROPERTIES, _FASTENING),
        "glulam": (
            Field("grade", Text(40), required=True, doc="layup, such as 24F-V4 or 24F-V3; ca 24f-E D Fir-L"),
            _PLIES,
            _WIDTH,
            _DEPTH,
            _PROPERTIES,
        ),
        "steel": (
            Field(
                "shape",
                Text(40),
                required=True,
                doc="W8x18, C10x15.3, HSS4x4x1/4, Pipe3-1/2STD; ca W200x27, HSS76x76x4.8, HSS73x4.8 round",
            ),
            Field(
                "grade",
                Text(40),
                doc="ASTM, such as A992, A36, A500 Gr C, A53 Gr B; ca also 350W, 345WM, 300W",
            ),
            _PROPERTIES,
        ),
        "flitch": (
            Field("wood", Variant("family", _PLY), required=True, doc="one ply"),
            Field("plies", Integer(2, 5), default=2),
            Field("plates", Integer(1, 4), default=1, doc="each between two plies"),
            Field("thickness", Quantity("length", positive=True), required=True, doc="of a plate"),
            Field("plate_depth", Quantity("length", positive=True), doc="default that of the wood"),
            Field("steel", Text(40), default="A36", doc="A36 or A572-50"),
            Field(
                "properties",
                Record([Field(name, Quantity("stress", positive=True)) for name in ("Fy", "Fu", "E")]),
                doc="of the steel",
            ),
            Field(
                "bolts",
                Record(
                    (
                        Field("diameter", Quantity("length", positive=True), default="1/2 in"),
                        Field("spacing", Quantity("length", positive=True), doc="along the beam; checked"),
                        Field("at_supports", Integer(1, 40), doc="at each support; checked"),
                    )
                ),
                default={},
            ),
            Field("gravity", Number(min=0.2, max=0.8), doc="of the wood under bolts, where not of a species"),
        ),
    },
)


_COMPOSITES: Mapping[str, Callable[..., Section]] = {
    "lvl": LvlSection,
    "psl": PslSection,
    "lsl": LslSection,
    "glulam": GlulamSection,
}


def read_section(record: Mapping[str, Any], path: str, code: str, editions: Editions) -> Section:
    """The section object of `structure.core.materials` from the typed record of a SECTION field.

    Raises OutOfScope for a family or a size that is not covered, InputError under `path` for a grade that
    no table holds.
    """
    family = record["family"]
    if family == "flitch" and code == "us":
        return _flitch(record, path, code, editions)
    properties = {k: v for k, v in (record["properties"] or {}).items() if v is not None}
    try:
        if code == "ca":
            return ca_sections.read(record, properties, editions)
        if family == "steel":
            return SteelSection(shape=record["shape"], grade=record["grade"] or "", properties=properties)
        plies, width, depth = record["plies"], record["width"], record["depth"]
        if family == "sawn":
            return SawnSection(
                species=record["species"],
                grade=record["grade"],
                plies=plies,
                width=width,
                depth=depth,
                properties=properties,
                fastening=record["fastening"],
            )
        size = {"plies": plies, "width": width, "depth": depth, "properties": properties}
        return _COMPOSITES[family](grade=record["grade"] or "", **size)
    except InputError as error:
        raise error.under(path) from None


def _flitch(record: Mapping[str, Any], path: str, code: str, editions: Editions) -> FlitchSection:
    """A flitch beam from its record; its wood is a built-up section of all plies."""
    plies = {**record["wood"], "plies": record["plies"], "fastening": "bolted"}
    wood = read_section(plies, f"{path}.wood", code, editions)
    assert isinstance(wood, WoodSection)  # noqa: S101 - the grammar of the plies has wood only
    try:
        return FlitchSection(
            wood=wood,
            plates=record["plates"],
            thickness=record["thickness"],
            plate_depth=wood.depth if record["plate_depth"] is None else record["plate_depth"],
            steel=record["steel"],
            properties={k: v for k, v in (record["properties"] or {}).items() if v is not None},
            bolts=Bolts(**record["bolts"]),
            gravity=record["gravity"],
        )
    except InputError as error:
        raise error.under(path) from None


__all__ = [
    "BEAM_OVERHANG",
    "LOADS",
    "LOAD_CASE",
    "POST_LOADS",
    "SECTION",
    "SPANS",
    "read_line",
    "read_loads",
    "read_post_loads",
    "read_section",
]
