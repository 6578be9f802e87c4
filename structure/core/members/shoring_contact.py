"""Timbers of a shoring wall crushed across the grain where they cross, by code."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from structure.core.clauses import Editions
from structure.core.codes.combination import LETTERS
from structure.core.materials.section import Section
from structure.core.members.bearing import BearingQuestion, bearing_check
from structure.core.members.ca_bearing import CaBearingQuestion, factored_sums
from structure.core.members.ca_bearing import bearing_check as ca_bearing_check
from structure.core.trace import Check

Reaction = tuple[Mapping[str, float], Mapping[str, str]]


def softness(section: Section) -> float:
    """What a section carries across the grain before any factor: F_c_perp [psi], f_cp [MPa]."""
    return section.reference.value("Fc_perp" if section.code == "us" else "fcp")


def heaviest(reactions: Sequence[Reaction]) -> tuple[float, str]:
    """The heaviest load, everything at once, and what it is made of."""
    loads = max((loads for loads, _ in reactions), key=lambda loads: sum(loads.values()))
    names = next(names for held, names in reactions if held is loads)
    combination = "+".join(LETTERS[case] for case in LETTERS if loads.get(case, 0.0) > 0)
    return sum(loads.values()), names.get(combination, combination)


def crushed(
    name: str,
    section: Section,
    width: float,
    length: float,
    reactions: Sequence[Reaction],
    editions: Editions,
) -> Check:
    """One contact area at the end of a member, so without a length factor, under the worst of the reactions.

    Stress design takes everything at once (NDS 3.10.2); limit states take every factored sum (CSA O86 6.5.6.2).
    """
    soft = softness(section)
    if editions.code == "us":
        load, combination = heaviest(reactions)
        question = BearingQuestion(
            F_c_perp=soft, width=width, length=length, loads={}, material=section.label
        )
        return bearing_check(name, load, combination, question, editions)[0]
    contact = CaBearingQuestion(fcp=soft, width=width, length=length, loads={}, material=section.label)
    tries = [
        ca_bearing_check(name, each, contact, editions)[0]
        for loads, _ in reactions
        for each in factored_sums(loads, editions)
    ]
    return max(tries, key=lambda check: check.ratio)
