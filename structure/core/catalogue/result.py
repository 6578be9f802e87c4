"""Candidates of a search, each with its ratios, why it fails or how close it is."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from structure.core.catalogue.words import closeness, sentence
from structure.core.errors import OutOfScope
from structure.core.materials.section import Section
from structure.core.members.beam import BeamResult


@dataclass(frozen=True, eq=False)
class Candidate:
    """One section with its answer, or with the reason why it cannot be checked."""

    section: Section
    result: BeamResult | None
    refusal: OutOfScope | None = None

    @property
    def passes(self) -> bool:
        return self.result is not None and self.result.passes

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
        assert self.result is not None  # noqa: S101 - one of the two is always there
        failed = [check for check in self.result.checks.values() if not check.passes]
        return [
            {"check": check.name, "ratio": check.ratio, "why": sentence(check), "clause": str(check.clause)}
            for check in sorted(failed, key=lambda check: (-check.ratio, check.name))
        ]

    def as_data(self) -> dict[str, Any]:
        section, result = self.section, self.result
        return {
            "section": section.label,
            "family": section.family,
            "species": getattr(section, "species", None),
            "grade": getattr(section, "grade", None),
            "size": section.size_data,
            "ratio": result.ratio if result else None,
            "governing": result.governing.name if result else "scope",
            "passes": self.passes,
            "fails": self.fails,
            "close": closeness(result.governing) if result and result.passes else None,
            "ratios": {name: check.ratio for name, check in result.checks.items()} if result else {},
        }


@dataclass(frozen=True, eq=False)
class SearchResult:
    """All candidates, lightest first, and the first that passes."""

    candidates: tuple[Candidate, ...]

    @property
    def chosen(self) -> Candidate | None:
        """The lightest candidate that passes."""
        return next((each for each in self.candidates if each.passes), None)

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
            "tried": len(self.candidates),
            "passing": sum(each.passes for each in self.candidates),
        }
