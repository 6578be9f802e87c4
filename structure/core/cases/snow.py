"""The `snow` kind: snow on a roof from snow on the ground."""

from __future__ import annotations

from typing import Any

from structure.core.cases.reader import Choice, Field, Flag, Kind, Number, Quantity, Result, Text
from structure.core.clauses import Editions
from structure.core.codes.ca import snow_load as canadian
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


def _solve_ca(given: dict[str, Any], editions: Editions) -> dict[str, Any]:
    rule: canadian.Rule = given["rule"] or ("part9" if given["Cb"] is None else "part4")
    question = canadian.SnowQuestion(
        S_s=given["Ss"],
        S_r=given["Sr"],
        rule=rule,
        source=given["climate_source"] or "",
        roof_width=given["roof_width"],
        C_b=given["Cb"],
        C_w=given["Cw"],
        C_s=given["Cs"],
        C_a=given["Ca"],
        I_s=given["Is"],
        slope=given["slope"],
        slippery=given["slippery"],
    )
    return canadian.roof_snow(question, editions).as_data()


_PRESSURE = Quantity("pressure", non_negative=True)
_SLOPE = Quantity("angle", non_negative=True)
_CANADIAN = (
    Field(
        "Ss", _PRESSURE, required=True, doc="snow on the ground once in 50 years, from the table of the place"
    ),
    Field("Sr", _PRESSURE, required=True, doc="rain with it, from the same table"),
    Field("climate_source", Text(), doc="where Ss and Sr were read"),
    Field(
        "rule", Choice(("part9", "part4")), doc="NBC 9.4.2.2. or 4.1.6.2.; default part4 with Cb, else part9"
    ),
    Field("roof_width", Quantity("length", positive=True), doc="entire width of the roof, for part 9"),
    Field("Cb", Number(min=0.3, max=1.5), doc="basic roof snow factor; default by the rule"),
    Field("Cw", Number(min=0.5, max=1.0), doc="wind exposure; default 1"),
    Field("Cs", Number(min=0.0, max=1.0), doc="slope factor; default that of the slope, else 1"),
    Field("Ca", Number(min=0.0, max=10.0), doc="accumulation, from the engineer; default 1"),
    Field("Is", Number(min=0.8, max=1.25), doc="importance; default 1, a house in strength"),
    Field("slope", _SLOPE, doc="angle of the roof, for part 4"),
    Field("slippery", Flag(), default=False, doc="an unobstructed slippery roof that snow slides off"),
)

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
    solve={"us": _solve, "ca": _solve_ca},
    fields_in={"ca": _CANADIAN},
    results=[
        Result("roof", "pressure", "uniform snow on the horizontal projection, no less than the minimum"),
        Result("balanced", "pressure", "us: C_s times flat roof snow"),
        Result("minimum", "pressure", "us: least uniform snow on a low slope, where it applies; ca: 1 kPa"),
        Result("flat", "pressure", "us: flat roof snow p_f"),
        Result("Cs", "", "slope factor"),
        Result("rule", "", "ca: part9 or part4"),
        Result("Cb", "", "ca: basic roof snow factor"),
    ],
    doc="Uniform roof snow from ground snow.",
)
