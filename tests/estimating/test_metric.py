"""A takeoff told in metric: the same amounts, other words; a price book, a currency and taxes of its own country."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest
import yaml
from django.urls import reverse
from hypothesis import given
from hypothesis import strategies as st
from openpyxl import load_workbook

from estimating.core.metric import metric_rate, metric_words
from estimating.core.rates import read_rates
from estimating.core.sections import Section
from estimating.selectors import price_book_of
from estimating.services.estimates import estimate_build
from estimating.services.prices import price_book_load
from estimating.services.workbooks import workbook_path, workbook_write
from projects.errors import Refused
from structure.core.errors import InputError
from structure.results import candidates
from structure.services.designs import wall_design
from structure.services.schedules import schedule_choose
from tests.structure import canadian
from tests.structure.test_canadian_pages import IMPERIAL, METRIC, texts

BOOK = Path(__file__).parents[2] / "fixtures" / "price_book_ca.yaml"


@pytest.mark.parametrize(
    ("feet", "metres"),
    [
        ("each side, 8 ft deep, and 10 % for laps", "each side, 2.44 m deep, and 10 % for laps"),
        ("a path of 20 ft by 3 ft", "a path of 6.1 m by 0.91 m"),
        ("rows at 17.7165 in in each joint", "rows at 450 mm in each joint"),
        ("row(s) of 1/2 in bolts", "row(s) of 12.7 mm (1/2 in) bolts"),
        ("by 32 ft2, whole sheets", "by 2.97 m2, whole sheets"),
        ("stock lengths 8 to 20 ft in 2 ft steps", "stock lengths 2.44 to 6.1 m in 0.61 m steps"),
        ("up to 10 yd3 of loose debris", "up to 7.6 m3 of loose debris"),
        ("steel at 490 lb/ft3", "steel at 7,849 kg/m3"),
        ("14 lb for 100 ft2", "6.4 kg for 9.29 m2"),
        ("60 in all", "60 in all"),
        ("89 mm nails, 3 plies in 2 rows", "89 mm nails, 3 plies in 2 rows"),
    ],
)
def test_a_sentence_is_told_in_metric(feet, metres):
    assert metric_words(feet) == metres


@given(
    st.floats(0.1, 1e4),
    st.floats(1e-3, 10),
    st.sampled_from(["ft of ply", "ft2 of wall", "hundreds of lb of steel", "posts"]),
)
def test_hours_are_the_same_in_either_system(amount, per_unit, basis):
    told, rate, _ = metric_rate(amount, per_unit, basis)
    assert told * rate == pytest.approx(amount * per_unit)


def test_lumber_made_in_millimetres_is_bought_by_its_metric_name():
    metric = Section("sawn", 2, 38 / 25.4, 235 / 25.4, "SPF", "No.1/No.2")
    assert metric.product == "38x235 (2x10) SPF No.1/No.2"
    assert metric.code == "lumber-38x235-spf-no1no2"
    assert Section("glulam", 1, 80 / 25.4, 304 / 25.4, grade="24f-E D Fir-L").code.startswith(
        "glulam-80x304-"
    )
    inches = Section("sawn", 2, 1.5, 9.25, "SPF", "No.2")
    assert (inches.product, inches.code) == ("2x10 SPF No.2", "lumber-2x10-spf-no2")


def test_a_tax_is_raised_only_where_it_is():
    rates = read_rates(yaml.safe_load(BOOK.read_text(encoding="utf-8"))["rates"])
    assert [str(tax.percent) for tax in rates.there("ab").taxes] == ["5"]
    assert [str(tax.percent) for tax in rates.there("ON").taxes] == ["13"]
    assert [str(tax.percent) for tax in rates.there("SK").taxes] == ["5", "6"]
    assert read_rates(rates.as_data()) == rates
    everywhere = {
        "contingency": "1",
        "overhead": "1",
        "profit": "1",
        "taxes": [{"name": "x", "percent": "1"}],
    }
    assert len(read_rates(everywhere).there("OH").taxes) == 1
    with pytest.raises(InputError, match="two letters"):
        read_rates({**everywhere, "taxes": [{"name": "x", "percent": "1", "regions": ["Ontario"]}]})


@pytest.fixture
def bungalow(company, contractor):
    """A Canadian job with its schedule chosen."""
    job = canadian.bungalow(company)
    canadian.stored_section(job, contractor)
    run = wall_design(job=job, actor=contractor)
    beam = next(row for row in candidates(run.results) if row["chosen"])
    schedule_choose(job=job, actor=contractor, run=run, beam=beam)
    return job


@pytest.fixture
def priced(bungalow, company, contractor, price_book):
    """Its estimate, with a book of either country at hand."""
    price_book_load(company=company, data=yaml.safe_load(BOOK.read_text(encoding="utf-8")))
    return estimate_build(job=bungalow, actor=contractor)


@pytest.mark.django_db
def test_prices_of_another_country_price_nothing_here(bungalow, contractor, price_book):
    with pytest.raises(Refused, match="no price book"):
        estimate_build(job=bungalow, actor=contractor)


@pytest.mark.django_db
def test_the_canadian_job_is_priced_whole_in_its_currency_and_metric(priced, company):
    document = priced.document
    assert document["missing"] == []
    assert document["rates"]["currency"] == "CAD"
    assert document["units"] == "metric"
    assert not {line["unit"] for line in document["lines"]} & {"ft", "ft2", "yd3", "lb", "gal"}
    assert not {line["price_unit"] for line in document["lines"]} & {"ft", "ft2", "yd3", "lb", "gal"}
    assert any(line["description"].startswith("38x") for line in document["lines"])
    assert "concrete-bag-30kg" in {line["code"] for line in document["lines"]}
    held = price_book_of(company, "ca")
    assert held is not None
    assert held.rates["currency"] == "CAD"


@pytest.mark.django_db
@pytest.mark.parametrize("name", ["quote", "takeoff", "cut_list", "options", "settings"])
def test_no_imperial_figure_stands_alone_on_an_estimating_page(client, contractor, priced, name):
    client.force_login(contractor)
    page = client.get(reverse(f"estimating:{name}", args=[priced.job_id]))
    assert page.status_code == 200
    alone = [piece for piece in texts(page) if IMPERIAL.search(piece) and not METRIC.search(piece)]
    assert alone == []


@pytest.mark.django_db
def test_the_workbook_of_a_metric_house_says_the_total_of_the_page(client, contractor, priced):
    client.force_login(contractor)
    page = client.get(reverse("estimating:quote", args=[priced.job_id])).content.decode()
    assert f"{priced.total:,.2f}" in page
    book = load_workbook(workbook_write(estimate=priced), data_only=True)
    cells = [cell.value for sheet in book for row in sheet.iter_rows() for cell in row]
    assert float(priced.total) in [value for value in cells if isinstance(value, int | float)]
    alone = [
        text for text in cells if isinstance(text, str) and IMPERIAL.search(text) and not METRIC.search(text)
    ]
    assert alone == []
    assert workbook_path(priced).is_file()
    assert isinstance(priced.total, Decimal)


@pytest.mark.django_db
def test_the_price_list_shows_one_country_at_a_time(client, contractor, priced):
    client.force_login(contractor)
    ours = client.get(reverse("estimating:prices"), {"country": "ca"})
    theirs = client.get(reverse("estimating:prices"))
    assert ours.context["book"].rates["currency"] == "CAD"
    assert theirs.context["book"].rates["currency"] == "USD"
    assert "only in AB" in ours.content.decode()
