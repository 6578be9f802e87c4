"""Shear, deflection and bearing of a wood beam by CSA O86: 6.5.4, 5.4 and 6.5.6."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import numpy.typing as npt

from structure.core.clauses import Editions
from structure.core.codes.ca import wood, wood_bearing
from structure.core.codes.ca import wood_beams as o86
from structure.core.codes.us.wood_beams import deflection as bent_down
from structure.core.errors import OutOfScope
from structure.core.members.beam_demand import Demands
from structure.core.members.beam_result import SupportBearing
from structure.core.members.beam_service import (
    DeflectionRule,
    bay_name,
    deflection_checks,
    reduced_shears,
)
from structure.core.members.ca_wood_values import CaValues, Duration, support_duration
from structure.core.trace import Check, Step

Array = npt.NDArray[np.float64]
RULE = DeflectionRule(o86.DEFLECTION, o86.DEFLECTION, creeps=False)


def left_out(x: float, d: float) -> float:
    """What counts of a load at x from a support, x under d: nothing. CSA O86 6.5.4."""
    return 0.0


def shear(
    demands: Demands, weight: int, values: CaValues, lasting: tuple[Duration, ...], editions: Editions
) -> Check:
    """The worst shear of all sums and bays; with `shear_at: d` all loads within d of a support are left out.

    Raises OutOfScope for glued laminated timber of 2 m3 and more, which 7.5.7.3(a) checks by all of its loads.
    """
    question, block, section = demands.question, demands.strength, values.section
    rows, which = block.rows(weight), block.combination_of
    if section.family == "glulam" and section.area * question.line.length >= o86.LEAST_VOLUME:
        raise OutOfScope(
            o86.GLULAM_SHEAR.at(editions),
            f"{section.label}: 2 m3 and larger is checked for shear by the whole load; ask the engineer",
        )
    V = np.stack([np.abs(each.largest[rows]) for each in demands.shears], axis=-1)
    within = question.shear_at == "d"
    if within:
        V = np.minimum(V, reduced_shears(demands, rows, section.depth, left_out))
    K_D = np.array([each.K_D for each in lasting])[which]
    ratios = V / K_D[:, None]
    row, bay = (int(i) for i in np.unravel_index(int(ratios.argmax()), ratios.shape))
    combination = int(which[row])
    F_v = values.strength_step("fv", lasting[combination].K_D, editions)
    clause = {"sawn": o86.SHEAR, "glulam": o86.GLULAM_SHEAR}.get(section.family, o86.SCL_SHEAR)
    V_r = o86.shear_resistance.under(clause).step(
        editions, phi=wood.PHI_SHEAR, F_v=F_v.result, A_n=section.area, K_Zv=section.size_factors["fv"]
    )
    return Check(
        "shear",
        float(V[row, bay]),
        V_r.result,
        "force",
        block.names[combination],
        V_r.clause,
        (*lasting[combination].steps(editions), F_v, V_r),
        note=f"{bay_name(question.line.bays[bay])}, "
        + ("loads within the depth of a support left out" if within else "full shear at the support"),
    )


def deflections(demands: Demands, weight: int, values: CaValues, editions: Editions) -> list[Check]:
    """Live and total deflection, and what stays where it is over half of the total. CSA O86 5.4.2, 5.4.3."""

    def bent(EI_delta: float) -> tuple[Step, ...]:
        stiff = values.stiffness_step(editions)
        delta = bent_down.under(o86.DEFLECTION).step(
            editions, EI_delta=EI_delta, E=stiff.result, I=values.section.inertia
        )
        return stiff, delta

    found = deflection_checks(demands, weight, bent, editions, RULE)
    if demands.question.deflection.creep:
        found += _permanent(demands, weight, bent, editions)
    return found


def _permanent(
    demands: Demands, weight: int, bent: Callable[[float], tuple[Step, ...]], editions: Editions
) -> list[Check]:
    """Elastic deflection under what stays, span/360, in the bays where it is over half of the total. 5.4.3."""
    block = demands.total(1.0)
    if "D" not in block.names:
        return []
    rows, extremes = block.rows(weight), demands.total_deflections(1.0)
    alone = block.combination_of == block.names.index("D")
    worst: tuple[float, float, int] | None = None
    for n, bay in enumerate(demands.question.line.bays):
        largest = np.abs(np.asarray(extremes[n].largest[rows]))
        stays, total = float(largest[alone].max()), float(largest.max())
        length = bay.length if bay.kind == "span" else 2 * bay.length
        if stays > o86.PERMANENT_SHARE * total and (worst is None or stays / length > worst[0]):
            worst = (stays / length, stays, n)
    if worst is None:
        return []
    bay = demands.question.line.bays[worst[2]]
    length = bay.length if bay.kind == "span" else 2 * bay.length
    steps = bent(worst[1])
    return [
        Check(
            "deflection_permanent",
            steps[-1].result,
            length / o86.MOST_PERMANENT,
            "length",
            "D",
            o86.PERMANENT.at(editions),
            steps,
            note=f"{bay_name(bay)}: what stays is over half of the whole load, so its elastic deflection is held "
            f"to L/{o86.MOST_PERMANENT:g}",
        )
    ]


def bearings(demands: Demands, weight: int, values: CaValues, editions: Editions) -> list[SupportBearing]:
    """Every support: factored reaction, needed length, and with a given length the checks of beam and support."""
    question, block = demands.question, demands.strength
    rows = block.rows(weight)
    reactions = block.response.reactions[rows]
    lengths = question.bearings
    found = []
    for n in range(reactions.shape[1]):
        lasting = [support_duration(demands, weight, n, c) for c in range(len(block.combinations))]
        K_D = np.array([each.K_D for each in lasting])[block.combination_of]
        row = int((reactions[:, n] / K_D).argmax())
        combination = int(block.combination_of[row])
        R = max(float(reactions[row, n]), 0.0)
        length = lengths[n] if lengths else None
        checks: tuple[Check, ...] = ()
        if length is not None and R > 0:
            checks = _bearing_checks(
                demands, n, R, combination, length, values, lasting[combination], editions
            )
            near = _near(demands, weight, n, length, values, lasting, editions)
            checks = (*checks, *near)
        F_cp = float(values.strength("fcp", np.array(lasting[combination].K_D)))
        if question.support is not None:
            F_cp = min(F_cp, question.support.F_c_perp * lasting[combination].K_D * values.K_S["fcp"])
        required = 0.0
        if R > 0:
            required = wood_bearing.required_length(
                Q_f=R, phi=wood.PHI_COMPRESSION, F_cp=F_cp, b=values.section.breadth, K_Zcp=1.0
            )
        found.append(SupportBearing(n, R, block.names[combination], length, required, checks))
    return found


def _bearing_checks(
    demands: Demands,
    n: int,
    R: float,
    combination: int,
    length: float,
    values: CaValues,
    lasting: Duration,
    editions: Editions,
) -> tuple[Check, ...]:
    # Supports of a beam stand at its end, or where it bends most over them: K_B is 1 (6.5.6.5).
    section, name = values.section, demands.strength.names[combination]
    held: dict[str, Any] = {"phi": wood.PHI_COMPRESSION, "b": section.breadth, "l_b": length, "K_B": 1.0}
    F_cp = values.strength_step("fcp", lasting.K_D, editions)
    steps = [*lasting.steps(editions), F_cp]
    # A beam stands on edge, each of its plies deeper than wide: K_Zcp is 1 (6.5.6.4).
    held["K_Zcp"] = 1.0
    Q_r = wood_bearing.bearing_resistance.step(editions, F_cp=F_cp.result, **held)
    note = f"support {n + 1} from the left"
    own = Check("bearing", R, Q_r.result, "force", name, Q_r.clause, (*steps, Q_r), note=note)
    under = demands.question.support
    if under is None:
        return (own,)
    crushed = wood.strength.step(
        editions, note=f"fcp of {under.material}", f=under.F_c_perp, K_D=lasting.K_D, K_H=1.0, K_S=values.K_S["fcp"],
        K_T=1.0,
    )  # fmt: skip
    Q_r = wood_bearing.bearing_resistance.step(editions, F_cp=crushed.result, **held)
    return own, Check(
        "support_bearing", R, Q_r.result, "force", name, Q_r.clause,
        (*lasting.steps(editions), crushed, Q_r), note=f"{note}, {under.material}",
    )  # fmt: skip


def _near(
    demands: Demands,
    weight: int,
    n: int,
    length: float,
    values: CaValues,
    lasting: list[Duration],
    editions: Editions,
) -> tuple[Check, ...]:
    """What stands within the depth of a support, crushed between both bearings. CSA O86 6.5.6.3.

    The loads are taken to bear on as much as the support does.
    """
    block, section = demands.strength, values.section
    rows, line = block.rows(weight), demands.question.line
    response = block.response[rows]
    at = line.supports[n]
    Q = np.asarray(response.reactions[:, n], dtype=float).copy()
    before, after = at - section.depth, at + section.depth
    # Shear falls by every load that presses down: what falls between the two places stands there.
    if before > 0:
        Q += response.shear(before, "left")
    if after < line.length:
        Q -= response.shear(after, "right")
    K_D = np.array([each.K_D for each in lasting])[block.combination_of]
    row = int((Q / K_D).argmax())
    if Q[row] <= 0:
        return ()
    combination = int(block.combination_of[row])
    F_cp = values.strength_step("fcp", lasting[combination].K_D, editions)
    Q_r = wood_bearing.bearing_resistance_near.step(
        editions,
        phi=wood.PHI_COMPRESSION,
        F_cp=F_cp.result,
        b=section.breadth,
        l_b=length,
        K_Zcp=1.0,
    )
    return (
        Check(
            "bearing_near_support",
            float(Q[row]),
            Q_r.result,
            "force",
            block.names[combination],
            Q_r.clause,
            (*lasting[combination].steps(editions), F_cp, Q_r),
            note=f"loads within the depth of support {n + 1} from the left, on bearings as long as the support's",
        ),
    )
