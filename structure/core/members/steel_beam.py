"""A steel beam under US rules: bending with buckling sideways, shear, webs at bearings, deflection. AISC 360."""

from __future__ import annotations

from collections.abc import Mapping
from math import ceil

from structure.core.clauses import Clause, Editions
from structure.core.errors import OutOfScope
from structure.core.materials.rolled import RolledSection
from structure.core.materials.section import Section
from structure.core.materials.steel import SteelSection
from structure.core.members.beam_demand import Demands
from structure.core.members.beam_question import BeamQuestion
from structure.core.members.beam_result import BeamResult, common_remarks, with_worst
from structure.core.members.carry_in import LIFT, LIFT_METRIC, PER_PERSON
from structure.core.members.steel_bearing import bearings
from structure.core.members.steel_demand import deflections
from structure.core.members.steel_plate import plate_remark
from structure.core.members.steel_service import SteelBending, bending, classes, shear
from structure.core.members.steel_strength import Strength, strength

COPES = Clause("AISC Manual", "Part 9")
KILOGRAM = 9.80665  # N
# By code: what one person carries, who says so, and how a weight is told.
CARRY: Mapping[str, tuple[float, Clause, float, str]] = {
    "us": (PER_PERSON, LIFT, 1.0, "lbf"),
    "ca": (23.0 * KILOGRAM, LIFT_METRIC, 1.0 / KILOGRAM, "kg"),
}


def evaluate(demands: Demands, weight: int, section: Section, editions: Editions) -> BeamResult:
    """Check one steel section against forces already known; `weight` is the number of its self weight.

    Raises OutOfScope for parts too slender for the clauses held, for a round tube with a bearing length
    and for a notch.
    """
    assert isinstance(section, SteelSection)  # noqa: S101 - the table of rules sends only steel here
    question = demands.question
    if question.notch is not None:
        raise OutOfScope(COPES.at(editions), "a steel beam that is notched or coped is the engineer's")
    held = strength(section, editions)
    bent = bending(demands, weight, held, editions)
    supports, plates = bearings(demands, weight, held, editions)
    checks = [bent.check, shear(demands, weight, held, editions)]
    checks += deflections(demands, weight, section, editions)
    return BeamResult(
        question=question,
        section=section,
        demands=demands,
        weight=weight,
        checks=with_worst(checks, supports),
        supports=supports,
        factors={"Cb": bent.C_b},
        adjusted={"Fy": held.F_y, "E": held.E},
        remarks=(
            *common_remarks(demands, weight, section),
            *_remarks(demands, held, bent),
            *(f"Support {int(n) + 1} from the left: {plate.told}" for n, plate in plates.items()),
        ),
        more={"local_buckling": classes(held), "plates": {n: plate.as_data() for n, plate in plates.items()}},
    )


def _remarks(demands: Demands, held: Strength, bent: SteelBending) -> list[str]:
    question, section = demands.question, held.section
    found = [carried(section.weight * question.line.length, section)]
    kinds = ", ".join(f"{part.name} {part.kind}" for part in held.parts)
    found.append(f"Local buckling by AISC 360 table B4.1b: {kinds}.")
    if bent.L_b > 0 and held.L_p is not None:
        found.append(f"The pressed flange must be held at least every {bent.L_b / 12:.4g} ft (AISC 360 F1).")
    if section.rolled.form in ("W", "C"):
        found.append("The ends must be held against rolling over (AISC 360 F1 and J10.7).")
    if section.rolled.form == "C":
        found.append("A channel twists under a load on its flange: it must be held where it is loaded.")
    if question.bearings is None:
        found.append("The web over the bearings was not checked: give the bearing length (AISC 360 J10).")
    if question.support is not None:
        found.append(plate_remark("us"))
    return found + not_for_steel(question)


def not_for_steel(question: BeamQuestion) -> list[str]:
    """What was asked for that only wood knows, in words."""
    found = []
    if question.shear_at == "d":
        found.append("Shear counts at the support; leaving out what stands within d is a rule for wood.")
    if question.wet:
        found.append("Wet place: paint or galvanize; rust is not counted in the section.")
    if question.repetitive:
        found.append("Members that share a load do not make steel stronger; `repetitive` counts for wood.")
    return found


def carried(weight: float, section: RolledSection) -> str:
    """Whether two persons can carry a member of this weight [lbf, N] in, in words."""
    limit, lift, shown, unit = CARRY[section.code]
    persons = max(1, ceil(weight / limit - 1e-9))
    told = f"{section.label} weighs {weight * shown:,.0f} {unit} in one piece"
    if persons <= 2:
        return f"{told}: two persons can carry it in."
    return (
        f"{told}: too much for two persons at {limit * shown:.0f} {unit} each ({lift.number}); {persons} persons, "
        "or a lift."
    )
