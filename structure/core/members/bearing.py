"""Wood crushed across the grain: a beam on its support, a plate under a post."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from structure.core.clauses import Editions
from structure.core.codes.combination import heaviest
from structure.core.codes.us import wood_bearing as nds
from structure.core.codes.us.combinations import asd
from structure.core.codes.us.wood_columns import COMPRESSION
from structure.core.errors import InputError, OutOfScope
from structure.core.members.checkdata import check_data
from structure.core.trace import Check, Step
from structure.core.units import quantity

NEVER_AT_THE_END = 0.0


@dataclass(frozen=True, slots=True)
class BearingQuestion:
    """A bearing across the grain. Lengths in inches, loads in lbf by case, F_c_perp in psi.

    `length` runs along the grain, `width` across it; `distance_to_end` is from the edge of the bearing
    to the end of the member, along the grain.
    """

    F_c_perp: float
    width: float
    length: float
    loads: Mapping[str, float]
    distance_to_end: float = NEVER_AT_THE_END
    material: str = ""


@dataclass(frozen=True, slots=True)
class BearingResult:
    """The bearing under the heaviest combination; the load duration does not count here."""

    question: BearingQuestion
    check: Check
    C_b: float
    required_length: float
    remarks: tuple[str, ...]

    def as_data(self) -> dict[str, Any]:
        """The result of the `bearing` kind."""
        return {
            "capacity": quantity(self.check.capacity, "force"),
            "ratio": self.check.ratio,
            "passes": self.check.passes,
            "governing": self.check.name,
            "required_length": quantity(self.required_length, "length"),
            "factors": {"Cb": self.C_b},
            "reference": {"Fc_perp": quantity(self.question.F_c_perp, "stress")},
            "checks": {"bearing": check_data(self.check)},
            "remarks": list(self.remarks),
        }


@dataclass(frozen=True, slots=True)
class PlateQuestion:
    """A wood plate under (and over) a post. Lengths in inches, F_c_perp in psi.

    Studs stand with their depth across the plate, so the plies lie along it, unless `along` says `depth`.
    `distance_to_end` left out counts as at the end, where C_b is 1.
    """

    F_c_perp: float
    material: str = ""
    width: float | None = None
    along: str = "plies"
    distance_to_end: float = NEVER_AT_THE_END


def check_bearing(question: BearingQuestion, editions: Editions) -> BearingResult:
    """Bearing across the grain. NDS 3.10.2 and 3.10.4; no C_D.

    Raises InputError for no load or no area, and OutOfScope for uplift.
    """
    if any(value < 0 for value in question.loads.values()):
        raise OutOfScope(COMPRESSION.at(editions), "a load that pulls up: uplift is the engineer's")
    present = {case for case, value in question.loads.items() if value > 0}
    if not present:
        raise InputError("loads", "no load", "at least one load of more than zero")
    name, R = heaviest(asd(present), question.loads)
    check, C_b = bearing_check("bearing", R, name, question, editions)
    return BearingResult(question, check, C_b, required_length(R, question), _remarks(question, C_b))


def bearing_check(
    name: str, demand: float, combination: str, question: BearingQuestion, editions: Editions
) -> tuple[Check, float]:
    """One demand [lbf] against one bearing, and the C_b that was used. NDS 3.10.2, 3.10.4."""
    for field, value in (("width", question.width), ("length", question.length)):
        if value <= 0:
            raise InputError(field, value, "a length of more than zero")
    steps: list[Step] = []
    C_b = 1.0
    if counts_C_b(question.length, question.distance_to_end):
        step = nds.bearing_area_factor.step(editions, l_b=question.length, l_a=nds.ADDED_LENGTH)
        steps.append(step)
        C_b = step.result
    capacity = nds.bearing_capacity.step(
        editions,
        F_cp=question.F_c_perp,
        C_b=C_b,
        b=question.width,
        l_b=question.length,
        note=question.material,
    )
    steps.append(capacity)
    check = Check(
        name,
        demand,
        capacity.result,
        "force",
        combination,
        nds.ACROSS_THE_GRAIN.at(editions),
        tuple(steps),
    )
    return check, C_b


def counts_C_b(length: float, distance_to_end: float) -> bool:
    """Whether the bearing area factor may be used: 3 in or more from the end, under 6 in long. NDS 3.10.4."""
    return distance_to_end >= nds.END_DISTANCE - 1e-9 and length < nds.LONGEST - 1e-9


def required_length(demand: float, question: BearingQuestion) -> float:
    """The shortest length that carries the demand [in], with C_b where it would count there.

    The distance to the end is taken to stay as it is.
    """
    plain: float = nds.required_bearing(demand, question.F_c_perp, question.width)
    if question.distance_to_end < nds.END_DISTANCE - 1e-9:
        return plain
    inside: float = nds.required_bearing_inside(demand, question.F_c_perp, question.width, nds.ADDED_LENGTH)
    if inside >= nds.LONGEST:
        return plain
    return max(inside, 0.0)


def check_plate(
    plate: PlateQuestion, section: Any, demand: float, combination: str, editions: Editions
) -> Check:
    """A wood plate crushed by the end of a post [lbf]: contact of post and plate. NDS 3.10.2, 3.10.4."""
    across_plies = section.plies * section.width
    along, across = (across_plies, section.depth) if plate.along == "plies" else (section.depth, across_plies)
    contact = BearingQuestion(
        F_c_perp=plate.F_c_perp,
        width=across if plate.width is None else min(across, plate.width),
        length=along,
        loads={},
        distance_to_end=plate.distance_to_end,
        material=f"plate {plate.material}".strip(),
    )
    return bearing_check("plate_bearing", demand, combination, contact, editions)[0]


def _remarks(question: BearingQuestion, C_b: float) -> tuple[str, ...]:
    remarks = [
        "Preliminary: dry, ordinary temperature. The load duration factor does not apply across the grain."
    ]
    if C_b == 1.0 and question.length < nds.LONGEST:
        remarks.append("Nearer than 3 in to the end of the member: C_b is 1.")
    if C_b > 1.0:
        remarks.append("C_b counted: the bearing must stay 3 in or more from the end of the member.")
    return tuple(remarks)
