"""Candidates of a search, each with its ratios, why it fails or how close it is.

Ratios of all sections are there at once; words, and the sheet of one section with its steps, are made
when someone asks for them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

import numpy as np
import numpy.typing as npt

from structure.core.catalogue.words import closeness, sentence
from structure.core.clauses import ClauseRef, Editions
from structure.core.errors import OutOfScope
from structure.core.materials.section import Section, WoodSection
from structure.core.members.beam import BeamQuestion, BeamResult, check_beam
from structure.core.members.beam_bending import too_slender
from structure.core.members.checkdata import worst
from structure.core.trace import Check

Array = npt.NDArray[np.float64]
Whole = npt.NDArray[np.intp]


@dataclass(frozen=True, eq=False)
class Column:
    """One check of many sections: demand, capacity and the number of the governing sum, one a section."""

    name: str
    dimension: str
    clause: ClauseRef
    demand: Array
    capacity: Array
    sums: Whole
    names: tuple[str, ...]

    @cached_property
    def ratio(self) -> Array:
        return self.demand / self.capacity

    def check(self, place: int) -> Check:
        """The check of one section, without its steps."""
        return Check(
            self.name,
            float(self.demand[place]),
            float(self.capacity[place]),
            self.dimension,
            self.names[int(self.sums[place])],
            self.clause,
        )


@dataclass(frozen=True, eq=False)
class Candidate:
    """One section with its checks, or with the reason why it cannot be checked.

    `checks` have no steps where all sections were checked at once; `result` has them.
    """

    section: Section
    question: BeamQuestion
    editions: Editions
    checks: Mapping[str, Check]
    known: BeamResult | OutOfScope | None = None

    @property
    def governing(self) -> Check | None:
        return worst(self.checks.values()) if self.checks else None

    @property
    def passes(self) -> bool:
        return bool(self.checks) and all(check.passes for check in self.checks.values())

    @cached_property
    def _answer(self) -> BeamResult | OutOfScope:
        if self.known is not None:
            return self.known
        try:
            return check_beam(replace(self.question, section=self.section), self.editions)
        except OutOfScope as refusal:
            return refusal

    @property
    def result(self) -> BeamResult | None:
        """The whole answer for this section alone, with every step; None where it is refused."""
        return self._answer if isinstance(self._answer, BeamResult) else None

    @property
    def refusal(self) -> OutOfScope | None:
        """Why it cannot be checked; None where it is."""
        return None if self.checks or isinstance(self._answer, BeamResult) else self._answer

    @property
    def fails(self) -> list[dict[str, Any]]:
        """Each failed check, the worst first, with a sentence."""
        if self.refusal is not None:
            return [
                {
                    "check": "scope",
                    "ratio": None,
                    "why": self.refusal.reason,
                    "clause": str(self.refusal.clause),
                }
            ]
        failed = [check for check in self.checks.values() if not check.passes]
        return [
            {
                "check": check.name,
                "ratio": check.ratio,
                "why": sentence(check, self.editions.code),
                "clause": str(check.clause),
            }
            for check in sorted(failed, key=lambda check: (-check.ratio, check.name))
        ]

    def as_data(self) -> dict[str, Any]:
        section, governing, passes = self.section, self.governing, self.passes
        return {
            "section": section.label,
            "family": section.family,
            "species": getattr(section, "species", None),
            "grade": getattr(section, "grade", None),
            "given": section.given,
            "size": section.size_data,
            "ratio": governing.ratio if governing else None,
            "governing": governing.name if governing else "scope",
            "passes": passes,
            "fails": self.fails,
            "close": closeness(governing) if governing and passes else None,
            "ratios": {name: check.ratio for name, check in self.checks.items()},
        }


@dataclass(frozen=True, eq=False)
class SearchResult:
    """All candidates, lightest first, and the first that passes.

    `worst`: the largest ratio of each place in the columns, not a number where it is too slender; `slender`: its
    R_B; `place`: where a section stands in the columns, -1 where it was checked alone; `alone`: their answers.
    """

    question: BeamQuestion
    editions: Editions
    sections: tuple[Section, ...]
    columns: tuple[Column, ...]
    worst: Array
    slender: Array
    place: Whole
    alone: Mapping[int, BeamResult | OutOfScope]

    @cached_property
    def ratios(self) -> Array:
        """The largest ratio of every section; not a number where it is refused."""
        found = np.full(len(self.sections), np.nan)
        together = self.place >= 0
        found[together] = self.worst[self.place[together]]
        for number, answer in self.alone.items():
            if isinstance(answer, BeamResult):
                found[number] = answer.ratio
        return found

    @cached_property
    def candidates(self) -> tuple[Candidate, ...]:
        """Every section with its words."""
        return tuple(self._candidate(number) for number in range(len(self.sections)))

    @property
    def chosen(self) -> Candidate | None:
        """The lightest candidate that passes."""
        passing = np.flatnonzero(self.ratios <= 1.0)
        return self._candidate(int(passing[0])) if passing.size else None

    def _candidate(self, number: int) -> Candidate:
        place, known, section = int(self.place[number]), self.alone.get(number), self.sections[number]
        checks: Mapping[str, Check] = {}
        if isinstance(known, BeamResult):
            checks = known.checks
        elif known is None and np.isnan(self.worst[place]) and isinstance(section, WoodSection):
            known = too_slender(section, float(self.slender[place]), self.editions)
        elif known is None:
            checks = {column.name: column.check(place) for column in self.columns}
        return Candidate(section, self.question, self.editions, checks, known)

    def as_data(self) -> dict[str, Any]:
        """The result of a `beam` case with a search; that of the lightest passing section around it."""
        found = self.chosen
        base: dict[str, Any] = {"passes": False, "section": None, "governing": None, "ratio": None}
        if found is not None and found.result is not None:
            base = found.result.as_data()
        else:
            base["remarks"] = ["No stock size passes: shorten the span, add a post, or ask the engineer."]
        return base | {
            "candidates": [each.as_data() for each in self.candidates],
            "tried": len(self.sections),
            "passing": int((self.ratios <= 1.0).sum()),
        }
