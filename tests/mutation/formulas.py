"""Which faults in formulas a printed number sees: all of them, or those of some modules, within a time."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from itertools import islice, takewhile

import numpy as np

from structure.core.trace import Formula
from tests.mutation.texts import as_function, faulty_texts
from tests.published import kernels

FIRST = 6  # cases of each standing that hold the formula come first; they see most faults
_RANK = {"published": 0, "common practice": 1, "memory": 2}


@dataclass(frozen=True, slots=True)
class Outcome:
    """One fault: the formula, its faulty text, and the standing of the source that sees it (empty: none)."""

    formula: str
    text: str
    seen_by: str = ""
    case: str = ""

    @property
    def survives(self) -> bool:
        return not self.seen_by


def outcomes(names: Iterable[str], seconds: float = float("inf")) -> Iterator[Outcome]:
    """Each fault of each formula in turn, until the time is over."""
    end = time.monotonic() + seconds

    def within(keys: Iterable[str]) -> Iterator[str]:
        return takewhile(lambda _: time.monotonic() < end, keys)

    for name in names:
        each = kernels.formulas()[name]
        fair = [key for key in within(_order(name, within)) if _fair(each, key)]
        for text in faulty_texts(each):
            found = _outcome(each, text, within(fair))
            if time.monotonic() > end:
                return
            yield found


def _order(name: str, within: Callable[[Iterable[str]], Iterator[str]]) -> list[str]:
    """All cases of a formula; first some that miss when it is 1 % off, published ones before others."""
    held = kernels.calls()[name]
    holding: list[str] = []
    for standing in _RANK:
        group = [key for key in held if kernels.standing(kernels.cases()[key]) == standing]
        holding += islice(kernels.holders(name, keys=within(group)), FIRST)
    others = sorted((key for key in held if key not in holding), key=_rank)
    return holding + others


def _rank(key: str) -> int:
    return _RANK[kernels.standing(kernels.cases()[key])]


def _fair(each: Formula, key: str) -> bool:
    """Whether the case is met with the printed text, free of faults, in the place of the function."""
    with kernels.replaced(each, as_function(each, each.text)):
        return not kernels.noticed(kernels.cases()[key])


def _outcome(each: Formula, text: str, keys: Iterable[str]) -> Outcome:
    with np.errstate(all="ignore"), kernels.replaced(each, as_function(each, text)):
        for key in keys:
            kernels.forget()
            if kernels.noticed(kernels.cases()[key]):
                return Outcome(each.name, text, kernels.standing(kernels.cases()[key]), key)
    return Outcome(each.name, text)
