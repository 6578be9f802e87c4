"""Checks of a plain pad under the Canadian code: soil, concrete by CSA A23.3 clause 22, size by NBC 9.15.3.8."""

from __future__ import annotations

from structure.core.clauses import Editions
from structure.core.codes.ca import concrete, nbc_footings
from structure.core.codes.us import concrete_pad
from structure.core.members.footing_checks import (
    Sheet,
    longest,
    made,
    no_punching,
    shear_note,
    soil_check,
    worst_way,
)
from structure.core.members.footing_pad import Force, Pad
from structure.core.members.footing_statics import Demand, Statics, frustum
from structure.core.trace import Check


def plain_checks(pad: Pad, service: Force, factored: Force, editions: Editions) -> tuple[Check, ...]:
    """Every check of a plain pad. CSA A23.3:19 22.6 on factored load, soil on service load, NBC 9.15.3.8."""
    sheet = _Plain(pad, factored, editions)
    return (
        soil_check(pad, service, editions),
        sheet.punching(),
        sheet.one_way_shear(),
        sheet.flexure(),
        plain_bearing(pad, factored, editions),
        projection_check(pad, editions),
        thickness_check(pad, editions),
        *area_check(pad, editions),
    )


class _Plain(Sheet):
    """The concrete checks of one plain pad; numbers that several checks share are worked once."""

    def __init__(self, pad: Pad, factored: Force, editions: Editions) -> None:
        self.pad, self.factored, self.editions = pad, factored, editions
        self.root = concrete.root_strength.step(editions, f_c=pad.f_c, MPa_1=1.0)
        self.h = concrete.effective_thickness.step(editions, t=pad.thickness, t_soil=concrete.SOIL_FACE_LOSS)
        self.statics = Statics(pad, factored, self.h.result, editions)

    def punching(self) -> Check:
        force = self.statics.punching()
        V_r = concrete.plain_punching.step(
            self.editions,
            beta_c=force.beta,
            phi_c=concrete.PHI_C,
            sqrt_fc=self.root.result,
            b_o=force.perimeter,
            h=self.h.result,
        )
        steps = (self.h, *force.steps, self.root, *force.capacity_steps, V_r)
        note = no_punching(force.value)
        return self._check("punching", force.value, V_r.result, "force", V_r.clause, steps, note)

    def one_way_shear(self) -> Check:
        def check(demand: Demand) -> Check:
            V_r = concrete.plain_one_way.step(
                self.editions,
                phi_c=concrete.PHI_C,
                sqrt_fc=self.root.result,
                b=demand.way.across,
                h=self.h.result,
            )
            steps = (self.h, *demand.steps, self.root, V_r)
            note = shear_note(demand)
            return self._check("one_way_shear", demand.value, V_r.result, "force", V_r.clause, steps, note)

        return worst_way(self.statics, self.statics.shear, check)

    def flexure(self) -> Check:
        def check(demand: Demand) -> Check:
            S = concrete.pad_modulus.step(self.editions, b=demand.way.across, h=self.h.result)
            M_r = concrete.plain_bending.step(
                self.editions,
                phi_c=concrete.PHI_C,
                sqrt_fc=self.root.result,
                S=S.result,
            )
            steps = (*demand.steps, self.h, S, self.root, M_r)
            note = demand.way.name
            return self._check("flexure", demand.value, M_r.result, "moment", M_r.clause, steps, note)

        return worst_way(self.statics, self.statics.moment, check)


def plain_bearing(pad: Pad, factored: Force, editions: Editions, note: str = "") -> Check:
    """Post or plate on the concrete. CSA A23.3:19 10.8.1."""
    A_1, x, A_2 = frustum(pad, editions)
    B_r = concrete.bearing_resistance.step(
        editions, phi_c=concrete.PHI_C, f_c=pad.f_c, A_1=A_1.result, A_2=A_2.result
    )
    steps = (A_1, x, A_2, B_r)
    return made("bearing", factored.value, B_r.result, "force", factored.combination, B_r.clause, steps, note)


def projection_check(pad: Pad, editions: Editions) -> Check:
    """A plain pad is as thick as it projects beyond post or plate. NBC 9.15.3.8."""
    sides = ((pad.length, pad.base.length, pad.off_length), (pad.width, pad.base.width, pad.off_width))
    # The longer projection is on the side that the post stands away from.
    edges = [
        concrete_pad.projection.under(nbc_footings.THICKNESS).step(
            editions, L=side, c=c, e=-off, note="beyond the edge of post or plate"
        )
        for side, c, off in sides
    ]
    longer = longest(edges)
    return made(
        "projection",
        longer.result,
        pad.thickness,
        "length",
        "",
        longer.clause,
        (longer,),
        "not more than the thickness",
    )


def thickness_check(pad: Pad, editions: Editions) -> Check:
    """At least 100 mm. NBC 9.15.3.8."""
    return made(
        "thickness",
        nbc_footings.LEAST_THICKNESS,
        pad.thickness,
        "length",
        "",
        nbc_footings.THICKNESS.at(editions),
        (),
        "at least 100 mm",
    )


def area_check(pad: Pad, editions: Editions) -> tuple[Check, ...]:
    """At least the area of the table, where it was asked about. NBC 9.15.3.4."""
    if not pad.least_area:
        return ()
    clause = nbc_footings.AREAS.at(editions)
    note = "the least area under columns"
    return (made("part9_area", pad.least_area, pad.length * pad.width, "area", "", clause, (), note),)
