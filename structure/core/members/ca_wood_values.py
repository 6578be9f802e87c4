"""Strengths of a wood section in one service, and how long its loads last. CSA O86:19 5.3.2 and 6.4."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from structure.core.clauses import Editions
from structure.core.codes.ca import wood
from structure.core.codes.ca.combinations import PRINCIPAL, SERVICE_COMPANION
from structure.core.codes.combination import Combination
from structure.core.materials.ca_wood import CaWoodSection
from structure.core.members.beam_demand import SELF, Demands
from structure.core.trace import Step

Array = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class CaValues:
    """Specified strengths and the factors that do not change from sum to sum, by property."""

    section: CaWoodSection
    K_H: Mapping[str, float]
    K_S: Mapping[str, float]
    K_T: Mapping[str, float]

    def specified(self, name: str) -> float:
        """One specified value [MPa]. Raises InputError where neither a table nor `properties` holds it."""
        return self.section.reference.value(name)

    def _factors(self, name: str) -> dict[str, float]:
        # The bending strength of the top edge takes the factors of bending.
        key = "fb" if name == "fb_neg" else name
        return {"K_H": self.K_H[key], "K_S": self.K_S[key], "K_T": self.K_T[key]}

    def strength(self, name: str, K_D: Array) -> Array:
        """Strength with every factor but size and stability, by duration of load [MPa]."""
        f = self.specified(name)
        return np.asarray(wood.strength.function(f=f, K_D=K_D, **self._factors(name)))

    def strength_step(self, name: str, K_D: float, editions: Editions, note: str = "") -> Step:
        return wood.strength.step(
            editions, note=note or name, f=self.specified(name), K_D=K_D, **self._factors(name)
        )

    def stiffness_step(self, editions: Editions) -> Step:
        return wood.stiffness.step(
            editions, note="E", E=self.specified("E"), K_SE=self.K_S["E"], K_T=self.K_T["E"]
        )


def values_of(section: CaWoodSection, *, repetitive: bool, wet: bool, treated: str = "none") -> CaValues:
    """Values of a section in one service.

    Raises OutOfScope for wet composite lumber and a treatment whose factors are not held.
    """
    return CaValues(
        section,
        section.system_factors(repetitive),
        section.wet_factors(wet),
        section.treatment_factors(treated, wet),
    )


def specified_part(combination: Combination) -> dict[str, float]:
    """The variable loads of a factored sum as P_S has them: the lesser one halved. CSA O86 5.3.2.3."""
    return {
        case: 1.0 if factor >= PRINCIPAL else SERVICE_COMPANION
        for case, factor in combination.factors.items()
        if case != "dead"
    }


def usual_factor(combination: Combination) -> float:
    """K_D where what stays is not the greater part. CSA O86 table 5.1.

    Snow that meets construction load keeps the sum at standard term; so does everything but construction.
    """
    cases = set(combination.factors) - {"dead"}
    if not cases:
        return wood.LONG_TERM_LEAST
    return wood.SHORT_TERM if cases == {"construction"} else wood.STANDARD_TERM


def duration_factor(usual: float, P_L: float, P_S: float) -> float:
    """K_D of a sum from its long-term and standard-term parts, in whatever unit. CSA O86 5.3.2.2, 5.3.2.3."""
    if P_L <= P_S or usual == wood.LONG_TERM_LEAST:
        return usual
    if P_S <= 0:
        return wood.LONG_TERM_LEAST
    return max(wood.LONG_TERM_LEAST, float(wood.long_term_duration(P_L=P_L, P_S=P_S)))


@dataclass(frozen=True, slots=True)
class Duration:
    """K_D of one sum with the parts that it follows from: all loads, the largest moment or one reaction."""

    K_D: float
    usual: float
    P_L: float
    P_S: float
    of: str

    def steps(self, editions: Editions) -> tuple[Step, ...]:
        """The line of the sheet, where what stays is the greater part."""
        if self.usual == self.K_D or self.P_S <= 0:
            return ()
        return (
            wood.long_term_duration.step(
                editions,
                note=f"{self.of}, in N or N*mm; at least {wood.LONG_TERM_LEAST}",
                P_L=self.P_L,
                P_S=self.P_S,
            ),
        )


@dataclass(frozen=True, eq=False)
class _Parts:
    """Effects of all bays loaded, by sum: of dead load, of a unit of self weight, and of what comes and goes.

    Two effects count for strength: the whole load, and the largest moment; each support has its reaction.
    """

    dead: Array
    own: Array
    variable: Array
    dead_at: Array
    own_at: Array
    variable_at: Array


def _parts(demands: Demands) -> _Parts:
    if "duration parts" not in demands.memo:
        demands.memo["duration parts"] = _find_parts(demands)
    held: _Parts = demands.memo["duration parts"]
    return held


def _find_parts(demands: Demands) -> _Parts:
    line, analysis = demands.question.line, demands.analysis
    combinations = demands.strength.combinations
    wanted: list[Mapping[str, float]] = [{"dead": 1.0}, {SELF: 1.0}, *map(specified_part, combinations)]
    matrix = [[factors.get(key.case, 0.0) for key in analysis.keys] for factors in wanted]
    response = analysis.response.combined(np.array(matrix))
    reactions = np.asarray(response.reactions, dtype=float)
    bent = np.stack(
        [np.abs(response.moment_extremes(bay.start, bay.end).largest) for bay in line.bays], axis=-1
    ).max(axis=-1)
    effects = np.stack((reactions.sum(axis=-1), bent), axis=-1)
    at = np.maximum(reactions, 0.0)
    return _Parts(effects[0], effects[1], effects[2:], at[0], at[1], at[2:])


def durations(demands: Demands, weight: int) -> tuple[Duration, ...]:
    """K_D of every strength sum for one self weight, by the worse of load and moment."""
    parts, w = _parts(demands), demands.weights[weight] if demands.question.self_weight else 0.0
    long = parts.dead + w * parts.own
    found = []
    for number, combination in enumerate(demands.strength.combinations):
        usual = usual_factor(combination)
        held = [
            Duration(duration_factor(usual, float(P_L), float(P_S)), usual, float(P_L), float(P_S), of)
            for P_L, P_S, of in zip(
                long, parts.variable[number], ("all loads", "largest moments"), strict=True
            )
            # Where nothing comes and goes in the bending, such as a force over a support, what stays bends alone.
            if P_L > 0 or P_S > 0
        ]
        found.append(min(held, key=lambda each: each.K_D, default=Duration(usual, usual, 0.0, 0.0, "")))
    return tuple(found)


def support_duration(demands: Demands, weight: int, support: int, combination: int) -> Duration:
    """K_D of one strength sum from the parts of the reaction at one support."""
    parts, w = _parts(demands), demands.weights[weight] if demands.question.self_weight else 0.0
    P_L = float(parts.dead_at[support] + w * parts.own_at[support])
    P_S = float(parts.variable_at[combination, support])
    usual = usual_factor(demands.strength.combinations[combination])
    return Duration(duration_factor(usual, P_L, P_S), usual, P_L, P_S, f"reactions of support {support + 1}")
