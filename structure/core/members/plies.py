"""Fasteners and built-up beams by code."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from structure.core.clauses import Clause, Editions
from structure.core.errors import InputError, OutOfScope
from structure.core.materials.section import Section
from structure.core.materials.species import specific_gravity
from structure.core.members import ca_fastener, ca_ply_fastening, fastener, ply_fastening
from structure.core.members.fastener import Fastener
from structure.core.members.ply_question import PlyQuestion, PlyResult

ONE_PIECE = Clause("statics", "one piece needs no ply fastening")
NAIL_NAMES: Mapping[str, tuple[str, ...]] = {
    "us": fastener.nail_names(),
    "ca": ca_fastener.nail_names(),
}


def make_fastener(read: Mapping[str, Any], editions: Editions) -> Fastener:
    """From the typed record of a `fastener` field. Raises InputError for one that cannot be meant."""
    made = fastener.make_fastener if editions.code == "us" else ca_fastener.make_fastener
    return made(read, editions)


def fasten_plies(question: PlyQuestion, editions: Editions) -> PlyResult:
    """How the plies of a beam are held together, by the rules of the code.

    Raises InputError for what does not fit, OutOfScope for steel.
    """
    if editions.code == "us":
        return ply_fastening.fasten_plies(question, editions)
    if question.section.material != "wood":
        raise OutOfScope(
            ONE_PIECE.at(editions),
            f"{question.section.label}: plies of wood only; steel and flitch beams have their own",
        )
    if question.length <= 0:
        raise InputError("length", f"{question.length:g}", "more than zero")
    return ca_ply_fastening.fasten_plies(question, editions)


def gravity_of(section: Section, editions: Editions) -> tuple[float | None, str]:
    """Specific gravity or relative density of sawn plies by their species, and where it is from; else None."""
    species = getattr(section, "species", None)
    if section.family != "sawn" or not species:
        return None, ""
    if editions.code == "us":
        return specific_gravity(species), f"{species}, NDS table 12.3.3A"
    return ca_fastener.relative_density(species), f"{species}, CSA O86 relative density"
