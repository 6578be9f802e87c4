"""A product in hand as it is typed, and why one is taken out of use."""

from __future__ import annotations

from typing import Any

from django import forms

from structure.core.errors import InputError
from structure.forms.section import EchoMixin
from structure.models import EnteredProduct
from structure.products import depths_of

#: Under the Canadian code the paper prints specified strengths for limit states: never the allowable stresses.
CANADIAN = {
    "depths": ("Depths on hand", "Parted by semicolons, such as 241 mm; 302 mm; 356 mm."),
    "Fb": ("Bending, specified strength f_b", "Limit states, of a beam on edge, before every factor."),
    "Fv": ("Shear, specified strength f_v", "Limit states."),
    "Fc_perp": ("Bearing across the grain, specified strength f_cp", "Limit states, of a beam on edge."),
    "E": ("Modulus E", ""),
    "Emin": ("Modulus for stability E_05", "Empty: 0.87 E, as for engineered wood."),
}


class ProductForm(EchoMixin, forms.ModelForm):
    """What is stamped on it, the paper, the sizes on hand and the values that the paper prints."""

    def __init__(self, *args: Any, code: str = "us", **kwargs: Any) -> None:
        self.code = code
        super().__init__(*args, **kwargs)

    def fit(self) -> None:
        if self.code == "ca":
            for name, (label, told) in CANADIAN.items():
                self.fields[name].label, self.fields[name].help_text = label, told

    plies = forms.IntegerField(label="Most plies side by side", min_value=1, max_value=5, initial=1)

    class Meta:
        model = EnteredProduct
        fields = [
            "family",
            "name",
            "source",
            "width",
            "depths",
            "plies",
            "Fb",
            "Fv",
            "Fc_perp",
            "E",
            "Emin",
        ]
        help_texts = {
            "name": "Short; it becomes part of the beam's name.",
            "source": "Title, number and date of the maker's sheet or the evaluation report.",
            "depths": "Parted by semicolons, such as 11 7/8 in; 14 in; 16 in.",
            "Fb": "Of a beam 12 in deep, on edge, before every factor.",
            "Fc_perp": "Of a beam on edge, across the grain.",
            "Emin": "Empty: from E by NDS appendix D.4.",
        }

    def clean_depths(self) -> str:
        text: str = self.cleaned_data["depths"]
        try:
            depths_of(text)
        except InputError as error:
            raise forms.ValidationError(str(error), code="quantity") from None
        return text


class VoidForm(forms.Form):
    """Why a product is not used any more."""

    reason = forms.CharField(
        label="Reason",
        max_length=200,
        required=False,
        help_text="It stays on record with your name. What was sized with it stays as it is.",
    )

    def put(self, sentence: str) -> None:
        """A refusal of the service."""
        self.add_error("reason", sentence)
