"""Pads under the posts: concrete, bars, digging, slab cut and patch."""

from __future__ import annotations

import math

from estimating.core.items import REBAR_CODE
from estimating.core.lines import Line, Rule
from estimating.core.numbers import ZERO, measured, whole_up
from estimating.core.schedule import Footing
from estimating.core.takeoff.builder import Sheet
from estimating.core.units import area, length, volume, weight

FT3 = 1728.0
BAG_80LB_FT3 = 0.60
BAG_30KG_FT3 = 0.0141 * 35.3146667
# US bars lb/ft; Canadian bars kg/m. #3 to #6 and the metric ones from a Canadian bar table; #7 and #8 memory.
BAR_LB_FT = {"#3": 0.376, "#4": 0.668, "#5": 1.043, "#6": 1.502, "#7": 2.044, "#8": 2.670}
BAR_KG_M = {"10M": 0.785, "15M": 1.570, "20M": 2.355, "25M": 3.925, "30M": 5.495, "35M": 7.850}
# Diameters, for laps only; Canadian ones from memory.
BAR_IN = {f"#{eighths}": eighths / 8 for eighths in range(3, 9)} | {
    "10M": 11.3 / 25.4, "15M": 16.0 / 25.4, "20M": 19.5 / 25.4, "25M": 25.2 / 25.4, "30M": 29.9 / 25.4,
    "35M": 35.7 / 25.4,
}  # fmt: skip
BAR_STOCK_IN = 240.0  # 20 ft, common practice
BAR_WASTE = 1.05
LAP_DIAMETERS = 40.0  # common practice
CHAIR_IN2 = 576.0
SHORT_LOAD_YD3 = 4.0


def footing_lines(sheet: Sheet) -> None:
    """Everything for the new pads; a pad that exists is only named."""
    schedule = sheet.schedule
    new = [f for f in schedule.footings if not f.existing]
    for old in (f for f in schedule.footings if f.existing):
        sheet.caution(
            f"{old.mark} exists: nothing is priced for it, and the engineer confirms that it is enough."
        )
    if not new:
        return
    marks = [f.mark for f in new]
    pad = sum(f.concrete for f in new)
    patch = sum(_hole(f, sheet) * sheet.settings.slab_in for f in new) if schedule.slab_cut else 0.0
    _concrete(sheet, pad, patch, marks)
    for footing in new:
        _bars(sheet, footing)
    dug = sum(_hole(f, sheet) * f.thickness for f in new)
    sheet.labour("labour-dig", dug / FT3, 0.10, "ft3 dug and carried out", marks)
    if schedule.slab_cut:
        _slab(sheet, new, marks)
    sheet.assume("Pads are cast against the ground; no formwork is priced.")
    sheet.assume("Soil is dug by hand and is free of rock and water.")


def _hole(footing: Footing, sheet: Sheet) -> float:
    """Area of the hole with its working room [in2]."""
    along, across = footing.hole(sheet.settings.overdig_in)
    return along * across


def _concrete(sheet: Sheet, pad: float, patch: float, marks: list[str]) -> None:
    settings = sheet.settings
    ordered = (pad + patch) * (1 + settings.concrete_waste_percent / 100)
    metric = sheet.metric
    by_kg = metric or sheet.schedule.code == "ca"
    yield_ft3, code = (BAG_30KG_FT3, "concrete-bag-30kg") if by_kg else (BAG_80LB_FT3, "concrete-bag-80lb")
    bags = whole_up(ordered / FT3 / yield_ft3)
    words = "pads" + (" and slab patch" if patch else "")
    ready = settings.concrete_as == "ready mix" or (
        settings.concrete_as == "auto" and bags > settings.bag_limit
    )
    if ready:
        net, unit = volume(pad + patch, metric)
        total, _ = volume(ordered, metric)
        rule = Rule(
            f"Volume of the {words} and {settings.concrete_waste_percent:g} % more",
            "schedule; common practice",
        )
        sheet.add("concrete-ready", net, marks, rule, unit=unit, waste=total - net)
        if ordered / 46656.0 < SHORT_LOAD_YD3:
            sheet.add("concrete-short-load", 1, marks, Rule("A load under 4 yd3 pays a short-load charge"))
    else:
        net = measured((pad + patch) / FT3 / yield_ft3)
        rule = Rule(
            f"Volume of the {words} by the yield of one bag ({yield_ft3:.3g} ft3),"
            f" {settings.concrete_waste_percent:g}"
            " % more, whole bags",
            "how-to pages; the label on the bag governs",
        )
        sheet.add(code, net, marks, rule, waste=max(bags - net, ZERO))
    sheet.labour("labour-place", ordered / FT3, 0.35, "ft3 of concrete", marks)


def _bars(sheet: Sheet, footing: Footing) -> None:
    """Bars both ways by weight, with laps where a bar is longer than stock, and the chairs under them."""
    if not footing.bar or not footing.bars:
        return
    ways = [
        (footing.bars, max(footing.side - 2 * footing.cover, 0.0)),
        (footing.cross_bars, max(footing.width - 2 * footing.cover, 0.0)),
    ]
    net, laps = (sum(number * each for number, each in rows) for rows in (ways, _laps(footing, ways)))
    pounds = _bar_pounds(footing.bar, net)
    if pounds is None:
        sheet.caution(
            f"{footing.mark}: the weight of bar {footing.bar} is not held here; its bars are not priced."
        )
        return
    more = _bar_pounds(footing.bar, laps) or 0.0
    shown, unit = weight(pounds, sheet.metric)
    total, _ = weight((pounds + more) * BAR_WASTE, sheet.metric)
    lapped = (
        f", laps of {LAP_DIAMETERS:g} diameters where longer than {BAR_STOCK_IN / 12:g} ft" if laps else ""
    )
    sheet.lines.append(
        Line(
            code=REBAR_CODE.format(bar=footing.bar.lower().replace("#", "no")),
            description=f"Reinforcing bar {footing.bar}",
            net=shown,
            unit=unit,
            kind="material",
            division="03",
            cost_code="03-10",
            marks=(footing.mark,),
            rule=Rule(
                f"Bars both ways, the pad less {footing.cover:g} in cover at both ends, by weight{lapped}",
                "schedule; bar table",
            ),
            waste=total - shown,
            detail=" and ".join(f"{number} of {sheet.show(each)}" for number, each in ways),
        )
    )
    chairs = max(4, math.ceil(round(footing.side * footing.width / CHAIR_IN2, 9)))
    sheet.add(
        "bar-chair",
        chairs,
        [footing.mark],
        Rule("Chairs that hold the bars off the soil, one for every 4 ft2 and at least four"),
    )
    sheet.labour(
        "labour-bars", footing.bars + footing.cross_bars, 0.08, "bars placed and tied", [footing.mark]
    )


def _laps(footing: Footing, ways: list[tuple[int, float]]) -> list[tuple[int, float]]:
    """Lapped length of the bars that are longer than stock."""
    lap = LAP_DIAMETERS * BAR_IN.get(footing.bar, 0.0)
    return [(number, lap * int(each // BAR_STOCK_IN)) for number, each in ways]


def _bar_pounds(bar: str, run: float) -> float | None:
    """Weight of `run` inches of a bar; None for one that no table holds."""
    if bar in BAR_LB_FT:
        return run / 12 * BAR_LB_FT[bar]
    if bar in BAR_KG_M:
        return run * 0.0254 * BAR_KG_M[bar] / 0.45359237
    return None


def _slab(sheet: Sheet, new: list[Footing], marks: list[str]) -> None:
    cut = sum(2 * sum(f.hole(sheet.settings.overdig_in)) for f in new)
    patch = sum(_hole(f, sheet) for f in new)
    shown, unit = length(cut, sheet.metric)
    sheet.add("slab-saw", 1, marks, Rule("One day of saw hire"), detail=f"{shown} {unit} of cut")
    sheet.labour("labour-slab-cut", cut / 12, 0.15, "ft of slab cut and broken out", marks)
    sheet.labour("labour-slab-patch", patch / 144, 0.10, "ft2 of slab patch", marks)
    net, unit = area(patch, sheet.metric)
    total, _ = area(patch * 1.2, sheet.metric)
    sheet.add(
        "vapour-patch", net, marks, Rule("Area of the holes and 20 % for laps"), unit=unit, waste=total - net
    )
    sheet.caution("Services under the slab are located before it is cut; moving a drain is not priced.")
