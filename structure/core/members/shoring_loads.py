"""What counts while a wall is shored: dead load, people and materials, snow; and what was left out and why."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from structure.core.errors import InputError
from structure.core.members.shoring_codes import SHORING
from structure.core.takedown import Level
from structure.core.units import quantity


@dataclass(frozen=True, slots=True)
class Season:
    """Pressures while the shores stand. None means that nothing was said.

    `cleared`: the rooms above are recorded as cleared, so occupancy does not count. `reasons` holds the
    recorded reason for each load that is left out: `construction`, `occupancy`, `snow`.
    """

    construction: float | None = None
    occupancy: float | None = None
    cleared: bool = False
    snow: float | None = None
    reasons: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Counted:
    """One load of one level: counted with its pressure, or left out with the reason."""

    level: str
    load: str
    pressure: float
    counted: bool
    reason: str
    code: str = "us"

    def as_data(self) -> dict[str, Any]:
        return {
            "level": self.level,
            "load": self.load,
            "pressure": quantity(self.pressure, "pressure", self.code),
            "counted": self.counted,
            "reason": self.reason,
        }


def seasonal(
    levels: Sequence[Level], season: Season, code: str = "us"
) -> tuple[tuple[Level, ...], tuple[Counted, ...]]:
    """The levels with the pressures that count while shored, and what was counted or left out.

    On every floor and attic the larger of construction load and occupancy counts, on every roof the snow.
    Raises InputError for a load that is given as zero without a recorded reason.
    """
    _reasons(levels, season)
    found: list[Level] = []
    told: list[Counted] = []
    for level in _with_snow(levels, season):
        if level.kind == "roof":
            pressures, rows = _roof(level, season)
        else:
            pressures, rows = _floor(level, season, code)
        reactions = tuple(r for r in level.reactions if r.case != "roof_live" and _keeps(r.case, season))
        found.append(replace(level, pressures=pressures, reactions=reactions))
        told += [replace(row, code=code) for row in rows]
    return tuple(found), tuple(told)


def _with_snow(levels: Sequence[Level], season: Season) -> list[Level]:
    """Snow given where no roof is among the levels still counts, on the topmost one: it comes down somewhere."""
    snowed = any(level.kind == "roof" or level.pressures.get("snow", 0.0) > 0 for level in levels)
    if snowed or not season.snow:
        return list(levels)
    top, *rest = levels
    return [replace(top, pressures={**top.pressures, "snow": season.snow}), *rest]


def _keeps(case: str, season: Season) -> bool:
    return not (case == "snow" and "snow" in season.reasons)


def _reasons(levels: Sequence[Level], season: Season) -> None:
    """A load said to be nothing needs its reason on record."""
    snowed = any(level.kind == "roof" or level.pressures.get("snow", 0.0) > 0 for level in levels)
    needed = {"construction": True, "occupancy": not season.cleared, "snow": snowed}
    for name, asked in needed.items():
        if asked and getattr(season, name) == 0 and name not in season.reasons:
            raise InputError(
                name, "nothing", f"a pressure of more than zero, or the recorded reason in reasons.{name}"
            )


def _occupancy(level: Level, season: Season) -> float:
    """The pressure said for the rooms; an attic keeps its own live load where it has one."""
    own = level.pressures.get("live")
    if own is not None and (season.occupancy is None or level.kind != "floor"):
        return own
    return season.occupancy or 0.0


def _floor(level: Level, season: Season, code: str) -> tuple[dict[str, float], list[Counted]]:
    occupancy = _occupancy(level, season)
    construction, assumed = season.construction, ""
    rows: list[Counted] = []
    if season.cleared or "occupancy" in season.reasons:
        reason = season.reasons.get("occupancy", "the rooms above are recorded as cleared")
        rows.append(Counted(level.name, "occupancy", occupancy, False, reason))
        occupancy = 0.0
    if construction is None and "construction" not in season.reasons:
        construction = 0.0 if season.cleared else SHORING[code].light_duty
        assumed = (
            "the rooms above are recorded as cleared and closed"
            if season.cleared
            else f"not given: {SHORING[code].light_words}"
        )
    construction = construction or 0.0
    if "construction" in season.reasons or construction == 0:
        reason = season.reasons.get("construction", assumed)
        rows.append(Counted(level.name, "construction", construction, False, reason))
        construction = 0.0
    live: dict[str, float] = {}
    if construction > 0 and construction >= occupancy:
        live = {"construction": construction}
        rows.append(Counted(level.name, "construction", construction, True, assumed or "the larger"))
        if occupancy > 0:
            rows.append(Counted(level.name, "occupancy", occupancy, False, "the smaller of the two"))
    elif occupancy > 0:
        live = {"live": occupancy}
        rows.append(Counted(level.name, "occupancy", occupancy, True, "the larger"))
        if construction > 0:
            rows.append(Counted(level.name, "construction", construction, False, "the smaller of the two"))
    # A flat roof over an attic is given as an attic with its own snow.
    snow, more = _snow(level, season, level.pressures.get("snow", 0.0))
    return live | snow, rows + more


def _roof(level: Level, season: Season) -> tuple[dict[str, float], list[Counted]]:
    given = level.pressures.get("snow", 0.0) if season.snow is None else season.snow
    pressures, rows = _snow(level, season, given)
    rest = {case: p for case, p in level.pressures.items() if case not in ("snow", "roof_live")}
    roof_live = level.pressures.get("roof_live", 0.0)
    if roof_live > 0:
        rows.append(
            Counted(level.name, "roof_live", roof_live, False, "nobody works on the roof while it is shored")
        )
    if not rows and not level.reactions:
        rows.append(
            Counted(level.name, "snow", 0.0, False, "no snow was given: ask whether the site has any")
        )
    return rest | pressures, rows


def _snow(level: Level, season: Season, pressure: float) -> tuple[dict[str, float], list[Counted]]:
    if "snow" in season.reasons:
        own = level.pressures.get("snow", pressure)
        if own > 0 or level.kind == "roof":
            return {}, [Counted(level.name, "snow", own, False, season.reasons["snow"])]
        return {}, []
    if pressure > 0:
        return {"snow": pressure}, [Counted(level.name, "snow", pressure, True, "in season")]
    return {}, []
