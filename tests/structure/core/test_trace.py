"""Lines of a sheet: one formula in pounds and inches, in newtons and millimetres, by either code's clause."""

from __future__ import annotations

import pytest

from structure.core.clauses import DEFAULT_EDITIONS, Clause
from structure.core.codes.house import HOUSE
from structure.core.codes.us.loads import half_span
from structure.core.trace import FORMULAS, metric
from structure.core.units import place_in_words, ureg

US, CA = DEFAULT_EDITIONS["us"], DEFAULT_EDITIONS["ca"]


@pytest.mark.parametrize(
    ("pounds", "newtons"),
    [
        ("lbf", "N"),
        ("psi", "MPa"),
        ("lbf/in", "N/mm"),
        ("lbf/inch**2", "N/mm**2"),
        ("1/inch", "1/mm"),
        ("degree", "degree"),
        ("", ""),
        ("MPa/mm", "MPa/mm"),
    ],
)
def test_a_unit_stands_for_its_metric_one(pounds: str, newtons: str) -> None:
    assert metric(pounds) == newtons


@pytest.mark.parametrize("name", sorted(FORMULAS))
def test_the_metric_units_of_every_formula_have_the_same_dimension(name: str) -> None:
    each = FORMULAS[name]
    for unit in (each.unit, *each.units.values()):
        if unit:
            assert ureg.Unit(metric(unit)).dimensionality == ureg.Unit(unit).dimensionality


def test_a_line_is_printed_in_the_units_of_its_code() -> None:
    american = half_span.step(US, q=0.3, L=144.0)
    canadian = half_span.step(CA, q=0.0019, L=3600.0)
    assert [value.unit for value in american.values] == ["psi", "in"]
    assert [value.unit for value in canadian.values] == ["MPa", "mm"]
    assert (american.unit, canadian.unit) == ("lbf/in", "N/mm")
    assert canadian.result == pytest.approx(3.42)


def test_a_formula_under_another_clause_is_the_same_formula() -> None:
    other = half_span.under(Clause("NBC", "9.4.1.1."))
    assert str(other.step(CA, q=1.0, L=2.0).clause) == "NBC 2020 9.4.1.1."
    assert other(q=1.0, L=2.0) == half_span(q=1.0, L=2.0)
    assert half_span.clause.document == "statics"


def test_a_place_is_told_as_a_tape_shows_it() -> None:
    assert place_in_words(92.5) == "92.5 in"
    assert place_in_words(2349.5, "ca") == "2349.5 mm"
    assert place_in_words(114.0, "ca") == "114 mm"


def test_house_rules_of_both_codes_name_their_own_documents() -> None:
    assert set(HOUSE) == {"us", "ca"}
    for code, rules in HOUSE.items():
        for clause in (rules.stories, rules.long_span, rules.load_path, rules.rafter_tie):
            assert clause.document == {"us": "IRC", "ca": "NBC"}[code]
    assert HOUSE["ca"].joist_spacing == 400.0
    assert [each.name for each in HOUSE["ca"].working(["dead", "live", "snow"])][-1] == "D+S+0.5L"
