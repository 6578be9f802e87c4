"""The answer to a beam question, whatever the beam is made of, and what every answer says."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import partial
from typing import Any

from structure.core.materials.section import Section
from structure.core.members.beam_demand import SELF, Demands
from structure.core.members.beam_question import BeamQuestion
from structure.core.members.checkdata import Checked, check_data
from structure.core.trace import Check
from structure.core.units import in_words, quantity


@dataclass(frozen=True, slots=True)
class SupportBearing:
    """One support: its reaction and combination, and the length that the beam needs there."""

    number: int
    reaction: float
    combination: str
    length: float | None
    required: float
    checks: tuple[Check, ...]


@dataclass(frozen=True, eq=False)
class BeamResult(Checked):
    """Every check of one section under the sum that is worst for it.

    `factors` and `adjusted` [stress] belong to the governing bending sum; `more` is what one material has to
    say besides, as plain data.
    """

    question: BeamQuestion
    section: Section
    demands: Demands
    weight: int
    checks: Mapping[str, Check]
    supports: tuple[SupportBearing, ...]
    factors: Mapping[str, float]
    adjusted: Mapping[str, float]
    remarks: tuple[str, ...]
    more: Mapping[str, Any] = field(default_factory=dict)

    @property
    def self_weight(self) -> float:
        """Line load of the beam itself; 0 where it was left out."""
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

    def as_data(self) -> dict[str, Any]:
        """The result of the `beam` kind."""
        shown = partial(quantity, code=self.demands.code)
        rows = self.demands.strength.rows(self.weight)
        shears = self.demands.shears
        high, low = self.moment_extremes()
        by_case, extreme = self.reactions_by_case(), self.reactions_extreme()
        return {
            "passes": self.passes,
            "governing": self.governing.name,
            "ratio": self.ratio,
            "section": self.section.label,
            "size": self.section.size_data,
            "self_weight": {
                "counted": self.question.self_weight,
                "line": shown(self.self_weight, "line_load"),
                "total": shown(self.self_weight * self.question.line.length, "force"),
                "source": self.section.weight_source,
            },
            "reactions": {
                str(n): {
                    "max": shown(extreme[n][0], "force"),
                    "min": shown(extreme[n][1], "force"),
                    "by_case": {case: shown(value, "force") for case, value in held.items()},
                }
                for n, held in enumerate(by_case)
            },
            "moment": {
                "max": shown(high, "moment"),
                "min": shown(low, "moment"),
            },
            "shear": {"max": shown(max(float(abs(e.largest[rows]).max()) for e in shears), "force")},
            "checks": {name: check_data(check, self.demands.code) for name, check in self.checks.items()},
            "bearing": {
                str(each.number): {
                    "reaction": shown(each.reaction, "force"),
                    "combination": each.combination,
                    "required": shown(each.required, "length"),
                    "length": None if each.length is None else shown(each.length, "length"),
                }
                for each in self.supports
            },
            "adjusted": {name: shown(value, "stress") for name, value in self.adjusted.items()},
            "factors": dict(self.factors),
            "reference": {
                name: shown(value, "stress") for name, value in self.section.reference.values.items()
            },
            "remarks": list(self.remarks),
            **self.more,
        }


def common_remarks(demands: Demands, weight: int, section: Section) -> tuple[str, ...]:
    """What is said of every beam: preliminary, where values come from, supports that lift."""
    question, block = demands.question, demands.strength
    found = ["Preliminary size; wind, earthquake and uplift by wind are not in it."]
    found += section.remarks
    if question.self_weight:
        found.append(f"Self weight: {section.weight_source}.")
    if len(question.line.bays) > len(question.line.spans) and not question.patterned:
        found.append("Live load stands on span and overhang together; `pattern: true` also tries each alone.")
    reactions = block.response.reactions[block.rows(weight)]
    for n in range(reactions.shape[1]):
        row = int(reactions[:, n].argmin())
        least = float(reactions[row, n])
        if least < -1e-6 * float(abs(reactions).max()):
            name = block.names[int(block.combination_of[row])]
            much = in_words(-least, "force", demands.code)
            found.append(
                f"Support {n + 1} from the left lifts with {much} under {name}: it must be held down."
            )
    return tuple(found)


def with_worst(checks: list[Check], supports: tuple[SupportBearing, ...]) -> dict[str, Check]:
    """Checks by name; of those at the supports the worst of each name."""
    held = {check.name: check for check in checks}
    for support in supports:
        for check in support.checks:
            if check.name not in held or check.ratio > held[check.name].ratio:
                held[check.name] = check
    return held
