"""A steel beam under the National Building Code of Canada: CSA S16:19 limit states, every check a force or moment."""

from __future__ import annotations

from structure.core.clauses import Clause, Editions
from structure.core.codes.ca import steel
from structure.core.errors import OutOfScope
from structure.core.materials.ca_steel import CaSteelSection
from structure.core.materials.section import Section
from structure.core.members.beam_demand import Demands
from structure.core.members.beam_result import BeamResult, common_remarks, with_worst
from structure.core.members.ca_steel_service import CaSteelBending, bearings, bending, shear
from structure.core.members.ca_steel_strength import CaStrength, strength
from structure.core.members.steel_beam import carried, not_for_steel
from structure.core.members.steel_demand import deflections
from structure.core.members.steel_plate import plate_remark
from structure.core.units import in_words, quantity

COPES = Clause("CSA S16", "13.11")


def evaluate(demands: Demands, weight: int, section: Section, editions: Editions) -> BeamResult:
    """Check one steel section against forces already known; `weight` is the number of its self weight.

    Raises OutOfScope for a class 4 section, a web that needs stiffeners over a bearing, a round tube with a
    bearing length and for a notch.
    """
    assert isinstance(section, CaSteelSection)  # noqa: S101 - the table of rules sends only steel here
    question = demands.question
    if question.notch is not None:
        raise OutOfScope(COPES.at(editions), "a steel beam that is notched or coped is the engineer's")
    held = strength(section, editions)
    bent = bending(demands, weight, held, editions)
    on, plates = bearings(demands, weight, section, editions)
    checks = [bent.check, shear(demands, weight, section, editions)]
    checks += deflections(demands, weight, section, editions)
    L_u = held.supported_length(editions)
    lateral = {} if L_u is None else {"L_u": quantity(L_u.result, "length", "ca")}
    return BeamResult(
        question=question,
        section=section,
        demands=demands,
        weight=weight,
        checks=with_worst(checks, on),
        supports=on,
        factors={"omega2": bent.omega_2, "phi": steel.PHI},
        adjusted={"Fy": held.F_y, "E": held.E},
        remarks=(
            *common_remarks(demands, weight, section),
            *_remarks(demands, held, bent, None if L_u is None else L_u.result),
            *(f"Support {int(n) + 1} from the left: {plate.told}" for n, plate in plates.items()),
        ),
        more={
            "section_class": held.kind,
            "local_buckling": {part.name: part.as_data() for part in held.parts},
            "plates": {n: plate.as_data() for n, plate in plates.items()},
            **lateral,
        },
    )


def _remarks(demands: Demands, held: CaStrength, bent: CaSteelBending, L_u: float | None) -> list[str]:
    question, section = demands.question, held.section
    form = section.rolled.form
    found = [carried(section.weight * question.line.length, section)]
    kinds = ", ".join(f"{part.name} class {part.kind}" for part in held.parts)
    found.append(f"Section class by CSA S16 table 2: {kinds}.")
    if L_u is not None:
        found.append(
            f"Held sideways at least every {in_words(L_u, 'length', 'ca')} (L_u) it loses nothing to buckling "
            "sideways (CSA S16 13.6)."
        )
    if bent.L > 0 and L_u is not None and not question.top_loaded:
        found.append(
            "What stands on the top flange without holding it sideways or from turning makes it worse: say "
            "`top_loaded` then (CSA S16 13.6)."
        )
    if form in ("W", "C"):
        found.append("The ends must be held against rolling over (CSA S16 13.6 and 9.2).")
    if form == "C":
        found.append("A channel twists under a load on its flange: it must be held where it is loaded.")
    if question.bearings is None:
        found.append("The web over the bearings was not checked: give the bearing length (CSA S16 14.3.2).")
    if question.support is not None:
        found.append(plate_remark("ca"))
    return found + not_for_steel(question)
