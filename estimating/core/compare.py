"""What changed between two revisions of an estimate, line by line."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

Key = tuple[str, str, str]


@dataclass(frozen=True, slots=True)
class Change:
    """One line that came, went or changed; amounts are None where a price misses or the line is absent."""

    kind: str
    description: str
    unit: str
    quantity_before: Decimal | None
    quantity_after: Decimal | None
    amount_before: Decimal | None
    amount_after: Decimal | None

    @property
    def difference(self) -> Decimal | None:
        """What the change adds to the direct cost; None where one side has no price."""
        if self.kind == "new":
            return self.amount_after
        if self.kind == "gone":
            return None if self.amount_before is None else -self.amount_before
        if self.amount_before is None or self.amount_after is None:
            return None
        return self.amount_after - self.amount_before


def changes(before: Iterable[Mapping[str, Any]], after: Iterable[Mapping[str, Any]]) -> list[Change]:
    """Lines of `after` against `before`, matched by code, cost code and marks.

    Unchanged ones are left out.
    """
    old, new = _by_key(before), _by_key(after)
    made = []
    for key in dict.fromkeys([*new, *old]):
        was, now = old.get(key), new.get(key)
        shown = now or was or {}
        change = Change(
            "new" if was is None else "gone" if now is None else "changed",
            str(shown["description"]),
            str(shown["unit"]),
            _sum(was, "quantity"),
            _sum(now, "quantity"),
            _sum(was, "amount"),
            _sum(now, "amount"),
        )
        same = (change.quantity_before, change.amount_before) == (change.quantity_after, change.amount_after)
        if not same or change.kind != "changed":
            made.append(change)
    return made


def _by_key(lines: Iterable[Mapping[str, Any]]) -> dict[Key, dict[str, Any]]:
    made: dict[Key, dict[str, Any]] = {}
    for line in lines:
        key = (str(line["code"]), str(line["cost_code"]), " ".join(line["marks"]))
        if key in made:
            # Two lines under one key are compared as their sum, or one would hide the other.
            for name in ("quantity", "amount"):
                left, right = made[key][name], line[name]
                made[key][name] = (
                    None if left is None or right is None else str(Decimal(left) + Decimal(right))
                )
        else:
            made[key] = dict(line)
    return made


def _sum(line: Mapping[str, Any] | None, name: str) -> Decimal | None:
    return None if line is None or line[name] is None else Decimal(str(line[name]))
