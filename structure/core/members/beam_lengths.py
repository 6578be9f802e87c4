"""How far apart the points of zero moment are around the largest moment of a bay. NDS 5.3.6."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from structure.core.members.beam_demand import Demands

Array = npt.NDArray[np.float64]


def zero_moment_lengths(demands: Demands) -> Array:
    """By edge (sagging, hogging), row and bay [in]; worked out once for all sections of a question.

    A hogging stretch runs over its support into the next bay. Where a bay has no such moment its own
    length stands.
    """
    if "zero moment lengths" not in demands.memo:
        demands.memo["zero moment lengths"] = _lengths(demands)
    held: Array = demands.memo["zero moment lengths"]
    return held


def _lengths(demands: Demands) -> Array:
    line = demands.question.line
    places, real = demands.moment_zeros
    slack = 1e-9 * line.length
    lengths = np.empty((2, len(places), len(line.bays)))
    for n, bay in enumerate(line.bays):
        extremes = demands.moments[n]
        for edge, at in enumerate((extremes.at_max, extremes.at_min)):
            here = np.asarray(at)[:, None]
            before = np.where(real & (places < here - slack), places, 0.0).max(axis=-1)
            after = np.where(real & (places > here + slack), places, line.length).min(axis=-1)
            bent = extremes.max > 0 if edge == 0 else extremes.min < 0
            lengths[edge, :, n] = np.where(bent, after - before, bay.length)
    return lengths
