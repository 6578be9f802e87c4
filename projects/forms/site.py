"""Forms of properties, jobs and people."""

from __future__ import annotations

from typing import Any

from django import forms
from django.contrib.auth.password_validation import password_validators_help_text_html

from projects.evidence import FLOORS_ABOVE
from projects.forms.paper import CountField, DayField, PaperForm, TextField, VersionedForm
from projects.models import BuildingCode, Role, Units, User
from projects.models.places import FIRST_YEAR, LAST_YEAR


class PropertyForm(PaperForm):
    """A house."""

    name = TextField(label="Name", max_length=120, accepted="a name you know the house by")
    street = TextField(label="Street", max_length=160, accepted="street and number")
    city = TextField(label="City", max_length=80, accepted="the city or place")
    region = TextField(
        label="State or province",
        max_length=40,
        accepted="its two letters, for example OH",
        help_text="Two letters, for example OH or SK.",
    )
    code = forms.ChoiceField(label="Country", choices=BuildingCode.choices)
    units = forms.ChoiceField(
        label="Units",
        required=False,
        choices=[
            ("", "As usual there: metric in Canada, feet and inches in the United States"),
            *Units.choices,
        ],
        help_text="What numbers are shown in first. Every field takes both.",
    )
    year_built = CountField(
        label="Year built",
        least=FIRST_YEAR,
        most=LAST_YEAR,
        required=False,
        help_text="Empty when not known: the house is then taken as old, and every hazard is asked about.",
    )
    notes = forms.CharField(label="Notes", required=False, widget=forms.Textarea(attrs={"rows": 3}))


class PropertyEditForm(VersionedForm, PropertyForm):
    """The same, over a row."""


class JobForm(PaperForm):
    """A job: one wall."""

    name = TextField(label="Name", max_length=120, accepted="a name you know the job by")
    wall = TextField(
        label="Wall",
        max_length=200,
        accepted="where the wall stands",
        help_text="Where it stands, for example: between kitchen and dining room.",
    )
    storey = TextField(
        label="Storey", max_length=40, accepted="the storey the wall stands on", initial="ground floor"
    )
    floors_above = forms.TypedChoiceField(
        label="Storeys above",
        coerce=int,
        choices=[(0, "None, only the roof"), *((n, str(n)) for n in range(1, len(FLOORS_ABOVE) + 1))],
        help_text="Storeys that stand over the one with the wall; the roof is not counted.",
    )
    contractor = forms.ModelChoiceField(label="Contractor", queryset=User.objects.none(), required=False)
    estimator = forms.ModelChoiceField(label="Estimator", queryset=User.objects.none(), required=False)
    project_manager = forms.ModelChoiceField(
        label="Project manager", queryset=User.objects.none(), required=False
    )
    crew_lead = forms.ModelChoiceField(label="Crew lead", queryset=User.objects.none(), required=False)
    engineer_name = forms.CharField(label="Engineer", max_length=120, required=False)
    starts_on = DayField(label="Starts on", required=False)
    due_on = DayField(label="Due on", required=False)

    def __init__(self, *args: Any, people: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for name in ("contractor", "estimator", "project_manager", "crew_lead"):
            field = self.fields[name]
            if isinstance(field, forms.ModelChoiceField):
                field.queryset = people


class JobEditForm(VersionedForm, JobForm):
    """The same, over a row."""


class ArchiveForm(VersionedForm):
    """Put a job away."""

    reason = TextField(
        label="Reason", accepted="why it is put away", widget=forms.Textarea(attrs={"rows": 2})
    )


class PersonForm(PaperForm):
    """A colleague."""

    first_name = TextField(label="First name", max_length=150, accepted="a first name")
    last_name = TextField(label="Last name", max_length=150, accepted="a last name")
    role = forms.ChoiceField(label="Role", choices=Role.choices, initial=Role.CREW)
    phone = forms.CharField(label="Telephone", max_length=40, required=False)


class PersonNewForm(PersonForm):
    """A new colleague, with a first password."""

    username = TextField(label="Sign-in name", max_length=150, accepted="a name to sign in with")
    password = forms.CharField(
        label="First password",
        strip=False,
        widget=forms.PasswordInput(attrs={"autocomplete": "new-password"}),
        help_text=password_validators_help_text_html,
        error_messages={"required": "Read nothing; accepted is a password of at least 12 characters."},
    )


class PersonEditForm(PersonForm):
    """A colleague who is there already."""

    is_active = forms.BooleanField(label="May sign in", required=False)
