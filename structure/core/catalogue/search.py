"""Every stock size tried for one beam; each load case is analysed once.

Wood is checked all at once. What cannot be, another material or a question whose rules look at each
section by itself, is checked one section at a time on forces that all of them share.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import MISSING, fields

import numpy as np

from structure.core.catalogue.bent import bending
from structure.core.catalogue.columns import Columns, Service, prepared
from structure.core.catalogue.result import Column, SearchResult
from structure.core.catalogue.stock import stock_sections
from structure.core.catalogue.together import Asked, bearings, deflections, shear
from structure.core.catalogue.wanted import Search
from structure.core.clauses import Editions
from structure.core.codes.us.combinations import ASD
from structure.core.errors import OutOfScope
from structure.core.materials.section import Section
from structure.core.members.beam import BeamQuestion, BeamResult, evaluate, prepare

MOST_SUMS = 20_000  # forces of so many sums are held at once
CLOSE = 1e-9  # so near to a ratio of 1 a section is checked by itself, since arrays may round otherwise
# What the columns know of a question; anything else that is asked is checked one section at a time.
KNOWN = {
    "line", "loads", "section", "pattern", "self_weight", "bracing", "bottom_bracing", "repetitive", "wet",
    "deflection", "bearing", "support", "treated",
}  # fmt: skip
_UNKNOWN = tuple(
    (each.name, each.default_factory() if each.default_factory is not MISSING else each.default)
    for each in fields(BeamQuestion)
    if each.name not in KNOWN
)


def search_beams(question: BeamQuestion, search: Search, editions: Editions) -> SearchResult:
    """Try every stock section with its own self weight.

    Raises what `check_beam` raises for the question itself; a section that is out of scope by its own
    doing, such as being too slender, stays among the candidates with the reason.
    """
    if editions.code != "us" or not _known(question):
        sections = stock_sections(search)
        every = np.full(len(sections), -1, dtype=np.intp)
        answers = _alone(question, list(enumerate(sections)), editions)
        return SearchResult(question, editions, sections, (), np.empty(0), every, answers)
    stock = prepared(search, Service(question.repetitive, question.wet, question.treated))
    place = np.full(len(stock.sections), -1, dtype=np.intp)
    columns: tuple[Column, ...] = ()
    alone = list(stock.alone)
    ratios = np.empty(0)
    if stock.columns is not None:
        columns, refused = _together(question, stock.columns, editions)
        ratios = np.maximum.reduce([column.ratio for column in columns])
        ratios[refused] = np.nan
        place[stock.together] = np.arange(len(ratios))
        near = np.flatnonzero(np.abs(ratios - 1.0) < CLOSE)
        place[stock.together[near]] = -1
        alone += stock.together[near].tolist()
    answers = _alone(question, [(n, stock.sections[n]) for n in sorted(alone)], editions)
    return SearchResult(question, editions, stock.sections, columns, ratios, place, answers)


def _known(question: BeamQuestion) -> bool:
    """Whether the columns answer everything that is asked."""
    return all(getattr(question, name) == default for name, default in _UNKNOWN)


def _together(
    question: BeamQuestion, columns: Columns, editions: Editions
) -> tuple[tuple[Column, ...], np.ndarray]:
    weights = columns.weights if question.self_weight else np.zeros(1)
    least, most = float(weights[0]), float(weights[-1])
    demands = prepare(question, (least, most), editions)
    shares = (weights - least) / (most - least) if most > least else np.zeros(1)
    weight = columns.weight if question.self_weight else np.zeros(len(columns.sections), dtype=np.intp)
    asked = Asked(demands, columns, shares, weight, editions)
    bent, refused = bending(asked)
    return (bent, shear(asked), *deflections(asked), *bearings(asked)), refused


def _alone(
    question: BeamQuestion, numbered: Sequence[tuple[int, Section]], editions: Editions
) -> dict[int, BeamResult | OutOfScope]:
    """Sections checked one at a time, by their number."""
    found: dict[int, BeamResult | OutOfScope] = {}
    for group in _groups(question, numbered):
        held = dict.fromkeys(each.weight for _, each in group) if question.self_weight else {0.0: None}
        weights = tuple(held)
        demands = prepare(question, weights, editions)
        for number, section in group:
            at = weights.index(section.weight) if question.self_weight else 0
            try:
                found[number] = evaluate(demands, at, section, editions)
            except OutOfScope as refusal:
                found[number] = refusal
    return found


def _groups(
    question: BeamQuestion, numbered: Sequence[tuple[int, Section]]
) -> Iterator[Sequence[tuple[int, Section]]]:
    """Sections, which come by weight, in groups whose forces fit into memory together."""
    patterns = 2 ** len(question.line.bays) if question.patterned else 1
    size = max(1, MOST_SUMS // (len(ASD) * patterns))
    for start in range(0, len(numbered), size):
        yield numbered[start : start + size]
