"""The clear height under a beam and beside it, against the least heights of the code. Inches, or mm in Canada."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from structure.core.clauses import Clause, ClauseRef, Editions
from structure.core.errors import InputError
from structure.core.trace import Step, formula
from structure.core.units import place_in_words, quantity
from structure.data.loader import table

TABLES = {"us": "us/headroom", "ca": "ca/headroom"}
GEOMETRY = Clause("geometry", "clear height")


@formula(
    "h_c",
    "h - f - max(0, d - a) - t",
    unit="inch",
    clause=GEOMETRY,
    h="inch",
    f="inch",
    d="inch",
    a="inch",
    t="inch",
)
def clear_height(h: float, f: float, d: float, a: float, t: float) -> float:
    """Finished floor to the finished underside of a beam, or of the ceiling where the beam does not hang below it.

    h: rough floor to the underside of the joists, f: floor finish, d: depth of the beam, a: part of it that
    stands above the underside of the joists (nothing if dropped), t: board under it. [in].
    """
    return h - f - max(0, d - a) - t


@dataclass(frozen=True, slots=True)
class HeadroomQuestion:
    """`height`: rough floor to the underside of the joists; `space`: a row of the table of least heights."""

    height: float
    depth: float
    flush: bool = False
    joist_depth: float = 0.0
    floor_finish: float = 0.0
    board: float = 0.5
    space: str = "habitable"


@dataclass(frozen=True, slots=True)
class Height:
    """One clear height against its least one."""

    clear: float
    required: float
    clause: ClauseRef
    step: Step
    code: str = "us"

    @property
    def passes(self) -> bool:
        return self.clear >= self.required - 1e-9

    def as_data(self) -> dict[str, Any]:
        return {
            "clear": quantity(self.clear, "length", self.code),
            "required": quantity(self.required, "length", self.code),
            "passes": self.passes,
            "short_by": quantity(max(0.0, self.required - self.clear), "length", self.code),
            "clause": str(self.clause),
            "steps": [self.step.as_data()],
        }


@dataclass(frozen=True, slots=True)
class HeadroomResult:
    """Under the beam, and under the ceiling beside it."""

    beam: Height
    ceiling: Height
    space: str
    drop: float
    remarks: tuple[str, ...]
    code: str = "us"

    def as_data(self) -> dict[str, Any]:
        """The result of the `headroom` kind: the beam's height on top, the ceiling's beside it."""
        return self.beam.as_data() | {
            "space": self.space,
            "drop": quantity(self.drop, "length", self.code),
            "ceiling": self.ceiling.as_data(),
            "remarks": list(self.remarks),
        }


def spaces(code: str = "us") -> tuple[str, ...]:
    """The kinds of space whose least heights are held."""
    return tuple(str(row["id"]) for row in table(TABLES[code]).rows)


def check_headroom(question: HeadroomQuestion, editions: Editions) -> HeadroomResult:
    """Clear height under a beam and under its ceiling. IRC R305.1, R305.1.1, R311.7.2, NBC 9.5.3.1.

    Raises InputError for an unknown space, and for a beam or finishes deeper than the room is high.
    """
    code = editions.code
    held = table(TABLES[code])
    row = next((row for row in held.rows if row["id"] == question.space), None)
    if row is None:
        raise InputError("space", question.space, ", ".join(spaces(code)))
    above = question.joist_depth if question.flush else 0.0
    made = {"h": question.height, "f": question.floor_finish, "t": question.board}
    under = clear_height.step(editions, **made, d=question.depth, a=above, note="under the beam")
    ceiling = clear_height.step(editions, **made, d=0.0, a=0.0, note="under the ceiling")
    if under.result <= 0:
        raise InputError(
            "beam_depth",
            place_in_words(question.depth, code),
            f"a beam and finishes that leave room in {place_in_words(question.height, code)}",
        )
    clause = Clause(str(row.get("document", held.document)), str(row["clause"])).at(editions)
    drop = max(0.0, question.depth - above)
    # A beam that does not hang below its ceiling is ceiling.
    required = float(row["beam"] if drop > 0 else row["ceiling"])
    return HeadroomResult(
        Height(under.result, required, clause, under, code),
        Height(ceiling.result, float(row["ceiling"]), clause, ceiling, code),
        question.space,
        drop,
        _remarks(row, question, code),
        code,
    )


def _remarks(row: Mapping[str, Any], question: HeadroomQuestion, code: str) -> tuple[str, ...]:
    board = place_in_words(question.board, code)
    told = [f"Least heights: {row['name']}. Finished floor to finished underside, {board} of board counted."]
    if row["mark"]:
        told.append(f"Least height by {row['mark']}; ask the authority.")
    return tuple(told)
