"""Plain floats and arrays answer alike, and no deflection extreme falls short of a sampling."""

from __future__ import annotations

import random

import numpy as np
import pytest

from structure.core.statics import BeamLine, Extremes, Load, response
from structure.core.statics.envelope import Envelope, analyse_cases

CASES = ("dead", "live", "snow", "roof_live")
SUMS: tuple[dict[str, float], ...] = (
    {"dead": 1.0},
    {"dead": 1.0, "live": 1.0},
    {"dead": 1.0, "roof_live": 1.0},
    {"dead": 1.0, "snow": 1.0},
    {"dead": 1.0, "live": 0.75, "roof_live": 0.75},
    {"dead": 1.0, "live": 0.75, "snow": 0.75},
    {"live": 1.0},
    {"dead": 1.5, "live": 1.0},
    {"dead": 0.6, "snow": 1.0},
)


def _beam(draw: random.Random) -> tuple[BeamLine, list[Load]]:
    """1 to 5 spans, half with overhangs; uniform, partial, sloping and point loads, some that pull up."""
    spans = tuple(draw.uniform(30, 300) for _ in range(draw.randint(1, 5)))
    ends = [draw.choice([0.0, draw.uniform(5, 90)]) for _ in range(2)]
    line = BeamLine(spans, *ends)
    loads = [Load.uniform("dead", draw.uniform(2, 60), 0.0, line.length)]
    for _ in range(draw.randint(1, 6)):
        case, up = draw.choice(CASES), draw.choice([1.0, 1.0, 1.0, -1.0])
        start, end = sorted(draw.uniform(0, line.length) for _ in range(2))
        kind = draw.randrange(4)
        if kind == 0:
            loads.append(Load.uniform(case, up * draw.uniform(5, 90), 0.0, line.length))
        elif kind == 1:
            loads.append(Load.uniform(case, up * draw.uniform(5, 90), start, end))
        elif kind == 2:
            loads.append(Load.trapezoid(case, up * draw.uniform(0, 90), up * draw.uniform(0, 90), start, end))
        else:
            loads.append(Load.point(case, up * draw.uniform(50, 6000), start))
    return line, loads


def _envelope(line: BeamLine, loads: list[Load]) -> Envelope:
    return analyse_cases(line, loads).envelope(SUMS)


def _sampled(envelope: Envelope, places: np.ndarray) -> np.ndarray:
    """Deflections (rows, places), summed up by Horner's rule of each place's own segment."""
    held = envelope.response
    segment = np.clip(np.searchsorted(held.breaks, places, side="right") - 1, 0, len(held.breaks) - 2)
    t = places - held.breaks[segment]
    coefficients = held.deflections[:, segment, :]
    values = coefficients[..., -1]
    for power in range(4, -1, -1):
        values = values * t + coefficients[..., power]
    return values


@pytest.mark.slow
def test_no_deflection_extreme_of_2000_beams_is_below_its_sampling() -> None:
    draw = random.Random(20261125)
    for _ in range(2000):
        line, loads = _beam(draw)
        envelope = _envelope(line, loads)
        values = _sampled(envelope, np.linspace(0.0, line.length, 401))
        found = envelope.deflection
        size = np.abs(values).max(axis=-1)
        assert np.all(found.max >= values.max(axis=-1) - 1e-12 * size)
        assert np.all(found.min <= values.min(axis=-1) + 1e-12 * size)
        # A sampling of 401 points over up to seven bays misses a turn by some parts in ten thousand.
        fine = np.unique(np.concatenate((envelope.response.breaks, np.linspace(0.0, line.length, 4001))))
        values = _sampled(envelope, fine)
        assert np.all(found.max <= values.max(axis=-1) + 1e-4 * size)
        assert np.all(found.min >= values.min(axis=-1) - 1e-4 * size)


def _apart(one: Extremes, other: Extremes, size: np.ndarray) -> float:
    return float(max((np.abs(one.max - other.max) / size).max(), (np.abs(one.min - other.min) / size).max()))


@pytest.mark.parametrize("seed", range(8))
def test_plain_floats_and_arrays_agree(seed: int, monkeypatch: pytest.MonkeyPatch) -> None:
    draw = random.Random(seed)
    for _ in range(25):
        line, loads = _beam(draw)
        found = []
        for few in (0, 10**9):
            monkeypatch.setattr(response, "FEW", few)
            envelope = _envelope(line, loads)
            held = envelope.response
            found.append(
                [
                    (held.moment_extremes(a, b), held.shear_extremes(a, b), held.deflection_extremes(a, b))
                    for a, b in ((None, None), *((bay.start, bay.end) for bay in line.bays))
                ]
            )
        for arrays, floats in zip(*found, strict=True):
            for n, (one, other) in enumerate(zip(arrays, floats, strict=True)):
                whole = found[0][0][n]
                size = np.maximum(np.abs(whole.max), np.abs(whole.min)) + 1e-300
                assert _apart(one, other, size) <= 1e-12
