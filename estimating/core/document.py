"""One estimate as plain data: what the pages show, the workbook writes and the row keeps once it is
issued.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from decimal import Decimal
from typing import Any

from estimating.core.metric import in_metric, metric_words
from estimating.core.numbers import ROUNDING_RULE, plain
from estimating.core.options import Option, alternates
from estimating.core.pricing import Added, Price, PricedLine, Quote, make_quote
from estimating.core.rates import Rates
from estimating.core.schedule import Schedule, read_schedule
from estimating.core.sections import Section
from estimating.core.settings import TakeoffSettings, setting_names, spec_of
from estimating.core.stock import CutPlan
from estimating.core.takeoff import Takeoff, takeoff

CORE_VERSION = "1"


def estimate_document(
    schedule: Mapping[str, Any],
    settings: TakeoffSettings,
    prices: Mapping[str, Price],
    rates: Rates,
    on: date,
    *,
    sealed: bool = False,
    notes: Sequence[str] = (),
) -> dict[str, Any]:
    """Takeoff, price and alternates of one schedule on the day `on`.

    `notes` are further cautions, such as a price book that is invented. Raises InputError or OutOfScope as
    the takeoff does.
    """
    read = read_schedule(schedule)
    taken = takeoff(read, settings)
    quote = make_quote(taken.lines, prices, rates, on)
    others = alternates(schedule, settings, prices, rates, on)
    cautions = [*taken.cautions, *notes]
    if quote.stale:
        cautions.append(
            f"{len(quote.stale)} prices are older than {rates.stale_after_days} days: ask again before"
            f" this is sent."
        )
    if quote.missing:
        cautions.append(
            f"{len(quote.missing)} prices are missing, so there is no total: {', '.join(quote.missing)}."
        )
    return {
        "code": read.code,
        "units": settings.units,
        "sealed": sealed,
        "dated": on.isoformat(),
        "valid_until": (on + timedelta(days=rates.valid_days)).isoformat(),
        "lines": [_line(number, priced) for number, priced in enumerate(quote.lines, 1)],
        **_totals(quote),
        "alternates": [_option(option) for option in others],
        "cuts": [_cuts(plan) for plan in taken.cuts],
        "schedule": _members(read),
        "cautions": cautions,
        "assumptions": list(taken.assumptions),
        "exclusions": list(taken.exclusions),
        "rounding": ROUNDING_RULE,
        "rates": rates.as_data(),
        "settings": _settings(taken),
        "core_version": CORE_VERSION,
        "inputs_sha256": digest(
            {"schedule": schedule, "settings": settings.as_data(), "rates": rates.as_data()}
        ),
    }


def digest(data: Any) -> str:
    """SHA-256 of plain data, independent of the order of its keys."""
    text = json.dumps(data, sort_keys=True, separators=(",", ":"), default=str)
    return hashlib.sha256(text.encode()).hexdigest()


def _money(amount: Decimal | None) -> str | None:
    return None if amount is None else f"{amount:.2f}"


def _line(number: int, priced: PricedLine) -> dict[str, Any]:
    price = priced.price
    return {
        "number": number,
        **priced.line.as_data(),
        "price": None if price is None else plain(price.amount),
        "price_unit": priced.line.unit if price is None else price.unit,
        "counted": None if priced.counted is None else plain(priced.counted),
        "supplier": "" if price is None else price.supplier,
        "price_dated": None if price is None else price.dated.isoformat(),
        "amount": _money(priced.amount),
        "problem": priced.problem,
        "stale": priced.stale,
    }


def _added(row: Added) -> dict[str, Any]:
    return {
        "key": row.key,
        "name": row.name,
        "percent": plain(row.percent),
        "base": _money(row.base),
        "amount": _money(row.amount),
        "on": row.on,
    }


def _totals(quote: Quote) -> dict[str, Any]:
    return {
        "divisions": [
            {"division": d.division, "title": d.title, "amount": _money(d.amount), "missing": d.missing}
            for d in quote.divisions
        ],
        "direct": _money(quote.direct),
        "added": [_added(row) for row in quote.added],
        "price": _money(quote.price),
        "taxes": [_added(row) for row in quote.taxes],
        "total": _money(quote.total),
        "priced": quote.priced,
        "missing": list(quote.missing),
        "stale": list(quote.stale),
    }


def _option(option: Option) -> dict[str, Any]:
    return {
        "title": option.title,
        "difference": _money(option.difference),
        "total": _money(option.total),
        "missing": list(option.missing),
    }


def _cuts(plan: CutPlan) -> dict[str, Any]:
    return {
        "code": plan.code,
        "product": plan.product,
        "purpose": plan.purpose,
        "special": plan.special,
        "kerf_in": plan.kerf,
        "boards": [
            {
                "stock_in": board.stock,
                "left_in": board.left,
                "cuts": [{"mark": c.mark, "use": c.use, "length_in": c.length} for c in board.cuts],
            }
            for board in plan.boards
        ],
    }


def _settings(taken: Takeoff) -> list[dict[str, Any]]:
    rows = []
    for name in setting_names():
        spec = spec_of(name)
        value = getattr(taken.settings, name)
        shown = ("yes" if value else "no") if isinstance(value, bool) else f"{value}"
        unit, source = spec.unit, spec.source
        if taken.settings.metric:
            beside, source = in_metric(shown, unit), metric_words(source)
            unit = f"{unit} ({beside})" if beside else unit
        rows.append({"label": spec.label, "value": shown, "unit": unit, "source": source})
    return rows


def _member(
    mark: str, kind: str, section: Section | None, length: float | None, note: str = ""
) -> dict[str, Any]:
    size = (
        ""
        if section is None
        else f"{section.plies}-ply {section.product}"
        if section.plies > 1
        else section.product
    )
    return {"mark": mark, "kind": kind, "size": size, "length_in": length, "note": note}


def _members(read: Schedule) -> list[dict[str, Any]]:
    rows = [
        _member(
            read.beam.mark, "beam", read.beam.section, read.beam.length, "flush" if read.flush else "dropped"
        )
    ]
    rows += [_member(p.mark, "post", p.section, p.height, p.fastening) for p in read.posts]
    for footing in read.footings:
        note = "exists" if footing.existing else "new"
        if footing.bars:
            note += f", {footing.bars} and {footing.cross_bars} {footing.bar}"
        row = _member(footing.mark, "footing", None, footing.side, note)
        rows.append({**row, "width_in": footing.width, "thickness_in": footing.thickness})
    for side in read.shoring:
        note = f"{side.shores} shores {side.shore.product}, sill {side.sill.product}"
        if side.reshore:
            note += ", shored again on the level below"
        rows.append(_member(side.mark, "shoring", side.header, side.length, note))
    rows += [_member(p.mark, "plate", p.section, p.length) for p in read.plates]
    return rows
