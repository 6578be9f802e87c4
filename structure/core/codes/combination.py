"""A load combination as data: factors by load case under one clause. The codes hold their own tables."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Self, TypeVar

from structure.core.clauses import Clause, ClauseRef, Editions

LETTERS: Mapping[str, str] = {"dead": "D", "live": "L", "roof_live": "Lr", "snow": "S", "construction": "C"}


@dataclass(frozen=True, slots=True)
class Combination:
    """Factors by load case under one clause, such as D+0.75L+0.75S."""

    terms: tuple[tuple[float, str], ...]
    clause: Clause

    @property
    def name(self) -> str:
        """`D+0.75L+0.75S`: a factor of one is left out, except that 1.0L in a strength sum is kept."""
        return _name(self.terms)

    @property
    def factors(self) -> dict[str, float]:
        """Factor by case."""
        return {case: factor for factor, case in self.terms}

    def of(self, present: Collection[str]) -> Self:
        """The combination with the terms of absent cases left out."""
        return replace(self, terms=tuple(term for term in self.terms if term[1] in present))

    def total(self, loads: Mapping[str, float]) -> float:
        """The sum of loads by case; a case that is absent brings nothing."""
        return sum(factor * loads.get(case, 0.0) for factor, case in self.terms)

    def reference(self, editions: Editions) -> ClauseRef:
        return self.clause.at(editions)


Held = TypeVar("Held", bound=Combination)


def heaviest(combinations: Iterable[Combination], loads: Mapping[str, float]) -> tuple[str, float]:
    """The largest sum of loads by case and the first combination that has it. Raises ValueError for none."""
    worst = max(combinations, key=lambda each: each.total(loads))
    return worst.name, worst.total(loads)


def unlike(combinations: Iterable[Held]) -> tuple[Held, ...]:
    """Without repeats of the same terms, the first of each kept."""
    held: dict[tuple[tuple[float, str], ...], Held] = {}
    for each in combinations:
        held.setdefault(each.terms, each)
    return tuple(held.values())


@lru_cache(maxsize=256)
def _name(terms: tuple[tuple[float, str], ...]) -> str:
    strength = any(factor > 1.0 for factor, _ in terms)
    return "+".join(f"{_factor(factor, strength)}{LETTERS[case]}" for factor, case in terms)


def _factor(factor: float, strength: bool) -> str:
    if factor == 1.0:
        return "1.0" if strength else ""
    return f"{factor:g}"
