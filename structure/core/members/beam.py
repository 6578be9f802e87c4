"""A wood beam under US rules: bending with stability, shear, bearing, deflection. One question, one answer."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from structure.core.clauses import COMMON_PRACTICE, Editions
from structure.core.codes.us import wood
from structure.core.codes.us import wood_beams as nds
from structure.core.errors import InputError
from structure.core.materials.section import Section
from structure.core.members.beam_bending import Bending, Values, bending, refuse_flat, values_of
from structure.core.members.beam_demand import SELF, Demands, analyse_question
from structure.core.members.beam_question import BeamQuestion, Bracing, Limits, Support, check_range
from structure.core.members.beam_service import SupportBearing, bearings, deflections, shear
from structure.core.members.beam_stability import Unbraced, unbraced
from structure.core.members.checkdata import check_data, worst
from structure.core.trace import Check
from structure.core.units import quantity

__all__ = ["BeamQuestion", "BeamResult", "Bracing", "Limits", "Support", "check_beam", "evaluate", "prepare"]

_ADJUSTED = ("Fb", "Fv", "Fc_perp", "E", "Emin")


@dataclass(frozen=True, eq=False)
class BeamResult:
    """Every check of one section under the sum that is worst for it."""

    question: BeamQuestion
    section: Section
    demands: Demands
    weight: int
    values: Values
    bending: Bending
    checks: Mapping[str, Check]
    supports: tuple[SupportBearing, ...]
    remarks: tuple[str, ...]

    @property
    def governing(self) -> Check:
        return worst(self.checks.values())

    @property
    def ratio(self) -> float:
        return self.governing.ratio

    @property
    def passes(self) -> bool:
        return all(check.passes for check in self.checks.values())

    @property
    def self_weight(self) -> float:
        """Line load of the beam itself [lbf/in]; 0 where it was left out."""
        return self.demands.weights[self.weight]

    def reactions_by_case(self) -> list[dict[str, float]]:
        """Unfactored reactions by support and case [lbf], all bays loaded; dead with the self weight in it."""
        analysis = self.demands.analysis
        found: list[dict[str, float]] = [{} for _ in self.question.line.supports]
        for case in analysis.cases:
            scale = self.self_weight if case == SELF else 1.0
            reactions = analysis.case(case).reactions
            for n, held in enumerate(found):
                name = "dead" if case == SELF else case
                held[name] = held.get(name, 0.0) + scale * float(reactions[n])
        return found

    def reactions_extreme(self) -> list[tuple[float, float]]:
        """Largest and least reaction of each support over the stress combinations [lbf]."""
        block = self.demands.strength
        reactions = block.response.reactions[block.rows(self.weight)]
        return [
            (float(reactions[:, n].max()), float(reactions[:, n].min())) for n in range(reactions.shape[1])
        ]

    def moment_extremes(self) -> tuple[float, float]:
        """Largest and least moment over the stress combinations [lbf*in], sagging positive."""
        rows, moments = self.demands.strength.rows(self.weight), self.demands.moments
        high = max(float(each.max[rows].max()) for each in moments)
        low = min(float(each.min[rows].min()) for each in moments)
        # What rounding leaves over a support of no moment is none.
        noise = 1e-9 * max(abs(high), abs(low))
        return (0.0 if abs(high) <= noise else high, 0.0 if abs(low) <= noise else low)

    def adjusted(self) -> dict[str, float]:
        """Adjusted design values of the governing bending combination [psi]."""
        C_D, C_M = self.bending.factors["CD"], self.values.C_M
        held = self.section.reference.values
        found = {"Fb": self.bending.value}
        if "Fv" in held:
            found["Fv"] = float(wood.shear_value(F=held["Fv"], C_D=C_D, C_M=C_M["Fv"]))
        for name in ("Fc_perp", "E", "Emin"):
            if name in held:
                found[name] = float(wood.stiffness_value(F=held[name], C_M=C_M[name]))
        return found

    def as_data(self) -> dict[str, Any]:
        """The result of the `beam` kind."""
        rows = self.demands.strength.rows(self.weight)
        shears = self.demands.shears
        high, low = self.moment_extremes()
        by_case, extreme = self.reactions_by_case(), self.reactions_extreme()
        return {
            "passes": self.passes,
            "governing": self.governing.name,
            "ratio": self.ratio,
            "section": self.section.label,
            "size": size_data(self.section),
            "self_weight": {
                "counted": self.question.self_weight,
                "line": quantity(self.self_weight, "line_load"),
                "total": quantity(self.self_weight * self.question.line.length, "force"),
                "source": self.section.density_source,
            },
            "reactions": {
                str(n): {
                    "max": quantity(extreme[n][0], "force"),
                    "min": quantity(extreme[n][1], "force"),
                    "by_case": {case: quantity(value, "force") for case, value in held.items()},
                }
                for n, held in enumerate(by_case)
            },
            "moment": {
                "max": quantity(high, "moment"),
                "min": quantity(low, "moment"),
            },
            "shear": {"max": quantity(max(float(abs(e.largest[rows]).max()) for e in shears), "force")},
            "checks": {name: check_data(check) for name, check in self.checks.items()},
            "bearing": {
                str(each.number): {
                    "reaction": quantity(each.reaction, "force"),
                    "combination": each.combination,
                    "required": quantity(each.required, "length"),
                    "length": None if each.length is None else quantity(each.length, "length"),
                }
                for each in self.supports
            },
            "adjusted": {name: quantity(value, "stress") for name, value in self.adjusted().items()},
            "factors": dict(self.bending.factors),
            "reference": {
                name: quantity(value, "stress") for name, value in self.section.reference.values.items()
            },
            "remarks": list(self.remarks),
        }


def size_data(section: Section) -> dict[str, Any]:
    """Size of all plies, as the `design_values` kind gives it."""
    return {
        "plies": section.plies,
        "ply_width": quantity(section.width, "length"),
        "width": quantity(section.breadth, "length"),
        "depth": quantity(section.depth, "length"),
        "area": quantity(section.area, "area"),
        "section_modulus": quantity(section.section_modulus, "section_modulus"),
        "inertia": quantity(section.inertia, "inertia"),
        "weight": quantity(section.weight, "line_load"),
    }


def creep_factor(question: BeamQuestion) -> float:
    """K_cr on the dead part of the total deflection. NDS 3.5.2."""
    if not question.deflection.creep:
        return 1.0
    return nds.CREEP_WET if question.wet else nds.CREEP_DRY


def prepare(
    question: BeamQuestion, weights: tuple[float, ...], editions: Editions
) -> tuple[Demands, tuple[Unbraced, Unbraced]]:
    """Forces for every self weight, and the unbraced lengths that go with them.

    Raises OutOfScope for spans or loads outside what is covered, InputError for no load.
    """
    check_range(question, editions)
    demands = analyse_question(question, weights, creep_factor(question))
    return demands, unbraced(demands)


def evaluate(
    demands: Demands, edges: tuple[Unbraced, Unbraced], weight: int, section: Section, editions: Editions
) -> BeamResult:
    """Check one section against forces already known; `weight` is the number of its self weight."""
    question = demands.question
    refuse_flat(section, editions)
    values = values_of(section, repetitive=question.repetitive, wet=question.wet)
    bent = bending(demands, weight, values, edges, editions)
    supports = tuple(bearings(demands, weight, values, editions))
    checks = [bent.check, shear(demands, weight, values, editions)]
    checks += deflections(demands, weight, values, editions)
    held = {check.name: check for check in checks}
    for support in supports:
        for check in support.checks:
            if check.name not in held or check.ratio > held[check.name].ratio:
                held[check.name] = check
    return BeamResult(
        question=question,
        section=section,
        demands=demands,
        weight=weight,
        values=values,
        bending=bent,
        checks=held,
        supports=supports,
        remarks=_remarks(demands, weight, values, bent),
    )


def check_beam(question: BeamQuestion, editions: Editions) -> BeamResult:
    """A wood beam of one section under every stress combination and pattern. NDS 2018 chapters 3, 4 and 8.

    Raises InputError for no section or no load, OutOfScope for what the rules held do not cover.
    """
    section = question.section
    if section is None:
        raise InputError("section", None, "a section to check, or a search")
    weight = section.weight if question.self_weight else 0.0
    demands, edges = prepare(question, (weight,), editions)
    return evaluate(demands, edges, 0, section, editions)


def _remarks(demands: Demands, weight: int, values: Values, bent: Bending) -> tuple[str, ...]:
    question, section, block = demands.question, values.section, demands.strength
    found = ["Preliminary size; wind, earthquake and uplift by wind are not in it."]
    found += section.remarks
    if question.self_weight:
        found.append(f"Self weight: {section.density_source}.")
    if section.volume_factor is not None:
        found.append(
            f"C_V = (12/d)^(1/9), {COMMON_PRACTICE.document}: the maker's document governs (NDS 8.3.6)."
        )
    if section.plies > 1 and bent.slender > 0:
        found.append(
            f"C_L takes the width of all plies together, {COMMON_PRACTICE.document}: "
            "they must be fastened to act as one."
        )
    if question.repetitive and values.C_r == 1.0:
        found.append("Timbers take no repetitive member factor (NDS 4.3.9).")
    if len(question.line.bays) > len(question.line.spans) and not question.patterned:
        found.append("Live load stands on span and overhang together; `pattern: true` also tries each alone.")
    reactions = block.response.reactions[block.rows(weight)]
    for n in range(reactions.shape[1]):
        row = int(reactions[:, n].argmin())
        least = float(reactions[row, n])
        if least < -1e-6 * float(abs(reactions).max()):
            name = block.names[int(block.combination_of[row])]
            found.append(
                f"Support {n + 1} from the left lifts with {-least:,.0f} lbf under {name}: it must be held down."
            )
    return tuple(found)
