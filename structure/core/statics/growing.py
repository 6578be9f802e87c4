"""Sums in which one load grows, such as the self weight from the lightest section to the heaviest.

Between the least and the largest every response is a straight line in that load, so its extremes are
convex: what lies below another sum at both ends and along the chord between them never governs. Only
the sums that can govern are looked at for every single weight, and those exactly.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt

from structure.core.statics.model import Bay
from structure.core.statics.response import Extremes, Response

Array = npt.NDArray[np.float64]
Whole = npt.NDArray[np.intp]
EVEN = 1e-13  # a chord no further over the best is as good as it
AT_ONCE = 400_000  # segments held at once while extremes are found


@dataclass(frozen=True, eq=False)
class Growing:
    """Rows at the least and at the largest load, and the loads between as shares (0 to 1) of the way."""

    low: Response
    high: Response
    shares: Array

    @cached_property
    def _parts(self) -> dict[Bay, tuple[Response, Array]]:
        found = {}
        for bay in self.low.line.bays:
            part = self.low.between(bay.start, bay.end)
            found[bay] = part, self.high.between(bay.start, bay.end).packed - part.packed
        return found

    def response(self, rows: Whole) -> Response:
        """The chosen rows at every share, (rows, shares), along the whole beam."""
        grown = (self.high.packed[rows] - self.low.packed[rows])[:, None, :] * self.shares[:, None]
        return Response(self.low.line, self.low.breaks, self.low.packed[rows][:, None, :] + grown)

    def extremes(self, rows: Whole, bay: Bay, find: Callable[[Response, float, float], Extremes]) -> Extremes:
        """Extremes of the chosen rows in one bay at every share, (rows, shares)."""
        part, grown = self._parts[bay]
        step = max(1, AT_ONCE // (len(self.shares) * (len(part.breaks) - 1)))
        found = [
            find(
                Response(
                    part.line,
                    part.breaks,
                    part.packed[some][:, None, :] + grown[some][:, None, :] * self.shares[:, None],
                ),
                bay.start,
                bay.end,
            )
            for some in (rows[n : n + step] for n in range(0, len(rows), step))
        ]
        if len(found) == 1:
            return found[0]
        return Extremes(
            *(
                np.concatenate([getattr(each, name) for each in found])
                for name in ("min", "at_min", "max", "at_max")
            )
        )


def governing(
    low: Array, high: Array, group: Whole, shares: Array, exact: Callable[[Whole], Array]
) -> tuple[Array, Whole]:
    """The largest entry of each group at every share, and which it is: (groups, shares) each.

    `low`, `high`: each entry at both ends; `group`: its group, numbered from 0 without a gap; `exact`: values
    (entries, shares) of the entries it is given. Entries are convex between the ends.
    """
    best_low, best_high = (_best(values, group) for values in (low, high))
    first = np.unique(np.concatenate((best_low, best_high)))
    values = exact(first)
    one, other = (values[np.searchsorted(first, best)] for best in (best_low, best_high))
    best = np.maximum(one, other)
    which = np.where(other > one, best_high[:, None], best_low[:, None])
    chord = low[:, None] + (high - low)[:, None] * shares
    left: npt.NDArray[np.bool_] = np.any(chord > best[group] + EVEN * np.abs(best[group]), axis=1)
    left[first] = False
    rest = np.flatnonzero(left)
    if rest.size:
        for entry, values in zip(rest.tolist(), exact(rest), strict=True):
            held = group[entry]
            which[held] = np.where(values > best[held], entry, which[held])
            best[held] = np.maximum(values, best[held])
    return best, which


def _best(values: Array, group: Whole) -> Whole:
    """The largest entry of each group, the first of equals."""
    order = np.lexsort((-values, group))
    starts = np.flatnonzero(np.diff(group[order], prepend=-1))
    found: Whole = order[starts]
    return found
