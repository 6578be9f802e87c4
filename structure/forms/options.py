"""Which of the beams tried are listed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from django import forms

from structure.core.units import read_quantity
from structure.families import family_title
from structure.fields import QuantityFormField
from structure.forms.section import EchoMixin

Row = Mapping[str, Any]


class OptionsFilter(EchoMixin, forms.Form):
    """By family, by answer, by depth. A field that can not be read leaves its beams in and says so."""

    family = forms.ChoiceField(label="Family", required=False)
    answer = forms.ChoiceField(
        label="Answer",
        required=False,
        choices=[("", "all"), ("passes", "passes"), ("fails", "fails")],
    )
    deepest = QuantityFormField(
        dimension="length", label="Not deeper than", required=False, help_text="Such as 12 in or 300 mm."
    )

    def __init__(self, data: Any, *, rows: Sequence[Row]) -> None:
        super().__init__(data)
        keys = dict.fromkeys(row["group"] for row in rows)
        field = self.fields["family"]
        if isinstance(field, forms.ChoiceField):
            field.choices = [("", "all"), *((key, family_title(key)) for key in keys)]

    def kept(self, rows: Sequence[Row]) -> list[Row]:
        """The rows that are asked for."""
        self.is_valid()
        asked = self.cleaned_data
        found = list(rows)
        if asked.get("family"):
            found = [row for row in found if row["group"] == asked["family"]]
        if asked.get("answer"):
            found = [row for row in found if row["passes"] == (asked["answer"] == "passes")]
        if asked.get("deepest"):
            deepest = read_quantity(asked["deepest"], "length", "deepest")
            found = [row for row in found if row["depth"] <= deepest + 1e-9]
        return found
