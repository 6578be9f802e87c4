"""Which modules of the engine changed, and since which commit, as git tells it where it knows."""

from __future__ import annotations

import os
import re
import subprocess
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
RESULTS = Path(__file__).with_name("RESULTS.md")
ENGINE = ("--", "structure/core")


def base() -> str:
    """The commit of RESULTS.md; where it is not here, where this branch left the main one, or the one before.

    Empty where git knows none of them: a shallow clone, or no clone at all.
    """
    found = re.search(r"At commit ([0-9a-f]+)", RESULTS.read_text(encoding="utf-8"))
    head, left = _git("rev-parse", "HEAD"), _git("merge-base", "HEAD", "origin/main")
    candidates = (found[1] if found else None, left if left != head else None, "HEAD~1")
    return next((each for each in candidates if each and known(each)), "")


def known(commit: str) -> bool:
    """Whether the commit is here."""
    return _git("rev-parse", "--verify", "--quiet", f"{commit}^{{commit}}") is not None


def modules(since: str) -> list[str]:
    """Modules that differ from a commit in the tree as it lies here, those changed last first."""
    differ = _files("diff", "--name-only", since, *ENGINE)
    new = _files("ls-files", "--others", "--exclude-standard", *ENGINE)
    lately = _files("diff", "--name-only", "HEAD", *ENGINE)
    before = _files("log", "--format=", "--name-only", f"{since}..HEAD", *ENGINE)
    held = {*differ, *new}
    ordered = dict.fromkeys(name for name in (*new, *lately, *before, *differ) if name in held)
    return [name.removesuffix(".py").replace("/", ".") for name in ordered]


def short_head() -> str:
    """The commit that is checked out, in short."""
    return _git("rev-parse", "--short", "HEAD") or "unknown"


def _files(*words: str) -> list[str]:
    return [line for line in (_git(*words) or "").splitlines() if line.endswith(".py")]


def _git(*words: str) -> str | None:
    """What git answers; None where it can not. The index, which may be another folder's, is left alone."""
    try:
        told = subprocess.run(
            ["git", *words], cwd=ROOT, env=os.environ | {"GIT_OPTIONAL_LOCKS": "0"},
            capture_output=True, text=True, check=False,
        )  # fmt: skip
    except OSError:
        return None
    return None if told.returncode else told.stdout.strip()
