"""A steel post: buckling both ways, slender walls, a load off centre, the plate under it. AISC 360 E, H."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np

from structure.core.clauses import Editions
from structure.core.codes.us import steel
from structure.core.codes.us import steel_bending as bending
from structure.core.codes.us import steel_columns as aisc
from structure.core.codes.us.wood_bearing import ACROSS_THE_GRAIN, bearing_capacity
from structure.core.errors import InputError, OutOfScope
from structure.core.materials.steel import SteelSection
from structure.core.members.bearing import PlateQuestion
from structure.core.members.post_question import (
    CONTINUOUS,
    Axis,
    Brace,
    PostQuestion,
    PostResult,
    check_question,
    largest_load,
)
from structure.core.members.steel_columns import Walls, walls_of
from structure.core.members.steel_plate import Plate, base_plate
from structure.core.members.steel_strength import strength, weak_strength
from structure.core.trace import Check, Step

C_M = 1.0  # appendix 8: the same moment at both ends, the worst there is
CLOSE = 1e-9
Interaction = Callable[[float], tuple[Step, ...]]


def check_steel_post(question: PostQuestion, editions: Editions) -> PostResult:
    """Every check of a steel post under the largest stress sum; there is no load duration factor.

    Raises InputError for input that cannot be meant, OutOfScope for channels, a slenderness over 200,
    slender flanges, round tubes past 0.11 E / F_y, and uplift.
    """
    section = question.section
    assert isinstance(section, SteelSection)  # noqa: S101 - only steel comes here
    check_question(question, aisc.BUCKLING.at(editions))
    if section.rolled.form == "C":
        raise OutOfScope(
            aisc.TORSION.at(editions), f"{section.label}: a channel twists as it buckles; take a tube or a W"
        )
    walls = walls_of(section, editions)
    weak, strong = (_axis(question, section, walls, name, editions) for name in ("weak", "strong"))
    P, name = largest_load(question)
    least = min(weak, strong, key=lambda axis: axis.capacity)
    clause = aisc.SLENDER if walls.slender(least) else aisc.BUCKLING
    checks = {
        "buckling": Check(
            "buckling", P, least.capacity, "force", name, clause.at(editions),
            (*walls.steps, *weak.steps, *strong.steps), note=f"{least.name} axis",
        )
    }  # fmt: skip
    if question.eccentricity > 0:
        checks["eccentricity"] = _eccentric(question, section, (weak, strong), P, name, editions)
    more: dict[str, Any] = {"local_buckling": walls.as_data()}
    if question.plate is not None:
        checks["plate_bearing"], plate = _on_wood(question.plate, section, P, name, editions)
        more["plate"] = plate.as_data()
    return PostResult(
        question=question,
        checks=checks,
        axes={axis.name: axis for axis in (weak, strong)},
        factors={},
        fastening=None,
        remarks=_remarks(question, section),
        more=more,
    )


def _on_wood(
    asked: PlateQuestion, section: SteelSection, P: float, combination: str, editions: Editions
) -> tuple[Check, Plate]:
    """The wood under the plate of a post [lbf]; no C_b is counted."""
    plate, spread = base_plate(asked.width, section, P, asked.F_c_perp, editions)
    thick = spread < asked.F_c_perp
    capacity = bearing_capacity.step(
        editions, F_cp=spread, C_b=1.0, b=plate.B, l_b=plate.N,
        note=f"what a plate of {plate.thickness:g} in spreads" if thick else asked.material,
    )  # fmt: skip
    check = Check(
        "plate_bearing", P, capacity.result, "force", combination, ACROSS_THE_GRAIN.at(editions),
        (*plate.steps, capacity), note=f"steel plate {plate.label}, {plate.rules.grade}",
    )  # fmt: skip
    return check, plate


def _brace(question: PostQuestion, name: str) -> Brace:
    for given in question.braced:
        if given not in ("weak", "strong"):
            raise InputError(
                f"braced.{given}", question.braced[given], "weak or strong: a steel post has no plies"
            )
    return question.braced.get(name)


def free_length(question: PostQuestion, name: str) -> float:
    """The length between braces about one axis of a steel post; 0 where it is held all along."""
    brace = _brace(question, name)
    if brace == CONTINUOUS:
        return 0.0
    return question.height if brace is None else min(float(brace), question.height)


def _axis(question: PostQuestion, section: SteelSection, walls: Walls, name: str, editions: Editions) -> Axis:
    shape = section.rolled
    F_y, E = section.reference.value("Fy"), section.reference.value("E")
    r, note = (shape.r_y if name == "weak" else shape.r_x), f"{name} axis"
    free = free_length(question, name)
    direction = "about the weak axis" if name == "weak" else "about the strong axis"
    steps: list[Step] = []
    slender, F_e, F_cr = 0.0, None, F_y
    if free > 0:
        length = aisc.effective_length.step(editions, K=question.end, L=free, note=note)
        ratio = aisc.slenderness.step(editions, L_c=length.result, r=r, note=note)
        slender = ratio.result
        if slender > aisc.MOST_SLENDER * (1 + CLOSE):
            raise OutOfScope(
                aisc.EFFECTIVE_LENGTH.at(editions),
                f"{section.label}: L_c/r {slender:.0f} about its {name} axis is over {aisc.MOST_SLENDER:g}; "
                "brace it, or take a thicker post",
            )
        euler = aisc.euler_stress.step(editions, E=E, s=slender, note=note)
        F_e = euler.result
        critical = (
            aisc.inelastic_stress.step(editions, F_y=F_y, F_e=F_e, note=note)
            if F_y / F_e <= aisc.INELASTIC
            else aisc.elastic_stress.step(editions, F_e=F_e, note=note)
        )
        F_cr = critical.result
        steps += [length, ratio, euler, critical]
    reduced, A_e = walls.effective(F_cr, editions)
    P_n = aisc.compression_strength.step(editions, F_cr=F_cr, A_e=A_e, note=note)
    P_a = steel.allowable_force.step(editions, R_n=P_n.result, Omega=steel.OMEGA_COMPRESSION)
    return Axis(name, direction, slender, F_cr / F_y, P_a.result, F_e, (*steps, *reduced, P_n, P_a))


def _eccentric(
    question: PostQuestion,
    section: SteelSection,
    axes: tuple[Axis, Axis],
    P: float,
    combination: str,
    editions: Editions,
) -> Check:
    """The load off centre, in whichever direction is worse. The capacity is the load at u = 1."""
    P_c = min(axis.capacity for axis in axes)
    rows = []
    for axis in axes:
        steps, M_c = _moment_capacity(question, section, axis.name, editions)
        use = _interaction(question, section, axis.name, P_c, M_c, editions)
        low, high = 0.0, P_c
        for _ in range(80):
            middle = (low + high) / 2
            found = use(middle)
            low, high = (middle, high) if found and found[-1].result <= 1.0 else (low, middle)
        rows.append((low, (*steps, *use(P)), axis))
    capacity, kept, axis = min(rows, key=lambda row: row[0])
    return Check(
        "eccentricity",
        P,
        capacity,
        "force",
        combination,
        aisc.COMBINED.at(editions),
        kept,
        note=f"off centre, bending {axis.direction}; the capacity is the load whose interaction is just 1",
    )


def _moment_capacity(
    question: PostQuestion, section: SteelSection, name: str, editions: Editions
) -> tuple[tuple[Step, ...], float]:
    """Steps and allowable moment about one axis [lbf*in]; C_b is 1."""
    if name == "weak":
        steps, M_n = weak_strength(section, editions)
    else:
        held, L_b = strength(section, editions), free_length(question, "weak")
        if held.beyond(np.array([L_b])).any():
            raise OutOfScope(
                bending.TUBE_LATERAL.at(editions), f"{section.label}: too long to bend about its strong axis"
            )
        steps, M_n, _ = held.sheet(L_b, 1.0, editions)
    allowed = steel.allowable_moment.step(editions, M_n=M_n, Omega=steel.OMEGA_BENDING)
    return (*steps, allowed), allowed.result


def _interaction(
    question: PostQuestion, section: SteelSection, name: str, P_c: float, M_c: float, editions: Editions
) -> Interaction:
    """The steps of the interaction at a load; none where the bow grows without end."""
    shape, E = section.rolled, section.reference.value("E")
    inertia = shape.I_y if name == "weak" else shape.I_x
    free = free_length(question, name) * question.end

    def use(load: float) -> tuple[Step, ...]:
        steps: list[Step] = []
        B_1 = 1.0
        if free > 0:
            buckles = aisc.critical_load.step(editions, E=E, I=inertia, L_c=free)
            if aisc.ALPHA_ASD * load >= buckles.result:
                return ()
            grown = aisc.moment_amplifier.step(
                editions, C_m=C_M, alpha=aisc.ALPHA_ASD, P=load, P_e1=buckles.result
            )
            B_1 = grown.result
            steps += [buckles, grown]
        M = aisc.eccentric_moment.step(editions, B_1=B_1, P=load, e=question.eccentricity)
        kernel = (
            aisc.large_axial_interaction if load / P_c >= aisc.LARGE_AXIAL else aisc.small_axial_interaction
        )
        return (*steps, M, kernel.step(editions, P=load, P_c=P_c, M=M.result, M_c=M_c))

    return use


def _remarks(question: PostQuestion, section: SteelSection) -> tuple[str, ...]:
    remarks = ["Preliminary: held at top and bottom against moving sideways; no self weight."]
    remarks += section.remarks
    if question.plate is None:
        remarks.append("The plates at top and bottom, and what they stand on, were not asked for.")
    else:
        remarks.append("Plates are welded to the post and fixed at both ends; the top plate may not turn.")
    if "weak" in question.braced and section.rolled.form == "W":
        remarks.append("A brace must also hold the post from twisting (AISC 360 E4).")
    for name, brace in question.braced.items():
        if brace == CONTINUOUS:
            remarks.append(f"{name}: counted as held sideways without a gap; what does it must stay.")
    remarks.append("It stands on a pad of its own, never on a bare slab (common practice).")
    return tuple(remarks)
