"""One line of a takeoff, the rule that made it, and the heads it is grouped under."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from types import MappingProxyType
from typing import Any

from estimating.core.numbers import ZERO, plain

# Division titles of the common construction classification; the numbers below the division are our own.
DIVISIONS: Mapping[str, str] = MappingProxyType(
    {
        "01": "General requirements",
        "02": "Existing conditions",
        "03": "Concrete",
        "05": "Metals",
        "06": "Wood, plastics and composites",
        "09": "Finishes",
        "22": "Plumbing",
        "23": "Heating, ventilating and air conditioning",
        "26": "Electrical",
        "31": "Earthwork",
    }
)

COST_CODES: Mapping[str, str] = MappingProxyType(
    {
        "01-10": "Engineering",
        "01-20": "Permit and inspections",
        "01-30": "Protection and dust control",
        "01-40": "Supervision and clean-up",
        "01-50": "Delivery and lifting",
        "01-60": "Shoring",
        "02-10": "Demolition and disposal",
        "03-10": "Footings",
        "03-20": "Slab cut and patch",
        "05-10": "Connectors and fasteners",
        "05-20": "Structural steel",
        "06-10": "Beam",
        "06-20": "Posts",
        "06-30": "Framing at the opening",
        "09-10": "Board",
        "09-20": "Floor patch",
        "09-30": "Paint and trim",
        "22-10": "Plumbing relocation",
        "23-10": "Duct relocation",
        "26-10": "Electrical relocation and alarms",
        "31-10": "Digging",
    }
)

KINDS = ("material", "labour", "rental", "fee", "subtrade")


@dataclass(frozen=True, slots=True)
class Rule:
    """How a quantity was got, in one sentence, and where the rule comes from."""

    sentence: str
    source: str = "common practice"

    def __str__(self) -> str:
        return f"{self.sentence} [{self.source}]"


@dataclass(frozen=True, slots=True)
class Line:
    """One thing to buy, hire, do or pay. `quantity` is net plus waste less what reuse saves.

    `allowance` marks a sum set aside for work that the schedule does not measure.
    """

    code: str
    description: str
    net: Decimal
    unit: str
    kind: str
    division: str
    cost_code: str
    marks: tuple[str, ...]
    rule: Rule
    waste: Decimal = ZERO
    reuse: Decimal = ZERO
    allowance: bool = False
    detail: str = ""

    @property
    def quantity(self) -> Decimal:
        return self.net + self.waste - self.reuse

    def as_data(self) -> dict[str, Any]:
        """Plain data for JSON; quantities as text so that no decimal is lost."""
        return {
            "code": self.code,
            "description": self.description,
            "detail": self.detail,
            "net": plain(self.net),
            "waste": plain(self.waste),
            "reuse": plain(self.reuse),
            "quantity": plain(self.quantity),
            "unit": self.unit,
            "kind": self.kind,
            "division": self.division,
            "cost_code": self.cost_code,
            "marks": list(self.marks),
            "rule": self.rule.sentence,
            "source": self.rule.source,
            "allowance": self.allowance,
        }
