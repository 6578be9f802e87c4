"""Refusals of form fields say what was read and what is accepted, whoever wrote the field."""

from __future__ import annotations

import pytest
from django import forms
from django.template import Context, Template

from projects.forms.sentences import SentenceMixin
from projects.templatetags.projects_pages import after_label


class Sample(SentenceMixin, forms.Form):
    species = forms.ChoiceField(choices=[("", "not known"), ("SPF", "SPF"), ("HF", "Hem-fir")])
    tried = forms.MultipleChoiceField(choices=[("sawn", "Sawn"), ("lvl", "LVL")])
    plies = forms.IntegerField(min_value=1, max_value=6)
    slope = forms.DecimalField(max_value=24, max_digits=4, decimal_places=2)
    label = forms.CharField(max_length=10)
    own = forms.CharField(error_messages={"required": "Read nothing; accepted is a name."})


GOOD = {"species": "SPF", "tried": ["lvl"], "plies": "2", "slope": "4", "label": "a", "own": "b"}


def test_good_answers_pass():
    assert Sample(GOOD).is_valid()


@pytest.mark.parametrize(
    ("name", "typed", "sentence"),
    [
        ("species", "Oak", "Read 'Oak'; accepted is one of: SPF, Hem-fir."),
        ("species", "", "Read nothing; accepted is one of: SPF, Hem-fir."),
        ("tried", [], "Read nothing; accepted is one or more of: Sawn, LVL."),
        ("tried", ["lvl", "steel"], "Read 'lvl, steel'; accepted is one or more of: Sawn, LVL."),
        ("plies", "9", "Read '9'; accepted is a whole number, 1 to 6."),
        ("plies", "two", "Read 'two'; accepted is a whole number, 1 to 6."),
        ("slope", "99", "Read '99'; accepted is a number, at most 24, with at most 2 decimals."),
        ("label", "", "Read nothing; accepted is a text of at most 10 characters."),
        ("label", "x" * 11, f"Read '{'x' * 11}'; accepted is a text of at most 10 characters."),
        ("own", "", "Read nothing; accepted is a name."),
    ],
)
def test_a_refusal_says_what_was_read_and_what_is_accepted(name, typed, sentence):
    form = Sample(GOOD | {name: typed})
    assert form.errors == {name: [sentence]}


def test_the_name_of_a_field_is_not_said_twice():
    assert (
        after_label("clear opening: read '12'; accepted is x.", "Clear opening")
        == "Read '12'; accepted is x."
    )
    assert after_label("Read nothing.", "Name") == "Read nothing."
    form = Sample(GOOD | {"plies": "9"})
    form.add_error("plies", "Plies: read '9'; accepted is less.")
    page = Template('{% include "partials/form_errors.html" %}').render(Context({"form": form}))
    assert "Plies</a>: Read &#x27;9&#x27;; accepted is less." in page
    assert "Plies: read" not in page
