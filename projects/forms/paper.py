"""Forms about papers: requests, permits, inspections, chases, jurisdictions.

A form only reads what was typed; whether it may be done is the service's to say, and its sentence comes back to the
field it names.
"""

from __future__ import annotations

from datetime import date
from decimal import Decimal, InvalidOperation
from typing import Any

from django import forms
from django.http import QueryDict
from django.utils import timezone

from projects.days import DayKind, regions
from projects.errors import Conflict, Refused
from projects.forms.sentences import SentenceMixin
from projects.models import Chase, InspectionKind, Jurisdiction, SealedDesign
from projects.models.permits import DAY_KINDS


def _shown(value: Any) -> str:
    text = str(value)
    return repr(text if len(text) <= 60 else text[:57] + "...")


class DayField(forms.DateField):
    """A day; what can not be read as one is said back."""

    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("widget", forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"))
        super().__init__(input_formats=["%Y-%m-%d"], **kwargs)
        self.error_messages["required"] = "Read nothing; accepted is a date such as 2026-04-30."

    def to_python(self, value: Any) -> date | None:
        """The day, or a sentence with what was read."""
        try:
            return super().to_python(value)
        except forms.ValidationError as unread:
            raise forms.ValidationError(
                f"Read {_shown(value)}; accepted is a date such as 2026-04-30.", code="invalid"
            ) from unread


class AmountField(forms.CharField):
    """An amount of money with at most two decimals, without sign or currency."""

    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("widget", forms.TextInput(attrs={"inputmode": "decimal"}))
        super().__init__(**kwargs)

    def clean(self, value: Any) -> Decimal | None:
        """The amount, None for nothing typed, or a sentence with what was read."""
        text = super().clean(value).strip()
        if not text:
            return None
        try:
            amount = Decimal(text.replace(",", ""))
        except InvalidOperation:
            amount = Decimal(-1)
        if not amount.is_finite() or not 0 <= amount < 10_000_000 or amount != round(amount, 2):
            raise forms.ValidationError(
                f"Read {_shown(text)}; accepted is an amount such as 185.00, zero or more."
            )
        return amount


class CountField(forms.CharField):
    """A whole number of days within bounds; None for nothing typed where that is allowed."""

    def __init__(self, *, least: int = 0, most: int = 3650, **kwargs: Any) -> None:
        self.least, self.most = least, most
        kwargs.setdefault("widget", forms.TextInput(attrs={"inputmode": "numeric"}))
        super().__init__(**kwargs)
        self.error_messages["required"] = f"Read nothing; accepted is a whole number, {least} to {most}."

    def clean(self, value: Any) -> int | None:
        """The number, or a sentence with what was read."""
        text = super().clean(value).strip()
        if not text:
            return None
        if not (text.isascii() and text.isdigit() and len(text) < 7 and self.least <= int(text) <= self.most):
            raise forms.ValidationError(
                f"Read {_shown(text)}; accepted is a whole number, {self.least} to {self.most}."
            )
        return int(text)


class TextField(forms.CharField):
    """Words that must be there; the sentence says what for."""

    def __init__(self, *, accepted: str, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.error_messages["required"] = f"Read nothing; accepted is {accepted}."


def _lines(rows: int = 3) -> forms.Textarea:
    return forms.Textarea(attrs={"rows": rows})


def _today() -> date:
    return timezone.localdate()


class PaperForm(SentenceMixin, forms.Form):
    """What all of them share: taking back a refusal without losing what was typed."""

    def put_refusal(self, refusal: Refused) -> None:
        """Show the service's sentence at the field it names, else above the form."""
        sentence, field = refusal.sentence, refusal.field
        if field not in self.fields:
            self.add_error(None, sentence)
            return
        label = self.fields[field].label or ""
        if label and sentence.startswith(f"{label}: "):
            rest = sentence[len(label) + 2 :]
            sentence = rest[:1].upper() + rest[1:]
        self.add_error(field, sentence)


class VersionedForm(PaperForm):
    """A form over a row that somebody else may be changing too."""

    version = forms.IntegerField(widget=forms.HiddenInput)

    def put_conflict(self, conflict: Conflict, version_now: int) -> None:
        """Keep what was typed, say that the row moved, and let a second save go through knowingly."""
        typed = QueryDict(mutable=True)
        typed.update(self.data)
        typed[self.add_prefix("version")] = str(version_now)
        self.data = typed
        self.put_refusal(conflict)


# --- engineering ----------------------------------------------------------------------------------
class RequestForm(PaperForm):
    """A request in preparation."""

    engineer_name = TextField(label="Engineer", max_length=120, accepted="the engineer's name")
    engineer_contact = forms.CharField(label="Contact", max_length=200, required=False)
    asks = TextField(
        label="What is asked",
        widget=_lines(6),
        accepted="what the engineer is to design, seal or confirm",
    )
    due_on = DayField(label="Expected by", required=False)


class RequestEditForm(VersionedForm, RequestForm):
    """The same, over a row."""


class RequestSendForm(VersionedForm):
    """The package went out."""

    on = DayField(label="Sent on", initial=_today)
    due_on = DayField(label="Expected by", required=False)


class QuestionForm(VersionedForm):
    """A question of the engineer."""

    asked_on = DayField(label="Asked on", initial=_today)
    question = TextField(label="Question", widget=_lines(), accepted="what the engineer asks")


class AnswerForm(VersionedForm):
    """Our answer."""

    on = DayField(label="Answered on", initial=_today)
    answer = TextField(label="Answer", widget=_lines(), accepted="what the engineer was told")


class SealedDesignForm(PaperForm):
    """The sealed design or the written acceptance."""

    route = forms.ChoiceField(label="Route", choices=SealedDesign.Route.choices)
    signed_by = TextField(
        label="Signed by", max_length=120, accepted="the name on the seal or the acceptance"
    )
    licence = forms.CharField(
        label="Licence",
        max_length=60,
        required=False,
        help_text="As on the seal. Not for a written acceptance.",
    )
    reference = TextField(
        label="Reference", max_length=80, accepted="the number of the drawing or acceptance"
    )
    revision = forms.CharField(label="Revision", max_length=20, required=False)
    dated = DayField(label="Dated")
    received_on = DayField(label="Received on", initial=_today)
    field_review = forms.BooleanField(
        label="The engineer wants to review the framing on site", required=False
    )
    cure_days = CountField(
        label="Cure",
        least=1,
        most=90,
        required=False,
        help_text="Calendar days before the footing is loaded, if the engineer states them.",
    )
    document = forms.FileField(
        label="Document", required=False, help_text="A PDF, or a JPEG or PNG picture, of at most 20 MB."
    )
    note = forms.CharField(label="Note", widget=_lines(), required=False)


# --- permits --------------------------------------------------------------------------------------
class PermitStartForm(PaperForm):
    """A new application."""

    jurisdiction = forms.ModelChoiceField(label="Jurisdiction", queryset=Jurisdiction.objects.none())
    fee = AmountField(label="Fee", required=False)
    note = forms.CharField(label="Note", widget=_lines(), required=False)

    def __init__(self, *args: Any, jurisdictions: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["jurisdiction"].queryset = jurisdictions  # type: ignore[attr-defined]
        self.fields["jurisdiction"].error_messages["invalid_choice"] = (
            "Read one that is not on your list; accepted is one of your own under the same country as the property."
        )


class PermitEditForm(VersionedForm):
    """Fee, alarms and note."""

    fee = AmountField(label="Fee", required=False)
    alarms_required = forms.BooleanField(
        label="The permit asks for smoke or carbon monoxide alarms", required=False
    )
    note = forms.CharField(label="Note", widget=_lines(), required=False)


class OnDayForm(VersionedForm):
    """Just the day."""

    on = DayField(label="Day", initial=_today)


class PermitSubmitForm(OnDayForm):
    """Handed in."""

    on = DayField(label="Handed in on", initial=_today)


class CorrectionsForm(OnDayForm):
    """Corrections asked."""

    on = DayField(label="Asked on", initial=_today)
    corrections = TextField(label="Corrections", widget=_lines(5), accepted="what the permit office asks for")


class PermitIssueForm(OnDayForm):
    """Issued."""

    number = TextField(label="Permit number", max_length=60, accepted="the number on the permit")
    on = DayField(label="Issued on", initial=_today)
    expires_on = DayField(
        label="Expires on", required=False, help_text="Left empty, the jurisdiction's validity counts."
    )
    fee = AmountField(label="Fee", required=False, help_text="Left empty, the fee on record stays.")
    alarms_required = forms.BooleanField(
        label="The permit asks for smoke or carbon monoxide alarms", required=False
    )


class ProgressForm(OnDayForm):
    """Work that keeps a permit alive."""

    on = DayField(label="Progress on", initial=_today)
    what = TextField(label="What was done", widget=_lines(), accepted="a few words on the work")


class ExtendForm(OnDayForm):
    """The authority's extension."""

    on = DayField(label="Extended on", initial=_today)
    expires_on = DayField(label="Expires on")
    by = TextField(label="Extended by", max_length=120, accepted="who at the authority extended it, and how")


class CloseForm(OnDayForm):
    """Closed by the authority."""

    on = DayField(label="Closed on", initial=_today)


class ReasonForm(VersionedForm):
    """A written reason."""

    reason = TextField(label="Reason", widget=_lines(), accepted="why, in a few words")


class WithdrawForm(OnDayForm):
    """Given up."""

    on = DayField(label="Withdrawn on", initial=_today)
    reason = TextField(label="Reason", widget=_lines(), accepted="why it is withdrawn")


# --- inspections and chases -----------------------------------------------------------------------
class InspectionAddForm(PaperForm):
    """One more inspection."""

    kind = forms.ChoiceField(label="Kind", choices=InspectionKind.choices)
    title = TextField(label="Inspection", max_length=160, accepted="what is to be looked at")


class BookForm(VersionedForm):
    """A booking."""

    asked_on = DayField(label="Asked on", initial=_today)
    booked_for = DayField(label="Booked for")
    booked_with = TextField(label="Booked with", max_length=120, accepted="who took the booking")
    short_notice_agreed = forms.BooleanField(
        label="The office agreed to come at short notice", required=False
    )


class PassForm(OnDayForm):
    """Passed."""

    on = DayField(label="Held on", initial=_today)
    inspector = TextField(label="Inspector", max_length=120, accepted="the inspector's name")
    note = forms.CharField(label="Note", widget=_lines(), required=False)


class FailForm(PassForm):
    """Failed."""

    deficiencies = TextField(
        label="Deficiencies",
        widget=_lines(5),
        help_text="Each on a line of its own.",
        accepted="at least one, each on a line of its own",
    )

    def clean_deficiencies(self) -> list[str]:
        """One entry a line."""
        return [line.strip() for line in self.cleaned_data["deficiencies"].splitlines() if line.strip()]


class ClearForm(PaperForm):
    """Put right."""

    on = DayField(label="Put right on", initial=_today)
    how = TextField(label="How", widget=_lines(), accepted="what was done about it")


class ChaseForm(PaperForm):
    """A call, message or visit."""

    about = forms.ChoiceField(label="About", choices=Chase.About.choices)
    who = TextField(label="Who", max_length=120, accepted="the name of the person asked")
    how = forms.ChoiceField(label="How", choices=Chase.How.choices)
    on = DayField(label="Asked on", initial=_today)
    said = TextField(
        label="Said what", widget=_lines(), accepted="what they answered, or that nobody answered"
    )
    next_on = DayField(label="Next chase on", required=False)


# --- jurisdictions --------------------------------------------------------------------------------
def _count(rule: str, least: int) -> CountField:
    return CountField(label=f"{rule.capitalize()} days", least=least)


def _kind(rule: str, first: DayKind) -> forms.ChoiceField:
    return forms.ChoiceField(label=f"{rule.capitalize()} counted in", choices=DAY_KINDS, initial=first.value)


class JurisdictionForm(VersionedForm):
    """An authority's own rules."""

    version = forms.IntegerField(widget=forms.HiddenInput, required=False)
    name = TextField(label="Name", max_length=120, accepted="the authority's name")
    code = forms.ChoiceField(label="Country", choices=[("us", "United States"), ("ca", "Canada")])
    region = forms.CharField(label="Region", max_length=2, help_text="Two letters of the state or province.")
    review_days = _count("review", 0)
    review_kind = _kind("review", DayKind.WORKING)
    notice_days = _count("notice", 0)
    notice_kind = _kind("notice", DayKind.WORKING)
    validity_days = _count("validity", 1)
    validity_kind = _kind("validity", DayKind.CALENDAR)
    lapse_days = _count("lapse", 1)
    lapse_kind = _kind("lapse", DayKind.CALENDAR)
    lapse_source = TextField(
        label="Lapse by",
        max_length=120,
        initial="IRC R105.5",
        accepted="the rule that sets the lapse, or common practice",
    )
    documents = forms.CharField(
        label="Required documents", widget=_lines(6), required=False, help_text="Each on a line of its own."
    )
    inspections = forms.CharField(
        label="Inspections",
        widget=_lines(6),
        required=False,
        help_text="In order, each on a line of its own, as kind: title. Kinds: "
        + ", ".join(InspectionKind.values)
        + ".",
    )
    source = forms.CharField(
        label="Source", max_length=200, required=False, help_text="Where read, and when."
    )
    note = forms.CharField(label="Note", widget=_lines(), required=False)

    def clean(self) -> dict[str, Any]:
        """The region belongs to the country."""
        values = super().clean() or self.cleaned_data
        code, region = values.get("code"), values.get("region", "").strip().upper()
        if code in ("us", "ca") and region and region not in regions(code):
            self.add_error(
                "region", f"Read {_shown(values['region'])}; accepted is one of {', '.join(regions(code))}."
            )
        return values

    def clean_documents(self) -> list[str]:
        """One paper a line."""
        return [line.strip() for line in self.cleaned_data["documents"].splitlines() if line.strip()]

    def clean_inspections(self) -> list[tuple[str, str]]:
        """One `kind: title` a line."""
        visits = []
        for line in self.cleaned_data["inspections"].splitlines():
            if not line.strip():
                continue
            kind, colon, title = (part.strip() for part in line.partition(":"))
            if kind not in InspectionKind.values or not colon or not title:
                raise forms.ValidationError(
                    f"Read {_shown(line.strip())}; accepted is kind: title, the kind one of "
                    f"{', '.join(InspectionKind.values)}."
                )
            visits.append((kind, title))
        return visits
