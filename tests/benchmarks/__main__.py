"""`python -m tests.benchmarks`: every bar measured in one run, written to RESULTS.md beside this file."""

from __future__ import annotations

import os
import platform
import subprocess
import sys
import warnings
from importlib.metadata import version
from pathlib import Path

from tests.benchmarks.measure import beam_rows, catalogue_rows, growth_rows, patterns_row

HERE = Path(__file__).parent


def _commit() -> str:
    run = subprocess.run(
        ["git", "rev-parse", "--short", "HEAD"], cwd=HERE, capture_output=True, text=True, check=False
    )
    changed = subprocess.run(
        ["git", "status", "--porcelain", "structure/core", "tests/benchmarks"],
        cwd=HERE.parents[1], capture_output=True, text=True, check=False,
    )  # fmt: skip
    edited = [line for line in changed.stdout.splitlines() if not line.endswith("RESULTS.md")]
    return (run.stdout.strip() or "not a checkout") + (" with changes" if edited else "")


def _machine() -> str:
    return f"{os.cpu_count()} processors, {platform.machine()}, {platform.system()}"


def _table(head: tuple[str, ...], rows: list[tuple[str, ...]]) -> str:
    lines = ["| " + " | ".join(head) + " |", "| " + " | ".join("---" for _ in head) + " |"]
    return "\n".join([*lines, *("| " + " | ".join(row) + " |" for row in rows)])


def main() -> None:
    warnings.simplefilter("ignore")
    libraries = ", ".join(f"{name} {version(name)}" for name in ("numpy", "anastruct", "PyNiteFEA"))
    beams, exact = beam_rows()
    catalogue, bars = catalogue_rows()
    text = f"""# Benchmarks

`python -m tests.benchmarks` wrote this file.
Commit {_commit()}; Python {platform.python_version()}, {libraries}; {_machine()}.

Read the ratios. All ways of one table ran in turns in one process on one machine; a time is the least processor
time of all rounds, which other work on the machine touches least.

## One beam under nine sums

Built, solved, and the extremes of moment, shear, deflection and every reaction of all nine sums. Bars: {bars["beam"]}

{_table(("beam", "way", "ms", "times this engine", "bar"), beams)}

Differences from PyNiteFEA over the largest value, and from anastruct for comparison (it samples a mesh):

{_table(("beam", "moment", "shear", "reactions", "deflection", "anastruct: moment", "deflection"), exact)}

PyNiteFEA takes the deflection extreme from samples, so it may only be the smaller one. Of 2,000 random beams no
deflection extreme is below a sampling of 401 places and none over a fine one by more than 1e-4
(`tests/properties/test_statics_routes.py`).

## The whole catalogue

{bars["catalogue"]}

{_table(("beam", "way", "ms", "ratio", "bar"), catalogue)}

## How the cost grows

{_table(("what", "size", "ms", "size to the one before", "time to the one before"), growth_rows())}

There is a part that does not depend on the size (one analysis of the cases), so time grows by less than the size.

## Six spans, live load on every set of bays, twenty point loads

{patterns_row()}
"""
    (HERE / "RESULTS.md").write_text(text)
    sys.stdout.write(text)


if __name__ == "__main__":
    main()
