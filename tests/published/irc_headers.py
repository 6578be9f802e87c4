"""The loads behind the header tables of the IRC, from first principles, and a selection of their cells.

Nobody prints the loads of tables R602.7(1) and (2). This model was fitted to 96 cells and then tried on 79 more:
simple span, bending alone, no weight of its own, no limit of deflection, to the nearest inch. Of the 79 it meets 77;
the other two are half an inch away from the inch that is printed. `python -m tests.published.irc_headers` writes
the cells below as cases, each with its loads spelled out.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml

FILE = Path(__file__).resolve().parents[2] / "structure" / "verification" / "us-irc-headers-model.yaml"
OVERHANG = 2.0  # ft of eave beyond the wall
ROOF_DEAD, FLOOR_DEAD, FLOOR_LIVE, WALL = 20.0, 10.0, 40.0, 121.0  # psf, psf, psf, lbf/ft of wall a storey
# The least No.2 bending value of the four species groups, by depth: that of Southern Pine [psi].
LEAST_F_b = {"2x4": 1100.0, "2x6": 1000.0, "2x8": 925.0, "2x10": 800.0, "2x12": 750.0}
DEPTH = {"2x4": 3.5, "2x6": 5.5, "2x8": 7.25, "2x10": 9.25, "2x12": 11.25}
# The tables count two plies as 1.10, three and more as the 1.15 of repetitive members.
TWO_PLIES = 1.10
_NAME = re.compile(
    r"irc6027-(?P<table>[12])-(?P<carries>rc|rc-1cb|rc-1cs|1floor|2floor)-(?P<plies>[1-4])-(?P<size>2x\d+)"
    r"(-pg(?P<snow>\d+))?-w(?P<width>\d+)"
)


@dataclass(frozen=True, slots=True)
class Cell:
    """What the header carries, ground snow [psf], width of the building [ft], plies and size."""

    carries: str
    snow: float
    width: float
    plies: int
    size: str

    @property
    def name(self) -> str:
        table, snow = ("2", "") if self.carries.endswith("floor") else ("1", f"-pg{self.snow:g}")
        return f"irc6027-{table}-{self.carries}-{self.plies}-{self.size}{snow}-w{self.width:g}"

    @property
    def loads(self) -> dict[str, float]:
        """Load on the header by case [lbf/ft]."""
        W = self.width
        if self.carries.endswith("floor"):
            floors = int(self.carries[0])
            # An interior wall in the middle: half of the building's width of each floor, one wall between two.
            return {
                "dead": floors * FLOOR_DEAD * W / 2 + (floors - 1) * WALL,
                "live": floors * FLOOR_LIVE * W / 2,
            }
        reach = W / 2 + OVERHANG
        dead = ROOF_DEAD * reach
        # Snow of the ground on one slope and its eave alone, as a beam over the two outer walls brings it.
        snow = self.snow * reach * (W / 2 + reach / 2) / W
        if self.carries == "rc":
            return {"dead": dead, "snow": snow}
        floor = W / 4 if self.carries.endswith("cb") else W / 2
        return {"dead": dead + FLOOR_DEAD * floor + WALL, "live": FLOOR_LIVE * floor, "snow": snow}

    @property
    def F_b(self) -> float:
        """Bending value before the factors of the engine [psi]."""
        return LEAST_F_b[self.size] * (TWO_PLIES if self.plies == 2 else 1.0)


def cell_of(name: str) -> Cell | None:
    """The cell that the name of a case stands for."""
    found = _NAME.fullmatch(name)
    if found is None:
        return None
    return Cell(
        found["carries"], float(found["snow"] or 0), float(found["width"]), int(found["plies"]), found["size"]
    )


# Printed spans (feet, inches) of 2018 IRC table R602.7(1), a few of each block, none of them in the other file.
SELECTED = {
    Cell("rc", 30, 36, 2, "2x4"): (2, 7),
    Cell("rc", 30, 36, 2, "2x10"): (5, 9),
    Cell("rc", 30, 36, 3, "2x10"): (7, 3),
    Cell("rc", 50, 24, 2, "2x6"): (3, 11),
    Cell("rc", 50, 24, 2, "2x8"): (5, 0),
    Cell("rc", 50, 24, 2, "2x12"): (6, 11),
    Cell("rc", 50, 24, 3, "2x12"): (8, 8),
    Cell("rc", 50, 36, 2, "2x8"): (4, 2),
    Cell("rc", 50, 36, 3, "2x10"): (6, 2),
    Cell("rc", 70, 24, 2, "2x10"): (5, 3),
    Cell("rc", 70, 24, 3, "2x10"): (6, 7),
    Cell("rc", 70, 36, 2, "2x6"): (2, 11),
    Cell("rc", 70, 36, 3, "2x12"): (6, 6),
    Cell("rc-1cb", 50, 24, 2, "2x10"): (5, 3),
    Cell("rc-1cb", 50, 24, 3, "2x12"): (7, 8),
    Cell("rc-1cb", 50, 36, 2, "2x6"): (3, 0),
    Cell("rc-1cb", 70, 12, 2, "2x8"): (5, 2),
    Cell("rc-1cb", 70, 12, 3, "2x10"): (7, 8),
    Cell("rc-1cb", 70, 24, 2, "2x12"): (5, 8),
    Cell("rc-1cb", 70, 36, 3, "2x12"): (6, 1),
}
# Cells that the model misses, with how much: the printed inch is the next one up.
MISSED = {
    Cell(
        "rc", 50, 24, 2, "2x8"
    ): "the model gives 59.49 in and the table 60 in, half an inch more; with the bending "
    "value rounded up to 1,018 psi it would be 59.51 in, so the table seems to round on the way",
    Cell(
        "rc-1cb", 50, 36, 2, "2x6"
    ): "the model gives 35.42 in and the table 36 in, 0.58 in more; a load 0.5 % "
    "smaller would do, and which one the table takes smaller is not known",
}
_CARRIES = {"rc": "roof and ceiling", "rc-1cb": "roof, ceiling and one centre-bearing floor"}
_SOURCE = "IRC 2018 Table R602.7(1), an extract of the Seattle Residential Code chapter 6; loads fitted to it"


def _in_words(cell: Cell) -> str:
    W, reach = cell.width, cell.width / 2 + OVERHANG
    held = cell.loads
    more = "" if cell.carries == "rc" else f" + 10 x {W / 4:g} + 121"
    floor = "" if cell.carries == "rc" else f", L 40 x {W / 4:g} = {held['live']:.0f}"
    return (
        f"D 20 x {reach:g}{more} = {held['dead']:.0f}{floor}, "
        f"S {cell.snow:g} x {reach:g} x ({W / 2:g} + {reach / 2:g}) / {W:g} = {held['snow']:.1f} lbf/ft"
    )


def _case(cell: Cell, feet: int, inches: int) -> dict[str, Any]:
    span = 12 * feet + inches
    row: dict[str, Any] = {
        "value": "checks.bending.ratio",
        "equals": 1.0,
        "within": f"{100 / span:.3g} %",  # half an inch of span is this much of its square
    }
    if cell in MISSED:
        row |= {"differs": MISSED[cell], "differs_clause": "IRC R602.7"}
    return {
        "id": cell.name,
        "title": f"{_CARRIES[cell.carries]}, {cell.plies}-{cell.size}, ground snow {cell.snow:g} psf, "
        f"{cell.width:g} ft wide: printed {feet}-{inches}; {_in_words(cell)}",
        "source": _SOURCE,
        "kind": "beam",
        "code": "us",
        "given": {
            "spans": [f"{feet} ft {inches} in"],
            "loads": [
                {"case": case, "shape": "uniform", "value": f"{round(load, 3)} lbf/ft"}
                for case, load in cell.loads.items()
            ],
            "self_weight": False,
            "bracing": "continuous",
            "section": {
                "family": "sawn", "species": "SP", "grade": "No.2", "plies": cell.plies, "width": "1.5 in",
                "depth": f"{DEPTH[cell.size]} in", "properties": {"Fb": f"{cell.F_b:g} psi"},
            },
            "repetitive": cell.plies > 2,
        },
        "expect": [row],
    }  # fmt: skip


def main() -> None:
    """Write the selected cells as cases."""
    head = (
        "# Printed header spans once more, each with the loads of the model spelled out: written by\n"
        "# `python -m tests.published.irc_headers`, which also says what the model is and where it comes from.\n"
    )
    cases = [_case(cell, *printed) for cell, printed in SELECTED.items()]
    FILE.write_text(
        head + yaml.safe_dump(cases, sort_keys=False, width=110, allow_unicode=True), encoding="utf-8"
    )


if __name__ == "__main__":
    main()
