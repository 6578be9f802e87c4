"""What a beam line asks of any section: analysed once per load case, combined for every self weight."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np
import numpy.typing as npt

from structure.core.clauses import Editions
from structure.core.codes.combination import Combination
from structure.core.errors import OutOfScope
from structure.core.members.beam_question import UPLIFT, BeamQuestion
from structure.core.members.beam_sums import SUMS
from structure.core.statics.envelope import Analysis, Envelope, analyse_cases
from structure.core.statics.model import Load
from structure.core.statics.response import Extremes, Response
from structure.core.statics.roots import monotone_roots, quadratic_roots
from structure.core.units import in_words

Array = npt.NDArray[np.float64]
SELF = "self_weight"


@dataclass(frozen=True, eq=False)
class Block:
    """Sums of one purpose (strength, live or total deflection): rows by weight, and their responses.

    Row `weight * rows_each + row` belongs to weight number `weight`.
    """

    combinations: tuple[Any, ...]  # of the table that the code holds
    names: tuple[str, ...]
    combination_of: npt.NDArray[np.intp]
    response: Response
    rows_each: int

    def rows(self, weight: int) -> slice:
        """The rows of one self weight."""
        return slice(weight * self.rows_each, (weight + 1) * self.rows_each)


@dataclass(frozen=True, eq=False)
class Demands:
    """Forces of one question for a list of self weights [lbf/in]."""

    code: str
    question: BeamQuestion
    weights: tuple[float, ...]
    analysis: Analysis
    strength: Block
    live: Block | None

    @cached_property
    def moments(self) -> tuple[Extremes, ...]:
        """Moment extremes by bay, a row for every strength sum and weight."""
        line = self.question.line
        return tuple(self.strength.response.moment_extremes(bay.start, bay.end) for bay in line.bays)

    @cached_property
    def shears(self) -> tuple[Extremes, ...]:
        """Shear extremes by bay, likewise."""
        line = self.question.line
        return tuple(self.strength.response.shear_extremes(bay.start, bay.end) for bay in line.bays)

    @cached_property
    def live_deflections(self) -> tuple[Extremes, ...]:
        """EI times deflection by bay under what comes and goes; it does not depend on the weight."""
        return self.live.response.deflection_by_bay() if self.live else ()

    @cached_property
    def memo(self) -> dict[Any, Any]:
        """What a material works out once for all of its sections under these forces."""
        return {}

    def total(self, creep: float) -> Block:
        """Sums of total deflection, the dead part times `creep`; names as the live ones with D."""
        key = ("total", creep)
        if key not in self.memo:
            self.memo[key] = _total(self, creep)
        held: Block = self.memo[key]
        return held

    def total_deflections(self, creep: float) -> tuple[Extremes, ...]:
        """EI times deflection by bay under everything, the dead part with creep."""
        key = ("total deflections", creep)
        if key not in self.memo:
            self.memo[key] = self.total(creep).response.deflection_by_bay()
        held: tuple[Extremes, ...] = self.memo[key]
        return held

    @cached_property
    def moment_zeros(self) -> tuple[Array, npt.NDArray[np.bool_]]:
        """Places where the moment may be nothing, and at which of them it is; (rows, places) each."""
        response = self.strength.response
        shear_zeros = quadratic_roots(response.shears, response.lengths)
        zeros = monotone_roots(response.moments, shear_zeros, response.lengths)
        places = (response.breaks[:-1, None] + zeros).reshape(len(response), -1)
        M = response.moments[..., None, :]
        values = M[..., 0] + zeros * (M[..., 1] + zeros * (M[..., 2] + zeros * M[..., 3]))
        # A piece without a root holds one of its ends; only places where the moment is nothing count.
        return places, np.abs(values.reshape(places.shape)) <= 1e-9 * self._moment_scale

    @property
    def _moment_scale(self) -> Array:
        moments = self.strength.response.moments
        return np.asarray(np.abs(moments[..., 0]).max(axis=-1, initial=1e-9)[:, None])

    @cached_property
    def hogging_lengths(self) -> Array:
        """Distance from a support to the point of contraflexure, (rows, bays); the longer of two in a bay.

        Where a bay is hogging without a support beside it, the whole bay counts. So does an overhang: nothing
        pulls up on it, and at its free end the moment is nothing without turning.
        """
        response, line, scale = self.strength.response, self.question.line, self._moment_scale
        places, real = self.moment_zeros
        lengths = np.zeros((len(response), len(line.bays)))
        for n, bay in enumerate(line.bays):
            if bay.kind != "span":
                lengths[:, n] = bay.length
                continue
            slack = 1e-7 * bay.length
            inside = real & (places > bay.start + slack) & (places < bay.end - slack)
            from_left = np.where(inside, places - bay.start, bay.length).min(axis=-1)
            from_right = np.where(inside, bay.end - places, bay.length).min(axis=-1)
            left = response.moment(bay.start) < -1e-9 * scale[:, 0]
            right = response.moment(bay.end) < -1e-9 * scale[:, 0]
            either = np.maximum(np.where(left, from_left, 0.0), np.where(right, from_right, 0.0))
            lengths[:, n] = np.where(left | right, either, bay.length)
        return lengths


def analyse_question(question: BeamQuestion, weights: Sequence[float], code: str = "us") -> Demands:
    """Analyse each load case once and form every sum of the code for every self weight [force/length]."""
    line = question.line
    loads = list(question.loads)
    if question.self_weight:
        loads.append(Load.uniform(SELF, 1.0, 0.0, line.length))
    analysis = analyse_cases(line, loads, pattern=question.patterned)
    present = {case for case in analysis.cases if case != SELF}
    if question.self_weight:
        present.add("dead")
    sums = SUMS[code]
    strength = sums.strength(present)
    live = sums.service_live(present)
    factors = [_with_self(each.factors) for each in strength]
    return Demands(
        code=code,
        question=question,
        weights=tuple(weights),
        analysis=analysis,
        strength=_block(analysis, strength, [each.name for each in strength], factors, weights),
        live=_block(analysis, live, [each.name for each in live], [c.factors for c in live], (0.0,))
        if live
        else None,
    )


def check_cantilever_uplift(demands: Demands, editions: Editions) -> None:
    """Raise OutOfScope where a beam with an overhang lifts off a support with every load of a sum on it.

    Whoever holds such a support down stands outside of the beam. Under a pattern alone it is a remark.
    The own weight is left out, so that the answer is of the question and the same for every section.
    """
    line, analysis = demands.question.line, demands.analysis
    if len(line.bays) == len(line.spans) or demands.question.lifting_checked:
        return
    for combination in demands.strength.combinations:
        row = [combination.factors.get(key.case, 0.0) for key in analysis.keys]
        reactions = np.array(row) @ analysis.response.reactions
        n = int(reactions.argmin())
        if reactions[n] < -1e-6 * np.abs(reactions).max():
            raise OutOfScope(
                UPLIFT[demands.code].at(editions),
                f"the beam lifts off support {n + 1} from the left with "
                f"{in_words(-float(reactions[n]), 'force', demands.code)} under {combination.name}, its own "
                "weight left out: an overhang that must be held down is the engineer's",
            )


def _total(demands: Demands, creep: float) -> Block:
    own = demands.question.self_weight
    present = {case for case in demands.analysis.cases if case != SELF}
    dead = {"dead": creep, SELF: creep} if own or "dead" in present else {}
    live = SUMS[demands.code].service_live(present)
    factors, names = ([dead], ["D"]) if dead else ([], [])
    for each in live:
        factors.append({**dead, **each.factors})
        names.append(f"D+{each.name}" if dead else each.name)
    return _block(demands.analysis, (), names, factors, demands.weights)


def _with_self(factors: dict[str, float]) -> dict[str, float]:
    return {**factors, SELF: factors["dead"]} if "dead" in factors else factors


def _block(
    analysis: Analysis,
    combinations: Sequence[Combination],
    names: Sequence[str],
    factors: Sequence[dict[str, float]],
    weights: Sequence[float],
) -> Block:
    envelope: Envelope = analysis.envelope(factors)
    own = np.array([key.case == SELF for key in analysis.keys])
    scale = np.where(own[None, :], np.asarray(weights, dtype=float)[:, None], 1.0)
    matrix = (scale[:, None, :] * envelope.factors[None, :, :]).reshape(-1, len(analysis.keys))
    return Block(
        combinations=tuple(combinations),
        names=tuple(names),
        combination_of=np.array([row.combination for row in envelope.rows], dtype=np.intp),
        response=analysis.response.combined(matrix),
        rows_each=len(envelope.rows),
    )
