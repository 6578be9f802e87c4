"""Bending, shear and the web at bearings of a steel beam under CSA S16, each under every factored sum."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from structure.core.clauses import Editions
from structure.core.codes.ca import steel
from structure.core.codes.ca import steel_shear as webs
from structure.core.errors import OutOfScope
from structure.core.materials.ca_steel import CaSteelSection
from structure.core.members.beam_demand import Demands
from structure.core.members.beam_result import SupportBearing
from structure.core.members.ca_steel_strength import CaStrength
from structure.core.members.steel_demand import largest_shear, worst_segment
from structure.core.members.steel_plate import Plate
from structure.core.members.steel_supports import supports
from structure.core.trace import Check, Step


@dataclass(frozen=True, slots=True)
class CaSteelBending:
    """The bending check with omega_2 and the unbraced length of its governing segment."""

    check: Check
    omega_2: float
    L: float


def bending(demands: Demands, weight: int, strength: CaStrength, editions: Editions) -> CaSteelBending:
    """The worst ratio over sums and unbraced segments. CSA S16 13.5, 13.6."""
    worst = worst_segment(demands, weight, strength.resistances, editions)
    steps, M_r, clause = strength.sheet(worst.L_b, worst.C_b, editions)
    check = Check(
        "bending",
        worst.M,
        M_r,
        "moment",
        worst.combination,
        clause,
        (*worst.gradient, *steps),
        note=worst.note,
    )
    return CaSteelBending(check, worst.C_b, worst.L_b)


def shear(demands: Demands, weight: int, section: CaSteelSection, editions: Editions) -> Check:
    """The largest shear of all sums and bays against 13.4.1."""
    V, name, note = largest_shear(demands, weight)
    steps = shear_resistance(section, editions)
    last = steps[-1]
    return Check("shear", V, last.result, "force", name, last.clause, steps, note=note)


def shear_resistance(section: CaSteelSection, editions: Editions) -> tuple[Step, ...]:
    """The steps to V_r, which is the last. CSA S16 13.4.1.1, 13.4.1.3."""
    shape, F_y = section.rolled, section.reference.value("Fy")
    if shape.form == "round":
        return (webs.round_shear_resistance.step(editions, phi=steel.PHI, A=shape.A, F_y=F_y),)
    area = (
        webs.tube_web_area.step(editions, d=shape.d, t=shape.t_w)
        if shape.form == "HSS"
        else webs.web_area.step(editions, d=shape.d, w=shape.t_w)
    )
    s, note = shape.web, f"h/w {shape.web:.1f}"
    if s <= webs.YIELDS / F_y**0.5:
        stress = webs.shear_stress.step(editions, F_y=F_y, note=note)
    elif s <= webs.BUCKLES / F_y**0.5:
        stress = webs.inelastic_shear_stress.step(editions, n=webs.INELASTIC, F_y=F_y, s=s, note=note)
    else:
        stress = webs.elastic_shear_stress.step(editions, n=webs.ELASTIC, s=s, note=note)
    V_r = webs.shear_resistance.step(editions, phi=steel.PHI, A_w=area.result, F_s=stress.result)
    return area, stress, V_r


@dataclass(frozen=True, slots=True)
class CaWeb:
    """The web above a bearing; `end` is from there to the end of the beam [mm]. CSA S16 14.3.2.

    A tube counts as at an end wherever it bears: its webs stand beside the corners that the force comes through.
    """

    section: CaSteelSection
    end: float

    @property
    def inside(self) -> bool:
        """Farther from the end than the beam is deep."""
        shape = self.section.rolled
        return shape.form != "HSS" and self.end > shape.d

    def yielding(self, N: float, editions: Editions) -> Step:
        shape = self.section.rolled
        phi, n = (
            (steel.PHI_BEARING_INSIDE, webs.INSIDE_SPREAD)
            if self.inside
            else (steel.PHI_BEARING_END, webs.END_SPREAD)
        )
        F_y = self.section.reference.value("Fy")
        return webs.web_yielding.step(
            editions, phi=phi, m=shape.webs, w=shape.t_w, N=N, n=n, t=shape.t_f, F_y=F_y
        )

    def crippling(self, editions: Editions) -> Step:
        shape, held = self.section.rolled, self.section.reference
        phi, n = (
            (steel.PHI_BEARING_INSIDE, webs.INSIDE_CRIPPLING)
            if self.inside
            else (steel.PHI_BEARING_END, webs.END_CRIPPLING)
        )
        return webs.web_crippling.step(
            editions, n=n, phi=phi, m=shape.webs, w=shape.t_w, F_y=held.value("Fy"), E=held.value("E")
        )

    def checks(
        self, where: str, R: float, combination: str, length: float, editions: Editions
    ) -> tuple[Check, Check]:
        """Yielding and crippling under a force R [N] over a bearing [mm].

        Raises OutOfScope for a web so slender that it needs stiffeners, and for a round tube.
        """
        shape, F_y = self.section.rolled, self.section.reference.value("Fy")
        if shape.form == "round":
            raise OutOfScope(
                webs.BEARING.at(editions),
                f"{self.section.label}: a round tube on a bearing needs a saddle; the engineer's",
            )
        if shape.web > webs.MOST_SLENDER / F_y**0.5:
            raise OutOfScope(
                webs.STIFFENERS.at(editions),
                f"{self.section.label}: its web of h/w {shape.web:.1f} needs stiffeners over a bearing, not covered",
            )
        yields, cripples = self.yielding(length, editions), self.crippling(editions)
        where = f"{where}, {'inside' if self.inside else 'at an end'}".removeprefix(", ")
        return (
            Check("web_yielding", R, yields.result, "force", combination, yields.clause, (yields,), where),
            Check(
                "web_crippling", R, cripples.result, "force", combination, cripples.clause, (cripples,), where
            ),
        )

    def required(self, R: float, editions: Editions) -> float:
        """The shortest bearing whose web does not yield, never less than k [mm]; no length helps crippling."""
        shape = self.section.rolled
        if R <= 0 or shape.form == "round":
            return 0.0
        none, one = (self.yielding(N, editions).result for N in (0.0, 1.0))
        return max((R - none) / (one - none), shape.k)


def bearings(
    demands: Demands, weight: int, section: CaSteelSection, editions: Editions
) -> tuple[tuple[SupportBearing, ...], Mapping[str, Plate]]:
    """Every support with its checks and needed length, and the plates by support."""
    return supports(demands, weight, section, lambda end: CaWeb(section, end), editions)
