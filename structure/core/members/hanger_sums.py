"""Which sums a maker's rating of a hanger is held against, by code: allowable loads, or factored resistance."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from structure.core.codes.ca.combinations import ultimate
from structure.core.codes.ca.wood import LONG_TERM_LEAST, STANDARD_TERM, long_term_duration
from structure.core.codes.us.combinations import asd


@dataclass(frozen=True, slots=True)
class RatingSums:
    """`needed`: the rating that each sum of loads by case asks for; `remark`: what a rating is, in words."""

    needed: Callable[[Mapping[str, float]], dict[str, float]]
    remark: str


def _allowable(by_case: Mapping[str, float]) -> dict[str, float]:
    """Stress design: dead load alone takes 0.9 of a rating, short loads no more than all of it."""
    return {
        each.name: sum(factor * by_case[case] for factor, case in each.terms) / min(1.0, each.C_D)
        for each in asd(list(by_case))
    }


def _factored(by_case: Mapping[str, float]) -> dict[str, float]:
    """Factored sums over K_D: a rating is for the standard term, less where dead load is the greater part."""
    return {
        each.name: sum(factor * by_case[case] for factor, case in each.terms)
        / duration(each.factors, by_case)
        for each in ultimate(list(by_case))
    }


def duration(factors: Mapping[str, float], loads: Mapping[str, float]) -> float:
    """K_D of one sum of specified loads, never more than 1, since no maker said that a rating may be raised.

    CSA O86 5.3.2: 0.65 under dead load alone, less than 1 where dead load is more than what comes and goes.
    """
    dead = loads.get("dead", 0.0) if "dead" in factors else 0.0
    coming = sorted((loads[case] for case in factors if case != "dead" and loads.get(case)), reverse=True)
    standard = sum(value if n == 0 else value / 2 for n, value in enumerate(coming))
    if not standard:
        return LONG_TERM_LEAST
    if dead <= standard:
        return STANDARD_TERM
    factor: float = long_term_duration(P_L=dead, P_S=standard)
    return max(LONG_TERM_LEAST, factor)


SUMS: Mapping[str, RatingSums] = {
    "us": RatingSums(
        _allowable,
        "A rating is for normal duration: not raised for short loads, 0.9 of it under dead load alone.",
    ),
    "ca": RatingSums(
        _factored,
        "A rating is a factored resistance for standard term: not raised for short loads, lowered by K_D where dead "
        "load is the greater part.",
    ),
}
