"""Every stock size tried for one beam, each with why it fails or how close it is."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from structure.core.clauses import Editions
from structure.core.codes.us.combinations import ASD
from structure.core.errors import InputError, OutOfScope
from structure.core.materials.lvl import TABLE as LVL_TABLE
from structure.core.materials.lvl import LvlSection
from structure.core.materials.sawn import STOCK, SawnSection
from structure.core.materials.section import Section
from structure.core.materials.species import TABLE_4A, TABLE_4B, held_grades
from structure.core.members.beam import BeamQuestion, BeamResult, evaluate, prepare
from structure.core.trace import Check
from structure.core.units import DIMENSIONS, quantity
from structure.data.loader import table

MOST_SUMS = 20_000  # forces of so many sums are held at once

NAMES = {
    "bending": "Bending",
    "shear": "Shear",
    "bearing": "Bearing",
    "support_bearing": "Crushing of the support",
    "deflection_live": "Live deflection",
    "deflection_total": "Total deflection",
}


@dataclass(frozen=True, slots=True)
class Search:
    """What is on hand. `lvl_grades` left out means every stress class held."""

    families: tuple[str, ...] = ("sawn", "lvl")
    species: tuple[str, ...] = ("SPF", "DF-L", "HF", "SP")
    grades: tuple[str, ...] = ("No.2",)
    lvl_grades: tuple[str, ...] | None = None
    max_depth: float | None = None
    max_plies: int = 5


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


def stock_sections(search: Search) -> tuple[Section, ...]:
    """Every section of the catalogue that the search allows: by weight, then depth, then label.

    Raises InputError for a stress class that is not held, or where nothing is left to try.
    """
    found: list[Section] = []
    if "sawn" in search.families:
        found += _sawn(search)
    if "lvl" in search.families:
        found += _lvl(search)
    if not found:
        raise InputError(
            "search", "no section", "families, species, grades and limits that leave a stock size"
        )
    return tuple(sorted(found, key=lambda each: (round(each.weight, 9), each.depth, each.label)))


def _sizes(family: str, search: Search) -> Iterator[tuple[int, float, float]]:
    stock = table(STOCK).content[family]
    for depth in stock["depths"]:
        if search.max_depth is None or depth <= search.max_depth + 1e-9:
            for plies in stock["plies"]:
                if plies <= search.max_plies:
                    yield plies, float(stock["width"]), float(depth)


def _sawn(search: Search) -> Iterator[Section]:
    for species in search.species:
        held = held_grades(TABLE_4B if species == "SP" else TABLE_4A, species)
        for grade in search.grades:
            # A grade that a species does not have is no candidate.
            if grade in held:
                for plies, width, depth in _sizes("sawn", search):
                    yield SawnSection(species=species, grade=grade, plies=plies, width=width, depth=depth)


def _lvl(search: Search) -> Iterator[Section]:
    held = tuple(str(row["grade"]) for row in table(LVL_TABLE).rows)
    for grade in search.lvl_grades or held:
        if grade not in held:
            raise InputError("search.lvl_grades", grade, f"a stress class held: {', '.join(held)}")
        for plies, width, depth in _sizes("lvl", search):
            yield LvlSection(grade=grade, plies=plies, width=width, depth=depth)


def search_beams(question: BeamQuestion, search: Search, editions: Editions) -> SearchResult:
    """Try every stock section with its own self weight; each load case is analysed once.

    Raises what `check_beam` raises for the question itself; a section that is out of scope by its own
    doing, such as being too slender, stays among the candidates with the reason.
    """
    sections = stock_sections(search)
    candidates: list[Candidate] = []
    for group in _groups(question, sections):
        weights = tuple(dict.fromkeys(each.weight for each in group)) if question.self_weight else (0.0,)
        demands = prepare(question, weights, editions)
        for section in group:
            at = weights.index(section.weight) if question.self_weight else 0
            try:
                candidates.append(Candidate(section, evaluate(demands, at, section, editions)))
            except OutOfScope as refusal:
                candidates.append(Candidate(section, None, refusal))
    return SearchResult(tuple(candidates))


def _groups(question: BeamQuestion, sections: tuple[Section, ...]) -> Iterator[tuple[Section, ...]]:
    """Sections, which come by weight, in groups whose forces fit into memory together."""
    patterns = 2 ** len(question.line.bays) if question.patterned else 1
    size = max(1, MOST_SUMS // (len(ASD) * patterns))
    for start in range(0, len(sections), size):
        yield sections[start : start + size]


def sentence(check: Check) -> str:
    """Why a check fails, in words."""
    over = (check.ratio - 1) * 100
    much = f"{over:.1f} % too much" if over < 10 else f"{over:.0f} % too much"
    if check.ratio >= 3:
        much = f"{check.ratio:.0f} times what is allowed"
    demand, capacity = (_shown(check, value) for value in (check.demand, check.capacity))
    verb = "is" if check.dimension == "length" else "takes"
    name = NAMES.get(check.name, check.name)
    return f"{name} {verb} {demand} where {capacity} is allowed under {check.combination}: {much}."


def closeness(check: Check) -> str:
    """How near the governing check of a passing section is, in words."""
    return f"{NAMES.get(check.name, check.name)} governs at {check.ratio * 100:.0f} % of what is allowed."


def _shown(check: Check, value: float) -> str:
    unit = DIMENSIONS[check.dimension].shown["us"]
    number = quantity(value, check.dimension)["value"]
    return f"{number:,.2f} {unit}" if check.dimension == "length" else f"{number:,.0f} {unit}"
