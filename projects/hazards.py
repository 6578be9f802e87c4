"""Which hazards to ask about before anything is opened, by year built and region.

Pure. These prompts make people ask; they are not the law. Where only practice is behind a date it says so.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class HazardPrompt:
    """One hazard to answer for: is an answer asked of this house, why, and on whose word."""

    question: str
    required: bool
    why: str
    source: str


_LEAD_US = "US EPA renovation rule: housing built before 1978, over 6 square feet a room inside"
_LEAD_CA = "Health Canada: lead paint probable before 1960, possible to 1990, little concern from 1991"


def hazard_prompts(year_built: int | None, code: str, region: str) -> tuple[HazardPrompt, ...]:
    """The hazards of a house. A year that is not known counts as old."""
    return (_asbestos(year_built, code, region), _lead(year_built, code), _mould())


def _before(year_built: int | None, limit: int) -> bool:
    return year_built is None or year_built < limit


def _asbestos(year_built: int | None, code: str, region: str) -> HazardPrompt:
    region = region.strip().upper()
    if code == "ca" and region in ("BC", "BRITISH COLUMBIA"):
        source = "WorkSafeBC OHSR 20.112: survey before renovation of buildings from before 1990"
    elif code == "ca" and region in ("AB", "ALBERTA"):
        source = "Alberta OHS Code s. 34: asbestos removed before demolition; year 1990 common practice"
    elif code == "ca" and region in ("ON", "ONTARIO"):
        source = "Ontario guide: the owner examines and reports before tender; year 1990 common practice"
    else:
        source = "common practice: houses from before 1990 are suspect"
    if _before(year_built, 1990):
        age = "its year is not known" if year_built is None else f"built {year_built}"
        why = f"The house may hold asbestos ({age}): joint compound, plaster, vinyl tile, vermiculite, duct wrap."
        return HazardPrompt("asbestos", True, why, source)
    return HazardPrompt("asbestos", False, f"Built {year_built}: asbestos is not expected.", source)


def _lead(year_built: int | None, code: str) -> HazardPrompt:
    limit, source = (1978, _LEAD_US) if code == "us" else (1991, _LEAD_CA)
    if _before(year_built, limit):
        age = "its year is not known" if year_built is None else f"built {year_built}"
        return HazardPrompt("lead", True, f"The house may hold lead paint ({age}).", source)
    return HazardPrompt("lead", False, f"Built {year_built}: lead paint is not expected.", source)


def _mould() -> HazardPrompt:
    return HazardPrompt(
        "mould",
        False,
        "Asked of every house; an answer is wanted once something is opened.",
        "common practice",
    )
