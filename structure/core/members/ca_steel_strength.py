"""What a steel shape carries in bending under CSA S16: section class, yielding, buckling sideways. 11.3, 13.5, 13.6.

Moments in N*mm, lengths in mm, stresses in MPa.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from structure.core.clauses import ClauseRef, Editions
from structure.core.codes.ca import steel
from structure.core.codes.ca import steel_bending as s16
from structure.core.errors import OutOfScope
from structure.core.materials.ca_steel import CaSteelSection
from structure.core.materials.steel_shapes import Shape
from structure.core.trace import Step

Array = npt.NDArray[np.float64]
Numbers = tuple[float, float, float]
HELD = 1.0  # mm: an unbraced length up to here is held all along


@dataclass(frozen=True, slots=True)
class Part:
    """One part of a section against table 2: its width over thickness and the limits of classes 1 to 3."""

    name: str
    slenderness: float
    limits: tuple[Step, Step, Step]

    @property
    def kind(self) -> int:
        """Class 1 to 4."""
        return 1 + sum(self.slenderness > limit.result for limit in self.limits)

    @property
    def steps(self) -> tuple[Step, ...]:
        """The limits that decide, as lines of the sheet."""
        return self.limits[: min(self.kind, 3)]

    def as_data(self) -> dict[str, Any]:
        limits = {f"class_{n}": limit.result for n, limit in enumerate(self.limits, 1)}
        return {"slenderness": self.slenderness, "limits": limits, "class": self.kind}


@dataclass(frozen=True, slots=True)
class CaStrength:
    """Bending strength of one section about one axis.

    `M`: M_p, or M_y of class 3 and, with its effective `modulus`, of a class 4 flange. `lateral`: the moment and
    the terms of M_u that count where it may buckle sideways; None where it cannot.
    """

    section: CaSteelSection
    F_y: float
    E: float
    parts: tuple[Part, ...]
    modulus: tuple[Step, ...]
    M: Step
    lateral: tuple[Step, Step, Step] | None

    @property
    def kind(self) -> int:
        """The class of the section: that of its most slender part."""
        return max(part.kind for part in self.parts)

    def resistances(self, L: Array, omega_2: Array) -> Array:
        """M_r of unbraced segments; a length of nothing is held all along."""
        held = np.full(np.broadcast(L, omega_2).shape, steel.PHI * self.M.result)
        if self.lateral is None:
            return held
        M, T, W = (step.result for step in self.lateral)
        free = L > HELD
        M_u = s16.buckling_moment(omega_2=omega_2, L=np.where(free, L, 1.0), T=T, W=W)
        inelastic = np.minimum(s16.inelastic_resistance(phi=steel.PHI, M=M, M_u=M_u), steel.PHI * M)
        elastic = s16.elastic_resistance(phi=steel.PHI, M_u=M_u)
        return np.asarray(np.where(free, np.where(M_u > s16.ELASTIC * M, inelastic, elastic), held))

    def sheet(
        self, L: float, omega_2: float, editions: Editions
    ) -> tuple[tuple[Step, ...], float, ClauseRef]:
        """The steps of one segment, M_r, and the clause that governs."""
        steps: list[Step] = [*(step for part in self.parts for step in part.steps), *self.modulus, self.M]
        M_r = s16.moment_resistance.step(editions, phi=steel.PHI, M=self.M.result)
        if self.lateral is None or L <= HELD:
            return (*steps, M_r), M_r.result, M_r.clause
        M, T, W = self.lateral
        if M is not self.M:
            steps.append(M)
            M_r = s16.moment_resistance.step(editions, phi=steel.PHI, M=M.result)
        M_u = s16.buckling_moment.step(editions, omega_2=omega_2, L=L, T=T.result, W=W.result)
        longest = self.supported_length(editions)
        steps += [T, W, *(() if longest is None else (longest,)), M_u]
        if M_u.result <= s16.ELASTIC * M.result:
            last = s16.elastic_resistance.step(editions, phi=steel.PHI, M_u=M_u.result)
            return (*steps, last), last.result, last.clause
        last = s16.inelastic_resistance.step(editions, phi=steel.PHI, M=M.result, M_u=M_u.result)
        if last.result >= M_r.result:
            return (*steps, last, M_r), M_r.result, M_r.clause
        return (*steps, last), last.result, last.clause

    def supported_length(self, editions: Editions) -> Step | None:
        """L_u: the longest unbraced length at which nothing is lost, whatever the gradient."""
        if self.lateral is None:
            return None
        M, T, W = (step.result for step in self.lateral)
        return s16.supported_length.step(editions, M=s16.FULL * M, T=T, W=W)


def strength(section: CaSteelSection, editions: Editions, axial: float = 0.0) -> CaStrength:
    """Bending strength about the strong axis; `axial`: a factored compression [N] that makes webs more slender.

    Raises OutOfScope for class 4, but for the flanges of an I shape.
    """
    return _strength(section, section.rolled, steel.FLANGE, axial, editions)


def weak_strength(section: CaSteelSection, editions: Editions, axial: float = 0.0) -> CaStrength:
    """Bending strength about the weak axis of a W shape, tube or pipe. Raises OutOfScope for class 4."""
    return _strength(section, section.rolled.turned, steel.FLANGE_MINOR, axial, editions)


def _strength(
    section: CaSteelSection, shape: Shape, flange: Numbers, axial: float, editions: Editions
) -> CaStrength:
    F_y, E = section.reference.value("Fy"), section.reference.value("E")
    turned = shape is not section.rolled
    parts = tuple(_parts(section, shape, F_y, flange, turned, axial, editions))
    kind = max(part.kind for part in parts)
    modulus: tuple[Step, ...] = ()
    if kind == 4 and shape.form == "W" and not turned and parts[1].kind < 4:
        limit = parts[0].limits[2].result
        modulus = (
            s16.effective_modulus.step(
                editions, I_x=shape.I_x, b=shape.b, s_lim=limit, t=shape.t_f, d=shape.d
            ),
        )
    elif kind == 4:
        slender = next(part for part in parts if part.kind == 4)
        raise OutOfScope(
            s16.SLENDER.at(editions),
            f"{section.label}: its {slender.name} of {slender.slenderness:.1f} is class 4, over "
            f"{slender.limits[2].result:.1f}; that is not covered, take a stockier shape",
        )
    yields = s16.yield_moment.step(editions, S=modulus[0].result if modulus else shape.S_x, F_y=F_y)
    M = yields if kind >= 3 else s16.plastic_moment.step(editions, Z=shape.Z_x, F_y=F_y)
    lateral = None
    if not turned and (shape.form in ("W", "C") or (shape.form == "HSS" and shape.d > shape.b)):
        lateral = (
            yields if shape.form == "C" else M,
            s16.torsion_term.step(editions, E=E, I_y=shape.I_y, G=steel.G, J=shape.J),
            s16.warping_term.step(editions, E=E, I_y=shape.I_y, C_w=shape.C_w),
        )
    return CaStrength(section, F_y, E, parts, modulus, M, lateral)


def _parts(
    section: CaSteelSection,
    shape: Shape,
    F_y: float,
    flange: Numbers,
    turned: bool,
    axial: float,
    editions: Editions,
) -> list[Part]:
    """Flange and webs, or the wall of a round tube, against table 2."""

    def limits(name: str, s: float, numbers: Numbers) -> tuple[Step, Step, Step]:
        note = f"{name} {s:.1f}, class"
        one, two, three = (
            steel.class_limit.step(editions, n=n, F_y=F_y, note=f"{note} {kind}")
            for kind, n in enumerate(numbers, 1)
        )
        return one, two, three

    def web(s: float) -> Part:
        if axial <= 0:
            return Part("web", s, limits("web", s, steel.WEB))
        one, two, three = (
            steel.axial_class_limit.step(
                editions, n=n, F_y=F_y, c=c, C_f=axial, phi=steel.PHI, C_y=section.area * F_y,
                note=f"web {s:.1f}, class {kind}",
            )
            for kind, (n, c) in enumerate(zip(steel.WEB, steel.WEB_AXIAL, strict=True), 1)
        )  # fmt: skip
        return Part("web", s, (one, two, three))

    if shape.form == "round":
        one, two, three = (
            steel.round_class_limit.step(editions, n=n, F_y=F_y, note=f"wall {shape.web:.1f}, class {kind}")
            for kind, n in enumerate(steel.ROUND, 1)
        )
        return [Part("wall", shape.web, (one, two, three))]
    if shape.form == "HSS":
        return [
            Part("flange", shape.flange, limits("flange", shape.flange, steel.HSS_FLANGE)),
            web(shape.web),
        ]
    # Turned on its side the flanges are what bends; the web lies in the middle.
    s = section.rolled.flange
    found = [Part("flange", s, limits("flange", s, flange))]
    return found if turned else [*found, web(shape.web)]
