"""A product in hand as it is typed, and why one is taken out of use."""

from __future__ import annotations

from django import forms

from structure.core.errors import InputError
from structure.forms.section import EchoMixin
from structure.models import EnteredProduct
from structure.products import depths_of


class ProductForm(EchoMixin, forms.ModelForm):
    """What is stamped on it, the paper, the sizes on hand and the values that the paper prints."""

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
