"""Load combinations of the US rules in one table, with their clauses.

Stress design for wood, soil and steel; strength design for concrete. Only combinations whose loads are
present are formed: leaving a present load out of a sum, or a term that is zero, never governs, because
every result is linear in the factors and the full and the empty sum are both formed.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from structure.core.clauses import COMMON_PRACTICE, Clause
from structure.core.codes.combination import LETTERS, Combination, unlike

__all__ = [
    "ASD",
    "DURATION",
    "LETTERS",
    "Combination",
    "StressCombination",
    "asd",
    "service_live",
    "strength_concrete",
]

DURATION_CLAUSE = Clause("NDS", "2.3.2")
# NDS table 2.3.2; roof live and construction loads are both of seven days.
DURATION: Mapping[str, float] = {
    "dead": 0.9,
    "live": 1.0,
    "snow": 1.15,
    "roof_live": 1.25,
    "construction": 1.25,
}


@dataclass(frozen=True, slots=True)
class StressCombination(Combination):
    """A combination of these rules, with its load duration factor."""

    @property
    def C_D(self) -> float:
        """Load duration factor of the shortest load in the combination; NDS table 2.3.2."""
        return max(DURATION[case] for _, case in self.terms)


def _sum(clause: Clause, *terms: tuple[float, str]) -> StressCombination:
    return StressCombination(terms, clause)


_ASD = Clause("ASCE 7", "2.4.1")
_CONSTRUCTION = Clause(COMMON_PRACTICE.document, "construction load in place of live")
ASD: tuple[StressCombination, ...] = (
    _sum(_ASD, (1.0, "dead")),
    _sum(_ASD, (1.0, "dead"), (1.0, "live")),
    _sum(_ASD, (1.0, "dead"), (1.0, "roof_live")),
    _sum(_ASD, (1.0, "dead"), (1.0, "snow")),
    _sum(_ASD, (1.0, "dead"), (0.75, "live"), (0.75, "roof_live")),
    _sum(_ASD, (1.0, "dead"), (0.75, "live"), (0.75, "snow")),
    _sum(_CONSTRUCTION, (1.0, "dead"), (1.0, "construction")),
)

_ACI = Clause("ACI 318", "5.3.1")
STRENGTH_CONCRETE: tuple[StressCombination, ...] = (
    _sum(_ACI, (1.4, "dead")),
    _sum(_ACI, (1.2, "dead"), (1.6, "live"), (0.5, "roof_live")),
    _sum(_ACI, (1.2, "dead"), (1.6, "live"), (0.5, "snow")),
    _sum(_ACI, (1.2, "dead"), (1.6, "roof_live"), (1.0, "live")),
    _sum(_ACI, (1.2, "dead"), (1.6, "snow"), (1.0, "live")),
    _sum(_CONSTRUCTION, (1.2, "dead"), (1.6, "construction")),
)

# The part of the load that comes and goes, for deflection: its own limit, and with D the total one.
SERVICE_LIVE: tuple[StressCombination, ...] = (
    _sum(_ASD, (1.0, "live")),
    _sum(_ASD, (1.0, "roof_live")),
    _sum(_ASD, (1.0, "snow")),
    _sum(_ASD, (0.75, "live"), (0.75, "roof_live")),
    _sum(_ASD, (0.75, "live"), (0.75, "snow")),
)


def asd(present: Collection[str]) -> tuple[StressCombination, ...]:
    """The stress combinations of the cases that are present (nonzero), each at least one load.

    D alone is kept when dead load is present, and when nothing is. A combination with an absent load
    besides D is left out, since what remains of it is a part of another one.
    """
    kept = [
        each.of(present) for each in ASD if all(case in present for _, case in each.terms if case != "dead")
    ]
    return unlike(each for each in kept if each.terms) or ASD[:1]


def strength_concrete(present: Collection[str]) -> tuple[StressCombination, ...]:
    """The strength combinations for concrete of the cases that are present, without repeats."""
    formed = [each.of(present) for each in STRENGTH_CONCRETE]
    return unlike(each for each in formed if each.terms) or STRENGTH_CONCRETE[:1]


def service_live(present: Collection[str]) -> tuple[StressCombination, ...]:
    """What may count as `live` for deflection: L, (Lr or S), 0.75L+0.75(Lr or S)."""
    return unlike(each for each in SERVICE_LIVE if all(case in present for _, case in each.terms))
