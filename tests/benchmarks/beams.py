"""One beam under nine sums, by this engine and by two libraries from the registry.

Each way builds the beam, solves it, and gives the least and largest moment, shear and deflection and every
reaction of all nine sums: arrays (sums, 2) and (sums, supports).
"""

from __future__ import annotations

import warnings
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from structure.core.statics.envelope import analyse_cases
from structure.core.statics.model import BeamLine, Load

Array = npt.NDArray[np.float64]
E, INERTIA = 1.6e6, 1000.0


@dataclass(frozen=True)
class Beam:
    """Loads by case and the sums of them; a live load by bay is a case of its own for each bay."""

    line: BeamLine
    loads: tuple[Load, ...]
    sums: tuple[Mapping[str, float], ...]


@dataclass(frozen=True)
class Answer:
    moment: Array
    shear: Array
    deflection: Array
    reactions: Array


SIMPLE = Beam(
    BeamLine((236.0,)),
    (
        Load.uniform("dead", 46.0, 0.0, 236.0),
        Load.uniform("live", 66.0, 0.0, 236.0),
        Load.uniform("roof_live", 12.0, 0.0, 236.0),
        Load.point("snow", 1200.0, 80.0),
        Load.point("live", 1500.0, 140.0),
    ),
    (
        {"dead": 1.0},
        {"dead": 1.0, "live": 1.0},
        {"dead": 1.0, "roof_live": 1.0},
        {"dead": 1.0, "snow": 1.0},
        {"dead": 1.0, "live": 0.75, "roof_live": 0.75},
        {"dead": 1.0, "live": 0.75, "snow": 0.75},
        {"live": 1.0},
        {"dead": 1.5, "live": 1.0},
        {"dead": 0.6, "snow": 1.0},
    ),
)
TWO_SPANS = Beam(
    BeamLine((165.0, 212.0)),
    (
        Load.uniform("dead", 46.0, 0.0, 377.0),
        Load.uniform("live 1", 66.0, 0.0, 165.0),
        Load.uniform("live 2", 66.0, 165.0, 377.0),
        Load.uniform("snow", 20.0, 40.0, 260.0),
        Load.point("snow", 1200.0, 80.0),
        Load.point("live 2", 1500.0, 300.0),
    ),
    (
        {"dead": 1.0},
        {"dead": 1.0, "live 1": 1.0, "live 2": 1.0},
        {"dead": 1.0, "live 1": 1.0},
        {"dead": 1.0, "live 2": 1.0},
        {"dead": 1.0, "snow": 1.0},
        {"dead": 1.0, "live 1": 0.75, "live 2": 0.75, "snow": 0.75},
        {"dead": 1.0, "live 1": 0.75, "snow": 0.75},
        {"dead": 1.0, "live 2": 0.75, "snow": 0.75},
        {"live 1": 1.0, "live 2": 1.0},
    ),
)
BEAMS = {"simple span": SIMPLE, "two spans, live load by bay": TWO_SPANS}


def here(beam: Beam, stiffness: float = E * INERTIA) -> Answer:
    """By `structure.core.statics`; every place of the loads is copied, so that nothing is kept between runs."""
    line = BeamLine(beam.line.spans, beam.line.overhang_left, beam.line.overhang_right)
    loads = [Load(x.case, x.shape, x.value, x.start, x.end, x.end_value) for x in beam.loads]
    envelope = analyse_cases(line, loads).envelope(beam.sums)
    M, V, y = envelope.moment, envelope.shear, envelope.deflection
    return Answer(
        np.stack((M.min, M.max), axis=1),
        np.stack((V.min, V.max), axis=1),
        np.stack((y.min, y.max), axis=1) / stiffness,
        envelope.response.reactions,
    )


def by_pynite(beam: Beam, *, tuned: bool, stiffness: float = E * INERTIA) -> Answer:
    """By PyNiteFEA: as its examples do it, or tuned (linear, dense, without its checks)."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        from Pynite import FEModel3D

        line, model = beam.line, FEModel3D()
        model.add_material("wood", stiffness / INERTIA, stiffness / INERTIA / 2.6, 0.3, 0.0)
        model.add_section("beam", 10.0, INERTIA, INERTIA, INERTIA)
        places = sorted({0.0, *line.supports, line.length})
        for n, place in enumerate(places):
            model.add_node(f"N{n}", place, 0, 0)
            held = place in line.supports
            model.def_support(
                f"N{n}", place == line.supports[0], held, held, place == line.supports[0], False, False
            )
        model.add_member("beam", "N0", f"N{len(places) - 1}", "wood", "beam")
        for load in beam.loads:
            if load.shape == "point":
                model.add_member_pt_load("beam", "Fy", -load.value, load.start, case=load.case)
            else:
                model.add_member_dist_load(
                    "beam", "Fy", -load.value, -load.end_value, load.start, load.end, case=load.case
                )
        for n, factors in enumerate(beam.sums):
            model.add_load_combo(f"S{n}", dict(factors))
        if tuned:
            model.analyze_linear(check_statics=False, check_stability=False, sparse=False)
        else:
            model.analyze()
        member, sums = model.members["beam"], [f"S{n}" for n in range(len(beam.sums))]
        nodes = [model.nodes[f"N{n}"] for n, place in enumerate(places) if place in line.supports]
        # The library counts sagging and what hangs down the other way round.
        return Answer(
            np.sort([[-member.max_moment("Mz", s), -member.min_moment("Mz", s)] for s in sums], axis=1),
            np.sort([[member.min_shear("Fy", s), member.max_shear("Fy", s)] for s in sums], axis=1),
            np.array([[-member.max_deflection("dy", s), -member.min_deflection("dy", s)] for s in sums]),
            np.array([[node.RxnFY[s] for node in nodes] for s in sums]),
        )


def by_anastruct(beam: Beam, stiffness: float = E * INERTIA) -> Answer:
    """By anastruct with the mesh that it takes by itself: a system for each sum, nodes at loads and supports."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        return _anastruct(beam, stiffness)


def _anastruct(beam: Beam, stiffness: float) -> Answer:
    from anastruct import SystemElements

    line, moment, shear, deflection, reactions = beam.line, [], [], [], []
    places = sorted(
        {0.0, line.length, *line.supports, *(end for load in beam.loads for end in (load.start, load.end))}
    )
    for factors in beam.sums:
        system = SystemElements(EI=stiffness, EA=1e9)
        for start, end in pairwise(places):
            system.add_element([[start, 0.0], [end, 0.0]])
        for n, place in enumerate(line.supports):
            node = places.index(place) + 1
            (system.add_support_roll if n else system.add_support_hinged)(node)
        for number, (start, end) in enumerate(pairwise(places), start=1):
            # A second load on an element would replace the first one, so they are added up before.
            w = sum(
                factors.get(load.case, 0.0) * load.value
                for load in beam.loads
                if load.shape == "uniform" and load.start <= start and load.end >= end
            )
            if w:
                system.q_load(q=-w, element_id=number)
        for node, place in enumerate(places, start=1):
            P = sum(
                factors.get(load.case, 0.0) * load.value
                for load in beam.loads
                if load.shape == "point" and load.start == place
            )
            if P:
                system.point_load(node, Fy=-P)
        system.solve()
        found = system.get_element_results(element_id=0, verbose=False)
        moment.append((-max(r["Mmax"] for r in found), -min(r["Mmin"] for r in found)))
        shear.append((-max(r["Qmax"] for r in found), -min(r["Qmin"] for r in found)))
        sunk = [r[key] for r in found for key in ("wtotmin", "wtotmax")]
        deflection.append((min(sunk), max(sunk)))
        reactions.append([-system.reaction_forces[places.index(p) + 1].Fy for p in line.supports])
    return Answer(*(np.array(each, dtype=float) for each in (moment, shear, deflection, reactions)))
