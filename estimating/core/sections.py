"""Sections as the takeoff buys them: lumber and engineered wood by size, steel by its shape, flitch as both."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from structure.core.clauses import COMMON_PRACTICE, US_DEFAULT
from structure.core.errors import InputError, OutOfScope

ENGINEERED = ("lvl", "psl", "lsl", "glulam")
BOLT = 0.5  # in, where the schedule does not say
STEEL_FORMS = {"W": "steel-w", "C": "steel-c", "HSS": "steel-hss", "round": "steel-pipe"}
MM = 25.4  # in an inch
WHOLE = 0.005  # mm; a size this near to a whole one is made in millimetres
NOMINAL_WIDTH = {0.75: 1, 1.5: 2, 2.5: 3, 3.5: 4, 5.5: 6, 7.25: 8, 7.5: 8}
NOMINAL_DEPTH = {2.5: 3, 3.5: 4, 5.5: 6, 7.25: 8, 7.5: 8, 9.25: 10, 9.5: 10, 11.25: 12, 11.5: 12}


@dataclass(frozen=True, slots=True)
class Steel:
    """A rolled or hollow shape: its form, width over everything [in] and weight [lb/ft]."""

    shape: str
    form: str
    width: float
    pounds_ft: float

    def surface(self, depth: float) -> float:
        """Area to paint of an inch of length [in2], its corners taken square."""
        if self.form == "round":
            return math.pi * depth
        flanges = 4.0 if self.form in ("W", "C") else 2.0
        return flanges * self.width + 2 * depth


@dataclass(frozen=True, slots=True)
class Plates:
    """Steel plates between plies, and the bolts through all of it; 0 bolts where nobody has counted them."""

    count: int
    thickness: float
    depth: float
    grade: str
    wood: str
    bolts: int
    bolt: float


@dataclass(frozen=True, slots=True)
class Section:
    """One ply and how many of it. `ply_width` and `depth` in inches.

    A steel shape is one ply; a flitch beam has the plies of its lumber and the plates between them.
    """

    family: str
    plies: int
    ply_width: float
    depth: float
    species: str = ""
    grade: str = ""
    label: str = ""
    steel: Steel | None = None
    plates: Plates | None = None

    @property
    def lumber(self) -> Section:
        """The plies of a flitch beam as lumber of their own; any other section as it is."""
        if self.plates is None:
            return self
        return replace(self, family=self.plates.wood, label="", plates=None)

    @property
    def product(self) -> str:
        """What is bought: `2x10 SPF No.2`, `1 3/4 x 16 LVL 2.0E-2900F`, `W14x22 A992`."""
        if self.steel is not None:
            return " ".join(part for part in (self.steel.shape, self.grade) if part)
        if self.plates is not None:
            held = self.plates
            size = f"{_inches(held.thickness)} x {_inches(held.depth)}"
            return f"{self.lumber.product} with {held.count} steel plate {size}"
        return " ".join(part for part in (self.size, self.words, self.grade) if part)

    @property
    def words(self) -> str:
        return self.family.upper() if self.family in ("lvl", "psl", "lsl") else self.species or self.family

    @property
    def size(self) -> str:
        """`2x10`, `1 3/4 x 16`; of metric lumber `38x235 (2x10)`, of other metric sections `80x304`."""
        width, depth = _nominal(NOMINAL_WIDTH, self.ply_width), _nominal(NOMINAL_DEPTH, self.depth)
        nominal = (
            f"{min(width, depth)}x{max(width, depth)}" if self.family == "sawn" and width and depth else ""
        )
        if self.millimetres:
            return f"{self.millimetres} ({nominal})" if nominal else self.millimetres
        return nominal or f"{_inches(self.ply_width)} x {_inches(self.depth)}"

    @property
    def millimetres(self) -> str:
        """`38x235` for a section made in whole millimetres, empty for one made in inches."""
        sizes = (self.ply_width * MM, self.depth * MM)
        if all(abs(size - round(size)) < WHOLE for size in sizes) and not _sixteenths(self.ply_width):
            return "x".join(f"{size:.0f}" for size in sizes)
        return ""

    @property
    def code(self) -> str:
        """The code of its price: `lumber-2x10-spf-no2`, `lvl-1.75x16-2.0e-2900f`, `steel-w` by weight."""
        if self.steel is not None:
            return STEEL_FORMS[self.steel.form]
        if self.plates is not None:
            return self.lumber.code
        if self.family == "sawn":
            parts = ["lumber", self.millimetres or self.size.replace(" ", ""), self.species, self.grade]
        else:
            parts = [self.family, self.millimetres or f"{self.ply_width:g}x{self.depth:g}", self.grade]
        return "-".join(_slug(part) for part in parts if part)


def read_section(data: Mapping[str, Any], path: str) -> Section:
    """A section of lumber, engineered wood, steel or flitch. Raises OutOfScope for what no rule here measures."""
    family = str(data.get("family") or "sawn").lower()
    if family == "steel":
        return _steel(data, path)
    if family == "flitch":
        return _flitch(data, path)
    if family not in ("sawn", *ENGINEERED):
        raise OutOfScope(
            COMMON_PRACTICE.at(US_DEFAULT), f"not covered yet: takeoff of {family!r} sections ({path})"
        )
    return Section(
        family=family,
        plies=count(data, "plies", path, 1, low=1),
        ply_width=length(data, "ply_width_in", path),
        depth=length(data, "depth_in", path),
        species=text(data, "species"),
        grade=text(data, "grade"),
        label=text(data, "label"),
    )


def _steel(data: Mapping[str, Any], path: str) -> Section:
    form = choice(data.get("form"), tuple(STEEL_FORMS), f"{path}.form")
    depth = length(data, "depth_in", path)
    width = length(data, "width_in", path) if data.get("width_in") else depth
    steel = Steel(text(data, "shape"), form, width, length(data, "weight_lb_ft", path))
    return Section("steel", 1, width, depth, "", text(data, "grade"), text(data, "label"), steel)


def _flitch(data: Mapping[str, Any], path: str) -> Section:
    wood = choice(data.get("wood") or "sawn", ("sawn", "lvl"), f"{path}.wood")
    plates = Plates(
        count=count(data, "plates", path, None, low=1),
        thickness=length(data, "plate_thickness_in", path),
        depth=length(data, "plate_depth_in", path),
        grade=text(data, "steel_grade"),
        wood=wood,
        bolts=count(data, "bolts", path, 0),
        bolt=length(data, "bolt_in", path) if data.get("bolt_in") else BOLT,
    )
    return Section(
        family="flitch",
        plies=count(data, "plies", path, None, low=2),
        ply_width=length(data, "ply_width_in", path),
        depth=length(data, "depth_in", path),
        species=text(data, "species"),
        grade=text(data, "grade"),
        label=text(data, "label"),
        plates=plates,
    )


def length(data: Mapping[str, Any], name: str, path: str) -> float:
    """A number greater than zero. Raises InputError with its path."""
    value = data.get(name)
    field = f"{path}.{name}" if path else name
    if (
        isinstance(value, bool)
        or not isinstance(value, (int, float))
        or not math.isfinite(value)
        or value <= 0
    ):
        raise InputError(field, value, "a number greater than zero")
    return float(value)


def count(data: Mapping[str, Any], name: str, path: str, default: int | None, low: int = 0) -> int:
    """A whole number of at least `low`. Raises InputError with its path."""
    value = data.get(name, default)
    field = f"{path}.{name}" if path else name
    if value is None and default is not None:
        value = default
    if isinstance(value, bool) or not isinstance(value, int) or value < low:
        raise InputError(field, value, f"a whole number of at least {low}")
    return value


def choice(value: Any, allowed: tuple[str, ...], field: str) -> str:
    """One of the words allowed. Raises InputError with its path."""
    if value not in allowed:
        raise InputError(field, value, " or ".join(allowed))
    return str(value)


def text(data: Mapping[str, Any], name: str) -> str:
    """A text, empty where nothing stands."""
    value = data.get(name)
    return "" if value is None else str(value)


def _nominal(table: Mapping[float, int], actual: float) -> int | None:
    return next((n for size, n in table.items() if abs(size - actual) < 0.06), None)


def _sixteenths(value: float) -> bool:
    return abs(value * 16 - round(value * 16)) < WHOLE


def _inches(value: float) -> str:
    whole, rest = divmod(round(value * 16), 16)
    if not rest:
        return f"{whole}"
    divisor = math.gcd(rest, 16)
    part = f"{rest // divisor}/{16 // divisor}"
    return f"{whole} {part}" if whole else part


def _slug(text: str) -> str:
    return "".join(c for c in text.lower().replace("&", "") if c.isalnum() or c in "-.x").replace("no.", "no")
