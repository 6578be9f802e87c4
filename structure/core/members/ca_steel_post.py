"""A steel post under CSA S16: buckling both ways, class 4 walls, a load off centre, the plate under it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from structure.core.clauses import Editions
from structure.core.codes.ca import nbc, steel, wood, wood_bearing
from structure.core.codes.ca import steel_columns as s16
from structure.core.errors import OutOfScope
from structure.core.materials.ca_steel import CaSteelSection
from structure.core.members.bearing import PlateQuestion
from structure.core.members.ca_bearing import Factored, factored_sums
from structure.core.members.ca_steel_strength import CaStrength, strength, weak_strength
from structure.core.members.post_question import CONTINUOUS, Axis, PostQuestion, PostResult, check_question
from structure.core.members.steel_plate import Plate, base_plate
from structure.core.members.steel_post import free_length
from structure.core.trace import Check, Step
from structure.core.units import in_words

SAME_MOMENT = 1.0  # omega_1: the same moment at both ends, the worst there is
NO_GRADIENT = 1.0  # omega_2, likewise
CLOSE = 1e-9
Interaction = Callable[[float], tuple[Step, ...]]


@dataclass(frozen=True, slots=True)
class _Wall:
    """Like parts of a section in compression: how many, width over thickness, and the limit of table 1."""

    name: str
    count: int
    slenderness: float
    thickness: float
    limit: Step

    @property
    def slender(self) -> bool:
        return self.slenderness > self.limit.result

    def as_data(self) -> dict[str, Any]:
        return {
            "slenderness": self.slenderness,
            "limits": {"class_4": self.limit.result},
            "class": 4 if self.slender else 3,
        }


def check_ca_steel_post(question: PostQuestion, editions: Editions) -> PostResult:
    """Every check of a steel post under the largest factored sum.

    Raises InputError for input that cannot be meant, OutOfScope for channels, a slenderness over 200, round
    tubes of class 4, class 4 in bending, and uplift.
    """
    section = question.section
    assert isinstance(section, CaSteelSection)  # noqa: S101 - only steel comes here
    check_question(question, s16.BUCKLING.at(editions))
    if section.rolled.form == "C":
        raise OutOfScope(
            s16.TORSION.at(editions), f"{section.label}: a channel twists as it buckles; take a tube or a W"
        )
    walls = _walls(section, editions)
    reduced = _effective(section, walls, editions)
    area = reduced[-1].result if reduced else section.area
    weak, strong = (_axis(question, section, area, name, editions) for name in ("weak", "strong"))
    sums = factored_sums(question.loads, editions)
    largest = max(sums, key=lambda each: each.load)
    least = min(weak, strong, key=lambda axis: axis.capacity)
    clause = s16.SLENDER if reduced else s16.BUCKLING
    steps = (*(wall.limit for wall in walls), *reduced, *weak.steps, *strong.steps)
    checks = {
        "buckling": Check(
            "buckling", largest.load, least.capacity, "force", largest.name, clause.at(editions), steps,
            note=f"{least.name} axis",
        )
    }  # fmt: skip
    more: dict[str, Any] = {"local_buckling": {wall.name: wall.as_data() for wall in walls}}
    if question.eccentricity > 0:
        check, bent = _eccentric(question, section, (weak, strong), largest, editions)
        checks["eccentricity"] = check
        more["bending_classes"] = {part.name: part.as_data() for part in bent.parts}
    if question.plate is not None:
        rows = [_on_wood(question.plate, section, each, editions) for each in sums]
        checks["plate_bearing"], plate = max(rows, key=lambda row: row[0].ratio)
        more["plate"] = plate.as_data()
    return PostResult(
        question=question,
        checks=checks,
        axes={axis.name: axis for axis in (weak, strong)},
        factors={"phi": steel.PHI, "n": section.curve},
        fastening=None,
        remarks=_remarks(question, section),
        more=more,
    )


def _walls(section: CaSteelSection, editions: Editions) -> tuple[_Wall, ...]:
    """The parts of a W shape, tube or pipe against table 1. Raises OutOfScope for a slender round tube."""
    shape, F_y = section.rolled, section.reference.value("Fy")

    def wall(name: str, count: int, s: float, t: float, n: float) -> _Wall:
        return _Wall(
            name, count, s, t, steel.column_limit.step(editions, n=n, F_y=F_y, note=f"{name} {s:.1f}")
        )

    if shape.form == "round":
        limit = steel.column_round_limit.step(
            editions, n=steel.COLUMN_ROUND, F_y=F_y, note=f"wall {shape.web:.1f}"
        )
        found = _Wall("wall", 1, shape.web, shape.t_w, limit)
        if found.slender:
            raise OutOfScope(s16.SLENDER.at(editions), f"{section.label}: its wall is class 4, not covered")
        return (found,)
    if shape.form == "HSS":
        return (
            wall("web", 2, shape.web, shape.t_w, steel.COLUMN_WALL),
            wall("flange", 2, shape.flange, shape.t_w, steel.COLUMN_WALL),
        )
    return (
        wall("web", 1, shape.web, shape.t_w, steel.COLUMN_WALL),
        wall("flange", 4, shape.flange, shape.t_f, steel.COLUMN_FLANGE),
    )


def _effective(section: CaSteelSection, walls: tuple[_Wall, ...], editions: Editions) -> tuple[Step, ...]:
    """The area less what class 4 walls have over their limit; none where the whole section counts. 13.3.5(a)."""
    A, steps = section.area, []
    for wall in walls:
        if wall.slender:
            step = s16.effective_area.step(
                editions, A=A, m=wall.count, s=wall.slenderness, s_lim=wall.limit.result, t=wall.thickness,
                note=wall.name,
            )  # fmt: skip
            steps.append(step)
            A = step.result
    return tuple(steps)


def _axis(
    question: PostQuestion, section: CaSteelSection, area: float, name: str, editions: Editions
) -> Axis:
    shape, note = section.rolled, f"{name} axis"
    F_y, E = section.reference.value("Fy"), section.reference.value("E")
    free = free_length(question, name)
    steps: list[Step] = []
    slender = l = 0.0  # noqa: E741 - lambda of the clause
    if free > 0:
        length = s16.effective_length.step(editions, K=question.end, L=free, note=note)
        r = shape.r_y if name == "weak" else shape.r_x
        ratio = s16.slenderness.step(editions, L_e=length.result, r=r, note=note)
        slender = ratio.result
        if slender > s16.MOST_SLENDER * (1 + CLOSE):
            raise OutOfScope(
                s16.EFFECTIVE_LENGTH.at(editions),
                f"{section.label}: KL/r {slender:.0f} about its {name} axis is over {s16.MOST_SLENDER:g}; "
                "brace it, or take a thicker post",
            )
        parameter = s16.column_lambda.step(editions, s=slender, F_y=F_y, E=E, note=note)
        l = parameter.result  # noqa: E741
        steps += [length, ratio, parameter]
    C_r = s16.compression_resistance.step(
        editions, phi=steel.PHI, A=area, F_y=F_y, l=l, n=section.curve, note=note
    )
    factor = C_r.result / (steel.PHI * area * F_y)
    return Axis(name, f"about the {name} axis", slender, factor, C_r.result, None, (*steps, C_r))


def _eccentric(
    question: PostQuestion,
    section: CaSteelSection,
    axes: tuple[Axis, Axis],
    largest: Factored,
    editions: Editions,
) -> tuple[Check, CaStrength]:
    """The load off centre, in whichever direction is worse, and the strength then. The capacity is the load at u = 1.

    With the same moment at both ends the case with buckling sideways, (c), is the worst of 13.8.2 and 13.8.3;
    bending alone, (d), stands beside it.
    """
    C_r = min(axis.capacity for axis in axes)
    rows = []
    for axis in axes:
        held, steps, M_r = _moment_resistance(question, section, axis.name, largest.load, editions)
        use = _interaction(question, section, axes, axis.name, held, (C_r, M_r), editions)
        low, high = 0.0, C_r
        for _ in range(80):
            middle = (low + high) / 2
            found = use(middle)
            passes = bool(found) and max(step.result for step in found if step.symbol == "u") <= 1.0
            low, high = (middle, high) if passes else (low, middle)
        rows.append((low, (*steps, *use(largest.load)), axis, held))
    capacity, kept, axis, bent = min(rows, key=lambda row: row[0])
    is_open = section.rolled.form == "W"
    check = Check(
        "eccentricity",
        largest.load,
        capacity,
        "force",
        largest.name,
        (s16.COMBINED_I if is_open else s16.COMBINED).at(editions),
        kept,
        note=f"off centre, bending {axis.direction}; the capacity is the load whose interaction is just 1",
    )
    return check, bent


def _moment_resistance(
    question: PostQuestion, section: CaSteelSection, name: str, C_f: float, editions: Editions
) -> tuple[CaStrength, tuple[Step, ...], float]:
    """M_r about one axis with its class under C_f; buckling sideways without a gradient."""
    if name == "weak":
        held = weak_strength(section, editions, C_f)
        steps, M_r, _ = held.sheet(0.0, NO_GRADIENT, editions)
        return held, steps, M_r
    held, L = strength(section, editions, C_f), free_length(question, "weak")
    steps, M_r, _ = held.sheet(L, NO_GRADIENT, editions)
    return held, steps, M_r


def _interaction(
    question: PostQuestion,
    section: CaSteelSection,
    axes: tuple[Axis, Axis],
    name: str,
    held: CaStrength,
    resistances: tuple[float, float],
    editions: Editions,
) -> Interaction:
    """The steps of the interaction at a load; none where the bow grows without end."""
    shape, E = section.rolled, section.reference.value("E")
    C_r, M_r = resistances
    free = free_length(question, name)
    k, factor = _share(section, axes[0], name, held, editions)

    def use(load: float) -> tuple[Step, ...]:
        steps: list[Step] = [*factor]
        U_1 = 1.0
        if free > 0:
            I = shape.I_y if name == "weak" else shape.I_x  # noqa: E741 - the symbol of the clause
            buckles = s16.euler_load.step(editions, E=E, I=I, L=free)
            if load >= buckles.result:
                return ()
            grown = s16.moment_amplifier.step(editions, omega_1=SAME_MOMENT, C_f=load, C_e=buckles.result)
            U_1 = grown.result
            steps += [buckles, grown]
        M = s16.eccentric_moment.step(editions, C_f=load, e=question.eccentricity)
        both = s16.interaction.step(editions, C_f=load, C_r=C_r, k=k, U_1=U_1, M_f=M.result, M_r=M_r)
        alone = s16.interaction.step(
            editions, C_f=0.0, C_r=C_r, k=1.0, U_1=1.0, M_f=M.result, M_r=M_r, note="bending alone, (d)"
        )
        return (*steps, M, both, alone)

    return use


def _share(
    section: CaSteelSection, weak: Axis, name: str, held: CaStrength, editions: Editions
) -> tuple[float, tuple[Step, ...]]:
    """What counts of the moment: 0.85 or beta of a class 1 or 2 I shape, else all of it. CSA S16 13.8.2, 13.8.3."""
    if section.rolled.form != "W" or held.kind > 2:
        return 1.0, ()
    if name == "strong":
        return s16.I_STRONG, ()
    l_y = s16.column_lambda(
        s=weak.slenderness, F_y=section.reference.value("Fy"), E=section.reference.value("E")
    )
    beta = s16.weak_factor.step(editions, b_0=s16.I_WEAK, b_1=s16.I_WEAK_SLOPE, l_y=l_y)
    return beta.result, (beta,)


def _on_wood(
    asked: PlateQuestion, section: CaSteelSection, each: Factored, editions: Editions
) -> tuple[Check, Plate]:
    """The wood under the plate of a post; neither K_B nor K_Zcp is counted. CSA O86 6.5.6.2."""
    F_cp = wood.strength.step(
        editions, note=asked.material, f=asked.F_c_perp, K_D=each.duration.K_D, K_H=1.0, K_S=1.0, K_T=1.0
    )
    F_c = wood.PHI_COMPRESSION * F_cp.result
    plate, spread = base_plate(asked.width, section, each.load, F_c, editions)
    Q_r = wood_bearing.bearing_resistance.step(
        editions,
        phi=wood.PHI_COMPRESSION,
        F_cp=F_cp.result * spread / F_c,
        b=plate.B,
        l_b=plate.N,
        K_B=1.0,
        K_Zcp=1.0,
        note="" if spread == F_c else f"what a plate of {plate.thickness:g} mm spreads",
    )
    check = Check(
        "plate_bearing", each.load, Q_r.result, "force", each.name, Q_r.clause,
        (*each.duration.steps(editions), F_cp, *plate.steps, Q_r),
        note=f"steel plate {plate.label}, {plate.rules.grade}",
    )  # fmt: skip
    return check, plate


def _remarks(question: PostQuestion, section: CaSteelSection) -> tuple[str, ...]:
    remarks = ["Preliminary: held at top and bottom against moving sideways; no self weight."]
    remarks += section.remarks
    if section.rolled.form == "round":
        most = in_words(nbc.MAX_ADJUSTABLE_COLUMN, "force", "ca")
        remarks.append(
            f"Of a plain tube fixed at both ends. An adjustable steel column is not reckoned so: it is held to "
            f"{most} of working load unless its own report says more; enter it by `stated` (NBC 9.17.3.4.)."
        )
    if question.plate is None:
        remarks.append("The plates at top and bottom, and what they stand on, were not asked for.")
    else:
        remarks.append("Plates are welded to the post and fixed at both ends; the top plate may not turn.")
    if "weak" in question.braced and section.rolled.form == "W":
        remarks.append("A brace must also hold the post from twisting (CSA S16 13.3.2).")
    for name, brace in question.braced.items():
        if brace == CONTINUOUS:
            remarks.append(f"{name}: counted as held sideways without a gap; what does it must stay.")
    remarks.append("It stands on a pad of its own, never on a bare slab (common practice).")
    return tuple(remarks)
