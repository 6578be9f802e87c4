"""The two ways the engine says no: the input is bad, or the question is out of scope."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from structure.core.clauses import ClauseRef


class InputError(ValueError):
    """Something typed cannot be used. Says which field, what was read and what is accepted."""

    def __init__(self, field: str, read: object, accepted: str) -> None:
        self.field = field
        self.read = read
        self.accepted = accepted
        super().__init__(f"{field}: read {_shown(read)}; accepted is {accepted}.")

    def under(self, prefix: str) -> InputError:
        """The same complaint with its field seen from one level further out."""
        joint = "" if self.field.startswith("[") or not self.field else "."
        return InputError(f"{prefix}{joint}{self.field}", self.read, self.accepted)


class OutOfScope(Exception):
    """The rules held here do not cover the question; the answer is a refusal with its clause."""

    def __init__(self, clause: ClauseRef, reason: str) -> None:
        self.clause = clause
        self.reason = reason
        super().__init__(f"{clause}: {reason}")


def _shown(read: object) -> str:
    if read is None:
        return "nothing"
    if isinstance(read, int) and abs(read) > 10**40:
        return "a whole number of more than 40 digits"  # Python refuses to print thousands of them
    text = repr(read) if isinstance(read, str) else str(read)
    return text if len(text) <= 80 else text[:77] + "..."
