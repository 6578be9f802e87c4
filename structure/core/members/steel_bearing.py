"""A steel beam where it bears: the web above the bearing, and the plate that spreads the load on what is below.

AISC 360 J10.2, J10.3 and, for the plate, the AISC Manual part 14.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from structure.core.clauses import Editions
from structure.core.codes.us import steel
from structure.core.codes.us import steel_shear as webs
from structure.core.codes.us.wood_bearing import ACROSS_THE_GRAIN
from structure.core.errors import OutOfScope
from structure.core.members.beam_demand import Demands
from structure.core.members.beam_result import SupportBearing
from structure.core.members.steel_plate import Plate, plate_for
from structure.core.members.steel_strength import Strength
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


def bearings(
    demands: Demands, weight: int, strength: Strength, editions: Editions
) -> tuple[tuple[SupportBearing, ...], Mapping[str, Plate]]:
    """Every support with its checks and needed length, and the plates by support.

    Raises OutOfScope for a bearing length under a round tube, which needs a saddle.
    """
    question, block = demands.question, demands.strength
    section = strength.section
    if question.bearings is not None and section.rolled.form == "round":
        raise OutOfScope(
            webs.TUBE_FORCES.at(editions),
            f"{section.label}: a round tube on a bearing needs a saddle; the engineer's",
        )
    reactions = block.response.reactions[block.rows(weight)]
    found: list[SupportBearing] = []
    plates: dict[str, Plate] = {}
    for n in range(reactions.shape[1]):
        row = int(reactions[:, n].argmax())
        R = max(float(reactions[row, n]), 0.0)
        name = block.names[int(block.combination_of[row])]
        length = question.bearings[n] if question.bearings else None
        at = question.line.supports[n]
        place = Place(strength, min(at, question.line.length - at))
        checks: tuple[Check, ...] = ()
        if length is not None and R > 0:
            checks = web_checks(place, f"support {n + 1} from the left", R, name, length, editions)
            if question.support is not None:
                plate = plate_for(
                    R,
                    length,
                    section.breadth,
                    section.rolled.k,
                    section.rolled.t_f,
                    question.support.F_c_perp,
                    editions,
                )
                checks = (*checks, _crushed(plate, n, name, question.support.material, editions))
                if plate.needed:
                    plates[str(n)] = plate
        required = required_length(place, R, editions) if section.rolled.form != "round" else 0.0
        if question.support is not None:
            required = max(required, R / (question.support.F_c_perp * section.breadth))
        found.append(SupportBearing(n, R, name, length, required, checks))
    return tuple(found), plates


def web_checks(
    place: Place, where: str, R: float, name: str, length: float, editions: Editions
) -> tuple[Check, Check]:
    """Yielding and crippling of the web under a force R [lbf] over a bearing [in]. AISC 360 J10.2, J10.3."""
    checks = []
    for check, step, Omega, clause in (
        ("web_yielding", place.yielding(length, editions), steel.OMEGA_WEB_YIELDING, webs.WEB_YIELDING),
        ("web_crippling", place.crippling(length, editions), steel.OMEGA_WEB_CRIPPLING, webs.WEB_CRIPPLING),
    ):
        allowed = steel.allowable_force.step(editions, R_n=step.result, Omega=Omega)
        checks.append(
            Check(check, R, allowed.result, "force", name, clause.at(editions), (step, allowed), note=where)
        )
    return checks[0], checks[1]


def _crushed(plate: Plate, n: int, name: str, material: str, editions: Editions) -> Check:
    on = f"a plate {plate.label}" if plate.needed else "the flange alone"
    return Check(
        "support_bearing",
        plate.pressure.result,
        plate.F_c_perp,
        "stress",
        name,
        ACROSS_THE_GRAIN.at(editions),
        plate.steps,
        note=f"support {n + 1} from the left, {material}, without C_b, on {on}",
    )


def required_length(place: Place, R: float, editions: Editions) -> float:
    """The shortest bearing whose web holds, never less than k [in]."""
    if R <= 0:
        return 0.0
    shape = place.strength.section.rolled
    knee = webs.LONG_BEARING * shape.d
    yields = _shortest(lambda l_b: place.yielding(l_b, editions).result, R * steel.OMEGA_WEB_YIELDING, knee)
    cripples = _shortest(
        lambda l_b: place.crippling(l_b, editions).result, R * steel.OMEGA_WEB_CRIPPLING, knee
    )
    return max(yields, cripples, shape.k)


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
