"""What a contractor decides about the takeoff: stock, waste, productivity, finishes, allowances.

Every default says where it comes from; the ones marked `common practice` are starting points to be
replaced by the contractor's own figures.
"""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, cast

from structure.core.errors import InputError


@dataclass(frozen=True, slots=True)
class Spec:
    """How one setting is asked for: label, unit, limits or choices, and the source of its default."""

    label: str
    unit: str = ""
    low: float = 0.0
    high: float = 0.0
    choices: tuple[str, ...] = ()
    source: str = "common practice"


def _ask(default: Any, label: str, unit: str = "", low: float = 0.0, high: float = 0.0, **more: Any) -> Any:
    return field(default=default, metadata={"spec": Spec(label, unit, low, high, **more)})


@dataclass(frozen=True, slots=True)
class TakeoffSettings:
    """Settings of one takeoff. Lengths in inches, whatever the units it is shown in."""

    units: str = _ask("imperial", "Units of the takeoff", choices=("imperial", "metric"), source="property")
    # Lumber
    stock_longest_ft: int = _ask(
        20,
        "Longest lumber kept in stock",
        "ft",
        8,
        24,
        source="stock lengths 8 to 20 ft in 2 ft steps, Canadian Wood Council text",
    )
    kerf_in: float = _ask(0.125, "Saw kerf", "in", 0, 0.5)
    engineered_longest_ft: int = _ask(48, "Longest engineered lumber a supplier delivers", "ft", 20, 80)
    carry_in_ft: int = _ask(16, "Longest piece that goes into the house without planning", "ft", 8, 40)
    shoring_uses: int = _ask(2, "Times the shoring lumber is used before it is scrapped", "", 1, 10)
    brace_spacing_ft: float = _ask(8.0, "Spacing of diagonal braces on a shoring wall", "ft", 2, 16)
    # Ply fastening of an engineered beam: the maker's sheet, never ours
    ply_rows: int = _ask(0, "Rows of ply fasteners by the maker's sheet (0: not known yet)", "", 0, 6)
    ply_spacing_in: float = _ask(0.0, "Spacing of ply fasteners in a row by the maker's sheet", "in", 0, 48)
    # Concrete
    concrete_as: str = _ask("auto", "Concrete bought as", choices=("auto", "bags", "ready mix"))
    bag_limit: int = _ask(45, "Most bags mixed by hand before ready mix is priced", "bag", 1, 200)
    concrete_waste_percent: float = _ask(
        10.0, "Extra concrete", "%", 0, 30, source="order 5 to 10 % extra, common practice"
    )
    overdig_in: float = _ask(6.0, "Working room around a pad when digging", "in", 0, 24)
    slab_in: float = _ask(4.0, "Thickness of the basement slab", "in", 0, 12)
    # Opening and finishes
    lining: str = _ask("board", "What lines the wall", choices=("board", "plaster"))
    ceiling_strip_in: float = _ask(24.0, "Width of ceiling board replaced at a dropped beam", "in", 0, 120)
    ceiling_strip_flush_in: float = _ask(
        48.0, "Width of ceiling board replaced at a flush beam", "in", 0, 144
    )
    board_waste_percent: float = _ask(15.0, "Board waste", "%", 0, 40, source="add 10 to 15 %, how-to pages")
    floor_patch: bool = _ask(True, "Patch the floor where the wall stood")
    floor_waste_percent: float = _ask(10.0, "Floor covering waste", "%", 0, 40)
    paint: bool = _ask(True, "Paint the patches")
    paint_coats: int = _ask(3, "Coats of paint, primer included", "", 1, 6)
    paint_spread: float = _ask(
        3.0, "Painted area against patched area, since a coat ends at a corner", "", 1, 10
    )
    dust_screens: bool = _ask(True, "Dust screens and protection")
    work_zone_ft: float = _ask(8.0, "Depth of the protected work zone on each side", "ft", 2, 30)
    # People
    productivity: float = _ask(
        1.0, "Contractor's factor on every labour hour (1.5: half as much again)", "", 0.2, 5
    )
    alteration: float = _ask(1.5, "Factor of alteration work on new-work rates", "", 1, 4)
    supervision_percent: float = _ask(10.0, "Supervision, of the labour hours", "%", 0, 50)
    # Fees and allowances (counts; what each costs is in the price book)
    engineer: bool = _ask(True, "Engineer's design and field review")
    permit: bool = _ask(True, "Building permit")
    inspections: int = _ask(3, "Inspections to attend", "", 0, 12)
    electrical: bool = _ask(True, "Allowance to move wiring and devices")
    plumbing: bool = _ask(False, "Allowance to move pipes and vents")
    ducts: bool = _ask(False, "Allowance to move ducts")
    alarms: int = _ask(
        2,
        "Smoke and carbon monoxide alarms the permit may ask for",
        "each",
        0,
        20,
        source="IRC 2021 R314.2.2 and R315.2.2, memory",
    )
    hazard_survey: bool = _ask(True, "Sampling for asbestos and lead before opening")
    lift: bool = _ask(True, "Lifting gear for the beam")

    def __post_init__(self) -> None:
        for item in dataclasses.fields(self):
            _check(item.name, getattr(self, item.name), cast(Spec, item.metadata["spec"]), item.default)

    @property
    def metric(self) -> bool:
        return self.units == "metric"

    def as_data(self) -> dict[str, Any]:
        """Plain data for JSON."""
        return dataclasses.asdict(self)


def spec_of(name: str) -> Spec:
    """How the setting `name` is asked for."""
    return cast(Spec, TakeoffSettings.__dataclass_fields__[name].metadata["spec"])


def setting_names() -> list[str]:
    """All settings in the order they are asked."""
    return [item.name for item in dataclasses.fields(TakeoffSettings)]


def read_settings(data: Mapping[str, Any]) -> TakeoffSettings:
    """Settings from plain data; absent ones take their default.

    Raises InputError for an unknown name or a value outside its limits.
    """
    known = set(setting_names())
    for name in data:
        if name not in known:
            raise InputError(f"settings.{name}", data[name], "one of " + ", ".join(sorted(known)))
    return TakeoffSettings(**data)


def _check(name: str, value: Any, spec: Spec, default: Any) -> None:
    path = f"settings.{name}"
    if spec.choices:
        if value not in spec.choices:
            raise InputError(path, value, " or ".join(spec.choices))
    elif isinstance(default, bool):
        if not isinstance(value, bool):
            raise InputError(path, value, "true or false")
    else:
        kinds: tuple[type, ...] = (int,) if isinstance(default, int) else (int, float)
        whole = "a whole number" if isinstance(default, int) else "a number"
        accepted = f"{whole} from {spec.low:g} to {spec.high:g} {spec.unit}".rstrip()
        if isinstance(value, bool) or not isinstance(value, kinds):
            raise InputError(path, value, accepted)
        number = float(cast(float, value))
        if not math.isfinite(number) or not spec.low <= number <= spec.high:
            raise InputError(path, value, accepted)


DEFAULT_SETTINGS = TakeoffSettings()
