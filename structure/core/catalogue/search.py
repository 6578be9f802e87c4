"""Every stock size tried for one beam; each load case is analysed once."""

from __future__ import annotations

from collections.abc import Iterator

from structure.core.catalogue.result import Candidate, SearchResult
from structure.core.catalogue.stock import Search, stock_sections
from structure.core.clauses import Editions
from structure.core.codes.us.combinations import ASD
from structure.core.errors import OutOfScope
from structure.core.materials.section import Section
from structure.core.members.beam import BeamQuestion, evaluate, prepare

MOST_SUMS = 20_000  # forces of so many sums are held at once


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
