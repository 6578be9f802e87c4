"""The schedule as the takeoff reads it: plain data in, typed and checked members out. Lengths in inches."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from structure.core.clauses import COMMON_PRACTICE, US_DEFAULT
from structure.core.errors import InputError, OutOfScope

ENGINEERED = ("lvl", "psl", "lsl", "glulam")
NOMINAL_WIDTH = {0.75: 1, 1.5: 2, 2.5: 3, 3.5: 4, 5.5: 6, 7.25: 8, 7.5: 8}
NOMINAL_DEPTH = {2.5: 3, 3.5: 4, 5.5: 6, 7.25: 8, 7.5: 8, 9.25: 10, 9.5: 10, 11.25: 12, 11.5: 12}


@dataclass(frozen=True, slots=True)
class Section:
    """One ply and how many of it. `ply_width` and `depth` in inches."""

    family: str
    plies: int
    ply_width: float
    depth: float
    species: str = ""
    grade: str = ""
    label: str = ""

    @property
    def product(self) -> str:
        """What is bought: `2x10 SPF No.2`, `1 3/4 x 16 LVL 2.0E-2900F`."""
        return " ".join(part for part in (self.size, self.words, self.grade) if part)

    @property
    def words(self) -> str:
        return self.family.upper() if self.family in ("lvl", "psl", "lsl") else self.species or self.family

    @property
    def size(self) -> str:
        width, depth = _nominal(NOMINAL_WIDTH, self.ply_width), _nominal(NOMINAL_DEPTH, self.depth)
        if self.family == "sawn" and width and depth:
            return f"{min(width, depth)}x{max(width, depth)}"
        return f"{_inches(self.ply_width)} x {_inches(self.depth)}"

    @property
    def code(self) -> str:
        """The code of its price: `lumber-2x10-spf-no2`, `lvl-1.75x16-2.0e-2900f`."""
        if self.family == "sawn":
            parts = ["lumber", self.size.replace(" ", ""), self.species, self.grade]
        else:
            parts = [self.family, f"{self.ply_width:g}x{self.depth:g}", self.grade]
        return "-".join(_slug(part) for part in parts if part)


@dataclass(frozen=True, slots=True)
class Beam:
    mark: str
    section: Section
    length: float


@dataclass(frozen=True, slots=True)
class Post:
    mark: str
    section: Section
    height: float
    fastening: str


@dataclass(frozen=True, slots=True)
class Footing:
    mark: str
    side: float
    thickness: float
    concrete: float
    existing: bool
    bar: str = ""
    bars: int = 0
    cover: float = 3.0


@dataclass(frozen=True, slots=True)
class ShoreSide:
    """One shoring wall; `height` is the length of a shore between sill and header."""

    mark: str
    length: float
    height: float
    header: Section
    shore: Section
    sill: Section
    shores: int
    reshore: bool


@dataclass(frozen=True, slots=True)
class Plate:
    mark: str
    section: Section
    length: float


@dataclass(frozen=True, slots=True)
class Schedule:
    """Everything the takeoff needs to know of one wall."""

    code: str
    beam: Beam
    posts: tuple[Post, ...]
    footings: tuple[Footing, ...]
    shoring: tuple[ShoreSide, ...]
    plates: tuple[Plate, ...]
    wall_length: float
    wall_height: float
    wall_thickness: float
    opening: float
    slab_cut: bool
    flush: bool
    hangers: int
    rafter_tie: bool
    not_measured: tuple[str, ...] = ()


def read_schedule(data: Mapping[str, Any]) -> Schedule:
    """The typed schedule. Raises InputError with the path of the field that is missing or cannot be used."""
    wall = _record(data, "wall", "wall")
    return Schedule(
        code=_choice(data.get("code", "us"), ("us", "ca"), "code"),
        beam=_beam(_record(data, "beam", "beam")),
        posts=tuple(_post(d, p) for d, p in _list(data, "posts", "P")),
        footings=tuple(_footing(d, p) for d, p in _list(data, "footings", "F")),
        shoring=tuple(_side(d, p) for d, p in _list(data.get("shoring") or {}, "sides", "S", "shoring.")),
        plates=tuple(_plate(d, p) for d, p in _list(data, "plates", "PL")),
        wall_length=_length(wall, "length_in", "wall"),
        wall_height=_length(wall, "height_in", "wall"),
        wall_thickness=_length(wall, "thickness_in", "wall"),
        opening=_length(data, "opening_in", ""),
        slab_cut=bool(data.get("slab_cut", False)),
        flush=bool(data.get("flush", False)),
        hangers=_count(data, "hangers", "", 0),
        rafter_tie=bool(data.get("rafter_tie", False)),
        not_measured=tuple(str(each) for each in data.get("not_measured") or ()),
    )


def read_section(data: Mapping[str, Any], path: str) -> Section:
    """A sawn or engineered section. Steel and flitch beams are refused: their takeoff is not covered yet."""
    family = str(data.get("family") or "sawn").lower()
    if family not in ("sawn", *ENGINEERED):
        raise OutOfScope(
            COMMON_PRACTICE.at(US_DEFAULT), f"not covered yet: takeoff of {family!r} sections ({path})"
        )
    return Section(
        family=family,
        plies=_count(data, "plies", path, 1, low=1),
        ply_width=_length(data, "ply_width_in", path),
        depth=_length(data, "depth_in", path),
        species=_text(data, "species"),
        grade=_text(data, "grade"),
        label=_text(data, "label"),
    )


def _beam(data: Mapping[str, Any]) -> Beam:
    return Beam(_text(data, "mark") or "B1", read_section(data, "beam"), _length(data, "length_in", "beam"))


def _post(data: Mapping[str, Any], path: str) -> Post:
    fastening = _choice(data.get("fastening") or "nailed", ("nailed", "bolted"), f"{path}.fastening")
    return Post(data["mark"], read_section(data, path), _length(data, "height_in", path), fastening)


def _footing(data: Mapping[str, Any], path: str) -> Footing:
    side, thickness = _length(data, "side_in", path), _length(data, "thickness_in", path)
    bars = data.get("bars") or {}
    volume = data.get("concrete_in3")
    return Footing(
        mark=data["mark"],
        side=side,
        thickness=thickness,
        concrete=side * side * thickness if volume is None else _length(data, "concrete_in3", path),
        existing=bool(data.get("existing", False)),
        bar=_text(bars, "bar"),
        bars=_count(bars, "count", f"{path}.bars", 0),
        cover=_length(bars, "cover_in", f"{path}.bars") if bars.get("cover_in") else 3.0,
    )


def _side(data: Mapping[str, Any], path: str) -> ShoreSide:
    return ShoreSide(
        mark=data["mark"],
        length=_length(data, "length_in", path),
        height=_length(data, "height_in", path),
        header=read_section(_record(data, "header", path), f"{path}.header"),
        shore=read_section(_record(data, "shore", path), f"{path}.shore"),
        sill=read_section(_record(data, "sill", path), f"{path}.sill"),
        shores=_count(data, "shores", path, None, low=1),
        reshore=bool(data.get("reshore", False)),
    )


def _plate(data: Mapping[str, Any], path: str) -> Plate:
    return Plate(data["mark"], read_section(data, path), _length(data, "length_in", path))


def _list(
    data: Mapping[str, Any], name: str, letter: str, prefix: str = ""
) -> list[tuple[dict[str, Any], str]]:
    rows = data.get(name) or []
    if not isinstance(rows, (list, tuple)):
        raise InputError(f"{prefix}{name}", rows, "a list")
    made = []
    for index, row in enumerate(rows):
        path = f"{prefix}{name}[{index}]"
        if not isinstance(row, Mapping):
            raise InputError(path, row, "a record of fields")
        made.append(({**row, "mark": str(row.get("mark") or f"{letter}{index + 1}")}, path))
    return made


def _record(data: Mapping[str, Any], name: str, path: str) -> Mapping[str, Any]:
    found = data.get(name)
    if not isinstance(found, Mapping):
        raise InputError(path if path == name else f"{path}.{name}", found, "a record of fields")
    return found


def _length(data: Mapping[str, Any], name: str, path: str) -> float:
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


def _count(data: Mapping[str, Any], name: str, path: str, default: int | None, low: int = 0) -> int:
    value = data.get(name, default)
    field = f"{path}.{name}" if path else name
    if value is None and default is not None:
        value = default
    if isinstance(value, bool) or not isinstance(value, int) or value < low:
        raise InputError(field, value, f"a whole number of at least {low}")
    return value


def _choice(value: Any, allowed: tuple[str, ...], field: str) -> str:
    if value not in allowed:
        raise InputError(field, value, " or ".join(allowed))
    return str(value)


def _text(data: Mapping[str, Any], name: str) -> str:
    value = data.get(name)
    return "" if value is None else str(value)


def _nominal(table: Mapping[float, int], actual: float) -> int | None:
    return next((n for size, n in table.items() if abs(size - actual) < 0.06), None)


def _inches(value: float) -> str:
    whole, rest = divmod(round(value * 16), 16)
    if not rest:
        return f"{whole}"
    divisor = math.gcd(rest, 16)
    part = f"{rest // divisor}/{16 // divisor}"
    return f"{whole} {part}" if whole else part


def _slug(text: str) -> str:
    return "".join(c for c in text.lower().replace("&", "") if c.isalnum() or c in "-.x").replace("no.", "no")
