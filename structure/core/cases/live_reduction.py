"""The `live_reduction` field of a beam: live load taken down by the area that the beam carries."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from structure.core.cases.types import Choice, Field, Integer, Number, OneOf, Quantity, Record
from structure.core.clauses import Clause, Editions
from structure.core.codes.us import live_reduction as asce
from structure.core.errors import InputError, OutOfScope
from structure.core.statics.model import BeamLine, Load
from structure.core.units import quantity

FIELD = Field(
    "live_reduction",
    OneOf(
        Choice(("none",)),
        Record(
            (
                Field("tributary_area", Quantity("area", positive=True), doc="of the floor that it carries"),
                Field("tributary_width", Quantity("length", positive=True), doc="in place of the area"),
                Field("K_LL", Number(min=1, max=4), default=2, doc="ASCE 7 table 4.7-1; beams 2"),
                Field("floors", Integer(1, 10), default=1, doc="how many it carries"),
                Field("use", Choice(("residential", "assembly", "garage")), default="residential"),
            )
        ),
    ),
    default="none",
    doc="floor live load only, ASCE 7 4.7.2; off unless asked for",
)


def reduced(
    record: Mapping[str, Any] | str, loads: Sequence[Load], line: BeamLine, editions: Editions
) -> tuple[tuple[Load, ...], dict[str, Any]]:
    """The loads with the live ones taken down, and what the sheet says of it.

    Raises InputError where not exactly one of area and width is given, OutOfScope for uses and loads whose
    live load stays whole.
    """
    if isinstance(record, str):
        return tuple(loads), {}
    if editions.code == "ca":
        raise OutOfScope(
            Clause("NBC", "4.1.5.8.").at(editions), "live load by area is not covered: it stays whole"
        )
    area, carried = _areas(record, line)
    live = [load for load in loads if load.case == "live"]
    _refuse(record, sum(load.total for load in live) / carried * 144.0, editions)
    influence = record["K_LL"] * area / 144.0
    if influence < asce.LEAST_AREA:
        text = (
            f"Live load not reduced: K_LL A_T is {influence:,.0f} ft2, under {asce.LEAST_AREA:g} "
            f"({asce.REDUCTION.at(editions)})."
        )
        return tuple(loads), _data(1.0, area, [], text)
    step = asce.live_load_factor.step(editions, c=asce.ROOT, K_LL=record["K_LL"], A_T=area / 144.0)
    least = asce.LEAST_FACTOR[min(record["floors"], 2)]
    factor = min(1.0, max(step.result, least))
    text = (
        f"Floor live load times {factor:.3f} for K_LL A_T of {influence:,.0f} ft2 ({asce.REDUCTION.at(editions)}, "
        f"not under {least:g}), in every sum, in deflection and in the reactions."
    )
    taken = tuple(_times(load, factor) if load.case == "live" else load for load in loads)
    return taken, _data(factor, area, [step.as_data()], text)


def _areas(record: Mapping[str, Any], line: BeamLine) -> tuple[float, float]:
    """The area of the clause, and the one that all live loads stand on [in**2]."""
    given, width = record["tributary_area"], record["tributary_width"]
    if (given is None) == (width is None):
        raise InputError(
            "live_reduction.tributary_area",
            None if given is None else "both",
            "the area that the beam carries, or its tributary_width in place of it",
        )
    if given is not None:
        return given, given
    # The shortest bay carries the least area: its live load is taken down the least, and with it all others.
    return width * min(bay.length for bay in line.bays), width * line.length


def _refuse(record: Mapping[str, Any], pressure: float, editions: Editions) -> None:
    if record["use"] == "garage":
        raise OutOfScope(asce.GARAGES.at(editions), "the live load of a garage is not reduced")
    if record["use"] == "assembly":
        raise OutOfScope(asce.ASSEMBLY.at(editions), "the live load of a place of assembly is not reduced")
    if pressure > asce.HEAVIEST * (1 + 1e-9):
        raise OutOfScope(
            asce.HEAVY.at(editions),
            f"a live load of {pressure:,.0f} psf on the tributary area; over {asce.HEAVIEST:g} psf it is not reduced",
        )


def _times(load: Load, factor: float) -> Load:
    return replace(load, value=load.value * factor, end_value=load.end_value * factor)


def _data(factor: float, area: float, steps: list[dict[str, Any]], text: str) -> dict[str, Any]:
    return {
        "live_reduction": {"factor": factor, "area": quantity(area, "area"), "steps": steps},
        "remark": text,
    }
