"""The reviewed list: faults that nothing sees, each with the reason why that is so."""

from __future__ import annotations

import fnmatch
import tomllib
from functools import cache
from pathlib import Path
from typing import Any

FILE = Path(__file__).with_name("survivors.toml")


@cache
def entries(kind: str) -> tuple[dict[str, Any], ...]:
    """Entries of the list: `formula` (name, texts, reason) or `function` (names by pattern, reason)."""
    return tuple(tomllib.loads(FILE.read_text()).get(kind, []))


def reason_for_formula(name: str, text: str) -> str:
    """Why this fault of a formula goes unseen; nothing if nobody has looked at it.

    An entry without texts stands for every fault of its formula.
    """
    for each in entries("formula"):
        if each["name"] == name and text in each.get("texts", [text]):
            return str(each["reason"])
    return ""


def reason_for_function(mutant: str) -> str:
    """Why this fault of a function goes unseen, by the name that mutmut gives it."""
    for each in entries("function"):
        if any(fnmatch.fnmatchcase(mutant, pattern) for pattern in each["names"]):
            return str(each["reason"])
    return ""
