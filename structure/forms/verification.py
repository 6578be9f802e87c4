"""Which of the published checks are listed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django import forms

from structure.core.cases.verify import VerifyRow

OUTCOMES = {"met": "met", "differs": "source differs, with a clause", "missed": "missed"}
MARKS = {"read": "read in a source", "common practice": "common practice", "memory": "from memory"}
CODES = {"us": "United States", "ca": "Canada"}


class ChecksFilter(forms.Form):
    """By file, kind, code, standing of the source, answer and words. An unknown choice leaves all rows in."""

    file = forms.ChoiceField(label="File", required=False)
    kind = forms.ChoiceField(label="Kind", required=False)
    code = forms.ChoiceField(label="Code", required=False)
    mark = forms.ChoiceField(label="Source is", required=False)
    outcome = forms.ChoiceField(label="Answer", required=False)
    words = forms.CharField(
        label="Words", max_length=80, required=False, help_text="In the name, title or source."
    )

    def __init__(self, data: Any, *, rows: Sequence[VerifyRow]) -> None:
        super().__init__(data)
        self._offer("file", {row.file: row.file for row in rows})
        self._offer("kind", {row.kind: row.kind.replace("_", " ") for row in rows})
        self._offer(
            "code", {code: words for code, words in CODES.items() if any(r.code == code for r in rows)}
        )
        self._offer("mark", MARKS)
        self._offer("outcome", OUTCOMES)

    def _offer(self, name: str, choices: dict[str, str]) -> None:
        field = self.fields[name]
        if isinstance(field, forms.ChoiceField):
            field.choices = [("", "all"), *choices.items()]

    def kept(self, rows: Sequence[VerifyRow]) -> list[VerifyRow]:
        """The rows that are asked for."""
        self.is_valid()
        asked = {name: value for name, value in self.cleaned_data.items() if value}
        return [row for row in rows if _fits(row, asked)]


def _fits(row: VerifyRow, asked: dict[str, str]) -> bool:
    words = asked.get("words", "").lower()
    return (
        all(
            getattr(row, name) == asked[name] for name in ("file", "kind", "code", "outcome") if name in asked
        )
        and ("mark" not in asked or (row.mark or "read") == asked["mark"])
        and (not words or words in f"{row.id} {row.title} {row.source} {row.path}".lower())
    )
