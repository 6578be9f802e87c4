"""Shear, deflection and bearing of a wood beam. NDS 3.4, 3.5 and 3.10."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from structure.core.clauses import Clause, Editions
from structure.core.codes.us import wood, wood_bearing
from structure.core.codes.us import wood_beams as nds
from structure.core.members.beam_bending import Values
from structure.core.members.beam_demand import Block, Demands
from structure.core.members.beam_question import BeamQuestion
from structure.core.members.beam_result import SupportBearing
from structure.core.statics.model import Bay, Load
from structure.core.statics.response import Extremes
from structure.core.statics.solve import analyse
from structure.core.trace import Check, Step

Array = npt.NDArray[np.float64]


def shear(demands: Demands, weight: int, values: Values, editions: Editions) -> Check:
    """The worst shear of all sums and bays; with `shear_at: d` what lies within d of a support is left out."""
    question, block, section = demands.question, demands.strength, values.section
    rows = block.rows(weight)
    V = np.stack([np.abs(each.largest[rows]) for each in demands.shears], axis=-1)
    if question.shear_at == "d":
        V = np.minimum(V, reduced_shears(demands, rows, section.depth, nearness))
    C_D = np.array([each.C_D for each in block.combinations])[block.combination_of]
    ratios = V / C_D[:, None]
    row, bay = (int(i) for i in np.unravel_index(int(ratios.argmax()), ratios.shape))
    stress = nds.shear_stress.step(editions, V=float(V[row, bay]), b=section.breadth, d=section.depth)
    allowed = wood.shear_value.step(
        editions, F=values.reference("Fv"), C_D=float(C_D[row]), C_M=values.C_M["Fv"]
    )
    within = question.shear_at == "d"
    return Check(
        "shear",
        stress.result,
        allowed.result,
        "stress",
        block.names[int(block.combination_of[row])],
        (nds.SHEAR_AT_D if within else nds.SHEAR).at(editions),
        (stress, *values.incised_step("Fv", editions), allowed),
        note=f"{bay_name(question.line.bays[bay])}, "
        + ("loads within the depth of a support left out" if within else "full shear at the support"),
    )


def nearness(x: float, d: float) -> float:
    """What counts of a point load at x from a support, x under d. NDS 3.4.3.1."""
    return x / d


def reduced_shears(demands: Demands, rows: slice, d: float, counts: Callable[[float, float], float]) -> Array:
    """Shear by row and bay: spread loads within d of a support ignored, point loads there times `counts`.

    Where a bay is too short to have a place outside both zones, the full shear stands.
    """
    question, block = demands.question, demands.strength
    response = block.response[rows]
    line = question.line
    supports = np.array(line.supports)
    result = np.full((len(response), len(line.bays)), np.inf)
    for n, bay in enumerate(line.bays):
        ends = [end for end in (bay.start, bay.end) if np.abs(supports - end).min() < 1e-9 * line.length]
        # A sliver left by rounding is no place outside both zones.
        if bay.length <= d * len(ends) + 1e-6 * line.length:
            continue
        sides = []
        inner = [bay.start, bay.end]
        for end in ends:
            inward = 1.0 if end == bay.start else -1.0
            at = end + inward * d
            V = response.shear(at, "right" if inward > 0 else "left")
            # Shear just inside d has lost every point load in the zone; what the clause keeps comes back.
            sides.append(np.abs(V + inward * _kept_points(demands, rows, bay, (end, at), d, counts)))
            inner[0 if inward > 0 else 1] = at
        middle = np.abs(response.shear_extremes(inner[0], inner[1]).largest)
        result[:, n] = np.maximum.reduce([*sides, middle])
    return result


def _kept_points(
    demands: Demands,
    rows: slice,
    bay: Bay,
    zone: tuple[float, float],
    d: float,
    counts: Callable[[float, float], float],
) -> Array:
    """Shear at a support from the point loads between it and the place d from it, each times k = `counts`, by row.

    The clause multiplies the load itself, so the other support is relieved of its share too: of a load P
    that brings the shear r P to the support, P - (1 - k) r P stays of what crosses the zone.
    """
    block, question = demands.strength, demands.question
    end, at = zone
    low, high = min(end, at), max(end, at)
    kept = np.zeros(rows.stop - rows.start)
    points = [p for p in question.loads if p.shape == "point" and low < p.start < high]
    for load in points:
        # A jump of the shear is the load, factored and patterned as the row has it.
        before = block.response[rows].shear(load.start, "left")
        after = block.response[rows].shear(load.start, "right")
        same = [p for p in points if abs(p.start - load.start) < 1e-9 * max(d, 1.0)]
        one = analyse(question.line, [Load.point(load.case, 1.0, load.start)])
        r = abs(float(one.shear(end, "right" if end == bay.start else "left")))
        kept += (before - after) / len(same) * (1.0 - (1.0 - counts(abs(load.start - end), d)) * r)
    return kept


def deflections(demands: Demands, weight: int, values: Values, editions: Editions) -> list[Check]:
    """Live and total deflection; the worst bay of each. An overhang counts against twice its length."""

    def bent(EI_delta: float) -> tuple[Step, ...]:
        stiff = wood.stiffness_value.step(editions, note="E", F=values.reference("E"), C_M=values.C_M["E"])
        delta = nds.deflection.step(editions, EI_delta=EI_delta, E=stiff.result, I=values.section.inertia)
        return (*values.incised_step("E", editions), stiff, delta)

    return deflection_checks(demands, weight, bent, editions)


@dataclass(frozen=True, slots=True)
class DeflectionRule:
    """Under which clauses a code limits deflection, and whether it counts creep in the total."""

    live: Clause
    total: Clause
    creeps: bool = True


RULE = DeflectionRule(nds.DEFLECTION, nds.CREEP)


def deflection_checks(
    demands: Demands,
    weight: int,
    bent: Callable[[float], tuple[Step, ...]],
    editions: Editions,
    rule: DeflectionRule = RULE,
) -> list[Check]:
    """Both checks; `bent` gives the steps from EI times deflection to the deflection, which is the last."""
    limits = demands.question.deflection
    found = []
    if demands.live is not None:
        found.append(
            _deflection(
                "deflection_live",
                demands.live,
                0,
                demands.live_deflections,
                limits.live,
                bent,
                rule.live,
                editions,
            )
        )
    creep = creep_factor(demands.question) if rule.creeps else 1.0
    if demands.total(creep).names:
        total = _deflection(
            "deflection_total",
            demands.total(creep),
            weight,
            demands.total_deflections(creep),
            limits.total,
            bent,
            rule.total,
            editions,
        )
        note = _creep_note(demands) if rule.creeps else ""
        found.append(replace(total, note=f"{total.note}{note}"))
    return found


def creep_factor(question: BeamQuestion) -> float:
    """K_cr on the dead part of the total deflection. NDS 3.5.2."""
    if not question.deflection.creep:
        return 1.0
    return nds.CREEP_WET if question.wet else nds.CREEP_DRY


def _creep_note(demands: Demands) -> str:
    """How often the dead part counts in the total, which the sum's name does not say."""
    K_cr = creep_factor(demands.question)
    if "D" not in demands.total(K_cr).names or not demands.question.deflection.creep:
        return ""
    return f", the dead part times {K_cr:g} for creep (NDS 3.5.2)"


def _deflection(
    name: str,
    block: Block,
    weight: int,
    extremes: Sequence[Extremes],
    limit: float,
    bent: Callable[[float], tuple[Step, ...]],
    clause: Clause,
    editions: Editions,
) -> Check:
    bays = block.response.line.bays
    rows = block.rows(weight)
    lengths = np.array([bay.length if bay.kind == "span" else 2 * bay.length for bay in bays])
    largest = np.stack([each.largest[rows] for each in extremes], axis=-1)
    ratios = np.abs(largest) / lengths
    row, bay = (int(i) for i in np.unravel_index(int(ratios.argmax()), ratios.shape))
    steps = bent(float(abs(largest[row, bay])))
    delta = steps[-1]
    limited = nds.deflection_limit if editions.code == "us" else nds.deflection_limit.under(clause)
    allowed = limited.step(editions, L=float(lengths[bay]), n=limit)
    way = "up" if largest[row, bay] < 0 else "down"
    return Check(
        name,
        delta.result,
        allowed.result,
        "length",
        block.names[int(block.combination_of[row])],
        clause.at(editions),
        (*steps, allowed),
        note=f"{way} in {bay_name(bays[bay])}, L/{float(lengths[bay]) / max(delta.result, 1e-12):.0f}",
    )


def bearings(demands: Demands, weight: int, values: Values, editions: Editions) -> list[SupportBearing]:
    """Every support: reaction, needed length, and with a given length the checks of beam and support."""
    question, block, section = demands.question, demands.strength, values.section
    reactions = block.response.reactions[block.rows(weight)]
    lengths = question.bearings
    F_cp = wood.stiffness_value(F=values.reference("Fc_perp"), C_M=values.C_M["Fc_perp"])
    found = []
    for n in range(reactions.shape[1]):
        row = int(reactions[:, n].argmax())
        R = max(float(reactions[row, n]), 0.0)
        name = block.names[int(block.combination_of[row])]
        length = lengths[n] if lengths else None
        checks: tuple[Check, ...] = ()
        if length is not None and R > 0:
            checks = _bearing_checks(demands, n, R, name, length, values, editions)
        required = _required(R, F_cp, section.breadth, _room(question.line.supports[n], question.line.length))
        if question.support is not None:
            required = max(required, R / (question.support.F_c_perp * section.breadth))
        found.append(SupportBearing(n, R, name, length, required, checks))
    return found


def _room(place: float, length: float) -> float:
    """From the middle of a support to the nearer end of the beam."""
    return min(place, length - place)


def _required(R: float, F_cp: float, b: float, room: float) -> float:
    if R <= 0:
        return 0.0
    plain = float(wood_bearing.required_bearing(R=R, F_cp=F_cp, b=b))
    inside = float(wood_bearing.required_bearing_inside(R=R, F_cp=F_cp, b=b, l_a=wood_bearing.ADDED_LENGTH))
    counts = 0 < inside < wood_bearing.LONGEST and room - inside / 2 >= wood_bearing.END_DISTANCE
    # Any length at all will do where C_b alone carries the load; a bearing is still at least that long.
    return inside if counts else plain


def _bearing_checks(
    demands: Demands, n: int, R: float, name: str, length: float, values: Values, editions: Editions
) -> tuple[Check, ...]:
    question, section = demands.question, values.section
    room = _room(question.line.supports[n], question.line.length)
    C_b, steps = 1.0, []
    if length < wood_bearing.LONGEST and room - length / 2 >= wood_bearing.END_DISTANCE:
        factor = wood_bearing.bearing_area_factor.step(editions, l_b=length, l_a=wood_bearing.ADDED_LENGTH)
        C_b, steps = factor.result, [factor]
    stress = nds.bearing_stress.step(editions, R=R, b=section.breadth, l_b=length)
    allowed = nds.bearing_value.step(
        editions, F_cp=values.reference("Fc_perp"), C_M=values.C_M["Fc_perp"], C_b=C_b
    )
    clause = wood_bearing.ACROSS_THE_GRAIN.at(editions)
    own = Check(
        "bearing", stress.result, allowed.result, "stress", name, clause,
        (stress, *steps, allowed), note=f"support {n + 1} from the left",
    )  # fmt: skip
    if question.support is None:
        return (own,)
    under = Check(
        "support_bearing", stress.result, question.support.F_c_perp, "stress", name, clause, (stress,),
        note=f"support {n + 1} from the left, {question.support.material}, without C_b",
    )  # fmt: skip
    return own, under


def bay_name(bay: Bay) -> str:
    """`span 2`, `left overhang`."""
    return f"span {bay.number + 1}" if bay.kind == "span" else f"{bay.kind} overhang"
