"""Every stock size tried for one beam; each load case is analysed once.

Wood is checked all at once. What cannot be, another material or a question whose rules look at each
section by itself, is checked one section at a time on forces that all of them share.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import MISSING, fields, replace

import numpy as np

from structure.core.catalogue.bent import bending
from structure.core.catalogue.ca_columns import CaColumns, ca_prepared
from structure.core.catalogue.ca_together import CaAsked, all_checks
from structure.core.catalogue.columns import Columns, Service, prepared
from structure.core.catalogue.result import Column, SearchResult
from structure.core.catalogue.stock import stock_sections
from structure.core.catalogue.together import Asked, bearings, deflections, shear
from structure.core.catalogue.wanted import Search
from structure.core.clauses import Editions
from structure.core.codes.ca import wood_beams as o86
from structure.core.codes.us import wood_beams as nds
from structure.core.codes.us.combinations import ASD
from structure.core.errors import OutOfScope
from structure.core.materials.section import Section
from structure.core.members.beam import BeamQuestion, BeamResult, evaluate, prepare
from structure.core.members.beam_demand import Demands

MOST_SUMS = 20_000  # forces of so many sums are held at once
CLOSE = 1e-9  # so near to a ratio of 1 a section is checked by itself, since arrays may round otherwise
# What the columns know of a question; anything else that is asked is checked one section at a time.
KNOWN = {
    "line", "loads", "section", "pattern", "self_weight", "bracing", "bottom_bracing", "repetitive", "wet",
    "deflection", "bearing", "support", "shear_at", "treated",
}  # fmt: skip
_UNKNOWN = tuple(
    (each.name, each.default_factory() if each.default_factory is not MISSING else each.default)
    for each in fields(BeamQuestion)
    if each.name not in KNOWN
)


def search_beams(question: BeamQuestion, search: Search, editions: Editions) -> SearchResult:
    """Try every stock section with its own self weight.

    Raises what `check_beam` raises for the question with any section; one that is out of scope by its own
    doing, such as being too slender, stays among the candidates with the reason.
    """
    if not _known(question):
        sections = stock_sections(search)
        every = np.full(len(sections), -1, dtype=np.intp)
        answers = _alone(question, list(enumerate(sections)), editions)
        return SearchResult(question, editions, sections, (), np.empty(0), np.empty(0), every, answers)
    service = Service(question.repetitive, question.wet, question.treated)
    stock = (ca_prepared if editions.code == "ca" else prepared)(search, service)
    place = np.full(len(stock.sections), -1, dtype=np.intp)
    columns: tuple[Column, ...] = ()
    alone = list(stock.alone)
    ratios = np.empty(0)
    slender = np.empty(0)
    if stock.columns is not None:
        try:
            columns, slender = _together(question, stock.columns, editions)
        except OutOfScope:
            # Perhaps for the lightest one only, such as a beam that does not stay down by itself.
            columns = ()
        if not columns:
            alone = list(range(len(stock.sections)))
    if columns:
        ratios = np.maximum.reduce([column.ratio for column in columns])
        place[stock.together] = np.arange(len(ratios))
        apart = np.abs(ratios - 1.0) < CLOSE
        if editions.code == "us":
            ratios[slender > nds.MOST_SLENDER] = np.nan
        else:
            apart |= slender > o86.MOST_SLENDER
        place[stock.together[apart]] = -1
        alone += stock.together[apart].tolist()
    answers = _alone(question, [(n, stock.sections[n]) for n in sorted(alone)], editions)
    return SearchResult(question, editions, stock.sections, columns, ratios, slender, place, answers)


def _known(question: BeamQuestion) -> bool:
    """Whether the columns answer everything that is asked."""
    return all(getattr(question, name) == default for name, default in _UNKNOWN)


def _together(
    question: BeamQuestion, columns: Columns | CaColumns, editions: Editions
) -> tuple[tuple[Column, ...], np.ndarray]:
    """Every check of every section in the columns, and how slender each is; no check where all stand alone."""
    weights = columns.weights if question.self_weight else np.zeros(1)
    least, most = float(weights[0]), float(weights[-1])
    demands = prepare(question, (least, most), editions)
    shares = (weights - least) / (most - least) if most > least else np.zeros(1)
    weight = columns.weight if question.self_weight else np.zeros(len(columns.sections), dtype=np.intp)
    if isinstance(columns, CaColumns):
        return all_checks(CaAsked(demands, columns, shares, weight, editions))
    asked = Asked(demands, columns, shares, weight, editions)
    bent, slender = bending(asked)
    return (bent, shear(asked), *deflections(asked), *bearings(asked)), slender


def _alone(
    question: BeamQuestion, numbered: Sequence[tuple[int, Section]], editions: Editions
) -> dict[int, BeamResult | OutOfScope]:
    """Sections checked one at a time, by their number. Raises what refuses the question with every one of them."""
    found: dict[int, BeamResult | OutOfScope] = {}
    refused, stood = None, False
    for group in _groups(question, numbered):
        # What is covered depends on the material, which a question without a section does not tell.
        asked = replace(question, section=group[0][1])
        weights = tuple(dict.fromkeys(each.weight if question.self_weight else 0.0 for _, each in group))
        shared = _forces(asked, weights, editions)
        for number, section in group:
            own = section.weight if question.self_weight else 0.0
            # Where they are refused together, one of the weights may be the reason.
            demands = _forces(asked, (own,), editions) if isinstance(shared, OutOfScope) else shared
            if isinstance(demands, OutOfScope):
                found[number] = refused = demands
                continue
            stood = True
            try:
                found[number] = evaluate(demands, demands.weights.index(own), section, editions)
            except OutOfScope as refusal:
                found[number] = refusal
    if refused is not None and not stood:
        raise refused
    return found


def _forces(question: BeamQuestion, weights: tuple[float, ...], editions: Editions) -> Demands | OutOfScope:
    try:
        return prepare(question, weights, editions)
    except OutOfScope as refusal:
        return refusal


def _groups(
    question: BeamQuestion, numbered: Sequence[tuple[int, Section]]
) -> Iterator[Sequence[tuple[int, Section]]]:
    """Sections of one material, which come by weight, in groups whose forces fit into memory together."""
    patterns = 2 ** len(question.line.bays) if question.patterned else 1
    size = max(1, MOST_SUMS // (len(ASD) * patterns))
    materials: dict[str, list[tuple[int, Section]]] = {}
    for each in numbered:
        materials.setdefault(each[1].material, []).append(each)
    for held in materials.values():
        for start in range(0, len(held), size):
            yield held[start : start + size]
