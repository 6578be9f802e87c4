"""The plate under a steel beam or post on wood: wide enough for the wood, thick enough for itself.

AISC Manual part 14: the plate is a strip that sticks out from the steel on it under even pressure.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import Any

from structure.core.clauses import Editions
from structure.core.codes.us import steel_shear as webs
from structure.core.codes.us.wood_bearing import ACROSS_THE_GRAIN, bearing_capacity
from structure.core.materials.steel import SteelSection
from structure.core.members.bearing import PlateQuestion
from structure.core.trace import Check, Step
from structure.core.units import quantity
from structure.data.loader import table

TABLE = "us/plate"
GRADE = "A36"
WIDTH_STEP = 0.5  # in; common practice: what plates are cut to
THICKNESS_STEP = 0.125  # in; common practice
LEAST_PLATE, MOST_PLATE = 0.25, 1.0  # in; common practice: thicker than that, the bearing is too short


@dataclass(frozen=True, slots=True)
class Plate:
    """A plate of length `N` along the beam and width `B` across it; not `needed` where the steel alone will do."""

    needed: bool
    N: float
    B: float
    thickness: float
    F_c_perp: float
    pressure: Step
    steps: tuple[Step, ...]

    @property
    def label(self) -> str:
        """`3 1/2 x 8 x 3/4 in`, as it is ordered."""
        return f"{self.N:g} x {self.B:g} x {self.thickness:g} in"

    @property
    def told(self) -> str:
        """What the crew must know of it."""
        return f"a steel plate {self.label}, {GRADE}, on wood at least as wide as the plate."

    def as_data(self) -> dict[str, Any]:
        return {
            "length": quantity(self.N, "length"),
            "width": quantity(self.B, "length"),
            "thickness": quantity(self.thickness, "length"),
            "grade": GRADE,
            "steps": [step.as_data() for step in self.steps],
        }


def plate_for(R: float, N: float, b: float, k: float, t: float, F_c_perp: float, editions: Editions) -> Plate:
    """The plate under a reaction R [lbf] on a bearing N long [in], the steel on it b wide and t thick.

    `k`: from the middle of the web to where the plate is held, F_c_perp of the wood [psi]. Where the wood
    needs more width than the steel has, or the flange would bend, a plate; where even the thickest plate
    is not enough, the steel alone, which then fails.
    """
    alone = _plate(R, N, b, k, t, F_c_perp, editions)
    if alone.pressure.result <= F_c_perp and alone.steps[-1].result <= t:
        return alone
    B = max(ceil(R / (N * F_c_perp) / WIDTH_STEP - 1e-9) * WIDTH_STEP, ceil(b / WIDTH_STEP) * WIDTH_STEP)
    spread = _plate(R, N, B, k, t, F_c_perp, editions)
    thick = _cut(spread.steps[-1].result)
    if thick > MOST_PLATE:
        return alone
    return Plate(True, N, B, thick, F_c_perp, spread.pressure, spread.steps)


def _plate(R: float, N: float, B: float, k: float, t: float, F_c_perp: float, editions: Editions) -> Plate:
    pressure = webs.plate_pressure.step(editions, R=R, N=N, B=B)
    n = webs.plate_cantilever.step(editions, B=B, k=k)
    thickness = webs.plate_thickness.step(
        editions, n=max(n.result, 0.0), f_p=pressure.result, F_y=plate_yield()
    )
    return Plate(False, N, B, t, F_c_perp, pressure, (pressure, n, thickness))


def _cut(thickness: float) -> float:
    """The thickness that is cut for the one that is needed [in]."""
    return max(LEAST_PLATE, ceil(thickness / THICKNESS_STEP - 1e-9) * THICKNESS_STEP)


def plate_yield() -> float:
    """F_y of the plates that are cut for bearings [psi]."""
    return next(float(row["values"]["Fy"]) for row in table(TABLE).rows if row["grade"] == GRADE)


def base_plate(
    question: PlateQuestion, section: SteelSection, P: float, combination: str, editions: Editions
) -> tuple[Check, Plate]:
    """The plate of a post on wood [lbf]: as wide as the wood, as long as the wood needs; no C_b is counted.

    Where even the thickest plate is not enough it counts for what that one spreads.
    """
    shape = section.rolled
    B = (
        ceil(max(shape.d, shape.b) / WIDTH_STEP - 1e-9) * WIDTH_STEP
        if question.width is None
        else question.width
    )
    N = max(ceil(max(P / (question.F_c_perp * B), shape.d) / WIDTH_STEP - 1e-9) * WIDTH_STEP, B)
    pressure = webs.plate_pressure.step(editions, R=P, N=N, B=B)
    reach = _reach(section, N, B, editions)
    needed = webs.plate_thickness.step(
        editions, n=max(0.0, *(step.result for step in reach)), f_p=pressure.result, F_y=plate_yield()
    )
    steps = (pressure, *reach, needed)
    plate = Plate(True, N, B, min(_cut(needed.result), MOST_PLATE), question.F_c_perp, pressure, steps)
    # Thickness goes with the root of the pressure, so the thickest plate spreads this much.
    spread = pressure.result * (MOST_PLATE / needed.result) ** 2 if needed.result > MOST_PLATE else None
    capacity = bearing_capacity.step(
        editions,
        F_cp=question.F_c_perp if spread is None else spread,
        C_b=1.0,
        b=B,
        l_b=N,
        note=question.material if spread is None else f"what a plate of {MOST_PLATE:g} in spreads",
    )
    check = Check(
        "plate_bearing", P, capacity.result, "force", combination, ACROSS_THE_GRAIN.at(editions),
        (*steps, capacity), note=f"steel plate {plate.label}, {GRADE}",
    )  # fmt: skip
    return check, plate


def _reach(section: SteelSection, N: float, B: float, editions: Editions) -> tuple[Step, ...]:
    """How far the plate sticks out, each way; of a W post also what lies between its flanges."""
    shape = section.rolled
    along = webs.HELD_ROUND if shape.form == "round" else webs.HELD
    across = webs.HELD if shape.form == "HSS" else webs.HELD_ROUND
    steps = (
        webs.base_cantilever.step(editions, N=N, f=along, d=shape.d),
        webs.base_cantilever.step(editions, N=B, f=across, d=shape.b),
    )
    if shape.form != "W":
        return steps
    return (*steps, webs.yield_line_cantilever.step(editions, d=shape.d, b=shape.b))
