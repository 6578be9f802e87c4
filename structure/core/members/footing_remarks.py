"""What is said beside a sized pad, by code."""

from __future__ import annotations

from typing import TYPE_CHECKING

from structure.core.clauses import Editions
from structure.core.codes.pads import pad_rules
from structure.core.codes.us import concrete_reinforced as steel
from structure.core.codes.us import soil
from structure.core.members.ca_footing_remarks import soil_remarks as ca_soil
from structure.core.members.footing_pad import SAME
from structure.core.members.footing_question import FootingQuestion
from structure.core.units import place_in_words

if TYPE_CHECKING:
    from structure.core.members.footing import FootingResult

_PLACE = (
    "The pad stands on undisturbed soil or engineered fill, the post never on a slab alone; no footing "
    "beside it may be undermined."
)


def pad_remarks(question: FootingQuestion, result: FootingResult, editions: Editions) -> tuple[str, ...]:
    """The remarks of one pad: place, soil, what was taken for granted, what does not pass."""
    rules, code = pad_rules(editions), editions.code
    remarks = [
        _PLACE,
        *(ca_soil(question, result, editions) if code == "ca" else _us_soil(question, editions)),
    ]
    if question.base.plate and not question.base.column:
        remarks.append(
            "The post on the plate was not given: the critical sections are taken as for a post of no width."
        )
    if question.existing:
        remarks.append(
            "An existing pad, by the sizes measured: its concrete, its soil and what it carries already are "
            "for the engineer to confirm."
        )
    if question.net:
        remarks.append("The soil value is net: the weight of the pad was left out of the pressure.")
    if question.off_middle:
        remarks.append(
            "The post stands off the middle: the pressure is a plane over the whole pad, its largest value "
            "is held against the soil, and punching takes the slope of it along."
        )
    mat = question.reinforcement
    if mat is not None:
        remarks.append(
            "Straight, uncoated bars both ways near the bottom; hooks are not counted. "
            + _SHEAR[code](editions)
        )
    side_solved = "side" in result.solved
    wider = result.pad.side - question.step
    if mat is not None and side_solved and max(result.required.needed, question.least_area**0.5) <= wider:
        remarks.append(
            f"Wider than the soil asks: a straight bar needs {place_in_words(rules.least_bar, code)} and its cover "
            "beyond the critical section."
        )
    if not result.passes:
        failing = [check.name for check in result.checks if not check.passes]
        remarks.append(f"Does not pass: {', '.join(failing)}.")
    if result.pad.thickness > rules.thick and mat is None:
        remarks.append("So thick a plain pad is unusual: a reinforced one is worth a look.")
    return tuple(remarks)


def _us_soil(question: FootingQuestion, editions: Editions) -> tuple[str, ...]:
    if question.soil * (1 + SAME) >= soil.PRESUMPTIVE_FLOOR or question.soil_from is not None:
        return ()
    said = (
        f"Soil under 1,500 psf must come from a soils investigation ({soil.INVESTIGATION.at(editions)}); "
        "where this value comes from was not said."
    )
    return (said,)


def _us_shear(editions: Editions) -> str:
    return (
        f"Shear is without stirrups by {steel.ONE_WAY_SHEAR.at(editions)}, the size effect left out as "
        f"{steel.SIZE_EFFECT.at(editions)} permits; aggregate up to 3/4 in."
    )


def _ca_shear(editions: Editions) -> str:
    return "Shear is without stirrups; aggregate up to 20 mm."


_SHEAR = {"us": _us_shear, "ca": _ca_shear}
