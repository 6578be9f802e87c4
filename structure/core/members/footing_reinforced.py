"""The concrete checks of one reinforced pad. ACI 318-19 chapters 13, 22 and 25; lbf, inches, psi."""

from __future__ import annotations

from structure.core.clauses import Editions
from structure.core.codes.us import concrete, concrete_pad
from structure.core.codes.us import concrete_reinforced as code
from structure.core.members.footing_bars import Layout, layouts
from structure.core.members.footing_checks import (
    Sheet,
    common_sizes,
    made,
    no_punching,
    nominal_bearing,
    shear_note,
    soil_check,
    worst_way,
)
from structure.core.members.footing_pad import Force, Mat, Pad, Way
from structure.core.members.footing_statics import Demand, Punching, Statics
from structure.core.trace import Check, Step


def reinforced_checks(pad: Pad, service: Force, factored: Force, editions: Editions) -> tuple[Check, ...]:
    """Every check of a pad with bars: soil, strength, and how the bars must lie.

    The limit that a projection be no longer than the thickness (IRC R403.1.1) is that of plain pads and is
    left out: bars carry what it guards against.
    """
    assert pad.bars is not None  # noqa: S101 - the caller asks for a reinforced pad
    sheet = _Reinforced(pad, pad.bars, factored, editions)
    return (
        soil_check(pad, service, editions),
        sheet.punching(),
        sheet.one_way_shear(),
        sheet.flexure(),
        sheet.tension_controlled(),
        sheet.bearing(),
        sheet.least_steel(),
        sheet.punching_steel(),
        *sheet.layout(),
        sheet.development(),
        *common_sizes(sheet.statics),
    )


class _Reinforced(Sheet):
    """One pad with bars; numbers that several checks share are worked once."""

    def __init__(self, pad: Pad, mat: Mat, factored: Force, editions: Editions) -> None:
        self.pad, self.mat, self.factored, self.editions = pad, mat, factored, editions
        at, bar = editions, mat.bar
        self.root = concrete.root_strength.step(at, f_c=pad.f_c, psi_1=1.0)
        self.light = concrete.lightweight_factor.step(at, w_c=pad.density * 1728, w_1=1.0)
        self.d = code.mean_depth.step(at, t=pad.thickness, cover=mat.cover, d_b=bar.diameter)
        self.statics = Statics(pad, factored, self.d.result, at)
        self.force: Punching = self.statics.punching()
        self.layouts = {each.way: each for each in layouts(pad, mat, at)}

    def _steel(self, way: Way) -> Step:
        return code.steel_area.step(self.editions, n=float(way.bars), A_b=self.mat.bar.area, note=way.name)

    def punching(self) -> Check:
        at, force = self.editions, self.force
        alpha = code.ALL_ROUND if force.four_sides else code.TWO_SIDES
        if not force.perimeter:
            phi = concrete_pad.design_shear.step(at, phi=code.PHI_SHEAR, V_n=0.0)
            clause = code.TWO_WAY_SHEAR.at(at)
            return self._check("punching", 0.0, 0.0, "force", clause, (*force.steps, phi), no_punching(0.0))
        V_n = code.punching_strength.step(
            at,
            beta=force.beta,
            alpha_s=alpha,
            d=self.d.result,
            b_o=force.perimeter,
            lambda_c=self.light.result,
            sqrt_fc=self.root.result,
        )
        phi = concrete_pad.design_shear.step(at, phi=code.PHI_SHEAR, V_n=V_n.result)
        steps = (self.d, *force.steps, self.root, self.light, *force.capacity_steps, V_n, phi)
        return self._check("punching", force.value, phi.result, "force", V_n.clause, steps)

    def one_way_shear(self) -> Check:
        at = self.editions

        def check(demand: Demand) -> Check:
            way = demand.way
            A_s = self._steel(way)
            rho = code.steel_ratio.step(at, A_s=A_s.result, b_w=way.across, d=self.d.result)
            V_n = code.one_way_strength.step(
                at,
                rho_w=rho.result,
                lambda_c=self.light.result,
                sqrt_fc=self.root.result,
                b_w=way.across,
                d=self.d.result,
            )
            phi = concrete_pad.design_shear.step(at, phi=code.PHI_SHEAR, V_n=V_n.result)
            steps = (self.d, *demand.steps, A_s, rho, self.root, self.light, V_n, phi)
            return self._check(
                "one_way_shear", demand.value, phi.result, "force", V_n.clause, steps, shear_note(demand)
            )

        return worst_way(self.statics, self.statics.shear, check)

    def _block(self, way: Way) -> tuple[Step, Step]:
        A_s = self._steel(way)
        a = code.block_depth.step(
            self.editions, A_s=A_s.result, f_y=self.mat.f_y, f_c=self.pad.f_c, b=way.across
        )
        return A_s, a

    def flexure(self) -> Check:
        at = self.editions

        def check(demand: Demand) -> Check:
            A_s, a = self._block(demand.way)
            M_n = code.bending_strength.step(
                at, A_s=A_s.result, f_y=self.mat.f_y, d=self.d.result, a=a.result
            )
            phi = concrete_pad.design_moment.step(at, phi=code.PHI_FLEXURE, M_n=M_n.result)
            steps = (self.d, *demand.steps, A_s, a, M_n, phi)
            return self._check(
                "flexure", demand.value, phi.result, "moment", M_n.clause, steps, demand.way.name
            )

        return worst_way(self.statics, self.statics.moment, check)

    def tension_controlled(self) -> Check:
        """The strain that is asked for against the strain there is; the capacity of `flexure` rests on it."""
        at = self.editions
        limit = code.tension_limit.step(at, f_y=self.mat.f_y, E_s=code.E_S)
        beta_1 = code.block_factor.step(at, f_c=self.pad.f_c, psi_1=1.0)
        checks = []
        for way in self.statics.ways:
            A_s, a = self._block(way)
            eps = code.steel_strain.step(at, beta_1=beta_1.result, d=self.d.result, a=a.result)
            steps = (self.d, A_s, a, beta_1, eps, limit)
            clause = code.TENSION_CONTROLLED.at(at)
            checks.append(
                made("tension_controlled", limit.result, eps.result, "", "", clause, steps, way.name)
            )
        return max(checks, key=lambda each: each.ratio)

    def bearing(self) -> Check:
        steps = nominal_bearing(self.pad, self.editions)
        phi = concrete_pad.design_bearing.step(self.editions, phi=code.PHI_BEARING, B_n=steps[-1].result)
        clause = code.BEARING.at(self.editions)
        return self._check("bearing", self.factored.value, phi.result, "force", clause, (*steps, phi))

    def least_steel(self) -> Check:
        """8.6.1.1, which covers temperature and shrinkage (24.4.3.2) as well, since the bars run both ways."""
        at = self.editions
        checks = []
        for way in self.statics.ways:
            A_s = self._steel(way)
            A_min = code.least_steel.step(at, b=way.across, t=self.pad.thickness)
            checks.append(
                made(
                    "minimum_steel",
                    A_min.result,
                    A_s.result,
                    "area",
                    "",
                    A_min.clause,
                    (A_s, A_min),
                    way.name,
                )
            )
        return max(checks, key=lambda each: each.ratio)

    def punching_steel(self) -> Check:
        """8.6.1.2: bars at the post where the punching stress passes half of what the concrete may carry."""
        at, force = self.editions, self.force
        clause = code.PUNCHING_STEEL.at(at)
        name = "minimum_steel_punching"
        if not force.perimeter:
            return self._check(name, 0.0, 0.0, "area", clause, force.steps, no_punching(0.0))
        v = code.punching_stress.step(at, V_u=force.value, b_o=force.perimeter, d=self.d.result)
        limit = code.punching_steel_limit.step(
            at, phi=code.PHI_SHEAR, lambda_c=self.light.result, sqrt_fc=self.root.result
        )
        alpha = code.ALL_ROUND if force.four_sides else code.TWO_SIDES
        checks = []
        for way in self.statics.ways:
            A_s = self._steel(way)
            width = code.slab_width.step(at, c=way.c_across, t=self.pad.thickness, b=way.across)
            within = code.steel_within.step(at, A_s=A_s.result, b_slab=width.result, b=way.across)
            if v.result <= limit.result:
                note = "the punching stress is low: none is asked for"
                steps: tuple[Step, ...] = (v, limit)
                checks.append(self._check(name, 0.0, within.result, "area", clause, steps, note))
                continue
            A = code.punching_steel.step(
                at,
                v_uv=v.result,
                b_slab=width.result,
                b_o=force.perimeter,
                phi=code.PHI_SHEAR,
                alpha_s=alpha,
                f_y=self.mat.f_y,
            )
            steps = (v, limit, A_s, width, within, A)
            checks.append(self._check(name, A.result, within.result, "area", clause, steps, way.name))
        return max(checks, key=lambda each: each.ratio)

    def layout(self) -> tuple[Check, ...]:
        """Cover, depth of the upper layer, and the bars neither too far apart nor too close."""
        at, mat, t = self.editions, self.mat, self.pad.thickness
        top = code.upper_depth.step(at, t=t, cover=mat.cover, d_b=mat.bar.diameter)
        widest = code.widest_spacing.step(at, t=t, s_18=code.MOST_SPACING)
        closest = code.closest_spacing.step(at, d_b=mat.bar.diameter, s_1=code.LEAST_CLEAR)
        held = self.layouts.values()
        wide = max(held, key=lambda each: each.widest)
        close = min(held, key=lambda each: each.closest)
        return (
            made(
                "cover",
                code.EARTH_COVER,
                mat.cover,
                "length",
                "",
                code.COVER.at(at),
                (),
                "at least 3 in, cast against the ground",
            ),
            made("depth", code.BOTTOM_DEPTH, top.result, "length", "", top.clause, (top,), "at least 6 in"),
            made(
                "spacing",
                wide.widest,
                widest.result,
                "length",
                "",
                widest.clause,
                (*wide.steps, widest),
                wide.way,
            ),
            made(
                "spacing_least",
                closest.result,
                close.closest,
                "length",
                "",
                closest.clause,
                (*close.steps, closest),
                close.way,
            ),
        )

    def development(self) -> Check:
        """Straight bars from the critical section to their end; hooks are not counted. 13.2.8, 25.4.2."""
        at, mat = self.editions, self.mat
        bar = mat.bar

        def check(demand: Demand) -> Check:
            way = demand.way
            layout: Layout = self.layouts[way.name]
            c_b = code.splitting_cover.step(at, cover=mat.cover, d_b=bar.diameter, s=layout.closest)
            psi_s = code.PSI_SMALL if bar.diameter <= code.SMALL_BAR else code.PSI_LARGE
            l_d = code.development_length.step(
                at,
                f_y=mat.f_y,
                lambda_c=self.light.result,
                sqrt_fc=self.root.result,
                psi_s=psi_s,
                c_b=c_b.result,
                d_b=bar.diameter,
            )
            A_s = self._steel(way)
            A_req = code.required_steel.step(
                at,
                f_c=self.pad.f_c,
                b=way.across,
                d=self.d.result,
                f_y=mat.f_y,
                M_u=demand.value,
                phi=code.PHI_FLEXURE,
            )
            needed = code.needed_length.step(
                at, l_d=l_d.result, A_req=A_req.result, A_s=A_s.result, l_12=code.LEAST_LENGTH
            )
            p = self.statics.projection(way)
            have = code.available_length.step(at, p=p.result, cover=mat.cover)
            steps = (self.root, self.light, c_b, l_d, *demand.steps, A_s, A_req, needed, have)
            clause = l_d.clause
            return self._check(
                "development",
                needed.result,
                max(have.result, 0.0),
                "length",
                clause,
                steps,
                f"{way.name}; straight bars, hooks are not counted",
            )

        return worst_way(self.statics, self.statics.moment, check)
