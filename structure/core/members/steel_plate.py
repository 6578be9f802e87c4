"""The plate under a steel beam or post on wood: wide enough for the wood, thick enough for itself.

The plate is a strip that sticks out from the steel on it under even pressure: AISC Manual part 14, and the same by
mechanics with the resistance of CSA S16 13.5. Each in the units of its code.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from math import ceil
from typing import Any

from structure.core.clauses import Clause, Editions
from structure.core.codes.ca import steel as s16
from structure.core.codes.ca.steel_shear import plate_thickness as factored_thickness
from structure.core.codes.us import steel_shear as webs
from structure.core.materials.rolled import RolledSection
from structure.core.trace import Formula, Step
from structure.core.units import quantity
from structure.data.loader import table

STRIP = Clause("mechanics", "a plate as a strip under even pressure")


@dataclass(frozen=True, slots=True)
class PlateRules:
    """What plates are cut from under one code: steel, steps of width and length, thicknesses; common practice.

    Thicker than the thickest, the bearing is too short.
    """

    code: str
    grade: str
    F_y: float
    step: float
    thicknesses: tuple[float, ...]
    unit: str

    @property
    def most(self) -> float:
        return self.thicknesses[-1]

    def cut(self, thickness: float) -> float | None:
        """The thickness that is cut for the one that is needed; None where none is thick enough."""
        slack = 1e-9 * self.most
        return next((each for each in self.thicknesses if each >= thickness - slack), None)

    def whole(self, length: float) -> float:
        """A side as it is cut for the one that is needed."""
        return ceil(length / self.step - 1e-9) * self.step

    def line(self, kernel: Formula) -> Formula:
        """Geometry of the plate under the clause of the code."""
        return kernel if self.code == "us" else kernel.under(STRIP)

    def needed(self, n: float, f_p: float, editions: Editions) -> Step:
        """Thickness of a strip that sticks out n under a pressure."""
        kernel, held = self._strip
        return kernel.step(editions, n=n, f_p=f_p, **held)

    @property
    def _strip(self) -> tuple[Formula, dict[str, Any]]:
        if self.code == "us":
            return webs.plate_thickness, {"F_y": self.F_y}
        return factored_thickness, {"phi": s16.PHI, "F_y": self.F_y}

    def carried(self, n: float, t: float, F_c: float) -> float:
        """The pressure, up to F_c, that a strip of thickness t spreads: it goes with the square of the thickness."""
        kernel, held = self._strip
        needed = float(kernel(n=n, f_p=F_c, **held))
        return F_c if needed <= t else F_c * (t / needed) ** 2


@cache
def plate_rules(code: str) -> PlateRules:
    """The plates of one code."""
    if code == "us":
        # Half inches of width, eighths of thickness from 1/4 to 1 in.
        held = tuple(n / 8 for n in range(2, 9))
        return PlateRules("us", "A36", _yield("us/plate", "A36"), 0.5, held, "in")
    held = tuple(float(t) for t in table("ca/steel_plate").content["thicknesses"])
    return PlateRules("ca", "300W", _yield("ca/steel_plate", "300W"), 10.0, held, "mm")


def _yield(name: str, grade: str) -> float:
    return next(float(row["values"]["Fy"]) for row in table(name).rows if row["grade"] == grade)


@dataclass(frozen=True, slots=True)
class Plate:
    """A plate of length `N` along the beam and width `B` across it; not `needed` where the steel alone will do."""

    rules: PlateRules
    needed: bool
    N: float
    B: float
    thickness: float
    pressure: Step
    steps: tuple[Step, ...]

    @property
    def label(self) -> str:
        """`3.5 x 8 x 0.75 in`, as it is ordered."""
        return f"{self.N:g} x {self.B:g} x {self.thickness:g} {self.rules.unit}"

    @property
    def told(self) -> str:
        """What the crew must know of it."""
        return f"a steel plate {self.label}, {self.rules.grade}, on wood at least as wide as the plate."

    def as_data(self) -> dict[str, Any]:
        code = self.rules.code
        return {
            "length": quantity(self.N, "length", code),
            "width": quantity(self.B, "length", code),
            "thickness": quantity(self.thickness, "length", code),
            "grade": self.rules.grade,
            "steps": [step.as_data() for step in self.steps],
        }


def plate_for(R: float, N: float, section: RolledSection, F_c: float, editions: Editions) -> Plate:
    """The plate under a reaction R on a bearing N long; `F_c`: the pressure that the wood bears.

    Where the wood needs more width than the steel has, or the flange would bend, a plate; where even the
    thickest plate is not enough, the steel alone, which then fails.
    """
    rules, b, t = plate_rules(editions.code), section.breadth, section.rolled.t_f
    alone = _plate(R, N, b, section, t, editions)
    if alone.pressure.result <= F_c and alone.steps[-1].result <= t:
        return alone
    spread = _plate(R, N, max(rules.whole(R / (N * F_c)), rules.whole(b)), section, t, editions)
    thick = rules.cut(spread.steps[-1].result)
    if thick is None:
        return alone
    return Plate(rules, True, N, spread.B, thick, spread.pressure, spread.steps)


def _plate(R: float, N: float, B: float, section: RolledSection, t: float, editions: Editions) -> Plate:
    rules = plate_rules(editions.code)
    pressure = rules.line(webs.plate_pressure).step(editions, R=R, N=N, B=B)
    n = rules.line(webs.plate_cantilever).step(editions, B=B, k=section.rolled.k)
    thickness = rules.needed(max(n.result, 0.0), pressure.result, editions)
    return Plate(rules, False, N, B, t, pressure, (pressure, n, thickness))


def length_on_wood(R: float, section: RolledSection, F_c: float, editions: Editions) -> float:
    """The shortest bearing on wood that holds: by the flange alone, or by a plate up to the thickest one."""
    rules, shape = plate_rules(editions.code), section.rolled

    def reach(B: float) -> float:
        return max(B / 2 - shape.k, 0.0)

    lengths = [R / (section.breadth * rules.carried(reach(section.breadth), shape.t_f, F_c))]
    B, pressure = rules.whole(section.breadth), F_c
    # Wider plates carry more until the thickest of them bends.
    while pressure == F_c:
        pressure = rules.carried(reach(B), rules.most, F_c)
        lengths.append(R / (B * pressure))
        B += rules.step
    return min(lengths)


def base_plate(
    width: float | None, section: RolledSection, P: float, F_c: float, editions: Editions
) -> tuple[Plate, float]:
    """The plate of a post on wood: as wide as the wood, as long as the wood needs; and the pressure it spreads.

    Where even the thickest plate is not enough it counts for what that one spreads.
    """
    rules, shape = plate_rules(editions.code), section.rolled
    B = rules.whole(max(shape.d, shape.b)) if width is None else width
    N = max(rules.whole(max(P / (F_c * B), shape.d)), B)
    pressure = rules.line(webs.plate_pressure).step(editions, R=P, N=N, B=B)
    reach = _reach(section, N, B, editions)
    n = max(0.0, *(step.result for step in reach))
    needed = rules.needed(n, pressure.result, editions)
    thick = rules.cut(needed.result)
    plate = Plate(
        rules, True, N, B, rules.most if thick is None else thick, pressure, (pressure, *reach, needed)
    )
    return plate, F_c if thick is not None else rules.carried(n, rules.most, pressure.result)


def _reach(section: RolledSection, N: float, B: float, editions: Editions) -> tuple[Step, ...]:
    """How far the plate sticks out, each way; of a W post also what lies between its flanges."""
    shape, rules = section.rolled, plate_rules(editions.code)
    along = webs.HELD_ROUND if shape.form == "round" else webs.HELD
    across = webs.HELD if shape.form == "HSS" else webs.HELD_ROUND
    steps = (
        rules.line(webs.base_cantilever).step(editions, N=N, f=along, d=shape.d),
        rules.line(webs.base_cantilever).step(editions, N=B, f=across, d=shape.b),
    )
    if shape.form != "W":
        return steps
    return (*steps, rules.line(webs.yield_line_cantilever).step(editions, d=shape.d, b=shape.b))


def plate_remark(code: str) -> str:
    """What the needed bearing length on wood counts on."""
    rules = plate_rules(code)
    return (
        f"The bearing needed on wood counts a steel plate, up to {rules.most:g} {rules.unit} thick, where the flange "
        "alone is not enough."
    )
