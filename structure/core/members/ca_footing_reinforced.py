"""The concrete checks of one reinforced pad. CSA A23.3:19 clauses 7, 10 to 13 and 15; N, mm, MPa."""

from __future__ import annotations

from structure.core.clauses import ClauseRef, Editions
from structure.core.codes.ca import concrete
from structure.core.codes.ca import concrete_reinforced as code
from structure.core.codes.us import concrete_reinforced as geometry
from structure.core.members.ca_footing_checks import area_check, plain_bearing, thickness_check
from structure.core.members.footing_bars import Layout, layouts
from structure.core.members.footing_checks import (
    Sheet,
    longest,
    made,
    no_punching,
    shear_note,
    soil_check,
    worst_way,
)
from structure.core.members.footing_pad import Force, Mat, Pad, Way
from structure.core.members.footing_statics import Demand, Punching, Statics
from structure.core.trace import Check, Step


def reinforced_checks(pad: Pad, service: Force, factored: Force, editions: Editions) -> tuple[Check, ...]:
    """Every check of a pad with bars: soil, strength, and how the bars must lie.

    That the thickness be no less than the projection (NBC 9.15.3.8.) is for plain footings and is left out.
    """
    assert pad.bars is not None  # noqa: S101 - the caller asks for a reinforced pad
    sheet = _Reinforced(pad, pad.bars, factored, editions)
    return (
        soil_check(pad, service, editions),
        sheet.punching(),
        sheet.one_way_shear(),
        sheet.flexure(),
        sheet.yielding(),
        plain_bearing(pad, factored, editions),
        sheet.least_steel(),
        *sheet.layout(),
        sheet.development(),
        thickness_check(pad, editions),
        *area_check(pad, editions),
    )


class _Reinforced(Sheet):
    """One pad with bars; numbers that several checks share are worked once."""

    def __init__(self, pad: Pad, mat: Mat, factored: Force, editions: Editions) -> None:
        self.pad, self.mat, self.factored, self.editions = pad, mat, factored, editions
        at, bar = editions, mat.bar
        self.root = concrete.root_strength.step(at, f_c=pad.f_c, MPa_1=1.0)
        self.d = geometry.mean_depth.under(code.LEAST_DEPTH).step(
            at, t=pad.thickness, cover=mat.cover, d_b=bar.diameter
        )
        self.d_v = code.shear_depth.step(at, d=self.d.result, t=pad.thickness)
        self.alpha = code.block_stress.step(at, f_c=pad.f_c, MPa_1=1.0)
        # Punching and bending look at d, one-way shear at d_v from the post.
        self.statics = Statics(pad, factored, self.d.result, at)
        self.sliced = Statics(pad, factored, self.d_v.result, at)
        self.layouts = {each.way: each for each in layouts(pad, mat, at)}

    def _steel(self, way: Way) -> Step:
        return geometry.steel_area.under(code.FLEXURE).step(
            self.editions, n=float(way.bars), A_b=self.mat.bar.area, note=way.name
        )

    def punching(self) -> Check:
        at, force = self.editions, self.statics.punching()
        if not force.perimeter:
            clause = code.TWO_WAY_SHEAR.at(at)
            return self._check("punching", 0.0, 0.0, "force", clause, force.steps, no_punching(0.0))
        v_c, deep = self._stress(force), self._deep()
        k_d = deep[0].result if deep else 1.0
        V_r = code.punching_resistance.step(at, k_d=k_d, v_c=v_c.result, b_o=force.perimeter, d=self.d.result)
        steps = (self.d, *force.steps, self.root, *force.capacity_steps, v_c, *deep, V_r)
        return self._check("punching", force.value, V_r.result, "force", V_r.clause, steps)

    def _stress(self, force: Punching) -> Step:
        return code.punching_stress.step(
            self.editions,
            beta_c=force.beta,
            alpha_s=code.ALL_ROUND if force.four_sides else code.TWO_SIDES,
            d=self.d.result,
            b_o=force.perimeter,
            phi_c=concrete.PHI_C,
            sqrt_fc=self.root.result,
        )

    def _deep(self) -> tuple[Step, ...]:
        """The loss of a deep pad, where it counts."""
        longer = longest(self.statics.projection(way) for way in self.statics.ways)
        if not code.loses_by_depth(self.d.result, longer.result):
            return ()
        return (code.deep_pad_factor.step(self.editions, d=self.d.result, mm_1=1.0),)

    def one_way_shear(self) -> Check:
        at = self.editions
        beta = code.shear_factor.step(
            at, t=self.pad.thickness, t_350=code.THIN, d_v=self.d_v.result, mm_1=1.0
        )

        def check(demand: Demand) -> Check:
            V_c = code.one_way_resistance.step(
                at,
                phi_c=concrete.PHI_C,
                beta=beta.result,
                sqrt_fc=self.root.result,
                b=demand.way.across,
                d_v=self.d_v.result,
            )
            steps = (self.d, self.d_v, *demand.steps, self.root, beta, V_c)
            note = shear_note(demand)
            return self._check("one_way_shear", demand.value, V_c.result, "force", V_c.clause, steps, note)

        return worst_way(self.sliced, self.sliced.shear, check)

    def _block(self, way: Way) -> tuple[Step, Step]:
        A_s = self._steel(way)
        a = code.block_depth.step(
            self.editions,
            phi_s=code.PHI_S,
            A_s=A_s.result,
            f_y=self.mat.f_y,
            alpha_1=self.alpha.result,
            phi_c=concrete.PHI_C,
            f_c=self.pad.f_c,
            b=way.across,
        )
        return A_s, a

    def flexure(self) -> Check:
        at = self.editions

        def check(demand: Demand) -> Check:
            A_s, a = self._block(demand.way)
            M_r = code.bending_resistance.step(
                at, phi_s=code.PHI_S, A_s=A_s.result, f_y=self.mat.f_y, d=self.d.result, a=a.result
            )
            steps = (self.d, *demand.steps, A_s, self.alpha, a, M_r)
            note = demand.way.name
            return self._check("flexure", demand.value, M_r.result, "moment", M_r.clause, steps, note)

        return worst_way(self.statics, self.statics.moment, check)

    def yielding(self) -> Check:
        """The bars yield before the concrete crushes; the resistance of `flexure` rests on it. 10.5.2."""
        at = self.editions
        limit = code.axis_limit.step(at, MPa_700=700.0, f_y=self.mat.f_y)
        beta_1 = code.block_factor.step(at, f_c=self.pad.f_c, MPa_1=1.0)
        checks = []
        for way in self.statics.ways:
            A_s, a = self._block(way)
            c = code.axis_ratio.step(at, a=a.result, beta_1=beta_1.result, d=self.d.result)
            steps = (self.d, A_s, self.alpha, a, beta_1, c, limit)
            checks.append(
                made("tension_controlled", c.result, limit.result, "", "", c.clause, steps, way.name)
            )
        return max(checks, key=lambda each: each.ratio)

    def least_steel(self) -> Check:
        checks = []
        for way in self.statics.ways:
            A_s = self._steel(way)
            A_min = code.least_steel.step(self.editions, b=way.across, t=self.pad.thickness)
            steps = (A_s, A_min)
            checks.append(
                made("minimum_steel", A_min.result, A_s.result, "area", "", A_min.clause, steps, way.name)
            )
        return max(checks, key=lambda each: each.ratio)

    def layout(self) -> tuple[Check, ...]:
        """Cover, depth of the upper layer, and the bars neither too far apart nor too close."""
        at, mat, t = self.editions, self.mat, self.pad.thickness
        top = geometry.upper_depth.under(code.LEAST_DEPTH).step(
            at, t=t, cover=mat.cover, d_b=mat.bar.diameter
        )
        widest = code.widest_spacing.step(at, t=t, s_500=code.MOST_SPACING)
        closest = code.closest_spacing.step(at, d_b=mat.bar.diameter, s_30=code.LEAST_CLEAR)
        held = self.layouts.values()
        wide = max(held, key=lambda each: each.widest)
        close = min(held, key=lambda each: each.closest)
        return (
            _size(
                "cover",
                code.EARTH_COVER,
                mat.cover,
                code.COVER.at(at),
                (),
                "at least 75 mm, cast against earth",
            ),
            _size("depth", code.BOTTOM_DEPTH, top.result, top.clause, (top,), "at least 150 mm"),
            _size("spacing", wide.widest, widest.result, widest.clause, (*wide.steps, widest), wide.way),
            _size(
                "spacing_least",
                closest.result,
                close.closest,
                closest.clause,
                (*close.steps, closest),
                close.way,
            ),
        )

    def development(self) -> Check:
        """Straight bars from the critical section to their end; hooks are not counted. 15.6, 12.2."""
        at, mat = self.editions, self.mat
        bar = mat.bar

        def check(demand: Demand) -> Check:
            way = demand.way
            layout: Layout = self.layouts[way.name]
            k = code.confinement(mat.cover, bar.diameter, layout.closest)
            l_d = code.development_length.step(
                at,
                k=k,
                k_4=code.K4_SMALL if bar.area <= code.SMALL_BAR else code.K4_LARGE,
                f_y=mat.f_y,
                sqrt_fc=self.root.result,
                d_b=bar.diameter,
            )
            A_s = self._steel(way)
            A_req = code.required_steel.step(
                at,
                alpha_1=self.alpha.result,
                phi_c=concrete.PHI_C,
                f_c=self.pad.f_c,
                b=way.across,
                d=self.d.result,
                phi_s=code.PHI_S,
                f_y=mat.f_y,
                M_f=demand.value,
            )
            needed = code.needed_length.step(
                at, l_d=l_d.result, A_req=A_req.result, A_s=A_s.result, l_300=code.LEAST_LENGTH
            )
            p = self.statics.projection(way)
            have = geometry.available_length.under(code.LEAST_DEVELOPMENT).step(
                at, p=p.result, cover=mat.cover
            )
            steps = (self.root, l_d, *demand.steps, A_s, A_req, needed, have)
            note = f"{way.name}; straight bars, hooks are not counted"
            room = max(have.result, 0.0)
            return self._check("development", needed.result, room, "length", l_d.clause, steps, note)

        return worst_way(self.statics, self.statics.moment, check)


def _size(
    name: str, asked: float, held: float, clause: ClauseRef, steps: tuple[Step, ...], note: str
) -> Check:
    return made(name, asked, held, "length", "", clause, steps, note)
