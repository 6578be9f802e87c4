"""Lengths, loads and pressures as people type them: kept as typed, read by the engine's own reader."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.db import models

from structure.core.cases.types import Quantity
from structure.core.errors import InputError
from structure.core.units import DIMENSIONS, read_quantity
from structure.shown import metric
from structure.understood import understood

TYPED_LENGTH = 60
LARGEST_DRAWN = 1200.0  # inches; beyond this a drawing to scale shows nothing


def read_typed(
    text: str, dimension: str, name: str, *, positive: bool | None = True, code: str = "us"
) -> float:
    """A float in the unit system of `code`; raises InputError in one sentence that names the field."""
    kind = Quantity(dimension, positive=positive is True, non_negative=positive is False)
    return kind.read(text, name, code)


class QuantityInput(forms.TextInput):
    """A text box that a phone opens with letters, since feet and inches need them."""

    def __init__(self, attrs: dict[str, Any] | None = None) -> None:
        super().__init__(
            {"autocomplete": "off", "spellcheck": "false", "maxlength": TYPED_LENGTH, **(attrs or {})}
        )


class QuantityFormField(forms.CharField):
    """A quantity typed with its unit. `understood` says under the field what was read, in both systems."""

    widget = QuantityInput

    def __init__(self, *, dimension: str, positive: bool | None = True, **kwargs: Any) -> None:
        kwargs.setdefault("max_length", TYPED_LENGTH)
        self.dimension = dimension
        self.positive = positive
        self.understood = ""
        self.accepted = DIMENSIONS[dimension].example
        super().__init__(**kwargs)

    def to_python(self, value: Any) -> str:
        return super().to_python(value) or ""

    def validate(self, value: Any) -> None:
        super().validate(value)
        if value in self.empty_values:
            return
        name = str(self.label or "value")
        try:
            read_typed(value, self.dimension, name, positive=self.positive)
        except InputError as error:
            raise ValidationError(str(error), code="quantity") from None


class QuantityField(models.CharField):
    """A column that keeps what was typed, checked to be a quantity of one dimension.

    More than zero; with `positive=False` zero or more, with `positive=None` of either sign. Empty is
    allowed with `blank`.
    """

    def __init__(self, *args: Any, dimension: str, positive: bool | None = True, **kwargs: Any) -> None:
        if dimension not in DIMENSIONS:
            raise ValueError(f"no dimension {dimension!r}")
        self.dimension = dimension
        self.positive = positive
        kwargs.setdefault("max_length", TYPED_LENGTH)
        super().__init__(*args, **kwargs)

    def deconstruct(self) -> tuple[str, str, Any, Any]:
        name, path, args, kwargs = super().deconstruct()
        kwargs["dimension"] = self.dimension
        if self.positive is not True:
            kwargs["positive"] = self.positive
        return name, path, args, kwargs

    def validate(self, value: Any, model_instance: Any) -> None:
        super().validate(value, model_instance)
        if not value:
            return
        try:
            read_typed(value, self.dimension, str(self.verbose_name), positive=self.positive)
        except InputError as error:
            raise ValidationError(str(error), code="quantity") from None

    def formfield(self, **kwargs: Any) -> Any:
        kwargs.pop("widget", None)
        return super(models.CharField, self).formfield(
            form_class=QuantityFormField,
            dimension=self.dimension,
            positive=self.positive,
            **{"max_length": self.max_length, **kwargs},
        )


def echo(form: forms.BaseForm) -> None:
    """Set `understood` on every quantity field of a form from what it holds now, typed or stored.

    A field that must be filled and has no help shows an example in the units of the house.
    """
    for name, held in form.fields.items():
        if isinstance(held, QuantityFormField):
            held.understood = understood(str(form[name].value() or ""), held.dimension)
            if held.required and not held.help_text:
                held.widget.attrs.setdefault("placeholder", _example(held.dimension))


def inches_of(values: Mapping[str, Any], name: str, default: float = 0.0) -> float:
    """A typed length in inches; `default` where nothing that a drawing can show stands there."""
    try:
        value = read_quantity(values.get(name) or "", "length", name)
    except InputError:
        return default
    return value if 0 < value < LARGEST_DRAWN else default


def _example(dimension: str) -> str:
    """The example of a dimension that is in the units of the house, where there are two."""
    first, _, second = DIMENSIONS[dimension].example.rpartition("such as ")[2].partition(" or ")
    return second if second and metric() else first
