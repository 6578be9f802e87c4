"""What each code says of a pad, side by side: clauses of what is statics, least sizes, sums of loads.

The members ask by `editions.code`. Lengths, areas and stresses are in the units of that code.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass

from structure.core.clauses import Clause, Editions
from structure.core.codes.ca import combinations as ca_sums
from structure.core.codes.ca import concrete as ca
from structure.core.codes.ca import concrete_reinforced as ca_bars
from structure.core.codes.ca import nbc, nbc_footings
from structure.core.codes.combination import Combination
from structure.core.codes.us import combinations as us_sums
from structure.core.codes.us import concrete, concrete_pad, irc, soil
from structure.core.codes.us import concrete_reinforced as bars

Formed = Callable[[Collection[str]], tuple[Combination, ...]]


@dataclass(frozen=True, slots=True)
class PadClauses:
    """Where this code says what holds in any: soil pressure, sections, perimeter, frustum, how bars lie."""

    base_area: Clause
    plain_base_area: Clause
    critical_section: Clause
    perimeter: Clause
    unbalanced: Clause
    share_by_shear: Clause
    frustum: Clause
    foundations: Clause
    uplift: Clause
    engineered: Clause
    band: Clause
    cover: Clause
    spacing: Clause
    sizes: Clause


@dataclass(frozen=True, slots=True)
class PadRules:
    """One code's pads.

    `steps`: finest and coarsest rounding; `thickest`: past this nobody pours a pad by hand; `thick`: from here
    on a reinforced pad is worth asking for; `most_side`: past this the pad is a mat: all four common practice.
    `face_loss`: of a plain pad cast against soil. `least_plain`: thickness. `bottom_depth`: over the bars.
    `least_bar`: a straight bar is never developed in less. `least_steel` by width and thickness.
    """

    clauses: PadClauses
    steps: tuple[float, float]
    thickest: float
    thick: float
    most_side: float
    least_projection: float
    face_loss: float
    least_plain: float
    bottom_depth: float
    least_bar: float
    bars_table: str
    assumed_table: str
    service: Formed
    factored: Formed
    least_steel: Callable[[float, float], float]
    widest_spacing: Callable[[float], float]


_RULES: Mapping[str, PadRules] = {
    "us": PadRules(
        clauses=PadClauses(
            base_area=soil.BASE_AREA,
            plain_base_area=soil.PLAIN_BASE_AREA,
            critical_section=concrete_pad.CRITICAL_SECTION,
            perimeter=concrete_pad.CRITICAL_PERIMETER,
            unbalanced=concrete_pad.UNBALANCED,
            share_by_shear=concrete_pad.SHARE_BY_SHEAR,
            frustum=concrete_pad.FRUSTUM,
            foundations=concrete.FOUNDATIONS,
            uplift=irc.ENGINEERED_DESIGN,
            engineered=irc.ENGINEERED_DESIGN,
            band=bars.BAND,
            cover=bars.COVER,
            spacing=bars.WIDEST_SPACING,
            sizes=irc.FOOTING_SIZE,
        ),
        steps=(0.25, 12.0),
        thickest=48.0,
        thick=24.0,
        most_side=40.0 * 12.0,
        least_projection=irc.MIN_PROJECTION,
        face_loss=concrete.SOIL_FACE_LOSS,
        least_plain=concrete.MIN_FOOTING_THICKNESS,
        bottom_depth=bars.BOTTOM_DEPTH,
        least_bar=bars.LEAST_LENGTH,
        bars_table="us/rebar",
        assumed_table="us/concrete",
        service=us_sums.asd,
        factored=us_sums.strength_concrete,
        least_steel=lambda b, t: float(bars.least_steel(b, t)),
        widest_spacing=lambda t: float(bars.widest_spacing(t)),
    ),
    "ca": PadRules(
        clauses=PadClauses(
            base_area=ca.BASE_AREA,
            plain_base_area=ca.BASE_AREA,
            critical_section=ca.CRITICAL_SECTION,
            perimeter=ca.CRITICAL_PERIMETER,
            unbalanced=ca.UNBALANCED,
            share_by_shear=ca.SHARE_BY_SHEAR,
            frustum=ca.BEARING,
            foundations=ca.FOOTINGS,
            uplift=nbc.UPLIFT,
            engineered=nbc.GOOD_PRACTICE,
            band=ca_bars.BAND,
            cover=ca_bars.COVER,
            spacing=ca_bars.WIDEST_SPACING,
            sizes=nbc_footings.THICKNESS,
        ),
        steps=(5.0, 300.0),
        thickest=1200.0,
        thick=600.0,
        most_side=12_000.0,
        least_projection=50.0,  # common practice: post and pad never line up better than that
        face_loss=ca.SOIL_FACE_LOSS,
        least_plain=nbc_footings.LEAST_THICKNESS,
        bottom_depth=ca_bars.BOTTOM_DEPTH,
        least_bar=ca_bars.LEAST_LENGTH,
        bars_table="ca/rebar",
        assumed_table="ca/concrete",
        service=ca_sums.service,
        factored=ca_sums.ultimate,
        least_steel=lambda b, t: float(ca_bars.least_steel(b, t)),
        widest_spacing=lambda t: float(ca_bars.widest_spacing(t)),
    ),
}


def pad_rules(editions: Editions) -> PadRules:
    """The rules of the code that the question is asked under."""
    return _RULES[editions.code]
