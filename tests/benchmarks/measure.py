"""The rows of RESULTS.md."""

from __future__ import annotations

import time
import tracemalloc
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import numpy as np

from structure.core.catalogue import stock_sections
from structure.core.codes.us import combinations
from tests.benchmarks import catalogue as cat
from tests.benchmarks.beams import BEAMS, by_anastruct, by_pynite, here
from tests.benchmarks.timing import Timed, in_turns

Rows = list[tuple[str, ...]]
CANDIDATES = 12  # of the 600 that a slow way is timed on; the rest is reckoned from them
BARS = {"floor": 12.0, "closed": 100.0, "finite": 3000.0, "anastruct": 30.0, "pynite": 60.0}


def _ms(seconds: float) -> str:
    return f"{seconds * 1e3:.3g}" if seconds < 1 else f"{seconds * 1e3:,.0f}"


def _held(value: float, bar: float, *, most: bool = False) -> str:
    good = value <= bar if most else value >= bar
    return f"{'at most' if most else 'at least'} {bar:,g}: {'held' if good else 'MISSED'}"


def _floors(over: float, sums: int) -> str:
    if sums > 9:
        return f"{over:.1f} floors of {sums} sums; the bar is for nine"
    return f"{_held(over, BARS['floor'], most=True)} ({over:.1f} floors)"


def beam_rows() -> tuple[Rows, Rows]:
    """Times of each way on each beam, and how far their answers are apart."""
    rows: Rows = []
    exact: Rows = []
    for name, beam in BEAMS.items():
        ways: dict[str, Callable[[], Any]] = {
            "this engine": lambda beam=beam: here(beam),
            "anastruct, its own mesh": lambda beam=beam: by_anastruct(beam),
            "PyNiteFEA": lambda beam=beam: by_pynite(beam, tuned=False),
            "PyNiteFEA, tuned": lambda beam=beam: by_pynite(beam, tuned=True),
        }
        timed = in_turns(
            ways, {"this engine": 400, "anastruct, its own mesh": 40, "PyNiteFEA": 20, "PyNiteFEA, tuned": 20}
        )
        ours = timed["this engine"].least
        bars = {"anastruct, its own mesh": BARS["anastruct"], "PyNiteFEA": BARS["pynite"]}
        for way, each in timed.items():
            ratio = each.least / ours
            bar = _held(ratio, bars[way]) if way in bars else ""
            rows.append((name, way, _ms(each.least), f"{ratio:,.1f}", bar))
        mine, pynite, anastruct = here(beam), by_pynite(beam, tuned=False), by_anastruct(beam)

        def apart(other: Any, what: str, mine: Any = mine) -> str:
            held = getattr(mine, what)
            return f"{np.abs(held - getattr(other, what)).max() / np.abs(held).max():.1e}"

        exact.append(
            (
                name,
                *(apart(pynite, what) for what in ("moment", "shear", "reactions", "deflection")),
                *(apart(anastruct, what) for what in ("moment", "deflection")),
            )
        )
    return rows, exact


def _candidates(count: int) -> list[Any]:
    """Sections spread over the whole stock, none of them so slender that it is refused at once."""
    ratios = cat.search(cat.SIMPLE, cat.STOCK).ratios
    good = [s for s, ratio in zip(stock_sections(cat.STOCK), ratios, strict=True) if not np.isnan(ratio)]
    return [good[int(n * len(good) / count)] for n in range(count)]


def catalogue_rows() -> tuple[Rows, dict[str, str]]:
    """The search beside its floor and beside one section at a time, and the sentences that say what was run."""
    rows: Rows = []
    with cat.sums(9):
        sections = len(stock_sections(cat.STOCK))
        weights = len({each.weight for each in stock_sections(cat.STOCK)})
        chosen = _candidates(CANDIDATES)
        for name, question in (
            ("simple span", cat.SIMPLE),
            ("two spans", cat.TWO_SPANS),
            ("two spans, live load by bay", cat.PATTERNED),
        ):
            alone = cat.Alone(question)
            count = len(combinations.ASD)
            if question.patterned:
                # Every sum with live load is formed for each set of bays that carries it.
                count = sum(
                    3 if any(case == "live" for _, case in each.terms) else 1 for each in combinations.ASD
                )
            ways: dict[str, Callable[[], Any]] = {
                "floor": cat.floor(sections, count),
                "search": lambda question=question: cat.search(question, cat.STOCK),
                "closed": lambda alone=alone: [alone.ratio(each) for each in chosen],
                "steps": lambda question=question: [cat.with_steps(question, each) for each in chosen],
            }
            timed = in_turns(ways, {"floor": 400, "search": 400, "closed": 10, "steps": 5})
            search = timed["search"].least
            over = search / timed["floor"].least
            rows.append(
                (
                    name,
                    f"floor: bare numpy, {sections} x {count} x 5",
                    _ms(timed["floor"].least),
                    f"{1 / over:.2f}",
                    "",
                )
            )
            rows.append(
                (
                    name,
                    "**the search**",
                    _ms(search),
                    "1",
                    _floors(over, count),
                )
            )
            scale = sections / len(chosen)
            whole = timed["closed"].least * scale
            rows.append(
                (
                    name,
                    "closed form a section, no steps *",
                    _ms(whole),
                    f"{whole / search:,.0f}",
                    _held(whole / search, BARS["closed"]),
                )
            )
            whole = timed["steps"].least * scale
            rows.append(
                (name, "one section at a time with its steps *", _ms(whole), f"{whole / search:,.0f}", "")
            )
            if not question.patterned:
                rows += _finite(name, question, chosen, scale, search)
        for name, question in (("simple span", cat.SIMPLE), ("two spans", cat.TWO_SPANS)):
            follows = replace(question, bracing="continuous")
            ways = {
                "floor": cat.floor(sections, 9),
                "search": lambda follows=follows: cat.search(follows, cat.STOCK),
            }
            timed = in_turns(ways, {"floor": 200, "search": 200})
            over = timed["search"].least / timed["floor"].least
            way = "the search, top edge held all along, bottom edge at points of contraflexure"
            rows.append((name, way, _ms(timed["search"].least), "", f"{over:.1f} floors; no bar"))
        words = in_turns({"words": lambda: cat.search_and_words(cat.SIMPLE, cat.STOCK)}, {"words": 5})[
            "words"
        ]
        rows.append(("simple span", "the search and every sentence of it", _ms(words.least), "", ""))
    said = (
        f"{sections} sections ({weights} different self weights), nine stress sums and nine live deflections (those "
        "of the rules and further sums of the same cases); bending with C_L, C_F and C_V, shear, bearing, "
        "live and total deflection; the self weight of each section in the sums, so that every number is exact. The "
        "sections are read as arrays once a search and kept. The floor fills and reduces the array of ratios from "
        "demands that are there. Bars: at most 12 floors; 100 times faster than a closed form a section, 3,000 times "
        f"than finite elements a section. \\* timed on {CANDIDATES} sections spread over the stock and reckoned for "
        "all. Finite elements solve the nine stress sums alone, no deflection sums and no check, which flatters them."
    )
    return rows, {
        "beam": "at least 30 times faster than anastruct, 60 times than PyNiteFEA; "
        "moments, shears and reactions to 1e-9.",
        "catalogue": said,
    }


def _finite(name: str, question: Any, chosen: list[Any], scale: float, search: float) -> Rows:
    beams = [cat.as_beam(question, each) for each in chosen]
    rows: Rows = []
    ways: dict[str, Callable[[Any], Any]] = {
        "anastruct a section *": by_anastruct,
        "PyNiteFEA a section, tuned *": lambda beam: by_pynite(beam, tuned=True),
        "PyNiteFEA a section *": lambda beam: by_pynite(beam, tuned=False),
    }
    for way, solve in ways.items():
        timed: Timed = in_turns({way: lambda solve=solve: [solve(beam) for beam in beams]}, {way: 1})[way]
        whole = timed.least * scale
        rows.append((name, way, _ms(whole), f"{whole / search:,.0f}", _held(whole / search, BARS["finite"])))
    return rows


def growth_rows() -> Rows:
    """Three sizes of stock under nine sums, and three tables of sums over the whole stock."""
    rows: Rows = []
    ways: dict[str, Callable[[], Any]] = {}
    sizes: dict[str, int] = {}
    for plies in (1, 2, 4):
        held = cat.sized(plies)
        name = f"{len(stock_sections(held))} sections"
        sizes[name] = len(stock_sections(held))
        ways[name] = lambda held=held: cat.search(cat.SIMPLE, held)
    with cat.sums(9):
        rows += _grown("sections", in_turns(ways, dict.fromkeys(ways, 200)), sizes)
    timed = {}
    counts = {"9 sums": 9, "18 sums": 18, "36 sums": 36}
    for name, count in counts.items():
        with cat.sums(count):
            timed |= in_turns({name: lambda: cat.search(cat.SIMPLE, cat.STOCK)}, {name: 200})
    rows += _grown("sums", timed, counts)
    return rows


def _grown(what: str, timed: dict[str, Timed], sizes: dict[str, int]) -> Rows:
    rows: Rows = []
    before: tuple[int, float] | None = None
    for name, each in timed.items():
        by = (
            ("", "")
            if before is None
            else (f"{sizes[name] / before[0]:.2f}", f"{each.least / before[1]:.2f}")
        )
        rows.append((what, name, _ms(each.least), *by))
        before = sizes[name], each.least
    return rows


def patterns_row() -> str:
    """Time and memory of the largest search."""
    search = cat.patterns()
    search()
    start = time.thread_time()
    search()
    seconds = time.thread_time() - start
    tracemalloc.start()
    search()
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    return (
        f"{len(stock_sections(cat.STOCK))} sections, 64 sets of bays in every sum with live load: {seconds:.1f} s "
        f"with the bottom edge held at points of contraflexure, {peak / 1e6:.0f} MB at its peak. "
        "Bars: a few seconds, 300 MB."
    )
