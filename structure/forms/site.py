"""The offset check and tick-offs."""

from __future__ import annotations

from django import forms

from structure.forms.section import EchoMixin
from structure.models import MarkTick, OffsetCheck


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


class TickForm(forms.Form):
    """One tick-off on one mark of the governing schedule."""

    kind = forms.ChoiceField(choices=MarkTick.Kind)
    note = forms.CharField(max_length=200, required=False)
