"""The `footing` kind: a plain or reinforced concrete pad under one post."""

from __future__ import annotations

from typing import Any

from structure.core.cases.ca_pads import FOOTING_FIELDS, FOOTING_RESULTS, solve_footing
from structure.core.cases.pad_fields import PAD_FIELDS, SOIL_FIELDS, one_kind_of_pad, pad_question
from structure.core.cases.reader import POST_LOADS, Field, Kind, Result
from structure.core.clauses import Editions
from structure.core.errors import InputError
from structure.core.members.footing import size_pad


def _solve(given: dict[str, Any], editions: Editions) -> dict[str, Any]:
    one_kind_of_pad(given)
    try:
        return size_pad(pad_question(given, given["soil"], editions), editions).as_data()
    except InputError as error:
        raise error.under("given") from None


KIND = Kind(
    "footing",
    [
        Field("loads", POST_LOADS, required=True, doc="on the post, by case; no weight of the pad"),
        *SOIL_FIELDS,
        *PAD_FIELDS,
    ],
    solve={"us": _solve, "ca": solve_footing},
    fields_in={"ca": FOOTING_FIELDS},
    results=[
        Result("side", "length", "of a square pad; length and width of a rectangular one"),
        Result("length", "length"),
        Result("width", "length"),
        Result("thickness", "length"),
        Result("pressure", "pressure", "largest service pressure on the soil, gross unless net"),
        Result("pressures.gross.max", "pressure", "with the weight of the pad; also min"),
        Result("pressures.net.max", "pressure", "without it; also min"),
        Result("required_side", "length", "before rounding, at the thickness taken"),
        Result("passes", "", "whether every check passes"),
        Result("governing", "", "the check with the largest ratio"),
        Result("ratio", "", "its demand over capacity"),
        Result("volume", "volume", "concrete without waste"),
        Result("solved", "", "what was not given"),
        Result("bars.count", "", "along the length; none in a plain pad"),
        Result("bars.total", "", "both ways"),
        Result("bars.spacing", "length", "centre to centre"),
        Result("bars.length", "length", "of a bar, straight"),
        Result("bars.weight", "force", "both ways, without laps and waste"),
        Result("bars.along_width.in_band", "", "of the short bars of a rectangular pad, under the post"),
        Result("checks.soil.ratio", "", "service pressure against the soil"),
        Result("checks.punching.ratio", "", "two-way shear; plain ACI 318 14.5.5.1(b), else 22.6.5.2"),
        Result("checks.one_way_shear.ratio", "", "plain ACI 318 14.5.5.1(a), else 22.5.5.1(c)"),
        Result("checks.flexure.ratio", "", "plain ACI 318 14.5.2.1, else 22.3.1.1"),
        Result("checks.bearing.ratio", "", "post or plate on the concrete; ACI 318 14.5.6.1 or 22.8.3.2"),
        Result("checks.projection.ratio", "", "plain: not more than the thickness; IRC R403.1.1"),
        Result("checks.projection_least.ratio", "", "at least 2 in; IRC R403.1.1"),
        Result("checks.thickness.ratio", "", "at least 6 in; IRC R403.1.1"),
        Result("checks.thickness_plain.ratio", "", "at least 8 in; ACI 318 14.3.2.1"),
        Result("checks.tension_controlled.ratio", "", "strain asked for over strain; ACI 318 8.3.3.1"),
        Result("checks.minimum_steel.ratio", "", "0.0018 of the concrete; ACI 318 8.6.1.1"),
        Result("checks.minimum_steel_punching.ratio", "", "bars at the post; ACI 318 8.6.1.2"),
        Result("checks.development.ratio", "", "straight bars from the section to their end; ACI 318 25.4.2"),
        Result("checks.cover.ratio", "", "3 in against the ground; ACI 318 20.5.1.3.1"),
        Result("checks.depth.ratio", "", "6 in over the bars; ACI 318 13.3.1.2"),
        Result("checks.spacing.ratio", "", "widest; ACI 318 8.7.2.2"),
        Result("checks.spacing_least.ratio", "", "closest; ACI 318 25.2.1"),
        *FOOTING_RESULTS,
    ],
    doc="A plain or reinforced concrete pad under one post, sized or checked.",
)
