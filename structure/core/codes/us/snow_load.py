"""The uniform snow to design a roof for, with what it leaves out said aloud. ASCE 7-16 chapter 7."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from structure.core.clauses import Editions
from structure.core.codes.us import irc, snow
from structure.core.errors import InputError
from structure.core.trace import Step
from structure.core.units import quantity


@dataclass(frozen=True, slots=True)
class SnowQuestion:
    """Ground snow [psi] and the factors of ASCE 7; slope in degrees. Without C_s and slope: flat."""

    ground: float
    C_e: float
    C_t: float
    I_s: float
    C_s: float | None = None
    slope: float | None = None


@dataclass(frozen=True, slots=True)
class SnowResult:
    """Pressures [psi] on the horizontal projection; `minimum` is None where it does not apply."""

    roof: float
    flat: float
    balanced: float
    minimum: float | None
    C_s: float
    steps: tuple[Step, ...]
    remarks: tuple[str, ...]

    def as_data(self) -> dict[str, Any]:
        """The result of the `snow` kind."""
        return {
            "roof": quantity(self.roof, "pressure"),
            "flat": quantity(self.flat, "pressure"),
            "balanced": quantity(self.balanced, "pressure"),
            "minimum": None if self.minimum is None else quantity(self.minimum, "pressure"),
            "Cs": self.C_s,
            "steps": [step.as_data() for step in self.steps],
            "remarks": list(self.remarks),
        }


def roof_snow(question: SnowQuestion, editions: Editions) -> SnowResult:
    """Balanced roof snow, and the low-slope minimum where that is more. ASCE 7-16 7.3, 7.4.

    Pressures [psi] on the horizontal projection. Unbalanced snow, drifts, sliding snow and rain on
    snow are not in it; each is named in the remarks. Raises InputError for a slope of 90 degrees or
    more.
    """
    if question.slope is not None and question.slope >= 90:
        raise InputError(
            "given.slope", f"{question.slope:g} degree", "an angle from 0 to less than 90 degrees"
        )
    steps: list[Step] = []
    flat = snow.flat_roof.step(
        editions, C_e=question.C_e, C_t=question.C_t, I_s=question.I_s, p_g=question.ground
    )
    steps.append(flat)
    remarks: list[str] = []
    C_s = _slope_factor(question, editions, steps, remarks)
    balanced = snow.sloped_roof.step(editions, C_s=C_s, p_f=flat.result)
    steps.append(balanced)
    minimum = _minimum(question, editions, steps, remarks)
    if minimum is not None and minimum > balanced.result:
        remarks.append(
            f"The low-slope minimum governs the uniform load ({snow.LOW_SLOPE_MINIMUM.at(editions)})."
        )
    remarks += _left_out(question, editions)
    return SnowResult(
        roof=balanced.result if minimum is None else max(balanced.result, minimum),
        flat=flat.result,
        balanced=balanced.result,
        minimum=minimum,
        C_s=C_s,
        steps=tuple(steps),
        remarks=tuple(remarks),
    )


def _slope_factor(question: SnowQuestion, editions: Editions, steps: list[Step], remarks: list[str]) -> float:
    if question.slope is None:
        return 1.0 if question.C_s is None else question.C_s
    curve = snow.slope_factor.step(
        editions,
        slope=question.slope,
        full=snow.full_snow_slope(question.C_t),
        bare=snow.BARE_SLOPE,
        note="curve for roofs that are not unobstructed and slippery",
    )
    if question.C_s is None:
        steps.append(curve)
        return curve.result
    if question.C_s < curve.result:
        remarks.append(
            f"Cs {question.C_s:g} is below the {curve.result:.3g} of a roof that holds its snow: it needs an "
            f"unobstructed slippery surface ({snow.SLOPE_FACTOR.at(editions)})."
        )
    return question.C_s


def _minimum(
    question: SnowQuestion, editions: Editions, steps: list[Step], remarks: list[str]
) -> float | None:
    if question.slope is None and question.C_s is not None:
        remarks.append(
            "The slope was not given: under 15 degrees the low-slope minimum applies as well "
            f"({snow.LOW_SLOPE_MINIMUM.at(editions)})."
        )
        return None
    if (question.slope or 0.0) >= snow.LOW_SLOPE:
        return None
    step = snow.low_slope_minimum.step(
        editions, I_s=question.I_s, p_g=question.ground, p_20=snow.MINIMUM_CEILING
    )
    steps.append(step)
    return step.result


def _left_out(question: SnowQuestion, editions: Editions) -> list[str]:
    left_out = (
        f"partial loading ({snow.PARTIAL.at(editions)})",
        f"unbalanced snow on gable and hip roofs ({snow.UNBALANCED.at(editions)})",
        f"drifts on lower roofs ({snow.DRIFT.at(editions)})",
        f"snow sliding from a higher roof ({snow.SLIDING.at(editions)})",
    )
    remarks = [f"Balanced snow only. Not in it, and the engineer's to judge: {', '.join(left_out)}."]
    if 0 < question.ground <= snow.MINIMUM_CEILING and (question.slope or 0.0) < snow.LOW_SLOPE:
        remarks.append(
            f"Rain on snow may add 5 psf on very low slopes ({snow.RAIN.at(editions)}); it is not in it."
        )
    if question.ground > irc.MAX_GROUND_SNOW * (1 + 1e-9):  # 70 psf itself is inside
        remarks.append(
            "Ground snow above 70 psf is outside the prescriptive rules: engineered design "
            f"({irc.SNOW_RANGE.at(editions)})."
        )
    return remarks
