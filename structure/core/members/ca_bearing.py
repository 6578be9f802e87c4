"""Wood crushed across the grain under the Canadian code: a bearing, and a plate under a post. CSA O86:19 6.5.6."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from structure.core.clauses import Editions
from structure.core.codes.ca import wood, wood_bearing
from structure.core.codes.ca.combinations import ULTIMATE, ultimate
from structure.core.errors import InputError, OutOfScope
from structure.core.materials.ca_wood import FACTORS
from structure.core.members.bearing import PlateQuestion
from structure.core.members.ca_wood_values import Duration, duration_factor, specified_part, usual_factor
from structure.core.members.checkdata import check_data
from structure.core.trace import Check, Step
from structure.core.units import quantity
from structure.data.loader import table

PLATE_THICKNESS = 38.0  # mm: a plate lies flat, so it is as deep as it is thick


@dataclass(frozen=True, slots=True)
class CaBearingQuestion:
    """A bearing across the grain: lengths in mm, loads in N by case, f_cp in MPa.

    `length` runs along the grain, `width` across it; `distance_to_end` is from the edge of the bearing to the end of
    the member. `proportion`: width over depth of the member, which K_Zcp takes; 1 where it is not known.
    """

    fcp: float
    width: float
    length: float
    loads: Mapping[str, float]
    distance_to_end: float = 0.0
    proportion: float = 1.0
    material: str = ""


@dataclass(frozen=True, slots=True)
class Factored:
    """One factored sum of loads on one point, with its duration."""

    name: str
    load: float
    duration: Duration


@dataclass(frozen=True, slots=True)
class CaBearingResult:
    """The bearing under the sum that is worst for it."""

    question: CaBearingQuestion
    check: Check
    factors: Mapping[str, float]
    required_length: float
    remarks: tuple[str, ...]

    def as_data(self) -> dict[str, Any]:
        """The result of the `bearing` kind."""
        return {
            "capacity": quantity(self.check.capacity, "force", "ca"),
            "ratio": self.check.ratio,
            "passes": self.check.passes,
            "governing": self.check.name,
            "required_length": quantity(self.required_length, "length", "ca"),
            "factors": dict(self.factors),
            "specified": {"fcp": quantity(self.question.fcp, "stress", "ca")},
            "checks": {"bearing": check_data(self.check, "ca")},
            "remarks": list(self.remarks),
        }


def factored_sums(loads: Mapping[str, float], editions: Editions) -> tuple[Factored, ...]:
    """Every factored sum of the loads on a point with its K_D. NBC 4.1.3.2., CSA O86 5.3.2.

    Raises InputError for no load and OutOfScope for one that pulls up.
    """
    if any(value < 0 for value in loads.values()):
        raise OutOfScope(ULTIMATE.at(editions), "a load that pulls up: uplift is the engineer's")
    present = {case: value for case, value in loads.items() if value > 0}
    if not present:
        raise InputError("loads", "no load", "at least one load of more than zero")
    found = []
    for each in ultimate(present):
        P_L = present.get("dead", 0.0)
        P_S = sum(part * present[case] for case, part in specified_part(each).items())
        usual = usual_factor(each)
        duration = Duration(duration_factor(usual, P_L, P_S), usual, P_L, P_S, "loads")
        found.append(Factored(each.name, each.total(present), duration))
    return tuple(found)


def check_ca_bearing(question: CaBearingQuestion, editions: Editions) -> CaBearingResult:
    """Bearing across the grain under every factored sum. CSA O86 6.5.6.2, 6.5.6.4, 6.5.6.5.

    Raises InputError for no load or no area, and OutOfScope for uplift.
    """
    sums = factored_sums(question.loads, editions)
    rows = [bearing_check("bearing", each, question, editions) for each in sums]
    check, factors, F_cp = max(rows, key=lambda row: row[0].ratio)
    remarks = ["Preliminary: dry, ordinary temperature, not treated by incising."]
    if factors["KB"] > 1.0:
        remarks.append(
            "K_B counted: the bearing must stay 75 mm or more from the end of the member, and away from where it "
            "bends most, such as a support over which it runs on."
        )
    return CaBearingResult(
        question, check, factors, _required(check.demand, question, F_cp, factors), tuple(remarks)
    )


def bearing_check(
    name: str, each: Factored, question: CaBearingQuestion, editions: Editions
) -> tuple[Check, dict[str, float], float]:
    """One factored force against one bearing; the factors, and F_cp [MPa]."""
    for field, value in (("width", question.width), ("length", question.length)):
        if value <= 0:
            raise InputError(field, value, "a length of more than zero")
    F_cp = wood.strength.step(
        editions, note=question.material, f=question.fcp, K_D=each.duration.K_D, K_H=1.0, K_S=1.0, K_T=1.0
    )
    steps: list[Step] = [*each.duration.steps(editions), F_cp]
    K_B, row = 1.0, length_row(question.length, question.distance_to_end)
    if row is not None:
        step = wood_bearing.length_factor.step(editions, l_b=max(question.length, row["l_1"]), **row)
        steps.append(step)
        K_B = step.result
    K_Zcp = wood_bearing.size_factor.step(editions, b=question.proportion, d=1.0, note="width over depth")
    Q_r = wood_bearing.bearing_resistance.step(
        editions,
        phi=wood.PHI_COMPRESSION,
        F_cp=F_cp.result,
        b=question.width,
        l_b=question.length,
        K_B=K_B,
        K_Zcp=K_Zcp.result,
    )
    check = Check(
        name,
        each.load,
        Q_r.result,
        "force",
        each.name,
        Q_r.clause,
        (*steps, K_Zcp, Q_r),
        note=question.material,
    )
    return check, {"KD": each.duration.K_D, "KB": K_B, "KZcp": K_Zcp.result}, F_cp.result


def length_row(length: float, distance_to_end: float) -> dict[str, Any] | None:
    """The two rows of the table of K_B around a length; None where it is 1: near the end, or 150 mm and longer."""
    if distance_to_end < wood_bearing.END_DISTANCE - 1e-9 or length >= wood_bearing.LONGEST - 1e-9:
        return None
    rows = table(FACTORS).content["bearing_length"]["rows"]
    # Shorter than the first row takes its factor.
    length = max(length, rows[0][0])
    low, high = next(pair for pair in pairwise(rows) if length <= pair[1][0])
    return {"K_1": float(low[1]), "K_2": float(high[1]), "l_1": float(low[0]), "l_2": float(high[0])}


def _length_factor(length: float, distance_to_end: float) -> float:
    row = length_row(length, distance_to_end)
    if row is None:
        return 1.0
    return float(wood_bearing.length_factor(l_b=max(length, row["l_1"]), **row))


def _required(demand: float, question: CaBearingQuestion, F_cp: float, factors: Mapping[str, float]) -> float:
    """The shortest length that carries the force [mm]; the distance to the end is taken to stay as it is."""
    plain: float = wood_bearing.required_length(
        Q_f=demand, phi=wood.PHI_COMPRESSION, F_cp=F_cp, b=question.width, K_Zcp=factors["KZcp"]
    )
    if plain >= wood_bearing.LONGEST or question.distance_to_end < wood_bearing.END_DISTANCE:
        return plain
    low, high = 0.0, plain  # K_B makes it shorter; what a length carries grows with it
    for _ in range(60):
        middle = (low + high) / 2
        enough = middle * _length_factor(middle, question.distance_to_end) >= plain
        low, high = (low, middle) if enough else (middle, high)
    return high


def plate_check(plate: PlateQuestion, section: Any, each: Factored, editions: Editions) -> Check:
    """A wood plate crushed by the end of a post. K_Zcp counts only where the plate's own width is known."""
    across_plies = section.plies * section.width
    along, across = (across_plies, section.depth) if plate.along == "plies" else (section.depth, across_plies)
    contact = CaBearingQuestion(
        fcp=plate.F_c_perp,
        width=across if plate.width is None else min(across, plate.width),
        length=along,
        loads={},
        distance_to_end=plate.distance_to_end,
        proportion=1.0 if plate.width is None else plate.width / PLATE_THICKNESS,
        material=f"plate {plate.material}".strip(),
    )
    return bearing_check("plate_bearing", each, contact, editions)[0]
