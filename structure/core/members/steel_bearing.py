"""The web of a steel beam above a bearing under US rules: yielding and crippling. AISC 360 J10.2, J10.3."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from structure.core.clauses import Editions
from structure.core.codes.us import steel
from structure.core.codes.us import steel_shear as webs
from structure.core.errors import OutOfScope
from structure.core.members.beam_demand import Demands
from structure.core.members.beam_result import SupportBearing
from structure.core.members.steel_plate import Plate
from structure.core.members.steel_strength import Strength
from structure.core.members.steel_supports import supports
from structure.core.trace import Check, Step


@dataclass(frozen=True, slots=True)
class Place:
    """Where a reaction stands: `end` is from there to the end of the beam [in]."""

    strength: Strength
    end: float

    def yielding(self, l_b: float, editions: Editions) -> Step:
        """Web local yielding: J10-2, or J10-3 within the depth of the beam from its end."""
        shape = self.strength.section.rolled
        n = webs.INSIDE_YIELDING if self.end > shape.d else webs.END_YIELDING
        return webs.web_yielding.step(
            editions, m=shape.webs, F_y=self.strength.F_y, t_w=shape.t_w, n=n, k=shape.k, l_b=l_b
        )

    def crippling(self, l_b: float, editions: Editions) -> Step:
        """Web local crippling: J10-4, or J10-5 within half the depth of the beam from its end."""
        shape = self.strength.section.rolled
        inside = self.end >= shape.d / 2
        long = not inside and l_b / shape.d > webs.LONG_BEARING
        kernel = webs.web_crippling_long if long else webs.web_crippling
        return kernel.step(
            editions,
            m=shape.webs,
            n=webs.INSIDE_CRIPPLING if inside else webs.END_CRIPPLING,
            t_w=shape.t_w,
            l_b=l_b,
            d=shape.d,
            t_f=shape.t_f,
            E=self.strength.E,
            F_y=self.strength.F_y,
        )

    def checks(
        self, where: str, R: float, combination: str, length: float, editions: Editions
    ) -> tuple[Check, Check]:
        """Yielding and crippling of the web under a force R [lbf] over a bearing [in]. AISC 360 J10.2, J10.3."""
        found = []
        for check, step, Omega, clause in (
            ("web_yielding", self.yielding(length, editions), steel.OMEGA_WEB_YIELDING, webs.WEB_YIELDING),
            (
                "web_crippling",
                self.crippling(length, editions),
                steel.OMEGA_WEB_CRIPPLING,
                webs.WEB_CRIPPLING,
            ),
        ):
            allowed = steel.allowable_force.step(editions, R_n=step.result, Omega=Omega)
            steps = (step, allowed)
            found.append(
                Check(check, R, allowed.result, "force", combination, clause.at(editions), steps, note=where)
            )
        return found[0], found[1]

    def required(self, R: float, editions: Editions) -> float:
        """The shortest bearing whose web holds, never less than k [in]; none of a round tube."""
        shape = self.strength.section.rolled
        if R <= 0 or shape.form == "round":
            return 0.0
        knee = webs.LONG_BEARING * shape.d
        yields = _shortest(
            lambda l_b: self.yielding(l_b, editions).result, R * steel.OMEGA_WEB_YIELDING, knee
        )
        cripples = _shortest(
            lambda l_b: self.crippling(l_b, editions).result, R * steel.OMEGA_WEB_CRIPPLING, knee
        )
        return max(yields, cripples, shape.k)


def bearings(
    demands: Demands, weight: int, strength: Strength, editions: Editions
) -> tuple[tuple[SupportBearing, ...], Mapping[str, Plate]]:
    """Every support with its checks and needed length, and the plates by support.

    Raises OutOfScope for a bearing length under a round tube, which needs a saddle.
    """
    section = strength.section
    if demands.question.bearings is not None and section.rolled.form == "round":
        raise OutOfScope(
            webs.TUBE_FORCES.at(editions),
            f"{section.label}: a round tube on a bearing needs a saddle; the engineer's",
        )
    return supports(demands, weight, section, lambda end: Place(strength, end), editions)


def _shortest(strength: Callable[[float], float], R_n: float, knee: float) -> float:
    """Where a strength that rises in a straight line, and in another one past `knee`, reaches `R_n`."""
    least, middle = strength(0.0), strength(knee)
    if R_n <= least:
        return 0.0
    if R_n <= middle:
        return knee * (R_n - least) / (middle - least)
    # Just past the knee, where the second line begins.
    first, second = strength(knee * (1 + 1e-9)), strength(2 * knee)
    return knee * (1 + (R_n - first) / (second - first))
