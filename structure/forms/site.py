"""The offset check, the sealed sizes, and tick-offs."""

from __future__ import annotations

from collections.abc import Mapping

from django import forms

from structure.fields import QuantityFormField
from structure.forms.section import ON_HAND, EchoMixin
from structure.models import MarkTick, OffsetCheck, Schedule


class OffsetForm(EchoMixin, forms.ModelForm):
    """Wall above against support below, measured from the same outside face."""

    class Meta:
        model = OffsetCheck
        fields = [
            "above_distance",
            "above_to",
            "above_thickness",
            "below_distance",
            "below_to",
            "below_thickness",
            "wall_shift",
            "joist_depth",
            "framing",
            "tolerance",
            "supports_floor",
        ]
        help_texts = {
            "wall_shift": "A concrete wall is often thicker than the framed wall on it: how far its outside face "
            "stands in from the framed face (minus if it stands out).",
            "tolerance": "Both measurements together: tape, out-of-plumb, finishes you could not see behind.",
        }


class SealedBeamForm(EchoMixin, forms.Form):
    """The beam as the sealed design gives it."""

    family = forms.ChoiceField(choices=[*ON_HAND, ("other", "Something else (as written below)")])
    label = forms.CharField(label="As written on the drawing", max_length=120)
    plies = forms.IntegerField(min_value=1, max_value=8, initial=1)
    ply_width = QuantityFormField(dimension="length", label="Width of one ply")
    depth = QuantityFormField(dimension="length", label="Depth")
    length = QuantityFormField(dimension="length", label="Length")
    species = forms.CharField(max_length=20, required=False)
    grade = forms.CharField(max_length=30, required=False)


class SealedPostForm(EchoMixin, forms.Form):
    """A post as the sealed design gives it."""

    label = forms.CharField(label="As written on the drawing", max_length=120)
    plies = forms.IntegerField(min_value=1, max_value=10)
    ply_width = QuantityFormField(dimension="length", label="Width of one ply")
    depth = QuantityFormField(dimension="length", label="Depth")
    height = QuantityFormField(dimension="length", label="Height")
    species = forms.CharField(max_length=20, required=False)
    grade = forms.CharField(max_length=30, required=False)
    fastening = forms.ChoiceField(choices=[("nailed", "nailed"), ("bolted", "bolted")])

    def has_changed(self) -> bool:
        """True once somebody typed in it: a browser posts the fastening that shows, and that alone is no post."""
        return bool(set(self.changed_data) - {"fastening"})


class SealedFootingForm(EchoMixin, forms.Form):
    """A pad as the sealed design gives it."""

    label = forms.CharField(label="As written on the drawing", max_length=120)
    side = QuantityFormField(dimension="length", label="Side of the square")
    thickness = QuantityFormField(dimension="length", label="Thickness")
    existing = forms.BooleanField(label="It is there already and stays", required=False)


class SealedShoringForm(forms.Form):
    """Shoring that the engineer designed; it takes the place of the plan here."""

    label = forms.CharField(
        label="Shoring by the engineer, as written on the drawing",
        max_length=160,
        help_text="Only if the sealed design has its own shoring: title and number of its sheet.",
    )


SEALED_FORMS: Mapping[str, type[forms.Form]] = {
    "beam": SealedBeamForm,
    "post": SealedPostForm,
    "footing": SealedFootingForm,
    "shoring": SealedShoringForm,
}


class TickForm(forms.Form):
    """One tick-off on one mark of the governing schedule."""

    kind = forms.ChoiceField(choices=MarkTick.Kind)
    note = forms.CharField(max_length=200, required=False)


class SealedNoteForm(forms.ModelForm):
    """What the sealed design says beyond the sizes."""

    class Meta:
        model = Schedule
        fields = ["note"]
        widgets = {"note": forms.Textarea(attrs={"rows": 3})}
