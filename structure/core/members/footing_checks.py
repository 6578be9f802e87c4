"""The checks of one plain concrete pad of known size: soil, concrete, and the sizes the IRC asks for."""

from __future__ import annotations

from dataclasses import dataclass

from structure.core.clauses import ClauseRef, Editions
from structure.core.codes.us import concrete, irc, soil
from structure.core.trace import Check, Step

# Sums of decimal sizes miss each other by rounding; within this they are the same number.
SAME = 1e-9


@dataclass(frozen=True, slots=True)
class Base:
    """What stands on the pad: a square post, or a plate with the side of the post on it [in].

    The critical sections of a post are at its face; those of a steel plate halfway between the post's
    face and the plate's edge. A plate whose post is unknown counts as one with a post of no width.
    """

    length: float
    width: float
    plate: bool = False
    column: float = 0.0


@dataclass(frozen=True, slots=True)
class Pad:
    """A square pad: side and thickness [in], f'c [psi], density [lbf/in**3], soil [psi]."""

    side: float
    thickness: float
    f_c: float
    density: float
    soil: float
    net: bool
    base: Base


@dataclass(frozen=True, slots=True)
class Force:
    """The load of the combination that governs [lbf]."""

    combination: str
    value: float


def pad_checks(pad: Pad, service: Force, factored: Force, editions: Editions) -> tuple[Check, ...]:
    """Every check of the pad. ACI 318-19 chapter 14 on factored load, soil on service load, IRC sizes."""
    sheet = _Sheet(pad, factored, editions)
    return (
        soil_check(pad, service, editions),
        sheet.punching(),
        sheet.one_way_shear(),
        sheet.flexure(),
        sheet.bearing(),
        *_sizes(pad, editions),
    )


def soil_check(pad: Pad, service: Force, editions: Editions) -> Check:
    """Soil pressure at service load. ACI 318-19 14.3.2.2."""
    if pad.net:
        step = soil.net_pressure.step(editions, P=service.value, B=pad.side)
    else:
        step = soil.gross_pressure.step(
            editions, P=service.value, B=pad.side, gamma=pad.density, t=pad.thickness
        )
    return _check(
        "soil",
        step.result,
        pad.soil,
        "pressure",
        service.combination,
        step.clause,
        (step,),
        "net: pad weight left out" if pad.net else "gross: pad weight counted",
    )


class _Sheet:
    """The concrete checks of one pad; numbers that several checks share are worked once."""

    def __init__(self, pad: Pad, factored: Force, editions: Editions) -> None:
        self.pad, self.factored, self.editions = pad, factored, editions
        at = editions
        self.root = concrete.root_strength.step(at, f_c=pad.f_c, psi_1=1.0)
        self.light = concrete.lightweight_factor.step(at, w_c=pad.density * 1728, w_1=1.0)
        self.h = concrete.effective_thickness.step(at, t=pad.thickness, t_soil=concrete.SOIL_FACE_LOSS)
        self.q_u = concrete.factored_pressure.step(at, P_u=factored.value, B=pad.side)
        self.sections = critical_widths(pad.base, editions)
        self.c_1, self.c_2 = (width for width, _ in self.sections)
        self.plate_steps = tuple(step for _, step in self.sections if step is not None)
        self.p = concrete.projection.step(
            at, B=pad.side, c=min(self.c_1, self.c_2), note="the longer projection"
        )

    def punching(self) -> Check:
        at, h = self.editions, self.h.result
        beta = concrete.loaded_ratio.step(at, c_1=self.c_1, c_2=self.c_2)
        b_o = concrete.punching_perimeter.step(at, c_1=self.c_1, c_2=self.c_2, h=h)
        V_u = concrete.punching_demand.step(
            at, q_u=self.q_u.result, B=self.pad.side, c_1=self.c_1, c_2=self.c_2, h=h
        )
        V_n = concrete.punching_strength.step(
            at, beta=beta.result, lambda_c=self.light.result, sqrt_fc=self.root.result, b_o=b_o.result, h=h
        )
        phi = concrete.design_shear.step(at, phi=concrete.PHI_PLAIN, V_n=V_n.result)
        note = "" if V_u.result else "the perimeter reaches past the pad: no punching"
        steps = (self.q_u, self.h, *self.plate_steps, b_o, V_u, self.root, self.light, beta, V_n, phi)
        return self._check("punching", V_u.result, phi.result, "force", V_n.clause, steps, note)

    def one_way_shear(self) -> Check:
        at, h = self.editions, self.h.result
        V_u = concrete.one_way_demand.step(at, q_u=self.q_u.result, B=self.pad.side, p=self.p.result, h=h)
        V_n = concrete.one_way_strength.step(
            at, lambda_c=self.light.result, sqrt_fc=self.root.result, b_w=self.pad.side, h=h
        )
        phi = concrete.design_shear.step(at, phi=concrete.PHI_PLAIN, V_n=V_n.result)
        note = "" if V_u.result else "the critical section lies outside the pad: no shear"
        steps = (self.q_u, self.h, *self.plate_steps, self.p, V_u, self.root, self.light, V_n, phi)
        return self._check("one_way_shear", V_u.result, phi.result, "force", V_n.clause, steps, note)

    def flexure(self) -> Check:
        at = self.editions
        M_u = concrete.bending_demand.step(at, q_u=self.q_u.result, B=self.pad.side, p=self.p.result)
        S_m = concrete.pad_modulus.step(at, B=self.pad.side, h=self.h.result)
        M_n = concrete.bending_strength.step(
            at, lambda_c=self.light.result, sqrt_fc=self.root.result, f_c=self.pad.f_c, S_m=S_m.result
        )
        phi = concrete.design_moment.step(at, phi=concrete.PHI_PLAIN, M_n=M_n.result)
        steps = (self.q_u, *self.plate_steps, self.p, M_u, self.h, S_m, self.root, self.light, M_n, phi)
        return self._check("flexure", M_u.result, phi.result, "moment", M_n.clause, steps)

    def bearing(self) -> Check:
        at, base = self.editions, self.pad.base
        A_1 = concrete.loaded_area.step(at, c_1=base.length, c_2=base.width)
        x = concrete.frustum_reach.step(
            at, B=self.pad.side, c_1=base.length, c_2=base.width, t=self.pad.thickness
        )
        A_2 = concrete.frustum_area.step(at, c_1=base.length, c_2=base.width, x=x.result)
        B_n = concrete.bearing_strength.step(at, f_c=self.pad.f_c, A_1=A_1.result, A_2=A_2.result)
        phi = concrete.design_bearing.step(at, phi=concrete.PHI_PLAIN, B_n=B_n.result)
        steps = (A_1, x, A_2, B_n, phi)
        return self._check("bearing", self.factored.value, phi.result, "force", B_n.clause, steps)

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
        return _check(name, demand, capacity, dimension, self.factored.combination, clause, steps, note)


def critical_widths(
    base: Base, editions: Editions
) -> tuple[tuple[float, Step | None], tuple[float, Step | None]]:
    """Width between critical sections both ways [in], with its step where it is a plate."""
    if not base.plate:
        return (base.length, None), (base.width, None)
    along, across = (
        concrete.plate_section.step(editions, c_post=base.column, c_plate=side)
        for side in (base.length, base.width)
    )
    return (along.result, along), (across.result, across)


def _sizes(pad: Pad, editions: Editions) -> tuple[Check, ...]:
    clause, t = irc.FOOTING_SIZE.at(editions), pad.thickness
    widths = [width for width, _ in critical_widths(pad.base, editions)]
    longer = concrete.projection.step(editions, B=pad.side, c=min(widths), note="the longer projection")
    edge = concrete.projection.step(
        editions, B=pad.side, c=max(pad.base.length, pad.base.width), note="beyond the edge of post or plate"
    )
    plain = concrete.FOOTING_THICKNESS.at(editions)
    return (
        _check(
            "projection", longer.result, t, "length", "", clause, (longer,), "not more than the thickness"
        ),
        _check(
            "projection_least",
            irc.MIN_PROJECTION,
            edge.result,
            "length",
            "",
            clause,
            (edge,),
            "at least 2 in",
        ),
        _check("thickness", irc.MIN_FOOTING_THICKNESS, t, "length", "", clause, (), "at least 6 in"),
        _check(
            "thickness_plain", concrete.MIN_FOOTING_THICKNESS, t, "length", "", plain, (), "at least 8 in"
        ),
    )


def _check(
    name: str,
    demand: float,
    capacity: float,
    dimension: str,
    combination: str,
    clause: ClauseRef,
    steps: tuple[Step, ...],
    note: str = "",
) -> Check:
    if abs(demand - capacity) <= SAME * abs(capacity):
        demand = capacity
    return Check(name, demand, capacity, dimension, combination, clause, steps, note)
