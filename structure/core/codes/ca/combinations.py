"""Load combinations of the National Building Code of Canada, limit states design: NBC 2020 4.1.3.

Principal loads with and without their companion, since on a continuous beam a companion may also help. Dead
load is formed both heavy and light, for a support that lifts. Wind and earthquake are not formed here.
"""

from __future__ import annotations

from collections.abc import Collection
from itertools import product

from structure.core.clauses import COMMON_PRACTICE, Clause
from structure.core.codes.combination import Combination, unlike

ULTIMATE = Clause("NBC", "Table 4.1.3.2.-A")
SERVICE = Clause("NBC", "4.1.3.4.")
CONSTRUCTION = Clause(COMMON_PRACTICE.document, "construction load in place of live")

DEAD_ALONE, HEAVY_DEAD, LIGHT_DEAD = 1.4, 1.25, 0.9
PRINCIPAL, COMPANION = 1.5, 1.0
SERVICE_COMPANION = 0.5  # memory: user's guide to NBC part 4, commentary A

# What leads, and what may go with it. Roof live load (4.1.5.3) is a live load that never meets snow.
PAIRS: tuple[tuple[str, str | None], ...] = (
    ("live", None),
    ("live", "snow"),
    ("live", "roof_live"),
    ("snow", None),
    ("snow", "live"),
    ("roof_live", None),
    ("roof_live", "live"),
)


def _pair(dead: float, lead: str, companion: str | None) -> Combination:
    terms = [(dead, "dead"), (PRINCIPAL, lead)]
    if companion is not None:
        terms.append((COMPANION, companion))
    return Combination(tuple(terms), ULTIMATE)


ULS: tuple[Combination, ...] = (
    Combination(((DEAD_ALONE, "dead"),), ULTIMATE),
    *(_pair(dead, *pair) for dead, pair in product((HEAVY_DEAD, LIGHT_DEAD), PAIRS)),
    Combination(((HEAVY_DEAD, "dead"), (PRINCIPAL, "construction")), CONSTRUCTION),
    Combination(((HEAVY_DEAD, "dead"), (PRINCIPAL, "construction"), (COMPANION, "snow")), CONSTRUCTION),
)
SERVICE_LIVE: tuple[Combination, ...] = (
    Combination(((1.0, "live"),), SERVICE),
    Combination(((1.0, "snow"),), SERVICE),
    Combination(((1.0, "roof_live"),), SERVICE),
    Combination(((1.0, "live"), (SERVICE_COMPANION, "snow")), SERVICE),
    Combination(((1.0, "snow"), (SERVICE_COMPANION, "live")), SERVICE),
    Combination(((1.0, "live"), (SERVICE_COMPANION, "roof_live")), SERVICE),
    Combination(((1.0, "roof_live"), (SERVICE_COMPANION, "live")), SERVICE),
)
# Service sums for soil: everything that may press on it at once.
SERVICE_ALL: tuple[Combination, ...] = (
    Combination(((1.0, "dead"),), SERVICE),
    *(Combination(((1.0, "dead"), *each.terms), SERVICE) for each in SERVICE_LIVE),
    Combination(((1.0, "dead"), (1.0, "construction")), CONSTRUCTION),
)


def ultimate(present: Collection[str]) -> tuple[Combination, ...]:
    """The factored sums of the cases that are present (nonzero). Light dead load only beside something else."""
    kept = [
        each.of(present) for each in ULS if all(case in present for _, case in each.terms if case != "dead")
    ]
    return unlike(each for each in kept if each.terms) or ULS[:1]


def service_live(present: Collection[str]) -> tuple[Combination, ...]:
    """What may count as `live` for deflection: L, S, each with the companion that NBC lets meet it."""
    return unlike(each for each in SERVICE_LIVE if all(case in present for _, case in each.terms))


def service(present: Collection[str]) -> tuple[Combination, ...]:
    """Unfactored sums for soil pressure and working loads of the cases that are present."""
    kept = [
        each.of(present)
        for each in SERVICE_ALL
        if all(case in present for _, case in each.terms if case != "dead")
    ]
    return unlike(each for each in kept if each.terms) or SERVICE_ALL[:1]
