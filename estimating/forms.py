"""Forms for prices, rates and takeoff settings. Each bad value gets one sentence that says what is accepted."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from estimating.core.metric import in_metric, metric_words
from estimating.core.rates import read_percent, read_price
from estimating.core.settings import (
    DEFAULT_SETTINGS,
    Spec,
    TakeoffSettings,
    read_settings,
    setting_names,
    spec_of,
)
from estimating.core.units import UNITS, unit_read
from projects.forms.sentences import SentenceMixin
from structure.core.errors import InputError

TAX_ROWS = 4
#: The property decides it, so it is not asked.
NOT_ASKED = ("units",)


def _said(error: InputError, label: str) -> ValidationError:
    return ValidationError(str(InputError(label, error.read, error.accepted)))


class PriceForm(SentenceMixin, forms.Form):
    """One price. The code of a price that exists is shown, not asked."""

    code = forms.CharField(
        max_length=80, help_text="As the takeoff names it, for example lumber-2x10-spf-no2."
    )
    description = forms.CharField(max_length=160, required=False)
    unit = forms.ChoiceField(choices=[(u, u) for u in UNITS])
    price = forms.CharField(
        max_length=20, required=False, label="Unit price",
        help_text="Leave it empty while it is not known: it is then shown as missing, never as zero.",
    )  # fmt: skip
    supplier = forms.CharField(max_length=120, required=False)
    dated = forms.DateField(
        required=False, label="Said on", widget=forms.DateInput(attrs={"type": "date"}),
        error_messages={"invalid": "Said on: accepted is a day, such as 2026-11-02."},
    )  # fmt: skip
    version = forms.IntegerField(widget=forms.HiddenInput, required=False)

    def __init__(self, *args: Any, known: bool = False, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if known:
            self.fields["code"].disabled = True

    def clean_price(self) -> str:
        """What was typed, once it reads as a price."""
        typed = self.cleaned_data["price"].strip()
        if typed:
            try:
                read_price(typed, "Unit price")
            except InputError as error:
                raise ValidationError(str(error)) from None
        return typed

    def clean_unit(self) -> str:
        """A unit that lines are counted in."""
        try:
            return unit_read(self.cleaned_data["unit"], "Unit")
        except InputError as error:
            raise ValidationError(str(error)) from None


class RatesForm(SentenceMixin, forms.Form):
    """Percentages, taxes and days."""

    contingency = forms.CharField(max_length=12, label="Contingency, %")
    overhead = forms.CharField(max_length=12, label="Overhead, %")
    profit = forms.CharField(max_length=12, label="Profit, %")
    valid_days = forms.IntegerField(min_value=1, max_value=730, label="A quote is held for, days")
    stale_after_days = forms.IntegerField(min_value=1, max_value=730, label="A price is stale after, days")
    currency = forms.ChoiceField(choices=[("USD", "USD"), ("CAD", "CAD")])
    version = forms.IntegerField(widget=forms.HiddenInput)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for n in range(1, TAX_ROWS + 1):
            self.fields[f"tax_{n}_name"] = forms.CharField(
                max_length=60, required=False, label=f"Tax {n}, name"
            )
            self.fields[f"tax_{n}_percent"] = forms.CharField(
                max_length=12, required=False, label=f"Tax {n}, %"
            )
            self.fields[f"tax_{n}_base"] = forms.ChoiceField(
                choices=[("price", "on the whole price"), ("materials", "on what materials cost")],
                required=False,
                label=f"Tax {n} is taken",
            )
            self.fields[f"tax_{n}_regions"] = forms.CharField(
                max_length=60,
                required=False,
                label=f"Tax {n}, only in",
                help_text="States or provinces by two letters, such as AB, SK. Empty: everywhere.",
            )

    @staticmethod
    def initial_of(rates: Mapping[str, Any], version: int) -> dict[str, Any]:
        """The fields for the rates of a book."""
        held = {name: rates.get(name) for name in ("contingency", "overhead", "profit", "currency")}
        held |= {
            "valid_days": rates.get("valid_days", 30),
            "stale_after_days": rates.get("stale_after_days", 60),
        }
        for n, tax in enumerate(rates.get("taxes") or (), 1):
            held |= {f"tax_{n}_{part}": tax[part] for part in ("name", "percent", "base")}
            held[f"tax_{n}_regions"] = ", ".join(tax.get("regions") or ())
        return {**held, "version": version}

    def clean(self) -> dict[str, Any]:
        """Percentages one by one, so that each bad one is named."""
        data = super().clean() or {}
        for name in ("contingency", "overhead", "profit"):
            self._percent(name)
        for n in range(1, TAX_ROWS + 1):
            named, typed = data.get(f"tax_{n}_name"), data.get(f"tax_{n}_percent")
            if named or typed:
                self._percent(f"tax_{n}_percent")
                if not named:
                    self.add_error(
                        f"tax_{n}_name", f"Tax {n}, name: read nothing; accepted is the name of the tax."
                    )
        return data

    def _percent(self, name: str) -> None:
        if name in self.cleaned_data:
            try:
                read_percent(self.cleaned_data[name], str(self.fields[name].label))
            except InputError as error:
                self.add_error(name, str(error))

    def rates(self) -> dict[str, Any]:
        """What the service reads."""
        data = self.cleaned_data
        taxes = [
            {
                "name": data[f"tax_{n}_name"],
                "percent": _bare(data[f"tax_{n}_percent"]),
                "base": data[f"tax_{n}_base"] or "price",
                "regions": data[f"tax_{n}_regions"].replace(",", " ").split(),
            }
            for n in range(1, TAX_ROWS + 1)
            if data.get(f"tax_{n}_name")
        ]
        names = ("contingency", "overhead", "profit", "valid_days", "stale_after_days", "currency")
        return {**{name: data[name] for name in names}, "taxes": taxes}


def _bare(percent: str) -> str:
    return percent.strip().removesuffix("%").strip()


class SettingsForm(SentenceMixin, forms.Form):
    """Every takeoff setting, asked as its spec says, with the source of its default."""

    def __init__(self, *args: Any, metric: bool = False, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for name in setting_names():
            if name not in NOT_ASKED:
                self.fields[name] = _field(spec_of(name), getattr(DEFAULT_SETTINGS, name), metric)

    def clean(self) -> dict[str, Any]:
        """Each value held against its limits, so that each bad one is named by its own label."""
        data = super().clean() or {}
        for name in list(data):
            value = data[name]
            if isinstance(getattr(DEFAULT_SETTINGS, name), float) and value is not None:
                value = data[name] = float(value)
            try:
                read_settings({name: value})
            except InputError as error:
                self.add_error(name, _said(error, spec_of(name).label))
        return data

    def settings(self) -> TakeoffSettings:
        """The settings as typed."""
        return TakeoffSettings(**self.cleaned_data)


def _field(spec: Spec, default: Any, metric: bool) -> forms.Field:
    label = f"{spec.label}, {spec.unit}" if spec.unit else spec.label
    shown = "yes" if default is True else "no" if default is False else default
    source = metric_words(spec.source) if metric else spec.source
    beside = in_metric(shown, spec.unit) if metric else ""
    told = f"{shown} {spec.unit} ({beside})" if beside else shown
    more: dict[str, Any] = {"label": label, "help_text": f"Default {told}: {source}."}
    if spec.choices:
        return forms.ChoiceField(choices=[(c, c) for c in spec.choices], **more)
    if isinstance(default, bool):
        return forms.BooleanField(required=False, **more)
    wanted = (
        f"{spec.label}: accepted is {{}} number from {spec.low:g} to {spec.high:g} {spec.unit}".rstrip() + "."
    )
    kind = forms.IntegerField if isinstance(default, int) else forms.DecimalField
    word = "a whole" if isinstance(default, int) else "a"
    said = wanted.format(word)
    return kind(error_messages={"invalid": said, "required": said}, **more)
