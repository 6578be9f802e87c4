"""The reference value of one dowel in one connection: all modes of yielding, the least of them.

US: lbf, inches, psi.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from structure.core.clauses import Editions
from structure.core.codes.us import fasteners as nds
from structure.core.errors import InputError, OutOfScope
from structure.core.trace import Step
from structure.data.loader import Table, table

TABLE = "us/fasteners"
SOFTEST = 1000.0  # term u, far past any joint in a house


@dataclass(frozen=True, slots=True)
class Holding:
    """One member as the dowel feels it: bearing strength [psi] and bearing length [in]."""

    F_e: float
    length: float
    steps: tuple[Step, ...] = ()


@dataclass(frozen=True, slots=True)
class DowelValue:
    """Z of one dowel [lbf], the mode that gives it, every mode [lbf], and the terms by their letters."""

    Z: float
    mode: str
    modes: Mapping[str, float]
    terms: Mapping[str, float]
    steps: tuple[Step, ...]


def held_table() -> Table:
    """The table of fasteners."""
    return table(TABLE)


def nail_yield(diameter: float, editions: Editions) -> float:
    """Bending yield strength of a common, box or sinker nail [psi]. NDS table I1.

    Raises OutOfScope for a nail thicker than the table holds.
    """
    rows = held_table().content["nail_yield"]["rows"]
    for up_to, value in rows:
        if diameter <= up_to + 1e-9:
            return float(value)
    raise OutOfScope(
        nds.YIELD.at(editions),
        f"a nail {diameter:g} in thick has no bending yield strength here; enter the one that its maker states",
    )


def wood_holding(G: float, diameter: float, length: float, angle: float, editions: Editions) -> Holding:
    """Wood of specific gravity G under a dowel, the load at `angle` degrees to the grain. NDS table 12.3.3.

    Raises InputError for an angle off 0 to 90 degrees, a gravity off 0.2 to 0.8, or a length of nothing.
    """
    if not 0 <= angle <= 90:
        raise InputError("angle", f"{angle:g}", "an angle of 0 to 90 degrees")
    if not 0.2 <= G <= 0.8:
        raise InputError("specific_gravity", f"{G:g}", "a specific gravity of 0.2 to 0.8")
    _positive("length", length)
    held = held_table().content["bearing"]
    if diameter < nds.SMALL_DOWEL:
        step = nds.small_dowel_bearing.step(editions, F_0=held["small_psi"], G=G)
        return Holding(step.result, length, (step,))
    along = nds.bearing_along.step(editions, F_0=held["along_psi"], G=G)
    if angle == 0:
        return Holding(along.result, length, (along,))
    across = nds.bearing_across.step(editions, F_0=held["across_psi_in"], G=G, D=diameter)
    if angle == 90:
        return Holding(across.result, length, (across,))
    step = nds.bearing_at_angle.step(
        editions, F_par=along.result, F_perp=across.result, s=math.sin(math.radians(angle)) ** 2
    )
    return Holding(step.result, length, (along, across, step))


def steel_holding(F_u: float, thickness: float, editions: Editions) -> Holding:
    """A steel plate under a dowel. NDS 12.3.3.3; F_u [psi], thickness [in]."""
    _positive("thickness", thickness)
    _positive("Fu", F_u)
    held = held_table().content["bearing"]["steel"]
    k = held["thick"] if thickness >= held["from_in"] - 1e-9 else held["thin"]
    step = nds.steel_bearing.step(editions, k=k, F_u=F_u)
    return Holding(step.result, thickness, (step,))


def lateral_value(
    *,
    diameter: float,
    F_yb: float,
    main: Holding,
    side: Holding,
    editions: Editions,
    double: bool = False,
    angle: float = 0.0,
) -> DowelValue:
    """Z of one dowel by the yield limit equations, single or symmetric double shear. NDS table 12.3.1A.

    `angle`: the largest angle of the load to the grain in any wood member [degrees]. Raises OutOfScope
    for a dowel thicker than 1 in.
    """
    D = diameter
    _positive("diameter", D)
    _positive("Fyb", F_yb)
    if D > nds.LARGEST_DOWEL + 1e-9:
        raise OutOfScope(nds.YIELD.at(editions), f"a dowel {D:g} in thick; the yield equations go to 1 in")
    n = 2 if double else 1
    steps = [*main.steps, *side.steps]
    terms: dict[str, float] = {}

    def kept(name: str, step: Step) -> float:
        steps.append(step)
        terms[name] = step.result
        return step.result

    def mode(step: Step) -> float:
        steps.append(step)
        return step.result

    R_e = kept("Re", nds.strength_ratio.step(editions, F_em=main.F_e, F_es=side.F_e))
    for name, step in _reductions(D, angle, editions):
        kept(name, step)
    R_I, R_II, R_III = terms["Rd_I"], terms["Rd_II"], terms["Rd_III"]
    modes = {
        "Im": mode(nds.mode_Im.step(editions, D=D, l_m=main.length, F_em=main.F_e, R_d=R_I)),
        "Is": mode(nds.mode_Is.step(editions, n=n, D=D, l_s=side.length, F_es=side.F_e, R_d=R_I)),
    }
    if not double:
        R_t = kept("Rt", nds.length_ratio.step(editions, l_m=main.length, l_s=side.length))
        k_1 = kept("k1", nds.k1.step(editions, R_e=R_e, R_t=R_t))
        modes["II"] = mode(nds.mode_II.step(editions, k_1=k_1, D=D, l_s=side.length, F_es=side.F_e, R_d=R_II))
        k_2 = kept("k2", nds.k2.step(editions, R_e=R_e, F_yb=F_yb, D=D, F_em=main.F_e, l_m=main.length))
        modes["IIIm"] = mode(
            nds.mode_IIIm.step(editions, k_2=k_2, D=D, l_m=main.length, F_em=main.F_e, R_e=R_e, R_d=R_III)
        )
    k_3 = kept("k3", nds.k3.step(editions, R_e=R_e, F_yb=F_yb, D=D, F_em=main.F_e, l_s=side.length))
    modes["IIIs"] = mode(
        nds.mode_IIIs.step(editions, n=n, k_3=k_3, D=D, l_s=side.length, F_em=main.F_e, R_e=R_e, R_d=R_III)
    )
    modes["IV"] = mode(nds.mode_IV.step(editions, n=n, D=D, R_d=R_III, F_em=main.F_e, F_yb=F_yb, R_e=R_e))
    least = min(modes, key=lambda name: modes[name])
    return DowelValue(modes[least], least, modes, terms, tuple(steps))


def group_of(
    *,
    count: int,
    spacing: float,
    diameter: float,
    EA_m: float,
    EA_s: float,
    editions: Editions,
    metal: bool = False,
) -> tuple[float, tuple[Step, ...]]:
    """C_g of a row of `count` dowels; 1 for dowels thinner than 1/4 in and for one alone. NDS 11.3.6.

    EA: stiffness of each member in the direction of the row [lbf]; `metal` for a steel side plate.
    """
    if count < 2 or diameter < nds.SMALL_DOWEL:
        return 1.0, ()
    slip = held_table().content["slip"]
    gamma = nds.slip_modulus.step(editions, g=slip["metal" if metal else "wood"], D=diameter)
    u = nds.group_term.step(editions, gamma=gamma.result, s=spacing, EA_m=EA_m, EA_s=EA_s)
    if u.result < 1 + 1e-9:
        return 1.0, (gamma, u)  # members so stiff that every dowel takes the same
    if u.result > SOFTEST:
        raise OutOfScope(nds.GROUP.at(editions), "members too soft for the dowels between them")
    m = nds.group_root.step(editions, u=u.result)
    C_g = nds.group_factor.step(editions, m=m.result, n=count, R_EA=min(EA_m / EA_s, EA_s / EA_m))
    return C_g.result, (gamma, u, m, C_g)


def _reductions(D: float, angle: float, editions: Editions) -> list[tuple[str, Step]]:
    """R_d of modes I, II, and III with IV, in that order. NDS table 12.3.1B."""
    names = ("Rd_I", "Rd_II", "Rd_III")
    if D < nds.SMALL_DOWEL:
        per_inch = held_table().content["reduction"]["per_inch"]
        step = nds.small_dowel_reduction.step(editions, k=per_inch, D=D)
        return [(name, step) for name in names]
    turned = nds.angle_term.step(editions, theta=angle)
    base = (nds.R_D_CRUSHING, nds.R_D_TILTING, nds.R_D_BENDING)
    made = (nds.large_dowel_reduction.step(editions, c=c, K_theta=turned.result) for c in base)
    return [("Ktheta", turned), *zip(names, made, strict=True)]


def _positive(field: str, value: float) -> None:
    if not value > 0:
        raise InputError(field, f"{value:g}", "more than zero")
