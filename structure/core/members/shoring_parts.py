"""The parts of a shoring wall, one spacing of it tried, and how cases add up for temporary work."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from structure.core.codes.combination import LETTERS
from structure.core.members.post import Brace
from structure.core.members.post_fastening import Fastening
from structure.core.trace import Check

NOT_BY_SPACING = ("joist_", "far_end_")  # checks that the spacing of the shores does not change
SLAB, SOIL, FRAMED = "slab", "soil", "framed"


@dataclass(frozen=True, slots=True)
class Floor:
    """What a sill stands on: a slab on ground, bare soil, or a framed floor that is shored again below.

    Lengths in inches, soil in psi. `height` is that of the storey under a framed floor.
    """

    kind: str
    name: str = ""
    thickness: float | None = None
    soil: float | None = None
    height: float | None = None


@dataclass(frozen=True, slots=True)
class Joists:
    """The joists that are shored, when they are known: section and spacing [in]."""

    section: Any
    spacing: float


@dataclass(frozen=True, slots=True)
class Timber:
    """The three sections of a shoring wall; a sill lies flat, its larger dimension across the wall."""

    header: Any
    shore: Any
    sill: Any
    braced: Mapping[str, Brace]

    @property
    def sill_thickness(self) -> float:
        return float(min(self.sill.depth, self.sill.plies * self.sill.width))

    @property
    def sill_width(self) -> float:
        return float(max(self.sill.depth, self.sill.plies * self.sill.width))

    @property
    def header_width(self) -> float:
        return float(self.header.plies * self.header.width)

    @property
    def shore_along(self) -> float:
        """The shore's dimension along the wall: its plies side by side."""
        return float(self.shore.plies * self.shore.width)


@dataclass(frozen=True, slots=True)
class Tried:
    """One spacing tried: shores, load on the worst one [lbf], checks, and what blocks it outright."""

    spacing: float
    shores: int
    shore_load: float
    checks: Mapping[str, Check]
    blocks: tuple[str, ...]
    fastening: Fastening | None

    @property
    def ratio(self) -> float:
        return max((check.ratio for check in self.checks.values()), default=0.0)

    @property
    def governing(self) -> str:
        return max(self.checks.values(), key=lambda check: check.ratio).name if self.checks else ""

    @property
    def close_enough(self) -> bool:
        """Whether nothing is left that shores closer together would mend."""
        return all(check.passes or name.startswith(NOT_BY_SPACING) for name, check in self.checks.items())

    @property
    def passes(self) -> bool:
        return not self.blocks and all(check.passes for check in self.checks.values())


Loads = Mapping[str, float]


def variants(loads: Loads, code: str) -> Iterator[tuple[dict[str, float], dict[str, str]]]:
    """Ways to add the cases up for temporary work, with new names for the combinations they form.

    First as every other member is checked. Then, where snow meets people or materials, all at once with
    nothing reduced, at the load duration of snow. People and materials on different levels count as the
    longer lasting of the two. Factored sums have snow beside people and materials already.
    """
    held = {case: value for case, value in loads.items() if value > 0}
    if "live" in held and "construction" in held:
        held["live"] += held.pop("construction")
    yield held, {}
    if code != "us":
        return
    people = next((case for case in ("live", "construction") if case in held), None)
    if people is not None and "snow" in held:
        lumped = {"snow": held["snow"] + held[people]}
        if "dead" in held:
            lumped["dead"] = held["dead"]
        letters = f"{LETTERS[people]}+S"
        yield lumped, {"S": letters, "D+S": f"D+{letters}"}


def merged(tries: Iterable[Mapping[str, Check]]) -> dict[str, Check]:
    """Of checks of one name the one with the largest ratio."""
    found: dict[str, Check] = {}
    for checks in tries:
        for name, check in checks.items():
            if name not in found or check.ratio > found[name].ratio:
                found[name] = check
    return found
