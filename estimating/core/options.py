"""What else it could cost: alternates to the quote, and beams side by side at full installed cost."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from typing import Any

from estimating.core.pricing import Price, Quote, make_quote
from estimating.core.rates import Rates
from estimating.core.schedule import Schedule, read_schedule, read_section
from estimating.core.settings import TakeoffSettings
from estimating.core.takeoff import takeoff


@dataclass(frozen=True, slots=True)
class Option:
    """One other way.

    `difference` is added to the quoted total; None while prices miss, and then `missing` says which.
    """

    title: str
    difference: Decimal | None
    total: Decimal | None
    missing: tuple[str, ...] = ()


def alternates(
    schedule: Mapping[str, Any],
    settings: TakeoffSettings,
    prices: Mapping[str, Price],
    rates: Rates,
    on: date,
) -> list[Option]:
    """Ordinary alternates of a wall removal, each priced in full with everything else unchanged."""
    read = read_schedule(schedule)
    base = _quote(read, settings, prices, rates, on)
    ways: list[tuple[str, TakeoffSettings]] = []
    if any(not f.existing for f in read.footings):
        bought_ready = any(p.line.code == "concrete-ready" for p in base.lines)
        words = "Concrete mixed from bags" if bought_ready else "Ready-mixed concrete in place of bags"
        ways.append((words, replace(settings, concrete_as="bags" if bought_ready else "ready mix")))
    if settings.paint:
        ways.append(("Painting by the owner", replace(settings, paint=False)))
    if settings.floor_patch:
        ways.append(("Floor patch by the owner", replace(settings, floor_patch=False)))
    return [_option(title, base, _quote(read, way, prices, rates, on)) for title, way in ways]


def beam_options(
    schedule: Mapping[str, Any],
    beams: Sequence[Mapping[str, Any]],
    settings: TakeoffSettings,
    prices: Mapping[str, Price],
    rates: Rates,
    on: date,
) -> list[Option]:
    """Each beam in the place of the chosen one, the whole job priced again.

    Only what the beam changes differs.
    """
    read = read_schedule(schedule)
    base = _quote(read, settings, prices, rates, on)
    made = []
    for index, data in enumerate(beams):
        section = read_section(data, f"beams[{index}]")
        other = replace(read, beam=replace(read.beam, section=section))
        title = section.label or f"{section.plies}-ply {section.product}"
        made.append(_option(title, base, _quote(other, settings, prices, rates, on)))
    return made


def _quote(
    schedule: Schedule, settings: TakeoffSettings, prices: Mapping[str, Price], rates: Rates, on: date
) -> Quote:
    return make_quote(takeoff(schedule, settings).lines, prices, rates, on)


def _option(title: str, base: Quote, other: Quote) -> Option:
    if base.total is None or other.total is None:
        return Option(title, None, other.total, other.missing or base.missing)
    return Option(title, other.total - base.total, other.total)
