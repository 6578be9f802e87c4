"""Bolts of a flitch beam: what passes between wood and plates, by NDS chapter 12 in double shear."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from itertools import pairwise
from math import ceil
from typing import Any

import numpy as np

from structure.core.clauses import Editions
from structure.core.codes.us import fasteners as nds
from structure.core.codes.us import flitch as rules
from structure.core.codes.us.fasteners_value import (
    DowelValue,
    held_table,
    lateral_value,
    steel_holding,
    wood_holding,
)
from structure.core.errors import OutOfScope
from structure.core.materials.flitch import FlitchSection
from structure.core.materials.sawn import SawnSection
from structure.core.materials.species import specific_gravity
from structure.core.members.beam_demand import Demands
from structure.core.statics.model import Load
from structure.core.trace import Check, Step
from structure.core.units import quantity

ACROSS = 90.0  # degrees: the load crosses the grain of the plies


@dataclass(frozen=True, slots=True)
class BoltPlan:
    """Checks of bolts that were given, the numbers that are needed, and what to say of them."""

    checks: list[Check] = field(default_factory=list)
    data: Mapping[str, Any] = field(default_factory=dict)
    remarks: tuple[str, ...] = ()


def bolts_of(
    demands: Demands, weight: int, section: FlitchSection, share: float, editions: Editions
) -> BoltPlan:
    """The bolts that the plates need. Raises OutOfScope where the plies are too shallow for two rows."""
    gravity = section.gravity
    if gravity is None and isinstance(section.wood, SawnSection):
        gravity = specific_gravity(section.wood.species)
    if gravity is None:
        text = (
            "Bolts were not sized: give the specific gravity that the maker of the plies states for bolts "
            "(`gravity`)."
        )
        return BoltPlan(remarks=(text,))
    D, distances = section.bolts.diameter, held_table().content["distances"]["bolt"]
    edge = float(distances["edge"]) * D
    if section.depth < 2 * edge:
        raise OutOfScope(
            rules.DISTANCES.at(editions),
            f"bolts {D:g} in thick need {edge:g} in to each edge; the plies are {section.depth:g} in deep",
        )
    Z = _value(section, gravity, editions)
    along, at_supports, points = (
        _along(demands, weight, section, share, Z, editions),
        _supports(demands, weight, section, share, Z, editions),
        _points(demands, section, share, Z, editions),
    )
    spacing, checks = along
    most = max((count for count, _ in at_supports), default=0)
    if section.bolts.at_supports is not None:
        checks.append(max((check for _, check in at_supports), key=lambda check: check.ratio))
    data = {
        "diameter": quantity(D, "length"),
        "value": quantity(section.plates * Z.Z, "force"),
        "mode": Z.mode,
        "spacing": quantity(spacing, "length"),
        "at_supports": [count for count, _ in at_supports],
        "at_points": points,
        "edge_distance": quantity(edge, "length"),
        "end_distance": quantity(float(distances["end"]) * D, "length"),
        "steps": [step.as_data() for step in Z.steps],
    }
    remark = (
        f"Bolts {D:g} in, nuts and washers, in two staggered rows at most {spacing:.0f} in apart along the beam, "
        f"{edge:g} in or more from the edges; {most} at each support"
        + (", and as listed under each point load." if points else ".")
        + f" Distances: {distances['mark']}; F_yb: {held_table().content['bolt']['mark']}."
    )
    return BoltPlan(checks, data, (remark,))


def _value(section: FlitchSection, gravity: float, editions: Editions) -> DowelValue:
    """Z of one bolt at one plate, double shear, the steel in the middle. NDS table 12.3.1A.

    A ply between two plates serves both, so with several plates half a ply counts on each side: safe.
    """
    D = section.bolts.diameter
    length = section.wood.width / (1 if section.plates == 1 else 2)
    return lateral_value(
        diameter=D,
        F_yb=float(held_table().content["bolt"]["yield_psi"]),
        main=steel_holding(section.steel_value("Fu"), section.thickness, editions),
        side=wood_holding(gravity, D, length, ACROSS, editions),
        editions=editions,
        double=True,
        angle=ACROSS,
    )


def _adjusted(section: FlitchSection, Z: DowelValue, C_D: float, editions: Editions) -> Step:
    """One bolt through all plates."""
    return nds.adjusted_value.step(
        editions, note="through all plates", Z=section.plates * Z.Z, C_D=C_D, C_p=1.0, C_g=1.0
    )


def _along(
    demands: Demands, weight: int, section: FlitchSection, share: float, Z: DowelValue, editions: Editions
) -> tuple[float, list[Check]]:
    """The spacing that the spread loads need, and the checks of one that was given."""
    lines = _line_loads(demands, weight)
    found: list[tuple[float, str, Step, Step]] = []
    for combination, w in zip(demands.strength.combinations, lines, strict=True):
        value = _adjusted(section, Z, combination.C_D, editions)
        q = rules.line_transfer.step(editions, k_s=share, w=w)
        found.append((q.result / value.result, combination.name, value, q))
    worst, name, value, q = max(found, key=lambda each: each[0])
    spacing = rules.WIDEST_SPACING
    if worst > 0:
        spacing = min(spacing, rules.bolt_spacing.step(editions, Z=value.result, q_s=q.result).result)
    given = section.bolts.spacing
    if given is None:
        return spacing, []
    load = rules.bolt_load.step(editions, q_s=q.result, s=given)
    checks = [
        Check(
            "bolts", load.result, value.result, "force", name, nds.YIELD.at(editions),
            (*Z.steps, value, q, load), note=f"one bolt every {given:g} in",
        ),
        Check(
            "bolt_spacing", given, rules.WIDEST_SPACING, "length", name, rules.SPACING.at(editions),
            note="along the beam",
        ),
    ]  # fmt: skip
    return spacing, checks


def _line_loads(demands: Demands, weight: int) -> list[float]:
    """The largest spread load anywhere on the beam, by stress combination [lbf/in]."""
    question = demands.question
    spread = [load for load in question.loads if load.shape != "point"]
    cuts = sorted(
        {0.0, question.line.length, *(load.start for load in spread), *(load.end for load in spread)}
    )
    found = []
    for combination in demands.strength.combinations:
        factors = combination.factors
        own = demands.weights[weight] * factors.get("dead", 0.0) if question.self_weight else 0.0
        found.append(
            own
            + max(
                sum(factors.get(load.case, 0.0) * _at(load, place) for load in spread if _over(load, piece))
                for piece in pairwise(cuts)
                for place in piece
            )
        )
    return found


def _over(load: Load, piece: tuple[float, float]) -> bool:
    return load.start <= piece[0] and load.end >= piece[1]


def _at(load: Load, place: float) -> float:
    """The intensity of a spread load at a place within it."""
    return load.value + (load.end_value - load.value) * (place - load.start) / (load.end - load.start)


def _supports(
    demands: Demands, weight: int, section: FlitchSection, share: float, Z: DowelValue, editions: Editions
) -> list[tuple[int, Check]]:
    """Bolts that bring the plates' part of each reaction back into the wood: how many, and the check."""
    block = demands.strength
    reactions = block.response.reactions[block.rows(weight)]
    C_D = np.array([each.C_D for each in block.combinations])[block.combination_of]
    found = []
    for n in range(reactions.shape[1]):
        row = int((reactions[:, n] / C_D).argmax())
        value = _adjusted(section, Z, float(C_D[row]), editions)
        R = rules.end_transfer.step(editions, k_s=share, R=max(float(reactions[row, n]), 0.0))
        count = max(2, ceil(R.result / value.result - 1e-9))
        given = section.bolts.at_supports or count
        check = Check(
            "support_bolts",
            R.result,
            given * value.result,
            "force",
            block.names[int(block.combination_of[row])],
            nds.YIELD.at(editions),
            (*Z.steps, value, R),
            note=f"support {n + 1} from the left, {given} bolts",
        )
        found.append((count, check))
    return found


def _points(
    demands: Demands, section: FlitchSection, share: float, Z: DowelValue, editions: Editions
) -> list[dict[str, Any]]:
    """Bolts under each place with point loads: their worst sum, patterns left aside."""
    points = [load for load in demands.question.loads if load.shape == "point"]
    found = []
    for place in sorted({load.start for load in points}):
        need = 0
        for combination in demands.strength.combinations:
            factors = combination.factors
            P = sum(factors.get(load.case, 0.0) * load.value for load in points if load.start == place)
            value = _adjusted(section, Z, combination.C_D, editions)
            passed = rules.end_transfer.step(editions, k_s=share, R=P)
            need = max(need, ceil(passed.result / value.result - 1e-9))
        found.append({"at": quantity(place, "length"), "bolts": max(need, 1)})
    return found
