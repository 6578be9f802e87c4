"""The `snow` kind: snow on a roof from snow on the ground."""

from __future__ import annotations

from typing import Any

from structure.core.cases.reader import Field, Kind, Number, Quantity, Result
from structure.core.clauses import Editions
from structure.core.codes.us.snow_load import SnowQuestion, roof_snow


def _solve(given: dict[str, Any], editions: Editions) -> dict[str, Any]:
    question = SnowQuestion(
        ground=given["ground"],
        C_e=given["Ce"],
        C_t=given["Ct"],
        I_s=given["Is"],
        C_s=given["Cs"],
        slope=given["slope"],
    )
    return roof_snow(question, editions).as_data()


KIND = Kind(
    "snow",
    [
        Field(
            "ground",
            Quantity("pressure", non_negative=True),
            required=True,
            doc="ground snow p_g, from the authority",
        ),
        Field("Ce", Number(min=0.7, max=1.2), required=True, doc="exposure factor, ASCE 7 Table 7.3-1"),
        Field("Ct", Number(min=0.85, max=1.3), required=True, doc="thermal factor, ASCE 7 Table 7.3-2"),
        Field("Is", Number(min=0.8, max=1.2), required=True, doc="importance factor, ASCE 7 Table 1.5-2"),
        Field("Cs", Number(min=0.0, max=1.0), doc="slope factor, if known; stands in place of the curve"),
        Field(
            "slope",
            Quantity("angle", non_negative=True),
            doc="angle of the roof; without it and Cs a flat roof",
        ),
    ],
    solve={"us": _solve},
    results=[
        Result("roof", "pressure", "uniform snow on the horizontal projection, the larger of the two below"),
        Result("balanced", "pressure", "C_s times flat roof snow"),
        Result("minimum", "pressure", "least uniform snow on a low slope, where it applies"),
        Result("flat", "pressure", "flat roof snow p_f"),
        Result("Cs", "", "slope factor"),
    ],
    doc="Uniform roof snow from ground snow.",
)
