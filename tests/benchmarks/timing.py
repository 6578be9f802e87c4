"""Times of several ways to do one thing, taken in turns so that a busy machine disturbs all of them alike."""

from __future__ import annotations

import gc
import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True)
class Timed:
    """Seconds of the processor: the least of all rounds, which other work touches least, and the median."""

    least: float
    median: float


def in_turns(ways: Mapping[str, Callable[[], Any]], rounds: Mapping[str, int]) -> dict[str, Timed]:
    """Run each way as often as its rounds say, spread evenly among the others, after one run to warm up."""
    seconds: dict[str, list[float]] = {name: [] for name in ways}
    for way in ways.values():
        way()
    most = max(rounds.values())
    gc.collect()
    gc.disable()
    try:
        for turn in range(most):
            for name, way in ways.items():
                if turn * rounds[name] // most != (turn + 1) * rounds[name] // most:
                    start = time.thread_time()
                    way()
                    seconds[name].append(time.thread_time() - start)
    finally:
        gc.enable()
    return {name: Timed(min(each), sorted(each)[len(each) // 2]) for name, each in seconds.items()}
