"""Every refusal of a field in one sentence: what was read, and what is accepted."""

from __future__ import annotations

from typing import Any

from django import forms
from django.core.exceptions import ValidationError

SAID = "; accepted is "
LONGEST_SHOWN = 60
MOST_CHOICES = 12
PLAIN_CODES = frozenset(
    {
        "required",
        "invalid",
        "invalid_choice",
        "invalid_list",
        "min_value",
        "max_value",
        "max_length",
        "min_length",
        "max_digits",
        "max_decimal_places",
        "max_whole_digits",
    }
)


class SentenceMixin:
    """Puts the framework's own refusals of a field into the words of the rest of the site.

    A sentence that says already what is accepted stays as it is.
    """

    def add_error(self, field: str | None, error: Any) -> None:
        """Add a refusal; a plain one is said again with what was read and what is accepted."""
        if field and isinstance(error, ValidationError) and not hasattr(error, "error_dict"):
            error = ValidationError([self._said(field, one) for one in error.error_list])
        super().add_error(field, error)  # type: ignore[misc]

    def _said(self, name: str, error: ValidationError) -> ValidationError:
        if error.code not in PLAIN_CODES or "accepted is " in str(error.message):
            return error
        bound = self[name]  # type: ignore[index]
        accepted = accepted_by(bound.field)
        if not accepted:
            return error
        return ValidationError(f"Read {_shown(bound.data)}{SAID}{accepted}.", code=error.code)


def accepted_by(field: forms.Field) -> str:
    """What a field takes, in words; empty where only its own sentence can say."""
    if isinstance(field, forms.ChoiceField):
        return _choices(field)
    if isinstance(field, (forms.IntegerField, forms.DecimalField)):
        return _number(field)
    dimension = getattr(field, "accepted", "")
    if dimension:
        return str(dimension)
    if isinstance(field, forms.CharField):
        most = f" of at most {field.max_length} characters" if field.max_length else ""
        return f"a text{most}"
    return ""


def _choices(field: forms.ChoiceField) -> str:
    titles = [str(title) for value, title in _flat(field.choices) if value not in ("", None)]
    several = isinstance(field, forms.MultipleChoiceField)
    if len(titles) > MOST_CHOICES:
        return "an entry of the list"
    return f"{'one or more' if several else 'one'} of: {', '.join(titles)}"


def _flat(choices: Any) -> list[tuple[Any, Any]]:
    found: list[tuple[Any, Any]] = []
    for value, title in choices:
        found.extend(title if isinstance(title, (list, tuple)) else [(value, title)])
    return found


def _number(field: forms.IntegerField | forms.DecimalField) -> str:
    kind = "a number" if isinstance(field, forms.DecimalField) else "a whole number"
    least, most = field.min_value, field.max_value
    if least is not None and most is not None:
        kind += f", {least} to {most}"
    elif least is not None:
        kind += f", at least {least}"
    elif most is not None:
        kind += f", at most {most}"
    places = getattr(field, "decimal_places", None)
    return kind + (f", with at most {places} decimals" if places else "")


def _shown(read: Any) -> str:
    if read in (None, "", []):
        return "nothing"
    text = ", ".join(map(str, read)) if isinstance(read, (list, tuple)) else str(read)
    return repr(text if len(text) <= LONGEST_SHOWN else text[: LONGEST_SHOWN - 3] + "...")
