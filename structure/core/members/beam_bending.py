"""Bending of a wood beam: every strength sum, every bay, both edges. NDS 3.3."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from structure.core.clauses import Editions
from structure.core.codes.us import wood
from structure.core.codes.us import wood_beams as nds
from structure.core.errors import OutOfScope
from structure.core.materials.section import WoodSection
from structure.core.members.beam_demand import Demands
from structure.core.members.beam_stability import Unbraced, effective_length, effective_length_step
from structure.core.trace import Check, Step

Array = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Bending:
    """The bending check with the factors of its governing combination; `slender` is the largest R_B."""

    check: Check
    factors: Mapping[str, float]
    value: float
    slender: float


@dataclass(frozen=True, slots=True)
class Values:
    """Reference values and the factors that do not change from sum to sum."""

    section: WoodSection
    C_M: Mapping[str, float]
    C_r: float

    @property
    def sawn(self) -> bool:
        return self.section.volume_factor is None

    @property
    def deep(self) -> bool:
        """Composite lumber whose C_V is 1 or less, which does not count together with C_L (NDS 8.3.6)."""
        return self.section.volume_factor is not None and self.section.volume_factor <= 1.0

    def reference(self, name: str) -> float:
        return self.section.reference.value(name)

    def bending_star(self, C_D: Array) -> Array:
        """F_b with every factor but C_L, and a C_V of 1 or less, by row."""
        F_b = self.reference("Fb")
        if self.sawn:
            C_F = self.section.size_factors["Fb"]
            return np.asarray(
                wood.bending_value_sawn(F_b=F_b, C_D=C_D, C_M=self.C_M["Fb"], C_F=C_F, C_r=self.C_r)
            )
        if self.deep:
            return np.asarray(wood.bending_value_scl(F_b=F_b, C_D=C_D, C_r=self.C_r))
        C_V = self.section.volume_factor
        return np.asarray(wood.bending_value_shallow_scl(F_b=F_b, C_D=C_D, C_r=self.C_r, C_V=C_V))

    def bending_star_step(self, C_D: float, editions: Editions) -> Step:
        F_b = self.reference("Fb")
        if self.sawn:
            C_F = self.section.size_factors["Fb"]
            return wood.bending_value_sawn.step(
                editions, F_b=F_b, C_D=C_D, C_M=self.C_M["Fb"], C_F=C_F, C_r=self.C_r
            )
        C_V = self.section.volume_factor
        if self.deep or C_V is None:
            return wood.bending_value_scl.step(editions, F_b=F_b, C_D=C_D, C_r=self.C_r)
        return wood.bending_value_shallow_scl.step(editions, F_b=F_b, C_D=C_D, C_r=self.C_r, C_V=C_V)

    def with_stability(self, F_b: Array, C_L: Array) -> Array:
        """The adjusted value: C_L, but against a C_V of 1 or less only the lesser of the two."""
        C_V = self.section.volume_factor
        if self.deep and C_V is not None:
            # The kernel of the lesser is for single numbers; the same rule over arrays.
            C_L = np.minimum(C_L, C_V)
        return np.asarray(wood.with_stability(F_b=F_b, C_L=C_L))

    def with_stability_step(self, F_b: float, C_L: float, editions: Editions) -> Step:
        C_V = self.section.volume_factor
        if self.deep and C_V is not None:
            return wood.with_lesser_of_volume.step(editions, F_b=F_b, C_L=C_L, C_V=C_V)
        return wood.with_stability.step(editions, F_b=F_b, C_L=C_L)


def values_of(section: WoodSection, *, repetitive: bool, wet: bool) -> Values:
    """Values of a section in one service. Raises OutOfScope for wet composite lumber and flat use."""
    return Values(section, section.wet_factors(wet), section.repetitive_factor if repetitive else 1.0)


def refuse_flat(section: WoodSection, editions: Editions) -> None:
    """Raise OutOfScope for a piece laid on its wide face: the flat use factor is not covered."""
    if section.width > section.depth * (1 + 1e-9):
        raise OutOfScope(
            wood.FLAT_USE.at(editions),
            f"{section.label} is {section.width:g} in wide and {section.depth:g} in deep: laid flat, not covered",
        )


def bending(
    demands: Demands, weight: int, values: Values, edges: tuple[Unbraced, Unbraced], editions: Editions
) -> Bending:
    """The worst ratio over sums, bays and edges for one section.

    Raises OutOfScope where a loaded length has R_B over 50 (NDS 3.3.3.7).
    """
    block, section = demands.strength, values.section
    rows = block.rows(weight)
    which = block.combination_of
    C_D = np.array([each.C_D for each in block.combinations])[which]
    star = values.bending_star(C_D)
    S = section.section_modulus
    # Axes: edge (sagging, hogging), row, bay.
    moments = np.stack(
        (
            np.stack([np.maximum(each.max[rows], 0.0) for each in demands.moments], axis=-1),
            np.stack([np.maximum(-each.min[rows], 0.0) for each in demands.moments], axis=-1),
        )
    )
    slender = np.stack([_slenderness(edge, which, rows, section) for edge in edges])
    loaded = moments > 1e-9 * max(float(moments.max()), 1e-9)
    slender = np.where(loaded, slender, 0.0)
    if float(slender.max()) > nds.MOST_SLENDER:
        raise OutOfScope(
            nds.SLENDERNESS_LIMIT.at(editions),
            f"{section.label}: slenderness R_B {float(slender.max()):.1f} is over {nds.MOST_SLENDER:g}; "
            "brace the edge that is pressed more closely",
        )
    C_L = _stability(slender, values, star)
    allowed = values.with_stability(star[None, :, None], C_L)
    ratios = moments / S / allowed
    edge, row, bay = (int(i) for i in np.unravel_index(int(ratios.argmax()), ratios.shape))
    place = demands.moments[bay].at_min if edge else demands.moments[bay].at_max
    steps, factors, value = _sheet(
        edges[edge],
        (int(which[row]), rows.start + row, bay),
        float(moments[edge, row, bay]),
        float(C_D[row]),
        values,
        editions,
    )
    stress = nds.bending_stress.step(editions, M=float(moments[edge, row, bay]), S=S)
    check = Check(
        "bending",
        stress.result,
        value,
        "stress",
        block.names[int(which[row])],
        nds.FLEXURE.at(editions),
        (stress, *steps),
        note=_where(demands, bay, bool(edge), float(place[rows][row])),
    )
    return Bending(check, factors, value, float(slender[edge, row, bay]))


def _slenderness(edge: Unbraced, which: npt.NDArray[np.intp], rows: slice, section: WoodSection) -> Array:
    """R_B by row and bay; 0 where the edge is braced all along or the beam is no deeper than wide."""
    l_u = edge.lengths[rows]
    if section.depth <= section.breadth * (1 + 1e-9):
        return np.zeros(l_u.shape)
    l_e = np.zeros(l_u.shape)
    for combination, by_bay in enumerate(edge.rows):
        chosen = which == combination
        for bay, row in enumerate(by_bay):
            l_e[chosen, bay] = effective_length(row, l_u[chosen, bay], section.depth)
    l_e = np.where(l_u > 0, l_e, 0.0)
    return np.asarray(nds.beam_slenderness(l_e=l_e, d=section.depth, b=section.breadth))


def _stability(slender: Array, values: Values, star: Array) -> Array:
    """C_L by edge, row and bay."""
    C_L = np.ones(slender.shape)
    if not (slender > 0).any():
        return C_L
    E_min = wood.stiffness_value(F=values.reference("Emin"), C_M=values.C_M["Emin"])
    F_b = np.broadcast_to(star[None, :, None], slender.shape)
    bent = slender > 0
    F_bE = nds.critical_bending(E_min=E_min, R_B=slender[bent])
    C_L[bent] = nds.stability_factor(F_bE=F_bE, F_b=F_b[bent])
    return C_L


def _sheet(
    edge: Unbraced,
    place: tuple[int, int, int],
    M: float,
    C_D: float,
    values: Values,
    editions: Editions,
) -> tuple[list[Step], dict[str, float], float]:
    """The steps of the governing sum, its factors, and the adjusted bending value."""
    section = values.section
    combination, row, bay = place
    star = values.bending_star_step(C_D, editions)
    steps, C_L = [star], 1.0
    l_u = float(edge.lengths[row, bay])
    if l_u > 0 and M > 0 and section.depth > section.breadth * (1 + 1e-9):
        E_min = wood.stiffness_value.step(
            editions, note="E_min", F=values.reference("Emin"), C_M=values.C_M["Emin"]
        )
        l_e = effective_length_step(edge.rows[combination][bay], l_u, section.depth, editions)
        R_B = nds.beam_slenderness.step(editions, l_e=l_e.result, d=section.depth, b=section.breadth)
        F_bE = nds.critical_bending.step(editions, E_min=E_min.result, R_B=R_B.result)
        stable = nds.stability_factor.step(editions, F_bE=F_bE.result, F_b=star.result)
        steps += [replace(E_min, symbol="E_min'"), l_e, R_B, F_bE, stable]
        C_L = stable.result
    last = values.with_stability_step(star.result, C_L, editions)
    factors = {"CD": C_D, "CM": values.C_M["Fb"], "CL": C_L, "Cr": values.C_r}
    if section.volume_factor is None:
        factors["CF"] = section.size_factors["Fb"]
    else:
        factors["CV"] = section.volume_factor
    return [*steps, last], factors, last.result


def _where(demands: Demands, bay: int, hogging: bool, at: float) -> str:
    held = demands.question.line.bays[bay]
    name = f"span {held.number + 1}" if held.kind == "span" else f"{held.kind} overhang"
    return f"{'hogging' if hogging else 'sagging'} in {name}, {at / 12:.2f} ft from the left end"
