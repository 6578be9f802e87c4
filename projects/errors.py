"""How the services of this project say no, in one sentence that a person can act on."""

from __future__ import annotations


class Refused(Exception):
    """The step is not allowed as things stand. Nothing was stored; the sentence says why."""

    def __init__(self, sentence: str, *, field: str | None = None) -> None:
        self.sentence = sentence
        self.field = field
        super().__init__(sentence)


class Conflict(Refused):
    """Somebody else changed the row since it was read."""
