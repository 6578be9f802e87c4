"""Two answers to one question: the numbers, flags and choices that are not the same in both.

Lines of calculation and ways of putting things may change from one release to the next; a number may not,
unless somebody says so. Paths that only the newer answer has are no difference, one that is gone is.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from typing import Any

SAME = 1e-9
# Words that are an answer in themselves.
_WORDS = frozenset(
    {"status", "clause", "governing", "combination", "section", "label", "state", "kind", "mark"}
)
_LEFT_OUT = frozenset({"steps", "step", "values", "data"})

Leaf = float | bool | str | None


def leaves(data: Any, path: str = "") -> Iterator[tuple[str, Leaf]]:
    """Numbers, flags, nothings and choices of an answer, each by its path."""
    if isinstance(data, Mapping):
        for key, inner in data.items():
            if key not in _LEFT_OUT:
                yield from leaves(inner, f"{path}.{key}" if path else str(key))
    elif isinstance(data, list | tuple):
        for n, inner in enumerate(data):
            yield from leaves(inner, f"{path}.{n}")
    elif data is None or isinstance(data, bool | int | float) or path.rsplit(".", 1)[-1] in _WORDS:
        yield path, data


def differences(before: Mapping[str, Leaf], after: Mapping[str, Leaf]) -> list[str]:
    """Every value of the older answer that is another one in the newer, in words."""
    return [
        f"{path}: was {value}, is {after.get(path, 'gone')}"
        for path, value in before.items()
        if path not in after or not same(value, after[path])
    ]


def same(one: Leaf, other: Leaf) -> bool:
    """Equal; numbers to 1e-9 of their size."""
    if isinstance(one, bool) or isinstance(other, bool) or not isinstance(one, int | float):
        return one == other and type(one) is type(other)
    return isinstance(other, int | float) and math.isclose(one, other, rel_tol=SAME, abs_tol=1e-12)
