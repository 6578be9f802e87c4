"""Load cases analysed once, then combined: patterns of live load and envelopes over combinations."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import product

import numpy as np
import numpy.typing as npt

from structure.core.statics.model import BeamLine, Load
from structure.core.statics.response import Extremes, Response
from structure.core.statics.solve import analyse_sets

Array = npt.NDArray[np.float64]
PATTERNED = ("live",)


@dataclass(frozen=True, slots=True)
class Key:
    """One row of an analysis: a load case, and for a patterned one the bay that carries it."""

    case: str
    bay: int | None = None


@dataclass(frozen=True, slots=True)
class Row:
    """One row of an envelope: which set of factors, and which bays carry the patterned load.

    `bays` is None where nothing is patterned.
    """

    combination: int
    bays: tuple[int, ...] | None


@dataclass(frozen=True, eq=False)
class Analysis:
    """Every case on one beam analysed once; `response` has a row for each key."""

    line: BeamLine
    keys: tuple[Key, ...]
    response: Response

    @cached_property
    def cases(self) -> tuple[str, ...]:
        """Cases with a load that is not zero, in the order they were met."""
        return tuple(dict.fromkeys(key.case for key in self.keys))

    def case(self, name: str) -> Response:
        """One case everywhere; all zero if the case has no load."""
        return self.combine({name: 1.0})

    def combine(self, factors: Mapping[str, float]) -> Response:
        """One response with every case times its factor, on all bays."""
        return self.response.combined(np.array([factors.get(key.case, 0.0) for key in self.keys]))

    def envelope(self, sets: Sequence[Mapping[str, float]], *, empty_patterns: bool = False) -> Envelope:
        """Every set of factors, and for a patterned case every set of bays that may carry it.

        The set of no bays is formed only with `empty_patterns`: in a list of combinations it is already
        there as the combination without that load.
        """
        rows: list[Row] = []
        factors: list[list[float]] = []
        for number, held in enumerate(sets):
            for bays in self._patterns(held, empty_patterns):
                rows.append(Row(number, bays))
                factors.append(
                    [
                        held.get(key.case, 0.0) if bays is None or key.bay is None or key.bay in bays else 0.0
                        for key in self.keys
                    ]
                )
        matrix = np.array(factors).reshape(len(rows), len(self.keys))
        return Envelope(tuple(rows), matrix, self.response)

    def _patterns(self, factors: Mapping[str, float], empty: bool) -> list[tuple[int, ...] | None]:
        bays = sorted(
            {key.bay for key in self.keys if key.bay is not None and factors.get(key.case, 0.0) != 0.0}
        )
        if not bays:
            return [None]
        sets = [
            tuple(bay for bay, loaded in zip(bays, chosen, strict=True) if loaded)
            for chosen in product((True, False), repeat=len(bays))
        ]
        return [each for each in sets if each or empty]


@dataclass(frozen=True, eq=False)
class Envelope:
    """Responses of many sums of the analysed cases, a row each, and the row that governs each question."""

    rows: tuple[Row, ...]
    factors: Array
    cases: Response

    @cached_property
    def response(self) -> Response:
        return self.cases.combined(self.factors)

    @cached_property
    def moment(self) -> Extremes:
        return self.response.moment_extremes()

    @cached_property
    def shear(self) -> Extremes:
        return self.response.shear_extremes()

    @cached_property
    def deflection(self) -> Extremes:
        return self.response.deflection_extremes()

    @property
    def reactions_max(self) -> Array:
        """Largest reaction of each support."""
        result: Array = self.response.reactions.max(axis=0)
        return result

    @property
    def reactions_min(self) -> Array:
        """Least reaction of each support; below zero it lifts off."""
        result: Array = self.response.reactions.min(axis=0)
        return result


def analyse_cases(
    line: BeamLine, loads: Sequence[Load], *, pattern: bool = False, patterned: Collection[str] = PATTERNED
) -> Analysis:
    """Analyse each case of the loads once, and with `pattern` each bay of a patterned case by itself.

    Loads of value zero count as absent. Raises ValueError for a load off the beam.
    """
    sets: dict[Key, list[Load]] = {}
    for load in loads:
        if load.value == 0.0 and load.end_value == 0.0:
            continue
        if pattern and load.case in patterned:
            for number, part in _by_bay(line, load):
                sets.setdefault(Key(load.case, number), []).append(part)
        else:
            sets.setdefault(Key(load.case), []).append(load)
    return Analysis(line, tuple(sets), analyse_sets(line, list(sets.values())))


def _by_bay(line: BeamLine, load: Load) -> list[tuple[int, Load]]:
    """The parts of a load by bay. A point load on a support belongs to the bay that starts there."""
    parts = []
    last = len(line.bays) - 1
    for number, bay in enumerate(line.bays):
        # The very end of the beam belongs to the last bay.
        end = float("inf") if number == last else bay.end
        part = load.clipped(bay.start, end)
        if part is not None:
            parts.append((number, part))
    return parts
