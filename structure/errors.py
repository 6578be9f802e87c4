"""How the structure services say no: with the clause where a rule ends, with the field where input is bad."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from projects.errors import Refused
from structure.core.errors import InputError


class OutsideRules(Refused):
    """The rules held here do not cover the question. Nothing was stored."""

    def __init__(self, clause: str, reason: str) -> None:
        self.clause = clause
        self.reason = reason
        super().__init__(f"Outside what the rules here cover ({clause}): {reason}.")


def refuse_if_refused(result: Mapping[str, Any]) -> None:
    """Raise OutsideRules for a refused result of the engine."""
    if result["status"] == "refused":
        raise OutsideRules(result["clause"], result["reason"])


def bad_input(error: InputError, names: Mapping[str, str] | None = None) -> Refused:
    """The engine's sentence about bad input, its field path told in the words of the form."""
    field = error.field.removeprefix("given.")
    told = (names or {}).get(field, field)
    return Refused(str(InputError(told, error.read, error.accepted)), field=field)
