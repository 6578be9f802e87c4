"""The specified snow of a roof in Canada, with what it leaves out said aloud. NBC 2020 9.4.2.2., 4.1.6.2."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any, Literal

from structure.core.clauses import ClauseRef, Editions
from structure.core.codes.ca import snow
from structure.core.errors import InputError
from structure.core.trace import Step
from structure.core.units import quantity

Rule = Literal["part9", "part4"]


@dataclass(frozen=True, slots=True)
class SnowQuestion:
    """Snow and rain on the ground [MPa] as the user has them from the code's table of the place, with `source`.

    `roof_width` [mm] is the entire width of the roof, for part 9; the factors are those of part 4.
    """

    S_s: float
    S_r: float
    rule: Rule
    source: str = ""
    roof_width: float | None = None
    C_b: float | None = None
    C_w: float | None = None
    C_s: float | None = None
    C_a: float | None = None
    I_s: float | None = None
    slope: float | None = None
    slippery: bool = False


@dataclass(frozen=True, slots=True)
class SnowResult:
    """Pressures [MPa] on the horizontal projection, the factors taken, and how they were found."""

    roof: float
    rule: Rule
    clause: ClauseRef
    C_b: float
    C_s: float
    steps: tuple[Step, ...]
    remarks: tuple[str, ...]

    def as_data(self) -> dict[str, Any]:
        """The result of the `snow` kind."""
        return {
            "roof": quantity(self.roof, "pressure", "ca"),
            "rule": self.rule,
            "clause": str(self.clause),
            "minimum": quantity(snow.LEAST, "pressure", "ca"),
            "Cb": self.C_b,
            "Cs": self.C_s,
            "steps": [step.as_data() for step in self.steps],
            "remarks": list(self.remarks),
        }


def roof_snow(question: SnowQuestion, editions: Editions) -> SnowResult:
    """Specified snow on the horizontal projection [MPa] by the rule asked for.

    Raises InputError for a factor of part 4 other than 1 under part 9, or a slope of 90 degrees and more.
    """
    if question.slope is not None and question.slope >= 90:
        raise InputError("slope", f"{question.slope:g} degree", "an angle from 0 to less than 90 degrees")
    found = _part_9(question, editions) if question.rule == "part9" else _part_4(question, editions)
    if not question.source:
        told = (
            "Nobody said where Ss and Sr were read: the code's climatic data of the place, or the authority."
        )
        found = replace(found, remarks=(*found.remarks, told))
    return found


def _part_9(question: SnowQuestion, editions: Editions) -> SnowResult:
    for name in ("C_w", "C_s", "C_a", "I_s"):
        value = getattr(question, name)
        if value is not None and value != 1.0:
            accepted = (
                f"nothing but 1, since {snow.PART_9.at(editions)} has no such factor; rule part4 has it"
            )
            raise InputError(name.replace("_", ""), value, accepted)
    remarks = []
    if question.C_b is not None:
        if question.C_b not in (snow.C_B_NARROW, snow.C_B_WIDE):
            accepted = (
                f"{snow.C_B_NARROW} or {snow.C_B_WIDE} of {snow.PART_9.at(editions)}; rule part4 takes others"
            )
            raise InputError("Cb", question.C_b, accepted)
        C_b = question.C_b
    elif question.roof_width is None:
        C_b = snow.C_B_WIDE
        remarks.append(
            "The width of the roof was not given: it is taken as wider than 4.3 m, which is more snow."
        )
    else:
        C_b = snow.C_B_NARROW if question.roof_width <= snow.WIDE_ROOF + 1e-6 else snow.C_B_WIDE
    step = snow.part_9.step(editions, C_b=C_b, S_s=question.S_s, S_r=question.S_r, S_least=snow.LEAST)
    if step.result <= snow.LEAST:
        remarks.append(f"The least snow of 1 kPa governs ({snow.PART_9.at(editions)}).")
    remarks.append(
        "Small light frame only: members at most 600 mm apart, clear spans to 12.2 m, no high parapets, and no "
        "arched trusses over 6 m (9.4.2.1., 9.4.2.2.)."
    )
    if question.slope is not None:
        remarks.append("Part 9 takes nothing off for the slope of the roof.")
    return SnowResult(step.result, "part9", snow.PART_9.at(editions), C_b, 1.0, (step,), tuple(remarks))


def _part_4(question: SnowQuestion, editions: Editions) -> SnowResult:
    remarks = []
    C_b = snow.C_B_PART_4 if question.C_b is None else question.C_b
    if question.C_b is None:
        remarks.append("Cb was not given: 0.8, for a roof whose characteristic length is no more than 70 m.")
    C_w = 1.0 if question.C_w is None else question.C_w
    C_a = 1.0 if question.C_a is None else question.C_a
    if C_w < 1.0:
        remarks.append(
            "Cw below 1 needs a roof open to wind on all sides with nothing in the way, for as long as it stands "
            f"({snow.PART_4.at(editions)})."
        )
    C_s, steps = _slope(question, editions, remarks)
    body = snow.snow_part.step(editions, S_s=question.S_s, C_b=C_b, C_w=C_w, C_s=C_s, C_a=C_a)
    rain = snow.rain_part.step(editions, S_r=question.S_r, S_b=body.result)
    whole = snow.part_4.step(
        editions,
        I_s=1.0 if question.I_s is None else question.I_s,
        S_b=body.result,
        S_rain=rain.result,
    )
    if whole.result < snow.LEAST:
        remarks.append(
            f"A roof also takes a live load of 1 kPa, which is more than this snow ({snow.ROOF_LIVE.at(editions)}): "
            "give that as roof_live beside it."
        )
    remarks.append(
        "Uniform snow only: drifts, sliding snow, valleys and one loaded side are the engineer's "
        f"({snow.ACCUMULATION.at(editions)})."
    )
    return SnowResult(
        whole.result, "part4", snow.PART_4.at(editions), C_b, C_s, (*steps, body, rain, whole), tuple(remarks)
    )


def _slope(question: SnowQuestion, editions: Editions, remarks: list[str]) -> tuple[float, list[Step]]:
    """C_s as given, else of the slope, else 1. A given one below the curve of a rough roof is remarked."""
    if question.slope is None:
        return (1.0 if question.C_s is None else question.C_s), []
    full, bare = snow.SLIPPERY if question.slippery else snow.ROUGH
    step = snow.slope_factor.step(editions, slope=question.slope, full=full, bare=bare)
    if question.C_s is None:
        return step.result, [step]
    if question.C_s < step.result:
        remarks.append(
            f"Cs {question.C_s:g} is below the {step.result:.3g} of this slope: a smaller one needs a slippery roof "
            f"that nothing blocks ({snow.PART_4.at(editions)})."
        )
    return question.C_s, []
