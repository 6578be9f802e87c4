"""The schedule as the takeoff reads it: plain data in, typed and checked members out. Lengths in inches."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from estimating.core.sections import Section, choice, count, length, read_section, text
from structure.core.errors import InputError

FASTENERS = ("nail", "screw", "bolt")


@dataclass(frozen=True, slots=True)
class Fasteners:
    """What the engine's rule counted for the plies of a beam; a bolt has no `length` of its own."""

    count: int
    name: str
    kind: str
    diameter: float
    length: float | None
    rows: int
    spacing: float
    source: str


@dataclass(frozen=True, slots=True)
class BearingPlate:
    """A steel plate under one end of a steel beam [in]."""

    length: float
    width: float
    thickness: float

    @property
    def volume(self) -> float:
        return self.length * self.width * self.thickness


@dataclass(frozen=True, slots=True)
class Beam:
    """The new beam, with the fasteners of its plies and the plates under its ends where they were counted."""

    mark: str
    section: Section
    length: float
    fasteners: Fasteners | None = None
    bearings: tuple[BearingPlate, ...] = ()


@dataclass(frozen=True, slots=True)
class Post:
    """A post; a steel one may bring the base plate that was sized for it."""

    mark: str
    section: Section
    height: float
    fastening: str
    plates: tuple[BearingPlate, ...] = ()


@dataclass(frozen=True, slots=True)
class Footing:
    """A pad `side` long and `width` wide; `bars` run along its length, `cross_bars` along its width."""

    mark: str
    side: float
    width: float
    thickness: float
    concrete: float
    existing: bool
    bar: str = ""
    bars: int = 0
    cross_bars: int = 0
    cover: float = 3.0

    def hole(self, room: float) -> tuple[float, float]:
        """Length and width of what is dug, with working room all round [in]."""
        return self.side + 2 * room, self.width + 2 * room


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
    hanger_pounds: float | None = None
    not_measured: tuple[str, ...] = ()


def read_schedule(data: Mapping[str, Any]) -> Schedule:
    """The typed schedule. Raises InputError with the path of the field that is missing or cannot be used."""
    wall = _record(data, "wall", "wall")
    return Schedule(
        code=choice(data.get("code", "us"), ("us", "ca"), "code"),
        beam=_beam(_record(data, "beam", "beam")),
        posts=tuple(_post(d, p) for d, p in _list(data, "posts", "P")),
        footings=tuple(_footing(d, p) for d, p in _list(data, "footings", "F")),
        shoring=tuple(_side(d, p) for d, p in _list(data.get("shoring") or {}, "sides", "S", "shoring.")),
        plates=tuple(_plate(d, p) for d, p in _list(data, "plates", "PL")),
        wall_length=length(wall, "length_in", "wall"),
        wall_height=length(wall, "height_in", "wall"),
        wall_thickness=length(wall, "thickness_in", "wall"),
        opening=length(data, "opening_in", ""),
        slab_cut=bool(data.get("slab_cut", False)),
        flush=bool(data.get("flush", False)),
        hangers=count(data, "hangers", "", 0),
        rafter_tie=bool(data.get("rafter_tie", False)),
        hanger_pounds=length(data, "hanger_lb", "") if data.get("hanger_lb") else None,
        not_measured=tuple(str(each) for each in data.get("not_measured") or ()),
    )


def _beam(data: Mapping[str, Any]) -> Beam:
    return Beam(
        mark=text(data, "mark") or "B1",
        section=read_section(data, "beam"),
        length=length(data, "length_in", "beam"),
        fasteners=_fasteners(data),
        bearings=_bearings(data, "beam"),
    )


def _bearings(data: Mapping[str, Any], path: str) -> tuple[BearingPlate, ...]:
    sizes = ("length_in", "width_in", "thickness_in")
    return tuple(
        BearingPlate(*(length(each, name, where) for name in sizes))
        for each, where in _list(data, "bearing_plates", "BP", f"{path}.")
    )


def _fasteners(data: Mapping[str, Any]) -> Fasteners | None:
    if not data.get("ply_fasteners"):
        return None
    long = data.get("ply_fastener_length_in")
    return Fasteners(
        count=count(data, "ply_fasteners", "beam", None, low=1),
        name=text(data, "ply_fastener"),
        kind=choice(data.get("ply_fastener_kind"), FASTENERS, "beam.ply_fastener_kind"),
        diameter=length(data, "ply_fastener_in", "beam"),
        length=None if long is None else length(data, "ply_fastener_length_in", "beam"),
        rows=count(data, "ply_rows", "beam", None, low=1),
        spacing=length(data, "ply_spacing_in", "beam"),
        source=text(data, "ply_source"),
    )


def _post(data: Mapping[str, Any], path: str) -> Post:
    fastening = choice(data.get("fastening") or "nailed", ("nailed", "bolted"), f"{path}.fastening")
    height = length(data, "height_in", path)
    return Post(data["mark"], read_section(data, path), height, fastening, _bearings(data, path))


def _footing(data: Mapping[str, Any], path: str) -> Footing:
    side, thickness = length(data, "side_in", path), length(data, "thickness_in", path)
    width = length(data, "width_in", path) if data.get("width_in") else side
    volume = data.get("concrete_in3")
    bars = count(data, "bars", path, 0)
    return Footing(
        mark=data["mark"],
        side=side,
        width=width,
        thickness=thickness,
        concrete=side * width * thickness if volume is None else length(data, "concrete_in3", path),
        existing=bool(data.get("existing", False)),
        bar=text(data, "bar"),
        bars=bars,
        cross_bars=count(data, "cross_bars", path, bars),
        cover=length(data, "cover_in", path) if data.get("cover_in") else 3.0,
    )


def _side(data: Mapping[str, Any], path: str) -> ShoreSide:
    return ShoreSide(
        mark=data["mark"],
        length=length(data, "length_in", path),
        height=length(data, "height_in", path),
        header=read_section(_record(data, "header", path), f"{path}.header"),
        shore=read_section(_record(data, "shore", path), f"{path}.shore"),
        sill=read_section(_record(data, "sill", path), f"{path}.sill"),
        shores=count(data, "shores", path, None, low=1),
        reshore=bool(data.get("reshore", False)),
    )


def _plate(data: Mapping[str, Any], path: str) -> Plate:
    return Plate(data["mark"], read_section(data, path), length(data, "length_in", path))


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
