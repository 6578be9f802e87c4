"""Checks of a pad of known size: soil under every code; plain concrete and sizes under ACI 318 and the IRC."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from structure.core.clauses import ClauseRef, Editions
from structure.core.codes.pads import pad_rules
from structure.core.codes.us import concrete, concrete_pad, irc, soil
from structure.core.members.footing_pad import SAME, Force, Pad
from structure.core.members.footing_statics import Demand, Statics, frustum
from structure.core.trace import Check, Step


def plain_checks(pad: Pad, service: Force, factored: Force, editions: Editions) -> tuple[Check, ...]:
    """Every check of a plain pad. ACI 318-19 chapter 14 on factored load, soil on service load, IRC sizes."""
    sheet = _Plain(pad, factored, editions)
    return (
        soil_check(pad, service, editions),
        sheet.punching(),
        sheet.one_way_shear(),
        sheet.flexure(),
        sheet.bearing(),
        *plain_sizes(sheet.statics),
    )


def kern(pad: Pad, editions: Editions) -> Step:
    """How far out in the kern the post stands."""
    return concrete_pad.kern_ratio.step(
        editions, e_1=pad.off_length, e_2=pad.off_width, L=pad.length, W=pad.width
    )


def soil_steps(pad: Pad, service: Force, editions: Editions) -> tuple[Step, ...]:
    """Net pressure at the worst corner, then gross: the last step is what a gross soil value is held against."""
    base = pad_rules(editions).clauses.base_area
    q = soil.post_pressure.under(base).step(editions, P=service.value, L=pad.length, W=pad.width)
    steps = [q]
    if pad.off_middle:
        k = kern(pad, editions)
        steps += [k, soil.edge_pressure.under(base).step(editions, q=q.result, k=k.result)]
    gross = soil.gross_pressure.under(base).step(
        editions, q=steps[-1].result, gamma=pad.density, t=pad.thickness
    )
    return (*steps, gross)


def soil_check(pad: Pad, service: Force, editions: Editions) -> Check:
    """Soil pressure at service load. ACI 318-19 13.3.1.1, plain pads 14.3.2.2; CSA A23.3:19 15.2."""
    steps, clauses = soil_steps(pad, service, editions), pad_rules(editions).clauses
    if pad.net:
        steps = steps[:-1]
    return made(
        "soil",
        steps[-1].result,
        pad.soil,
        "pressure",
        service.combination,
        (clauses.plain_base_area if pad.bars is None else clauses.base_area).at(editions),
        steps,
        "net: pad weight left out" if pad.net else "gross: pad weight counted",
    )


class Sheet:
    """The sheet of one pad: its checks stand under the factored sum, unless they say otherwise."""

    factored: Force

    def _check(
        self,
        name: str,
        demand: float,
        capacity: float,
        dimension: str,
        clause: ClauseRef,
        steps: tuple[Step, ...],
        note: str = "",
    ) -> Check:
        return made(name, demand, capacity, dimension, self.factored.combination, clause, steps, note)


class _Plain(Sheet):
    """The concrete checks of one plain pad; numbers that several checks share are worked once."""

    def __init__(self, pad: Pad, factored: Force, editions: Editions) -> None:
        self.pad, self.factored, self.editions = pad, factored, editions
        self.root = concrete.root_strength.step(editions, f_c=pad.f_c, psi_1=1.0)
        self.light = concrete.lightweight_factor.step(editions, w_c=pad.density * 1728, w_1=1.0)
        self.h = concrete.effective_thickness.step(editions, t=pad.thickness, t_soil=concrete.SOIL_FACE_LOSS)
        self.statics = Statics(pad, factored, self.h.result, editions)

    def punching(self) -> Check:
        at, force = self.editions, self.statics.punching()
        V_n = concrete.punching_strength.step(
            at,
            beta=force.beta,
            lambda_c=self.light.result,
            sqrt_fc=self.root.result,
            b_o=force.perimeter,
            h=self.h.result,
        )
        phi = concrete_pad.design_shear.step(at, phi=concrete.PHI_PLAIN, V_n=V_n.result)
        steps = (self.h, *force.steps, self.root, self.light, *force.capacity_steps, V_n, phi)
        return self._check(
            "punching", force.value, phi.result, "force", V_n.clause, steps, no_punching(force.value)
        )

    def one_way_shear(self) -> Check:
        at = self.editions

        def check(demand: Demand) -> Check:
            V_n = concrete.one_way_strength.step(
                at,
                lambda_c=self.light.result,
                sqrt_fc=self.root.result,
                b_w=demand.way.across,
                h=self.h.result,
            )
            phi = concrete_pad.design_shear.step(at, phi=concrete.PHI_PLAIN, V_n=V_n.result)
            steps = (self.h, *demand.steps, self.root, self.light, V_n, phi)
            note = shear_note(demand)
            return self._check("one_way_shear", demand.value, phi.result, "force", V_n.clause, steps, note)

        return worst_way(self.statics, self.statics.shear, check)

    def flexure(self) -> Check:
        at = self.editions

        def check(demand: Demand) -> Check:
            S_m = concrete.pad_modulus.step(at, b=demand.way.across, h=self.h.result)
            M_n = concrete.bending_strength.step(
                at, lambda_c=self.light.result, sqrt_fc=self.root.result, f_c=self.pad.f_c, S_m=S_m.result
            )
            phi = concrete_pad.design_moment.step(at, phi=concrete.PHI_PLAIN, M_n=M_n.result)
            steps = (*demand.steps, self.h, S_m, self.root, self.light, M_n, phi)
            return self._check(
                "flexure", demand.value, phi.result, "moment", M_n.clause, steps, demand.way.name
            )

        return worst_way(self.statics, self.statics.moment, check)

    def bearing(self) -> Check:
        return plain_bearing(self.pad, self.factored, self.editions)


def nominal_bearing(pad: Pad, editions: Editions) -> tuple[Step, Step, Step, Step]:
    """The frustum under the post and its nominal strength. ACI 318-19 Table 14.5.6.1, as Table 22.8.3.2."""
    A_1, x, A_2 = frustum(pad, editions)
    B_n = concrete.bearing_strength.step(editions, f_c=pad.f_c, A_1=A_1.result, A_2=A_2.result)
    return A_1, x, A_2, B_n


def plain_bearing(pad: Pad, factored: Force, editions: Editions, note: str = "") -> Check:
    """Post or plate on plain concrete. ACI 318-19 14.5.6.1."""
    steps = nominal_bearing(pad, editions)
    phi = concrete_pad.design_bearing.step(editions, phi=concrete.PHI_PLAIN, B_n=steps[-1].result)
    return made(
        "bearing",
        factored.value,
        phi.result,
        "force",
        factored.combination,
        steps[-1].clause,
        (*steps, phi),
        note,
    )


def no_punching(force: float) -> str:
    return "" if force > 0 else "the perimeter reaches past the pad: no punching"


def shear_note(demand: Demand) -> str:
    return demand.way.name if demand.value else "the critical section lies outside the pad: no shear"


def worst_way(statics: Statics, demand: Callable[..., Demand], check: Callable[[Demand], Check]) -> Check:
    """The check of the half of the pad with the largest ratio; of equals the one along the length."""
    checks = [check(demand(way)) for way in statics.ways]
    return max(checks, key=lambda each: each.ratio)


def common_sizes(statics: Statics) -> tuple[Check, ...]:
    """What IRC R403.1.1 asks of any pad: 2 in beyond what stands on it, 6 in thick."""
    pad, at = statics.pad, statics.editions
    clause = irc.FOOTING_SIZE.at(at)
    edges = [
        concrete_pad.projection.step(at, L=side, c=c, e=off, note="beyond the edge of post or plate")
        for side, c, off in (
            (pad.length, pad.base.length, pad.off_length),
            (pad.width, pad.base.width, pad.off_width),
        )
    ]
    edge = min(edges, key=lambda step: step.result)
    return (
        made(
            "projection_least",
            irc.MIN_PROJECTION,
            edge.result,
            "length",
            "",
            clause,
            (edge,),
            "at least 2 in",
        ),
        made(
            "thickness", irc.MIN_FOOTING_THICKNESS, pad.thickness, "length", "", clause, (), "at least 6 in"
        ),
    )


def plain_sizes(statics: Statics) -> tuple[Check, ...]:
    """The sizes of a plain pad: its projection no longer than its thickness (IRC), 8 in thick (ACI)."""
    t, at = statics.pad.thickness, statics.editions
    longer = longest(statics.projection(way) for way in statics.ways)
    return (
        made(
            "projection",
            longer.result,
            t,
            "length",
            "",
            irc.FOOTING_SIZE.at(at),
            (*statics.plate_steps, longer),
            "not more than the thickness",
        ),
        *common_sizes(statics),
        made(
            "thickness_plain",
            concrete.MIN_FOOTING_THICKNESS,
            t,
            "length",
            "",
            concrete.FOOTING_THICKNESS.at(at),
            (),
            "at least 8 in",
        ),
    )


def longest(steps: Iterable[Step]) -> Step:
    return max(steps, key=lambda step: step.result)


def made(
    name: str,
    demand: float,
    capacity: float,
    dimension: str,
    combination: str,
    clause: ClauseRef,
    steps: tuple[Step, ...],
    note: str = "",
) -> Check:
    """A check in which a demand within rounding of the capacity is the capacity."""
    if abs(demand - capacity) <= SAME * abs(capacity):
        demand = capacity
    return Check(name, demand, capacity, dimension, combination, clause, steps, note)
