"""An estimate's document arranged for a page: lines under their division, boards under their product."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from structure.core.measure import format_feet_inches


def by_division(document: Mapping[str, Any]) -> list[dict[str, Any]]:
    """Divisions with their lines, money and quantities as Decimal so that templates can format them."""
    lines = [_line(line) for line in document["lines"]]
    return [
        {
            "division": division["division"],
            "title": division["title"],
            "amount": Decimal(division["amount"]),
            "missing": division["missing"],
            "lines": [line for line in lines if line["division"] == division["division"]],
        }
        for division in document["divisions"]
    ]


def _line(line: Mapping[str, Any]) -> dict[str, Any]:
    money = ("amount", "price")
    shown = {name: None if line[name] is None else Decimal(line[name]) for name in money}
    converted = line["counted"] is not None and line["price_unit"] != line["unit"]
    return {**line, **shown, "mark_words": ", ".join(line["marks"]), "converted": converted}


def cut_plans(document: Mapping[str, Any]) -> list[dict[str, Any]]:
    """Each product with its boards; lengths in words of the property's units."""
    metric = document["units"] == "metric"

    def words(inches: float) -> str:
        return f"{inches * 25.4:,.0f} mm" if metric else format_feet_inches(inches)

    plans = []
    for plan in document["cuts"]:
        boards = [
            {
                "number": number,
                "stock": words(board["stock_in"]),
                "left": words(max(board["left_in"], 0.0)),
                "cuts": [{**cut, "length": words(cut["length_in"])} for cut in board["cuts"]],
            }
            for number, board in enumerate(plan["boards"], 1)
        ]
        plans.append(
            {
                "product": plan["product"],
                "purpose": plan["purpose"],
                "special": plan["special"],
                "boards": boards,
            }
        )
    return plans
