"""Shear, moment and punching force of one pad by its factored post load, with their steps."""

from __future__ import annotations

from dataclasses import dataclass

from structure.core.clauses import Editions
from structure.core.codes.pads import pad_rules
from structure.core.codes.us import concrete_pad
from structure.core.errors import OutOfScope
from structure.core.members.footing_pad import Force, Pad, Way, critical_widths, ways
from structure.core.trace import Step


@dataclass(frozen=True, slots=True)
class Demand:
    """A force or moment of one half of the pad, with the lines that lead to it."""

    value: float
    way: Way
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class Punching:
    """The force on the perimeter at h/2; `perimeter` is what of it lies inside the pad."""

    value: float
    perimeter: float
    beta: float
    four_sides: bool
    steps: tuple[Step, ...]
    capacity_steps: tuple[Step, ...]


class Statics:
    """The demands of one pad at depth `h`: the thickness that counts, or the effective depth."""

    def __init__(self, pad: Pad, factored: Force, h: float, editions: Editions) -> None:
        self.pad, self.factored, self.h, self.editions = pad, factored, h, editions
        self.clauses = pad_rules(editions).clauses
        self.sections = critical_widths(pad.base, editions)
        self.c_1, self.c_2 = (width for width, _ in self.sections)
        self.plate_steps = tuple(step for _, step in self.sections if step is not None)
        self.q_u = concrete_pad.factored_pressure.step(
            editions, P_u=factored.value, L=pad.length, W=pad.width
        )
        self.ways = tuple(ways(pad, self.c_1, self.c_2))

    def projection(self, way: Way) -> Step:
        """Pad beyond the critical section towards the edge of `way`."""
        return concrete_pad.projection.under(self.clauses.critical_section).step(
            self.editions, L=way.side, c=way.c, e=way.towards, note=_edge(way)
        )

    def shear(self, way: Way) -> Demand:
        """Shear at h from the critical section."""
        p = self.projection(way)
        q_e, q_c, steps = self._pressures(way, way.c / 2 + self.h)
        V_u = concrete_pad.one_way_demand.step(
            self.editions, b=way.across, p=p.result, h=self.h, q_e=q_e, q_c=q_c
        )
        return Demand(V_u.result, way, (self.q_u, *self.plate_steps, p, *steps, V_u))

    def moment(self, way: Way) -> Demand:
        """Moment at the critical section."""
        p = self.projection(way)
        q_e, q_c, steps = self._pressures(way, way.c / 2)
        M_u = concrete_pad.bending_demand.step(self.editions, b=way.across, p=p.result, q_e=q_e, q_c=q_c)
        return Demand(M_u.result, way, (self.q_u, *self.plate_steps, p, *steps, M_u))

    def _pressures(self, way: Way, reach: float) -> tuple[float, float, tuple[Step, ...]]:
        """At the edge and at `reach` from the post's middle; one number under a post on the middle."""
        if not way.off:
            return self.q_u.result, self.q_u.result, ()
        q_e, q_c = (
            concrete_pad.pressure_at.step(
                self.editions, q_u=self.q_u.result, e=way.off, x=way.sign * x, L=way.side, note=note
            )
            for x, note in ((way.side / 2, "at the edge"), (way.towards + reach, "at the section"))
        )
        return q_e.result, q_c.result, (q_e, q_c)

    def punching(self) -> Punching:
        """Force on the perimeter, the slope of the pressure inside it included as a force.

        Raises OutOfScope where the perimeter of a post off the middle runs past an edge of the pad.
        """
        pad, at, h = self.pad, self.editions, self.h
        inside = self._inside()
        b_o = concrete_pad.punching_perimeter.under(self.clauses.perimeter).step(
            at, c_1=self.c_1, c_2=self.c_2, h=h, L=pad.length, W=pad.width
        )
        beta = concrete_pad.loaded_ratio.under(self.clauses.perimeter).step(at, c_1=self.c_1, c_2=self.c_2)
        if not b_o.result:
            return Punching(0.0, 0.0, beta.result, False, (self.q_u, b_o), (beta,))
        q_p, slope = self._under_post()
        V_u = concrete_pad.punching_demand.step(
            at, P_u=self.factored.value, q_p=q_p, c_1=self.c_1, c_2=self.c_2, h=h, L=pad.length, W=pad.width
        )
        steps = [self.q_u, *self.plate_steps, *slope, b_o, V_u]
        value = V_u.result
        for off, side, b_1, b_2 in (
            (pad.off_length, pad.length, self.c_1 + h, self.c_2 + h),
            (pad.off_width, pad.width, self.c_2 + h, self.c_1 + h),
        ):
            if off:
                added = self._moment_as_shear(off, side, b_1, b_2, b_o.result)
                steps += added
                value += added[-1].result
        return Punching(value, b_o.result, beta.result, inside, tuple(steps), (beta,))

    def _inside(self) -> bool:
        pad, h = self.pad, self.h
        room = [
            side / 2 - abs(off) - (c + h) / 2
            for side, off, c in (
                (pad.length, pad.off_length, self.c_1),
                (pad.width, pad.off_width, self.c_2),
            )
        ]
        if pad.off_middle and min(room) < 0:
            raise OutOfScope(
                self.clauses.perimeter.at(self.editions),
                "the punching perimeter of a post off the middle runs past the edge of the pad: "
                "engineered design, or a wider pad",
            )
        return min(room) > 0

    def _under_post(self) -> tuple[float, list[Step]]:
        """Pressure under the middle of the post: what each way adds to the mean."""
        pad = self.pad
        pressure, steps = self.q_u.result, []
        for off, side in ((pad.off_length, pad.length), (pad.off_width, pad.width)):
            if off:
                step = concrete_pad.pressure_at.step(
                    self.editions, q_u=self.q_u.result, e=off, x=off, L=side, note="under the post"
                )
                pressure += step.result - self.q_u.result
                steps.append(step)
        return pressure, steps

    def _moment_as_shear(self, off: float, side: float, b_1: float, b_2: float, b_o: float) -> list[Step]:
        at, h = self.editions, self.h
        moved = self.clauses.unbalanced
        M_sc = concrete_pad.unbalanced_moment.under(moved).step(
            at, q_u=self.q_u.result, e=off, b_1=b_1, b_2=b_2, L=side
        )
        share = concrete_pad.share_by_shear.under(self.clauses.share_by_shear).step(at, b_1=b_1, b_2=b_2)
        J_c = concrete_pad.perimeter_inertia.under(moved).step(at, b_1=b_1, b_2=b_2, h=h)
        V_M = concrete_pad.moment_as_shear.under(moved).step(
            at, gamma_v=share.result, M_sc=M_sc.result, b_1=b_1, b_o=b_o, h=h, J_c=J_c.result
        )
        return [M_sc, share, J_c, V_M]


def _edge(way: Way) -> str:
    if not way.off:
        return way.name
    return f"{way.name}, {'towards the near edge' if way.sign > 0 else 'towards the far edge'}"


def frustum(pad: Pad, editions: Editions) -> tuple[Step, Step, Step]:
    """Loaded area, reach and base of the frustum under the post."""
    base, clause = pad.base, pad_rules(editions).clauses.frustum
    A_1 = concrete_pad.loaded_area.under(clause).step(editions, c_1=base.length, c_2=base.width)
    x = concrete_pad.frustum_reach.under(clause).step(
        editions,
        L=pad.length,
        W=pad.width,
        c_1=base.length,
        c_2=base.width,
        e_1=pad.off_length,
        e_2=pad.off_width,
        t=pad.thickness,
    )
    A_2 = concrete_pad.frustum_area.under(clause).step(editions, c_1=base.length, c_2=base.width, x=x.result)
    return A_1, x, A_2
