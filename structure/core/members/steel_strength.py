"""What a steel shape carries in bending about its strong axis: local buckling class, yielding, buckling sideways.

AISC 360 chapter F. Moments in lbf*in, lengths in inches, stresses in psi.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import numpy.typing as npt

from structure.core.clauses import Clause, Editions
from structure.core.codes.us import steel
from structure.core.codes.us import steel_bending as aisc
from structure.core.errors import OutOfScope
from structure.core.materials.steel import SteelSection
from structure.core.materials.steel_shapes import Shape
from structure.core.trace import Step

Array = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Part:
    """One part of a section against table B4.1b: its width over thickness and both limits."""

    name: str
    slenderness: float
    compact: Step
    noncompact: Step | None

    @property
    def kind(self) -> str:
        """`compact`, `noncompact` or `slender`."""
        if self.slenderness <= self.compact.result:
            return "compact"
        if self.noncompact is not None and self.slenderness > self.noncompact.result:
            return "slender"
        return "noncompact"

    @property
    def steps(self) -> tuple[Step, ...]:
        """The limits that decide, as lines of the sheet."""
        if self.kind == "compact" or self.noncompact is None:
            return (self.compact,)
        return (self.compact, self.noncompact)

    def as_data(self) -> dict[str, Any]:
        limits = {"compact": self.compact.result}
        if self.noncompact is not None:
            limits["noncompact"] = self.noncompact.result
        return {"slenderness": self.slenderness, "limits": limits, "class": self.kind}


@dataclass(frozen=True, slots=True)
class Local:
    """The moment that one kind of local buckling leaves, where it does."""

    value: float
    clause: Clause
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class Strength:
    """Bending strength of one section. `L_p` and `L_r` are None where it cannot buckle sideways."""

    section: SteelSection
    F_y: float
    E: float
    M_p: Step
    yielding: Clause
    parts: tuple[Part, ...]
    local: tuple[Local, ...]
    L_p: Step | None
    L_r: Step | None
    lateral: tuple[Step, ...]
    T: float

    @property
    def capped(self) -> float:
        """The nominal moment without buckling sideways."""
        return min([self.M_p.result, *(each.value for each in self.local)])

    def nominal(self, L_b: Array, C_b: Array) -> Array:
        """Nominal moments of unbraced segments; of tubes none past L_r, which is not covered."""
        capped = np.full(np.broadcast(L_b, C_b).shape, self.capped)
        if self.L_p is None or self.L_r is None:
            return capped
        shape = self.section.rolled
        L_p, L_r = self.L_p.result, self.L_r.result
        inelastic = aisc.inelastic_buckling(
            C_b=C_b, M_p=self.M_p.result, F_y=self.F_y, S_x=shape.S_x, L_b=L_b, L_p=L_p, L_r=L_r
        )
        if shape.form == "HSS":
            elastic = capped  # not covered; `beyond` says so where such a length is bent
        else:
            F_cr = aisc.elastic_buckling_stress(
                C_b=C_b, E=self.E, L_b=np.maximum(L_b, L_r), r_ts=shape.r_ts, T=self.T
            )
            elastic = np.asarray(aisc.elastic_buckling(F_cr=F_cr, S_x=shape.S_x))
        sideways = np.where(L_b <= L_p, np.inf, np.where(L_b <= L_r, inelastic, elastic))
        return np.asarray(np.minimum(capped, sideways))

    def beyond(self, L_b: Array) -> Array:
        """Where an unbraced length is past what is covered: a tube that would buckle elastically."""
        if self.L_r is None or self.section.rolled.form != "HSS":
            return np.zeros(L_b.shape, dtype=bool)
        return np.asarray(L_b > self.L_r.result)

    def sheet(self, L_b: float, C_b: float, editions: Editions) -> tuple[tuple[Step, ...], float, Clause]:
        """The steps of one segment, its nominal moment, and the clause that governs."""
        steps: list[Step] = [self.M_p, *(step for part in self.parts for step in part.steps)]
        value, clause = self.M_p.result, self.yielding
        for each in self.local:
            steps += each.steps
            if each.value < value:
                value, clause = each.value, each.clause
        if self.L_p is not None and self.L_r is not None and L_b > 0:
            steps += self.lateral if L_b > self.L_p.result else (self.L_p,)
            if L_b > self.L_p.result:
                buckling = self._sideways(L_b, C_b, self.L_p, self.L_r, editions)
                steps += buckling
                if buckling[-1].result < value:
                    tube = self.section.rolled.form == "HSS"
                    value, clause = buckling[-1].result, aisc.TUBE_LATERAL if tube else aisc.LATERAL
        return tuple(steps), value, clause

    def _sideways(self, L_b: float, C_b: float, L_p: Step, L_r: Step, editions: Editions) -> list[Step]:
        shape = self.section.rolled
        if L_b <= L_r.result:
            step = aisc.inelastic_buckling.step(
                editions, C_b=C_b, M_p=self.M_p.result, F_y=self.F_y, S_x=shape.S_x, L_b=L_b,
                L_p=L_p.result, L_r=L_r.result,
            )  # fmt: skip
            if shape.form == "HSS":
                step = replace(step, clause=aisc.TUBE_LATERAL.at(editions))
            return [step]
        F_cr = aisc.elastic_buckling_stress.step(
            editions, C_b=C_b, E=self.E, L_b=L_b, r_ts=shape.r_ts, T=self.T
        )
        return [F_cr, aisc.elastic_buckling.step(editions, F_cr=F_cr.result, S_x=shape.S_x)]


def strength(section: SteelSection, editions: Editions) -> Strength:
    """Bending strength about the strong axis of the shape.

    Raises OutOfScope for a web that is not compact (F4, F5), a slender flange, a channel whose flange is not
    compact and tubes with slender webs or walls.
    """
    F_y, E = section.reference.value("Fy"), section.reference.value("E")
    form = section.rolled.form
    if form == "HSS":
        return _tube(section, section.rolled, F_y, E, editions)
    if form == "round":
        return _round(section, F_y, E, editions)
    return _open(section, F_y, E, editions)


def _open(section: SteelSection, F_y: float, E: float, editions: Editions) -> Strength:
    shape = section.rolled
    flange, web = open_parts(section, F_y, E, editions)
    if web.kind != "compact":
        raise OutOfScope(
            aisc.SLENDER_WEB.at(editions),
            f"{section.label}: h/t_w {web.slenderness:.1f} is over {web.compact.result:.1f}, "
            "a web that is not compact is not covered",
        )
    M_p = aisc.plastic_moment.step(editions, F_y=F_y, Z_x=shape.Z_x)
    local: tuple[Local, ...] = ()
    if flange.kind != "compact":
        if flange.noncompact is None or flange.kind == "slender" or shape.form == "C":
            raise OutOfScope(
                aisc.FLANGE.at(editions),
                f"{section.label}: its flange is {flange.kind}, which is not covered for this shape",
            )
        step = aisc.noncompact_flange.step(
            editions, M_p=M_p.result, F_y=F_y, S_x=shape.S_x, s=flange.slenderness,
            s_p=flange.compact.result, s_r=flange.noncompact.result,
        )  # fmt: skip
        local = (Local(step.result, aisc.FLANGE, (step,)),)
    L_p = aisc.plastic_length.step(editions, r_y=shape.r_y, E=E, F_y=F_y)
    lateral: list[Step] = [L_p]
    c = 1.0
    if shape.form == "C":
        coefficient = aisc.channel_coefficient.step(editions, h_o=shape.h_o, I_y=shape.I_y, C_w=shape.C_w)
        lateral.append(coefficient)
        c = coefficient.result
    T = aisc.torsion_ratio.step(editions, J=shape.J, c=c, S_x=shape.S_x, h_o=shape.h_o)
    L_r = aisc.elastic_length.step(editions, r_ts=shape.r_ts, E=E, F_y=F_y, T=T.result)
    return Strength(
        section, F_y, E, M_p, aisc.YIELDING, (flange, web), local, L_p, L_r, (*lateral, T, L_r), T.result
    )


def open_parts(section: SteelSection, F_y: float, E: float, editions: Editions) -> tuple[Part, Part]:
    """Flange and web of a W shape or channel against table B4.1b."""
    shape = section.rolled

    def limit(n: float, note: str) -> Step:
        return steel.plate_limit.step(editions, n=n, E=E, F_y=F_y, note=note)

    return (
        Part(
            "flange",
            shape.flange,
            limit(steel.FLANGE_COMPACT, f"flange {shape.flange:.2f}, compact"),
            limit(steel.FLANGE_NONCOMPACT, f"flange {shape.flange:.2f}, noncompact"),
        ),
        Part("web", shape.web, limit(steel.WEB_COMPACT, f"web {shape.web:.1f}, compact"), None),
    )


def weak_strength(section: SteelSection, editions: Editions) -> tuple[tuple[Step, ...], float]:
    """Steps and nominal moment about the weak axis of a W shape, a tube or a pipe. AISC 360 F6 to F8.

    Raises OutOfScope for a channel and for slender parts.
    """
    F_y, E = section.reference.value("Fy"), section.reference.value("E")
    shape = section.rolled
    if shape.form == "HSS":
        steps, M_n, _ = _tube(section, shape.turned, F_y, E, editions).sheet(0.0, 1.0, editions)
        return steps, M_n
    if shape.form == "round":
        steps, M_n, _ = _round(section, F_y, E, editions).sheet(0.0, 1.0, editions)
        return steps, M_n
    flange, _ = open_parts(section, F_y, E, editions)
    if shape.form == "C" or flange.noncompact is None or flange.kind == "slender":
        raise OutOfScope(
            aisc.MINOR_FLANGE.at(editions), f"{section.label}: bending about its weak axis is not covered"
        )
    M_p = aisc.minor_plastic_moment.step(editions, F_y=F_y, Z_y=shape.Z_y, S_y=shape.S_y)
    if flange.kind == "compact":
        return (*flange.steps, M_p), M_p.result
    local = aisc.minor_noncompact_flange.step(
        editions, M_p=M_p.result, F_y=F_y, S_y=shape.S_y, s=flange.slenderness,
        s_p=flange.compact.result, s_r=flange.noncompact.result,
    )  # fmt: skip
    return (*flange.steps, M_p, local), local.result


def _tube(section: SteelSection, shape: Shape, F_y: float, E: float, editions: Editions) -> Strength:
    def part(name: str, s: float, compact: float, noncompact: float) -> Part:
        limits = [
            steel.plate_limit.step(editions, n=n, E=E, F_y=F_y, note=f"{name} {s:.1f}, {word}")
            for n, word in ((compact, "compact"), (noncompact, "noncompact"))
        ]
        return Part(name, s, limits[0], limits[1])

    flange = part("flange", shape.flange, steel.WALL_COMPACT, steel.WALL_NONCOMPACT)
    web = part("web", shape.web, steel.HSS_WEB_COMPACT, steel.HSS_WEB_NONCOMPACT)
    if web.kind == "slender":
        raise OutOfScope(
            aisc.TUBE_WEB.at(editions), f"{section.label}: slender webs of a tube are not covered"
        )
    M_p = aisc.plastic_moment.step(editions, F_y=F_y, Z_x=shape.Z_x)
    M_p = replace(M_p, clause=aisc.TUBE_YIELDING.at(editions))
    local: list[Local] = []
    if flange.kind == "noncompact":
        step = aisc.noncompact_tube_flange.step(
            editions, M_p=M_p.result, F_y=F_y, S=shape.S_x, s=flange.slenderness, E=E
        )
        local.append(Local(step.result, aisc.TUBE_FLANGE, (step,)))
    elif flange.kind == "slender":
        b_e = aisc.effective_flange.step(editions, t=shape.t_f, E=E, F_y=F_y, s=flange.slenderness)
        S_e = aisc.effective_tube_modulus.step(
            editions, I_x=shape.I_x, s=flange.slenderness, t=shape.t_f, b_e=b_e.result, H=shape.d
        )
        M_e = aisc.elastic_buckling.step(editions, F_cr=F_y, S_x=S_e.result, note="F_y S_e")
        M_e = replace(M_e, symbol="M_FLB", clause=aisc.TUBE_FLANGE.at(editions))
        local.append(Local(M_e.result, aisc.TUBE_FLANGE, (b_e, S_e, M_e)))
    if web.kind == "noncompact":
        step = aisc.noncompact_tube_web.step(
            editions, M_p=M_p.result, F_y=F_y, S=shape.S_x, s=web.slenderness, E=E
        )
        local.append(Local(step.result, aisc.TUBE_WEB, (step,)))
    L_p = L_r = None
    if shape.d > shape.b:
        # A square tube, or one laid flat, does not buckle sideways (F7.4).
        L_p = aisc.tube_plastic_length.step(
            editions, E=E, r_y=shape.r_y, J=shape.J, A=shape.A, M_p=M_p.result
        )
        L_r = aisc.tube_elastic_length.step(
            editions, E=E, r_y=shape.r_y, J=shape.J, A=shape.A, F_y=F_y, S_x=shape.S_x
        )
    lateral = () if L_p is None or L_r is None else (L_p, L_r)
    return Strength(
        section, F_y, E, M_p, aisc.TUBE_YIELDING, (flange, web), tuple(local), L_p, L_r, lateral, 0.0
    )


def _round(section: SteelSection, F_y: float, E: float, editions: Editions) -> Strength:
    shape = section.rolled
    limits = [
        steel.round_limit.step(editions, n=n, E=E, F_y=F_y, note=f"wall {shape.web:.1f}, {word}")
        for n, word in ((steel.ROUND_COMPACT, "compact"), (steel.ROUND_NONCOMPACT, "noncompact"))
    ]
    wall = Part("wall", shape.web, limits[0], limits[1])
    if wall.kind == "slender":
        raise OutOfScope(aisc.ROUND_LOCAL.at(editions), f"{section.label}: its wall is slender, not covered")
    M_p = replace(
        aisc.plastic_moment.step(editions, F_y=F_y, Z_x=shape.Z_x), clause=aisc.ROUND_YIELDING.at(editions)
    )
    local: tuple[Local, ...] = ()
    if wall.kind == "noncompact":
        step = aisc.noncompact_round.step(editions, E=E, s=shape.web, F_y=F_y, S=shape.S_x)
        local = (Local(step.result, aisc.ROUND_LOCAL, (step,)),)
    return Strength(section, F_y, E, M_p, aisc.ROUND_YIELDING, (wall,), local, None, None, (), 0.0)
