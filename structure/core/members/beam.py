"""A beam on its supports: one question, one answer, by the rules of what it is made of."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from structure.core.clauses import Editions
from structure.core.errors import InputError
from structure.core.materials.section import Section
from structure.core.members import ca_steel_beam, ca_wood_beam, flitch_beam, steel_beam, wood_beam
from structure.core.members.beam_demand import Demands, analyse_question, check_cantilever_uplift
from structure.core.members.beam_question import BeamQuestion, Bracing, Limits, Support, check_range
from structure.core.members.beam_result import BeamResult

__all__ = ["BeamQuestion", "BeamResult", "Bracing", "Limits", "Support", "check_beam", "evaluate", "prepare"]

Evaluate = Callable[[Demands, int, Section, Editions], BeamResult]
RULES: Mapping[tuple[str, str], Evaluate] = {
    ("us", "wood"): wood_beam.evaluate,
    ("us", "steel"): steel_beam.evaluate,
    ("us", "flitch"): flitch_beam.evaluate,
    ("ca", "wood"): ca_wood_beam.evaluate,
    ("ca", "steel"): ca_steel_beam.evaluate,
}


def prepare(question: BeamQuestion, weights: tuple[float, ...], editions: Editions) -> Demands:
    """Forces for every self weight whatever the sections are made of.

    Raises OutOfScope for spans or loads outside what is covered, InputError for no load.
    """
    check_range(question, editions)
    demands = analyse_question(question, weights, editions.code)
    check_cantilever_uplift(demands, editions)
    return demands


def evaluate(demands: Demands, weight: int, section: Section, editions: Editions) -> BeamResult:
    """Check one section against forces already known; `weight` is the number of its self weight.

    Raises OutOfScope for what the rules of its material do not cover.
    """
    return RULES[editions.code, section.material](demands, weight, section, editions)


def check_beam(question: BeamQuestion, editions: Editions) -> BeamResult:
    """A beam of one section under every stress combination and pattern.

    Raises InputError for no section or no load, OutOfScope for what the rules held do not cover.
    """
    section = question.section
    if section is None:
        raise InputError("section", None, "a section to check, or a search")
    weight = section.weight if question.self_weight else 0.0
    return evaluate(prepare(question, (weight,), editions), 0, section, editions)
