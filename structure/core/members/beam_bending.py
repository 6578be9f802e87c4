"""Bending of a wood beam: every strength sum, every bay, both edges. NDS 3.3."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import numpy.typing as npt

from structure.core.clauses import Editions
from structure.core.codes.us import glulam, wood
from structure.core.codes.us import wood_beams as nds
from structure.core.errors import OutOfScope
from structure.core.materials.section import WoodSection
from structure.core.members.beam_demand import Demands
from structure.core.members.beam_lengths import zero_moment_lengths
from structure.core.members.beam_stability import Unbraced, effective_length, effective_length_step
from structure.core.trace import Check, Formula, Step

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
    C_i: Mapping[str, float]

    @property
    def shallow(self) -> bool:
        """Composite lumber whose C_V is over 1, which stands in F_b* before C_L (NDS 8.3.6)."""
        return self.section.volume_factor is not None and self.section.volume_factor > 1.0

    def reference(self, name: str) -> float:
        """The reference value, incised where the wood is."""
        value = self.section.reference.value(name)
        factor = self.C_i.get(name, 1.0)
        return value if factor == 1.0 else float(wood.incised_value(F=value, C_i=factor))

    def incised_step(self, name: str, editions: Editions) -> tuple[Step, ...]:
        """The line of the sheet that reduces a value of incised wood; none for other wood."""
        factor = self.C_i.get(name, 1.0)
        if factor == 1.0:
            return ()
        return (
            wood.incised_value.step(editions, note=name, F=self.section.reference.value(name), C_i=factor),
        )

    def bending_name(self, hogging: bool) -> str:
        return self.section.hogging_value if hogging else "Fb"

    def bending_star(self, C_D: Array, hogging: bool) -> Array:
        """F_b with every factor but C_L, and a C_V of 1 or less, by row."""
        return np.asarray(_star(self)(**self._star(hogging), C_D=C_D))

    def bending_star_step(self, C_D: float, hogging: bool, editions: Editions) -> Step:
        return _star(self).step(editions, **(self._star(hogging) | {"C_D": C_D}))

    def _star(self, hogging: bool) -> dict[str, Any]:
        section, F_b = self.section, self.reference(self.bending_name(hogging))
        if section.family == "glulam":
            return {"F_b": F_b, "C_M": self.C_M["Fb"]}
        if not section.composite:
            C_F = section.size_factors["Fb"]
            return {"F_b": F_b, "C_M": self.C_M["Fb"], "C_F": C_F, "C_r": self.C_r}
        held = {"F_b": F_b, "C_r": self.C_r}
        return held | {"C_V": float(section.volume_factor or 1.0)} if self.shallow else held

    def volume(self, demands: Demands, rows: slice) -> Array | None:
        """C_V of 1 or less by edge, row and bay; None where it is no question or stands in F_b* already."""
        section = self.section
        if not section.composite or self.shallow:
            return None
        if section.volume_exponent is None:
            return section.volume_at(np.zeros((1, 1, 1)))
        return section.volume_at(zero_moment_lengths(demands)[:, rows])


def _star(values: Values) -> Formula:
    """The formula of F_b* that fits the section."""
    section = values.section
    if section.family == "glulam":
        return glulam.bending_value
    if not section.composite:
        return wood.bending_value_sawn
    return wood.bending_value_shallow_scl if values.shallow else wood.bending_value_scl


def values_of(section: WoodSection, *, repetitive: bool, wet: bool, treated: str = "none") -> Values:
    """Values of a section in one service.

    Raises OutOfScope for wet composite lumber and a treatment whose factors are not held.
    """
    C_r = section.repetitive_factor if repetitive else 1.0
    return Values(section, section.wet_factors(wet), C_r, section.treatment_factors(treated))


def refuse_flat(section: WoodSection, editions: Editions) -> None:
    """Raise OutOfScope for a piece laid on its wide face: the flat use factor is not covered."""
    if section.width > section.depth * (1 + 1e-9):
        raise OutOfScope(
            wood.FLAT_USE.at(editions),
            f"{section.label} is {section.width:g} in wide and {section.depth:g} in deep: laid flat, not covered",
        )


def too_slender(section: WoodSection, R_B: float, editions: Editions) -> OutOfScope:
    """The refusal of a section whose R_B is over 50. NDS 3.3.3.7."""
    return OutOfScope(
        nds.SLENDERNESS_LIMIT.at(editions),
        f"{section.label}: slenderness R_B {R_B:.1f} is over {nds.MOST_SLENDER:g}; "
        "brace the edge that is pressed more closely",
    )


def bending(
    demands: Demands,
    weight: int,
    values: Values,
    edges: tuple[Unbraced, Unbraced],
    editions: Editions,
    share: float = 1.0,
) -> Bending:
    """The worst ratio over sums, bays and edges for one section, which takes `share` of every moment.

    Raises OutOfScope where a loaded length has R_B over 50 (NDS 3.3.3.7).
    """
    block, section = demands.strength, values.section
    rows = block.rows(weight)
    which = block.combination_of
    C_D = np.array([each.C_D for each in block.combinations])[which]
    # Axes: edge (sagging, hogging), row, bay.
    star = np.stack([values.bending_star(C_D, hogging) for hogging in (False, True)])[:, :, None]
    S = section.section_modulus
    moments = share * np.stack(
        (
            np.stack([np.maximum(each.max[rows], 0.0) for each in demands.moments], axis=-1),
            np.stack([np.maximum(-each.min[rows], 0.0) for each in demands.moments], axis=-1),
        )
    )
    slender = np.stack([_slenderness(edge, which, rows, section) for edge in edges])
    loaded = moments > 1e-9 * max(float(moments.max()), 1e-9)
    slender = np.where(loaded, slender, 0.0)
    if float(slender.max()) > nds.MOST_SLENDER:
        raise too_slender(section, float(slender.max()), editions)
    factor = _stability(slender, values, star)
    C_V = values.volume(demands, rows)
    if C_V is not None:
        # Only the lesser of the two counts (NDS 5.3.6, 8.3.6); the kernel of it is for single numbers.
        factor = np.minimum(factor, C_V)
    ratios = moments / S / np.asarray(wood.with_stability(F_b=star, C_L=factor))
    edge, row, bay = (int(i) for i in np.unravel_index(int(ratios.argmax()), ratios.shape))
    place = demands.moments[bay].at_min if edge else demands.moments[bay].at_max
    steps, factors, value = _sheet(
        demands,
        edges[edge],
        (edge, int(which[row]), rows.start + row, bay),
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
    E_min = wood.stiffness_value(F=values.reference(values.section.stability_value), C_M=values.C_M["Emin"])
    F_b = np.broadcast_to(star, slender.shape)
    bent = slender > 0
    F_bE = nds.critical_bending(E_min=E_min, R_B=slender[bent])
    C_L[bent] = nds.stability_factor(F_bE=F_bE, F_b=F_b[bent])
    return C_L


def _sheet(
    demands: Demands,
    unbraced: Unbraced,
    place: tuple[int, int, int, int],
    M: float,
    C_D: float,
    values: Values,
    editions: Editions,
) -> tuple[list[Step], dict[str, float], float]:
    """The steps of the governing sum, its factors, and the adjusted bending value."""
    section = values.section
    edge, combination, row, bay = place
    star = values.bending_star_step(C_D, bool(edge), editions)
    steps, C_L = [*values.incised_step(values.bending_name(bool(edge)), editions), star], 1.0
    l_u = float(unbraced.lengths[row, bay])
    if l_u > 0 and M > 0 and section.depth > section.breadth * (1 + 1e-9):
        name = section.stability_value
        steps += values.incised_step(name, editions)
        E_min = wood.stiffness_value.step(
            editions, note=name, F=values.reference(name), C_M=values.C_M["Emin"]
        )
        l_e = effective_length_step(unbraced.rows[combination][bay], l_u, section.depth, editions)
        R_B = nds.beam_slenderness.step(editions, l_e=l_e.result, d=section.depth, b=section.breadth)
        F_bE = nds.critical_bending.step(editions, E_min=E_min.result, R_B=R_B.result)
        stable = nds.stability_factor.step(editions, F_bE=F_bE.result, F_b=star.result)
        steps += [replace(E_min, symbol="E_min'"), l_e, R_B, F_bE, stable]
        C_L = stable.result
    factors = {"CD": C_D, "CM": values.C_M["Fb"], "CL": C_L}
    if section.family != "glulam":
        factors["Cr"] = values.C_r
    if "Fb" in values.C_i and values.C_i["Fb"] != 1.0:
        factors["Ci"] = values.C_i["Fb"]
    if not section.composite:
        factors["CF"] = section.size_factors["Fb"]
        last = wood.with_stability.step(editions, F_b=star.result, C_L=C_L)
        return [*steps, last], factors, last.result
    L = 0.0 if section.volume_exponent is None else float(zero_moment_lengths(demands)[edge, row, bay])
    volume = section.volume_step(L, editions)
    if values.shallow:
        factors["CV"] = volume.result
        last = wood.with_stability.step(editions, F_b=star.result, C_L=C_L)
        return [volume, *steps, last], factors, last.result
    factors["CV"] = min(volume.result, 1.0)
    lesser = glulam.with_lesser_of_volume if section.family == "glulam" else wood.with_lesser_of_volume
    last = lesser.step(editions, F_b=star.result, C_L=C_L, C_V=factors["CV"])
    return [*steps, volume, last], factors, last.result


def _where(demands: Demands, bay: int, hogging: bool, at: float) -> str:
    held = demands.question.line.bays[bay]
    name = f"span {held.number + 1}" if held.kind == "span" else f"{held.kind} overhang"
    return f"{'hogging' if hogging else 'sagging'} in {name}, {at / 12:.2f} ft from the left end"
