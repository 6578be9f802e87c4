"""Questions and answers as they once were, a file each, and the one way to change them.

An answer is kept as its numbers, flags and choices by path, without the lines of calculation; those are held
against their formulas elsewhere.
"""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from structure.core.cases import compare, run_case
from structure.core.cases.compare import Leaf
from structure.core.version import CORE_VERSION

FOLDER = Path(__file__).with_name("answers")
CHANGELOG = Path(__file__).resolve().parents[2] / "DEVELOPERS.md"
FIRST = "as first stored"
_OF_CANDIDATE = re.compile(r"candidates\.\d+\.")
_FARES = re.compile(r"candidates\.\d+\.(ratio|governing)$")


@dataclass(frozen=True, slots=True)
class Stored:
    """One stored answer: since which version it holds, and why it changed then."""

    id: str
    version: str
    why: str
    case: Mapping[str, Any]
    answer: Mapping[str, Leaf]
    digest: str = ""

    def sealed(self) -> Stored:
        """With the digest of everything else, which an edit by hand does not know."""
        held = asdict(self) | {"digest": ""}
        text = json.dumps(held, sort_keys=True, ensure_ascii=False)
        return Stored(**(held | {"digest": hashlib.sha256(text.encode()).hexdigest()[:16]}))

    def write(self) -> None:
        """As a file of its own, sealed."""
        FOLDER.mkdir(exist_ok=True)
        text = json.dumps(asdict(self.sealed()), indent=1, ensure_ascii=False)
        (FOLDER / f"{self.id}.json").write_text(text + "\n", encoding="utf-8")


def stored() -> list[Stored]:
    """Every stored answer, by name."""
    return [Stored(**json.loads(path.read_text(encoding="utf-8"))) for path in sorted(FOLDER.glob("*.json"))]


def answer_today(case: Mapping[str, Any]) -> dict[str, Leaf]:
    """What the engine says to the question now, by path; of a candidate only how it fares."""
    found = compare.leaves(run_case(dict(case)))
    return {path: value for path, value in found if not _OF_CANDIDATE.search(path) or _FARES.search(path)}


def differences(held: Stored, today: Mapping[str, Leaf]) -> list[str]:
    """Every stored value that is another one today, in words."""
    return compare.differences(held.answer, today)


def told(held: Stored, changelog: str) -> bool:
    """Whether the changelog names the answer under the version that changed it, with the reason."""
    if held.why == FIRST:
        return True
    part = re.search(
        rf"^### {re.escape(held.version)}\n(.*?)(?=^### |\Z)", changelog, re.DOTALL | re.MULTILINE
    )
    return bool(part) and any(held.id in line and held.why in line for line in part[1].splitlines())


def accept(name: str, why: str, changelog: str) -> str:
    """Store today's answer in the place of an older one. Returns what stands in the way, or nothing."""
    held = next((each for each in stored() if each.id == name), None)
    if held is None:
        return f"nothing is stored as {name}"
    today = answer_today(held.case)
    if not differences(held, today):
        return f"{name} has not changed"
    new = Stored(name, CORE_VERSION, why, held.case, today)
    if why == FIRST or not told(new, changelog):
        return f"DEVELOPERS.md, Changelog, ### {CORE_VERSION}: a line is missing that says `{name}: {why}`"
    new.write()
    return ""
