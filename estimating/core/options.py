"""What else it could cost: alternates to the quote, and beams side by side at full installed cost."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from typing import Any

from estimating.core.lines import Line
from estimating.core.numbers import ZERO
from estimating.core.pricing import Price, Quote, make_quote, price_line
from estimating.core.rates import Rates
from estimating.core.schedule import Beam, Schedule, read_schedule
from estimating.core.sections import read_section
from estimating.core.settings import TakeoffSettings
from estimating.core.takeoff import takeoff
from estimating.core.takeoff.builder import Sheet
from estimating.core.takeoff.framing import beam_lines
from structure.core.errors import InputError, OutOfScope


@dataclass(frozen=True, slots=True)
class Option:
    """One other way.

    `difference` is added to the quoted total; None while prices miss, and then `missing` says which.
    """

    title: str
    difference: Decimal | None
    total: Decimal | None
    missing: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Installed:
    """Direct cost of one beam in place; None with `why` where it is not known."""

    amount: Decimal | None
    why: str = ""


@dataclass(frozen=True, slots=True)
class Place:
    """Where a beam goes: its length to cut [in], and whether joists hang on it."""

    code: str
    length: float
    flush: bool = False
    hangers: int = 0


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


def beam_installed(
    beams: Iterable[tuple[str, Mapping[str, Any]]],
    place: Place,
    settings: TakeoffSettings,
    prices: Mapping[str, Price],
    rates: Rates,
    on: date,
) -> dict[str, Installed]:
    """Direct cost of each beam set in its place, by its key: material, fastening, hangers, lifting, labour.

    Posts, pads, shoring and percentages are not in it. A beam whose takeoff is refused says why.
    """
    found: dict[str, Installed] = {}
    for key, data in beams:
        try:
            lines = _beam_lines(data, place, settings)
        except (InputError, OutOfScope) as refused:
            found[key] = Installed(None, str(refused))
            continue
        priced = [price_line(line, prices, on, rates.stale_after_days) for line in lines]
        missing = [each.line.code for each in priced if each.amount is None]
        if missing:
            found[key] = Installed(None, f"no price for {', '.join(dict.fromkeys(missing))}")
        else:
            found[key] = Installed(sum((each.amount for each in priced if each.amount is not None), ZERO))
    return found


def _beam_lines(data: Mapping[str, Any], place: Place, settings: TakeoffSettings) -> list[Line]:
    section = read_section(data, "beam")
    alone = Schedule(
        code=place.code,
        beam=Beam("B1", section, place.length),
        posts=(),
        footings=(),
        shoring=(),
        plates=(),
        wall_length=place.length,
        wall_height=place.length,
        wall_thickness=1.0,
        opening=place.length,
        slab_cut=False,
        flush=place.flush,
        hangers=place.hangers,
        rafter_tie=False,
    )
    sheet = Sheet(alone, settings)
    beam_lines(sheet)
    return sheet.lines


def _quote(
    schedule: Schedule, settings: TakeoffSettings, prices: Mapping[str, Price], rates: Rates, on: date
) -> Quote:
    return make_quote(takeoff(schedule, settings).lines, prices, rates, on)


def _option(title: str, base: Quote, other: Quote) -> Option:
    if base.total is None or other.total is None:
        return Option(title, None, other.total, other.missing or base.missing)
    return Option(title, other.total - base.total, other.total)
