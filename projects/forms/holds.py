"""Forms of stages and hold points."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils import timezone

from projects.forms.paper import CountField, DayField, PaperForm, TextField, VersionedForm
from projects.forms.survey import PhotoField
from projects.models import HoldPass
from projects.services.stages import CURE_DAYS, MOST_CURE_DAYS


class HoldRecordForm(PaperForm):
    """Who saw that a hold point is met, when, and by what."""

    checked_by = TextField(label="Checked by", max_length=120, accepted="the name of the person who checked")
    checked_on = DayField(label="Checked on")
    evidence = TextField(
        label="Evidence", accepted="what was seen or measured", widget=forms.Textarea(attrs={"rows": 3})
    )
    document = forms.CharField(
        label="Document",
        max_length=200,
        required=False,
        help_text="Certificate, report or letter: its title, number and date.",
    )
    upload = PhotoField(label="Photo", required=False)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["checked_on"].initial = timezone.localdate


class PourRecordForm(HoldRecordForm):
    """The pour of a footing and how long it cures."""

    poured_on = DayField(label="Poured on")
    cure_days = CountField(
        label="Curing days",
        least=1,
        most=MOST_CURE_DAYS,
        help_text=f"Calendar days. Common practice is {CURE_DAYS}; the engineer's figure wins.",
        initial=str(CURE_DAYS),
    )
    cure_source = forms.ChoiceField(
        label="Whose figure", choices=HoldPass.CURE_SOURCES, initial="common_practice"
    )

    field_order = ("poured_on", "cure_days", "cure_source")


class OverrideForm(PaperForm):
    """A contractor's reason in writing."""

    reason = TextField(
        label="Reason",
        accepted="why the work goes on without it",
        widget=forms.Textarea(attrs={"rows": 4}),
        help_text="It stays on the job for ever, with your name and today's date. It changes no verdict.",
    )


class ForwardForm(VersionedForm):
    """On to a stage."""

    to = forms.CharField(widget=forms.HiddenInput)


class BackForm(VersionedForm):
    """Back to an earlier stage."""

    to = forms.ChoiceField(label="Back to")
    reason = TextField(
        label="Reason", accepted="why the job goes back", widget=forms.Textarea(attrs={"rows": 2})
    )

    def __init__(self, *args: Any, stages: list[tuple[str, str]], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        field = self.fields["to"]
        if isinstance(field, forms.ChoiceField):
            field.choices = stages
