"""What is asked about the plies of a beam, and the answer: pattern, check, questions. US: lbf, inches."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from structure.core.materials.section import Section
from structure.core.members.checkdata import check_data
from structure.core.members.fastener import Fastener, PlaneValue
from structure.core.members.ply_pattern import Least, Pattern, in_words
from structure.core.trace import Check, Step
from structure.core.units import quantity

Loaded = Literal["top", "side"]


@dataclass(frozen=True, slots=True)
class PlyQuestion:
    """`left`, `right`: load on each outer ply by case [lbf/in]. `gravity` is that of the wood, by `gravity_source`.

    `rows` and `spacing` [in] check a pattern; left out they are solved. `length` [in] counts the fasteners.
    """

    section: Section
    loaded: Loaded
    length: float
    left: Mapping[str, float] = field(default_factory=dict)
    right: Mapping[str, float] = field(default_factory=dict)
    gravity: float | None = None
    gravity_source: str = ""
    fastener: Fastener | None = None
    rows: int | None = None
    spacing: float | None = None


@dataclass(frozen=True, slots=True)
class Transfer:
    """The joint and the loading that need most of the fasteners: load passed on [lbf/in] and its C_D."""

    load: float
    joint: int
    combination: str
    C_D: float
    step: Step


@dataclass(frozen=True, slots=True)
class PlyResult:
    """The pattern with its check, or what the engineer is asked."""

    question: PlyQuestion
    transfer: Transfer | None = None
    joints: tuple[float, ...] = ()
    fastener: Fastener | None = None
    plane: PlaneValue | None = None
    adjusted: float | None = None
    need: float | None = None
    least: Least | None = None
    pattern: Pattern | None = None
    check: Check | None = None
    questions: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()
    code: str = "us"

    @property
    def state(self) -> str:
        """passes, fails or question."""
        if self.check is not None and not self.check.passes:
            return "fails"
        return "question" if self.questions else "passes"

    def as_data(self) -> dict[str, Any]:
        """The result of the `ply_fastening` kind."""
        section, pattern = self.question.section, self.pattern
        joints = max(0, section.plies - 1)
        data: dict[str, Any] = {
            "state": self.state,
            "passes": self.state == "passes",
            "one_piece": joints == 0,
            "loaded": self.question.loaded,
            "section": section.label,
            "joints": joints,
            "fastener": None if self.fastener is None else self.fastener.as_data(),
            "least": None if self.least is None else self.least.as_data(),
            "rows": None if pattern is None else pattern.rows,
            "spacing": None if pattern is None else quantity(pattern.spacing, "length", self.code),
            "count": None if pattern is None else pattern.count * self._driven(joints),
            "distances": None if pattern is None else self._distances(pattern),
            "words": self._words(),
            "governing": None if self.check is None else "transfer",
            "ratio": None if self.check is None else self.check.ratio,
            "checks": {} if self.check is None else {"transfer": check_data(self.check, self.code)},
            "questions": list(self.questions),
            "remarks": list(self.remarks),
            "transfer": None,
            "value": None,
            "per_foot": None,
        }
        if self.transfer is not None:
            data["transfer"] = {
                "demand": quantity(self.transfer.load, "line_load", self.code),
                "joint": self.transfer.joint,
                "combination": self.transfer.combination,
                "CD": self.transfer.C_D,
                "by_joint": [quantity(each, "line_load", self.code) for each in self.joints],
            }
        if self.plane is not None and self.adjusted is not None:
            data["value"] = {
                "Z": quantity(self.plane.reference, "force", self.code),
                "adjusted": quantity(self.adjusted, "force", self.code),
                "mode": None if self.plane.value is None else self.plane.value.mode,
                "Cp": self.plane.C_p,
            }
            data["per_foot"] = None if self.need is None else 12 * self.need
        return data

    def _driven(self, joints: int) -> int:
        """Bolts go through all joints at once, nails and screws are driven joint by joint."""
        return 1 if self.fastener is not None and self.fastener.length is None else joints

    def _words(self) -> str:
        if self.pattern is None or self.fastener is None or self.least is None:
            return ""
        return in_words(self.fastener, self.pattern, self.least.ends, self.question.section.plies)

    def _distances(self, pattern: Pattern) -> dict[str, Any]:
        return {
            "end": quantity(pattern.end, "length", self.code),
            "edge": quantity(pattern.edge, "length", self.code),
            "between_rows": quantity(pattern.between, "length", self.code),
        }
