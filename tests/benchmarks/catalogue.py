"""600 sections under nine sums and five checks: the whole search, and other ways to the same ratios.

The tables of sums are replaced by ones of the wanted length for the measurement: those of the rules first, then
further sums of the same cases.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any
from unittest import mock

import numpy as np
import numpy.typing as npt

from structure.core.catalogue import Search, SearchResult, search_beams
from structure.core.clauses import US_DEFAULT, Clause
from structure.core.codes.us import combinations, wood_bearing
from structure.core.codes.us import wood_beams as nds
from structure.core.materials.section import WoodSection
from structure.core.members.beam import BeamQuestion, check_beam, prepare
from structure.core.members.beam_bending import values_of
from structure.core.members.beam_demand import SELF
from structure.core.members.beam_stability import Unbraced, effective_length, unbraced
from structure.core.statics.envelope import analyse_cases
from structure.core.statics.model import BeamLine, Load
from tests.benchmarks.beams import Beam

Array = npt.NDArray[np.float64]
STOCK = Search(
    families=("sawn", "lvl"),
    species=("SPF", "DF-L", "HF", "SP"),
    grades=("SS", "No.1", "No.2", "No.3", "Stud"),
)
SIMPLE = BeamQuestion(
    line=BeamLine((236.0,)),
    loads=(
        Load.uniform("dead", 46.0, 0.0, 236.0),
        Load.uniform("live", 66.0, 0.0, 236.0),
        Load.uniform("roof_live", 12.0, 0.0, 236.0),
        Load.point("snow", 1200.0, 80.0),
        Load.point("live", 1500.0, 140.0),
    ),
    bearing=(3.5,),
)
TWO_SPANS = BeamQuestion(
    line=BeamLine((165.0, 212.0)),
    loads=(
        Load.uniform("dead", 46.0, 0.0, 377.0),
        Load.uniform("live", 66.0, 0.0, 377.0),
        Load.uniform("roof_live", 12.0, 0.0, 377.0),
        Load.uniform("snow", 20.0, 40.0, 260.0),
        Load.point("snow", 1200.0, 80.0),
        Load.point("live", 1500.0, 300.0),
    ),
    pattern=False,
    bearing=(3.5,),
)
PATTERNED = replace(TWO_SPANS, pattern=True)


def _more(held: tuple[Any, ...], count: int, *, dead: bool) -> tuple[Any, ...]:
    found, clause = list(held[:count]), Clause("measurement", "")
    n = 0
    while len(found) < count:
        n += 1
        case = ("live", "snow", "roof_live")[n % 3]
        terms = ((1.0, "dead"), (1.0 - 0.4 / n, case)) if dead else ((1.0 - 0.4 / n, case),)
        found.append(type(held[0])(terms, clause))
    return tuple(found)


@contextmanager
def sums(count: int) -> Iterator[None]:
    """Tables of so many stress sums and so many live deflections; the cases without a load are left out."""
    loaded = {"dead", "live", "snow", "roof_live"}
    held = [
        tuple(each for each in table if loaded.issuperset(case for _, case in each.terms))
        for table in (combinations.ASD, combinations.SERVICE_LIVE)
    ]
    with (
        mock.patch.object(combinations, "ASD", _more(held[0], count, dead=True)),
        mock.patch.object(combinations, "SERVICE_LIVE", _more(held[1], count, dead=False)),
    ):
        yield


def search(question: BeamQuestion, held: Search) -> SearchResult:
    """The search of the site: ratio, governing check and pass or fail of every section."""
    found = search_beams(question, held, US_DEFAULT)
    found.ratios  # noqa: B018 - worked out when asked for
    return found


def search_and_words(question: BeamQuestion, held: Search) -> list[dict[str, Any]]:
    """The search with every candidate told in words, as the options page shows it."""
    return [candidate.as_data() for candidate in search_beams(question, held, US_DEFAULT).candidates]


def sized(plies: int) -> Search:
    """The same stock up to so many plies: a fifth of it for each."""
    return replace(STOCK, max_plies=plies)


def patterns(bracing: str = "continuous") -> Callable[[], SearchResult]:
    """A search over six spans with live load on every set of them and twenty point loads."""
    line = BeamLine((140.0, 150.0, 120.0, 160.0, 130.0, 144.0))
    spread = [
        Load.uniform(case, w, 0.0, line.length)
        for case, w in (("dead", 20.0), ("live", 40.0), ("snow", 15.0))
    ]
    points = [
        Load.point(("live", "snow", "dead")[n % 3], 300.0 + 40.0 * n, line.length * (n + 0.5) / 20)
        for n in range(20)
    ]
    question = BeamQuestion(line=line, loads=(*spread, *points), bracing=bracing, bearing=(3.5,))
    return lambda: search(question, STOCK)


def floor(sections: int, sums_each: int, checks: int = 5) -> Callable[[], Array]:
    """Bare numpy: the array of ratios filled from demands and capacities that are there, and reduced."""
    draw = np.random.default_rng(0)
    demands, capacities = draw.random((checks, sums_each)), draw.random((checks, sections)) + 0.5

    def fill() -> Array:
        ratios = np.empty((checks, sections, sums_each))
        for n in range(checks):
            np.divide(demands[n][None, :], capacities[n][:, None], out=ratios[n])
        worst: Array = ratios.max(axis=2).max(axis=0)
        return worst

    return fill


@dataclass(frozen=True)
class Alone:
    """One section analysed and checked by plain numbers, as leanly as the closed forms allow: no steps, no words."""

    question: BeamQuestion

    def ratio(self, section: WoodSection) -> float:
        """The largest ratio of bending, shear, bearing, live and total deflection; infinite if too slender."""
        question, line = self.question, self.question.line
        loads = [*question.loads, Load.uniform(SELF, section.weight, 0.0, line.length)]
        analysis = analyse_cases(line, loads, pattern=question.patterned)
        strength, live = combinations.ASD, combinations.SERVICE_LIVE
        own = [{**each.factors, SELF: 1.0} for each in strength]
        envelope = analysis.envelope(own)
        M, V, R = envelope.moment, envelope.shear, envelope.response.reactions
        values = values_of(section, repetitive=False, wet=False)
        b, d, S, E = section.breadth, section.depth, section.section_modulus, values.reference("E")
        worst = 0.0
        (length,) = question.bearing or (0.0,)
        room = [min(place, line.length - place) for place in line.supports]
        C_b = [
            (length + 0.375) / length if length < wood_bearing.LONGEST and each - length / 2 >= 3.0 else 1.0
            for each in room
        ]
        for row, at in enumerate(envelope.rows):
            C_D = strength[at.combination].C_D
            star = float(values.bending_star(np.float64(C_D), False))
            for high, edge in ((float(M.max[row]), 0), (-float(M.min[row]), 1)):
                if high <= 1e-6:
                    continue
                allowed = star * self._stability(
                    edge, at.combination, section, star, values.reference("Emin")
                )
                worst = max(worst, high / S / allowed)
            force = max(float(V.max[row]), -float(V.min[row]))
            worst = max(worst, 1.5 * force / (b * d) / (values.reference("Fv") * C_D))
            for n in range(R.shape[1]):
                worst = max(worst, float(R[row, n]) / (b * length) / (values.reference("Fc_perp") * C_b[n]))
        factors = [each.factors for each in live]
        total = [{"dead": 1.5, SELF: 1.5}, *({"dead": 1.5, SELF: 1.5, **each} for each in factors)]
        for rows, limit in ((factors, question.deflection.live), (total, question.deflection.total)):
            response = analysis.envelope(rows).response
            for bay, extremes in zip(line.bays, response.deflection_by_bay(), strict=True):
                sunk = float(np.abs(extremes.largest).max()) / (E * section.inertia)
                worst = max(worst, sunk * limit / bay.length)
        return worst

    def _stability(self, edge: int, sum_: int, section: WoodSection, star: float, E_min: float) -> float:
        """The least of C_L over the bays, and C_V; good for one span, and on the safe side for more."""
        C_V = 1.0 if section.volume_factor is None else min(section.volume_factor, 1.0)
        if section.depth <= section.breadth:
            return C_V
        worst = 1.0
        for bay, row in enumerate(self._tables[edge].rows[sum_]):
            l_u = float(self._tables[edge].lengths[0, bay])
            if l_u > 0:
                l_e = float(effective_length(row, np.float64(l_u), section.depth))  # type: ignore[arg-type]
                R_B = float(nds.beam_slenderness(l_e=l_e, d=section.depth, b=section.breadth))
                if R_B > nds.MOST_SLENDER:
                    return 1e-300
                F_bE = float(nds.critical_bending(E_min=E_min, R_B=R_B))
                worst = min(worst, float(nds.stability_factor(F_bE=F_bE, F_b=star)))
        return min(worst, C_V)

    @cached_property
    def _tables(self) -> tuple[Unbraced, Unbraced]:
        return unbraced(prepare(self.question, (1.0,), US_DEFAULT))


def with_steps(question: BeamQuestion, section: WoodSection) -> float:
    """One section as the site checks it alone, with every step of its sheet."""
    return check_beam(replace(question, section=section), US_DEFAULT).ratio


def as_beam(question: BeamQuestion, section: WoodSection) -> Beam:
    """What a finite element library is given for one section: its own weight with the dead load, all stress sums."""
    loads = (*question.loads, Load.uniform("dead", section.weight, 0.0, question.line.length))
    return Beam(question.line, loads, tuple(each.factors for each in combinations.ASD))
