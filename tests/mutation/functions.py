"""What a run of mutmut left behind: how each fault of each function fared."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

# Exit codes of a mutant's tests as mutmut stores them.
_WORDS = {0: "unseen", 5: "no test", 33: "no test", 34: "skipped", 35: "slow", None: "not run"}


def fates(folder: Path) -> Iterator[tuple[str, str]]:
    """Name and fate (`seen`, `unseen`, `no test`, `slow`, `not run`) of every mutant of the folder."""
    for meta in sorted(folder.rglob("*.py.meta")):
        for name, code in json.loads(meta.read_text())["exit_code_by_key"].items():
            yield name, _WORDS.get(code, "seen" if code in (1, 2, 3, -11, -9) else "slow")


def by_module(folder: Path) -> dict[str, Counter[str]]:
    """How many faults of each module fared how; modules that were not run are left out."""
    found: dict[str, Counter[str]] = {}
    for name, fate in fates(folder):
        found.setdefault(name.rsplit(".", 1)[0], Counter())[fate] += 1
    return {module: held for module, held in found.items() if held.keys() - {"not run"}}
