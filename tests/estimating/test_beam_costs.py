"""What a beam costs in place, on the page of sizes: for who may see prices, and never nothing for a missing one."""

from __future__ import annotations

import pytest
from django.urls import reverse

from estimating.models import PriceItem
from structure.options_page import options_of
from structure.services.designs import wall_design
from tests.structure import sections
from tests.structure.test_section_pages import words_of

pytestmark = pytest.mark.django_db


@pytest.fixture
def run(job, contractor):
    families = ["sawn", "lvl", "steel_w"]
    sections.stored_section(job, contractor, shape="two_storey_truss", opening="7 ft", families=families)
    return wall_design(job=job, actor=contractor)


def cost_of(found, key):
    return next(row["cost"] for row in found.rows if row["key"] == key)


def test_the_cheapest_of_each_family_is_shown_with_its_cost(client, job, run, estimator, price_book):
    found = options_of(run, estimator)
    for card in found.cards:
        mine = [row for row in found.rows if row["group"] == card.key and row["passes"]]
        cheap = next(pick.row for pick in card.picks if "cheapest" in pick.reasons)
        assert cheap["cost"] == min(row["cost"] for row in mine) > 0
    client.force_login(estimator)
    words = words_of(client.get(reverse("structure:options", args=[job.pk])))
    assert f"{cheap['cost']:,.0f}" in words
    assert "Prices are invented." in words


def test_the_crew_sees_the_beams_and_no_cost(client, job, run, crew, estimator, price_book):
    assert options_of(run, crew).costs is None
    client.force_login(crew)
    words = words_of(client.get(reverse("structure:options", args=[job.pk])))
    assert "lightest" in words
    assert "Installed" not in words
    assert "cheapest" not in words
    costs = [row["cost"] for row in options_of(run, estimator).rows if row["cost"]]
    assert not any(f"{cost:,.0f}" in words for cost in costs if cost >= 1000)


def test_a_missing_price_is_said_and_never_counts_as_the_cheapest(client, job, run, estimator, price_book):
    assert PriceItem.objects.filter(book=price_book, code="steel-w").update(price=None, dated=None) == 1
    found = options_of(run, estimator)
    card = next(card for card in found.cards if card.key == "steel_w")
    assert card.picks
    assert all(pick.row["cost"] is None for pick in card.picks)
    assert all("no price for steel-w" in pick.row["cost_why"] for pick in card.picks)
    assert not any("cheapest" in pick.reasons for pick in card.picks)
    client.force_login(estimator)
    page = words_of(client.get(reverse("structure:options", args=[job.pk])))
    assert "no price" in page


def test_without_a_book_there_is_no_cost(job, run, estimator):
    assert options_of(run, estimator).costs is None
