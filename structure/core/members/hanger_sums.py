"""Which sums a maker's rating of a hanger is held against, by code: allowable loads, or factored resistance."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from structure.core.clauses import DEFAULT_EDITIONS
from structure.core.codes.us.combinations import asd
from structure.core.members.ca_bearing import factored_sums


@dataclass(frozen=True, slots=True)
class RatingSums:
    """`needed`: the rating that each sum of loads by case asks for; `remark`: what a rating is, in words."""

    needed: Callable[[Mapping[str, float]], dict[str, float]]
    remark: str


def _allowable(by_case: Mapping[str, float]) -> dict[str, float]:
    """Stress design: dead load alone takes 0.9 of a rating, short loads no more than all of it."""
    return {each.name: each.total(by_case) / min(1.0, each.C_D) for each in asd(list(by_case))}


def _factored(by_case: Mapping[str, float]) -> dict[str, float]:
    """Factored sums over K_D: a rating is for the standard term, less where dead load is the greater part."""
    return {
        each.name: each.load / min(1.0, each.duration.K_D)
        for each in factored_sums(by_case, DEFAULT_EDITIONS["ca"])
    }


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
