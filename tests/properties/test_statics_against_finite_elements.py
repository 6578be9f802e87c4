"""A thousand random beams solved by a general finite element library, which shares no code with ours.

Its moments, shears and reactions are exact at nodes; its deflection extreme is the best of 100 samples a
span, so it may fall short of the true one, but not by 0.1 %, and it may never lie beyond ours.
"""

from __future__ import annotations

import random
import warnings
from typing import Any

import numpy as np
import pytest

from structure.core.statics import BeamLine, Load, analyse

pytestmark = pytest.mark.slow
E, IZ = 1.6e6, 300.0
BEAMS, BATCH = 1000, 50
CLOSE = 1e-3
SHARES = (0.137, 0.419, 0.731, 0.953)
COMBO = "Combo 1"


def _beam(seed: int) -> tuple[BeamLine, list[Load]]:
    """1 to 4 spans by turns, with and without overhangs; every shape of load, some of it upwards."""
    draw = random.Random(seed)
    spans = tuple(draw.uniform(60, 240) for _ in range(1 + seed % 4))
    line = BeamLine(spans, draw.choice([0.0, draw.uniform(10, 60)]), draw.choice([0.0, draw.uniform(10, 60)]))
    loads = []
    if draw.random() < 0.7:
        loads.append(Load.uniform("dead", draw.uniform(5, 60), 0.0, line.length))
    for _ in range(draw.randint(1, 4)):
        start, end = sorted((draw.uniform(0, line.length), draw.uniform(0, line.length)))
        first = draw.uniform(-20, 80)
        match draw.choice(["partial", "trapezoid", "triangle", "point"]):
            case "partial":
                loads.append(Load.uniform("live", first, start, end))
            case "trapezoid":
                loads.append(Load.trapezoid("live", first, draw.uniform(0, 80), start, end))
            case "triangle":
                loads.append(Load.trapezoid("snow", 0.0, draw.uniform(5, 80), start, end))
            case "point":
                loads.append(Load.point("live", draw.uniform(-2000, 6000), start))
    return line, loads


def _finite_elements(line: BeamLine, loads: list[Load]) -> Any:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        from Pynite import FEModel3D

        model = FEModel3D()
        model.add_material("wood", E, E / 2.6, 0.3, 0.0)
        model.add_section("beam", 10.0, IZ, IZ, IZ)
        places = sorted({0.0, *line.supports, line.length})
        for n, place in enumerate(places):
            model.add_node(f"N{n}", place, 0, 0)
        model.add_member("beam", "N0", f"N{len(places) - 1}", "wood", "beam")
        for n, place in enumerate(places):
            held = place in line.supports
            model.def_support(f"N{n}", place == line.supports[0], held, True, True, False, False)
        for load in loads:
            if load.shape == "point":
                model.add_member_pt_load("beam", "Fy", -load.value, load.start)
                continue
            # Cut at the supports: release 3.2 of the library loses part of a varying load that runs over
            # several of them, as the sum of its reactions shows.
            for part in filter(None, (load.clipped(bay.start, bay.end) for bay in line.bays)):
                model.add_member_dist_load("beam", "Fy", -part.value, -part.end_value, part.start, part.end)
        model.analyze_linear(check_statics=False)
    return model


def _apart(name: str, ours: Any, theirs: Any, scale: float) -> str:
    """What is apart by more than 0.1 % of the value (or 1e-6 of the scale), in words."""
    if np.allclose(theirs, ours, rtol=CLOSE, atol=1e-6 * scale):
        return ""
    return f"{name}: ours {ours}, theirs {theirs}"


def _faults(seed: int) -> list[str]:
    line, loads = _beam(seed)
    ours = analyse(line, loads)
    model = _finite_elements(line, loads)
    member = model.members["beam"]
    force = sum(abs(load.total) for load in loads)

    reactions = np.asarray(ours.reactions)
    theirs = [node.RxnFY[COMBO] for node in model.nodes.values() if node.X in line.supports]
    found = [_apart("reactions", reactions, theirs, force)]
    down = sum(load.total for load in loads)
    if abs(reactions.sum() - down) > 1e-9 * force:
        found.append(f"reactions add up to {reactions.sum()}, loads to {down}")

    moment, shear, sunk = ours.moment_extremes(), ours.shear_extremes(), ours.deflection_extremes()
    size = float(abs(moment.largest))
    # The library counts hogging as positive.
    bent = [-member.max_moment("Mz", COMBO), -member.min_moment("Mz", COMBO)]
    found.append(_apart("moments", [moment.min, moment.max], bent, size))
    cut = [member.min_shear("Fy", COMBO), member.max_shear("Fy", COMBO)]
    found.append(_apart("shears", [shear.min, shear.max], cut, force))

    down_most, up_most = float(sunk.max) / (E * IZ), float(sunk.min) / (E * IZ)
    size = max(abs(down_most), abs(up_most))
    sampled = [-member.min_deflection("dy", COMBO), -member.max_deflection("dy", COMBO)]
    if sampled[0] > down_most + 1e-9 * size or sampled[1] < up_most - 1e-9 * size:
        found.append(f"a sampled deflection lies beyond ours: {sampled} against {down_most}, {up_most}")
    largest = max(sampled, key=abs)
    found.append(_apart("largest deflection", size, abs(largest), 0.0))
    # Where we say that the extremes are, and at four places more, the library finds the same deflection.
    places = [float(sunk.at_max), float(sunk.at_min), *(share * line.length for share in SHARES)]
    theirs = [-member.deflection("dy", x, COMBO) for x in places]
    here = [float(ours.deflection(x)) / (E * IZ) for x in places]
    found.append(_apart("deflections", here, theirs, size))
    found.append(_apart("extremes at their places", [down_most, up_most], here[:2], 0.0))
    return [f"seed {seed}: {fault}" for fault in found if fault]


@pytest.mark.parametrize("first", range(0, BEAMS, BATCH))
def test_random_beams_agree(first: int) -> None:
    faults = [fault for seed in range(first, first + BATCH) for fault in _faults(seed)]
    assert not faults, "\n".join(faults)
