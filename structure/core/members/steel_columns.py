"""The walls of a steel column: which are slender, and what area is left to carry. AISC 360 E7."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from structure.core.clauses import Editions
from structure.core.codes.us import steel
from structure.core.codes.us import steel_columns as aisc
from structure.core.errors import OutOfScope
from structure.core.materials.steel import SteelSection
from structure.core.members.post_question import Axis
from structure.core.trace import Step


@dataclass(frozen=True, slots=True)
class Wall:
    """Like parts of a section: how many, their flat width, and their limit of table B4.1a."""

    name: str
    count: int
    slenderness: float
    thickness: float
    limit: Step
    c: tuple[float, float]

    @property
    def slender(self) -> bool:
        return self.slenderness > self.limit.result


@dataclass(frozen=True, slots=True)
class Walls:
    """Every part of one section in compression."""

    section: SteelSection
    held: tuple[Wall, ...]

    @property
    def steps(self) -> tuple[Step, ...]:
        """The limits, as lines of the sheet."""
        return tuple(each.limit for each in self.held)

    def slender(self, axis: Axis) -> bool:
        """Whether a slender wall takes something from this axis."""
        return any(step.symbol == "b_e" for step in axis.steps)

    def effective(self, F_cr: float, editions: Editions) -> tuple[tuple[Step, ...], float]:
        """Steps and effective area [in**2] at a critical stress [psi]: E7-2 and E7-3."""
        F_y = self.section.reference.value("Fy")
        steps: list[Step] = []
        A = self.section.area
        for wall in self.held:
            s_r = wall.limit.result
            # Up to the limit times (F_y / F_cr)**0.5 the whole width counts.
            if not wall.slender or wall.slenderness <= s_r * (F_y / F_cr) ** 0.5:
                continue
            c_1, c_2 = wall.c
            b = wall.slenderness * wall.thickness
            F_el = aisc.local_buckling_stress.step(
                editions, c_2=c_2, s_r=s_r, s=wall.slenderness, F_y=F_y, note=wall.name
            )
            b_e = aisc.effective_width.step(editions, b=b, c_1=c_1, F_el=F_el.result, F_cr=F_cr)
            A_e = aisc.effective_area.step(editions, A=A, n=wall.count, b=b, b_e=b_e.result, t=wall.thickness)
            A = A_e.result
            steps += [F_el, b_e, A_e]
        return tuple(steps), A

    def as_data(self) -> dict[str, Any]:
        """Class of each part, as plain data."""
        return {
            wall.name: {
                "slenderness": wall.slenderness,
                "limits": {"slender": wall.limit.result},
                "class": "slender" if wall.slender else "nonslender",
            }
            for wall in self.held
        }


def walls_of(section: SteelSection, editions: Editions) -> Walls:
    """The parts of a W shape, tube or pipe in compression.

    Raises OutOfScope for a slender flange and for a round tube past its limit.
    """
    shape = section.rolled
    F_y, E = section.reference.value("Fy"), section.reference.value("E")

    def wall(name: str, count: int, s: float, t: float, n: float, c: tuple[float, float]) -> Wall:
        limit = steel.column_plate_limit.step(editions, n=n, E=E, F_y=F_y, note=f"{name} {s:.1f}")
        return Wall(name, count, s, t, limit, c)

    if shape.form == "round":
        limit = steel.column_round_limit.step(
            editions, n=steel.COLUMN_ROUND, E=E, F_y=F_y, note=f"wall {shape.web:.1f}"
        )
        found = (Wall("wall", 1, shape.web, shape.t_w, limit, aisc.WALL),)
        if found[0].slender:
            raise OutOfScope(aisc.SLENDER_ROUND.at(editions), f"{section.label}: its wall is slender")
        return Walls(section, found)
    if shape.form == "HSS":
        return Walls(
            section,
            (
                wall("web", 2, shape.web, shape.t_w, steel.COLUMN_WALL, aisc.WALL),
                wall("flange", 2, shape.flange, shape.t_w, steel.COLUMN_WALL, aisc.WALL),
            ),
        )
    flange = wall("flange", 4, shape.flange, shape.t_f, steel.COLUMN_FLANGE, aisc.STIFFENED)
    if flange.slender:
        raise OutOfScope(aisc.SLENDER.at(editions), f"{section.label}: its flange is slender, not covered")
    return Walls(section, (wall("web", 1, shape.web, shape.t_w, steel.COLUMN_WEB, aisc.STIFFENED), flange))
