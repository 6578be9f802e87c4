"""Forms of the survey: one finding, its withdrawal, the questions, the decision, a photo."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils import timezone

from projects.evidence import HOWS, LEVELS, Kind, levels_above
from projects.forms.paper import DayField, PaperForm, TextField
from projects.models import Decision, Job
from projects.questions import ANSWERS, DUTY_QUESTIONS, HAZARD_QUESTIONS, SERVICE_QUESTIONS, Question

PICTURES = "image/jpeg,image/png,image/webp"


class PhotoField(forms.FileField):
    """An optional picture; what it is gets looked at by the service that keeps it."""

    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("widget", forms.ClearableFileInput(attrs={"accept": PICTURES}))
        kwargs.setdefault(
            "help_text", "JPEG, PNG or WebP, at most 15 MB. Place and camera data are taken out."
        )
        super().__init__(allow_empty_file=True, **kwargs)


class FindingForm(PaperForm):
    """One piece of evidence of a kind that was chosen before."""

    observation = forms.ChoiceField(label="What was seen", widget=forms.RadioSelect)
    level = forms.ChoiceField(label="Level")
    how = forms.ChoiceField(label="How obtained", choices=list(HOWS.items()), widget=forms.RadioSelect)
    confirmed_on_site = forms.BooleanField(
        label="Confirmed on site",
        required=False,
        help_text="For a drawing: what it shows was checked in the house.",
    )
    full_length = forms.BooleanField(
        label="Covers the full length of the wall",
        required=False,
        help_text="Part of the length is enough to show a load, never enough to clear the wall.",
    )
    seen_by = TextField(label="Seen by", max_length=120, accepted="the name of the person who saw it")
    seen_on = DayField(label="Seen on")
    note = forms.CharField(label="Note", required=False, widget=forms.Textarea(attrs={"rows": 3}))
    upload = PhotoField(label="Photo", required=False)

    def __init__(self, *args: Any, kind: Kind, job: Job, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        here = (*levels_above(job.floors_above), "this", "below")
        levels = [(name, LEVELS[name].capitalize()) for name in kind.levels if name in here]
        self._choose("observation", [(item.name, item.title) for item in kind.observations])
        self._choose("level", levels)
        if len(levels) == 1:
            self.fields["level"].initial = levels[0][0]
        self.fields["seen_on"].initial = timezone.localdate

    def _choose(self, name: str, choices: list[tuple[str, str]]) -> None:
        field = self.fields[name]
        if isinstance(field, forms.ChoiceField):
            field.choices = choices
        accepted = ", ".join(title for _, title in choices)
        field.error_messages["required"] = f"Read nothing; accepted is one of: {accepted}."
        field.error_messages["invalid_choice"] = f"Read %(value)s; accepted is one of: {accepted}."


class QuestionsForm(PaperForm):
    """Every question of the survey, each with a note."""

    groups = (
        ("Duties that can block", DUTY_QUESTIONS),
        ("Services in and under the wall", SERVICE_QUESTIONS),
        ("Hazards", HAZARD_QUESTIONS),
    )

    def __init__(self, *args: Any, why: dict[str, str] | None = None, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for _, questions in self.groups:
            for question in questions:
                self._add(question, (why or {}).get(question.name, question.help))

    def _add(self, question: Question, help_text: str) -> None:
        self.fields[question.name] = forms.ChoiceField(
            label=question.title,
            choices=list(ANSWERS.items()),
            required=False,
            widget=forms.RadioSelect(attrs={"class": "radios"}),
            help_text=help_text,
        )
        self.fields[f"{question.name}_note"] = forms.CharField(
            label=f"Note: {question.title[0].lower()}{question.title[1:]}", required=False, max_length=500
        )

    def rows(self) -> list[tuple[str, list[tuple[forms.BoundField, forms.BoundField]]]]:
        """Groups with their answer and note fields, for the page."""
        return [
            (title, [(self[question.name], self[f"{question.name}_note"]) for question in questions])
            for title, questions in self.groups
        ]

    def answers(self) -> tuple[dict[str, str], dict[str, str]]:
        """What was answered, and the notes beside it; questions left open are left out."""
        names = [q.name for _, questions in self.groups for q in questions if self.cleaned_data[q.name]]
        return (
            {name: self.cleaned_data[name] for name in names},
            {name: self.cleaned_data[f"{name}_note"] for name in names},
        )


class DecisionForm(PaperForm):
    """A person's decision about the wall."""

    decision = forms.ChoiceField(
        label="Decision",
        choices=Decision.CHOICES,
        widget=forms.RadioSelect,
        error_messages={"required": "Read nothing; accepted is bearing or not bearing."},
    )
    reason = TextField(
        label="Reason", accepted="why, in your own words", widget=forms.Textarea(attrs={"rows": 3})
    )
    decided_on = DayField(label="Decided on")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["decided_on"].initial = timezone.localdate


class WhyForm(PaperForm):
    """A written reason for setting something aside."""

    reason = TextField(
        label="Reason", accepted="why it no longer counts", widget=forms.Textarea(attrs={"rows": 3})
    )


class PhotoForm(PaperForm):
    """A photo for the job."""

    upload = PhotoField(
        label="Photo", error_messages={"required": "Read nothing; accepted is a JPEG, PNG or WebP picture."}
    )
    caption = forms.CharField(label="Caption", max_length=200, required=False)
