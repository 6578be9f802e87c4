"""Products in hand: entered with their paper, tried, shown as entered, voided, never changed."""

from __future__ import annotations

import pytest
from django.db import IntegrityError, transaction
from django.urls import reverse

from projects.errors import Refused
from structure.errors import OutsideRules
from structure.models import EnteredProduct
from structure.results import candidates
from structure.selectors import (
    governing_schedule,
    latest_run,
    products_of,
    run_is_stale,
    schedule_is_stale,
)
from structure.services.designs import wall_design
from structure.services.products import product_enter, product_void
from structure.services.schedules import schedule_choose
from tests.factories import make_job
from tests.structure import sections
from tests.structure.test_section_pages import at, words_of

pytestmark = pytest.mark.django_db
REASON = "It was the sheet of another maker."


@pytest.fixture
def office(client, contractor):
    client.force_login(contractor)
    return client


@pytest.fixture
def product(job, contractor):
    return product_enter(job=job, actor=contractor, values=sections.product_values())


def test_it_is_tried_in_every_depth_and_ply_and_says_where_it_comes_from(office, job, contractor, product):
    sections.stored_section(job, contractor, opening="10 ft")
    run = wall_design(job=job, actor=contractor)
    rows = [row for row in candidates(run.results) if row["family"] == "psl"]
    assert {(row["depth"], row["plies"]) for row in rows} == {
        (depth, plies) for depth in (11.875, 14.0, 18.0) for plies in (1, 2)
    }
    assert run.products == [product.pk]
    assert run.inputs["products"][0]["source"] == product.source
    page = office.get(at("options", job))
    assert f"as entered from {product.source}" in words_of(page)
    card = next(card for card in page.context["options"].cards if card.key == "psl")
    assert card.passing
    row = dict(card.picks[0].row)
    schedule = schedule_choose(job=job, actor=contractor, run=run, beam=row)
    assert schedule.marks.get(mark="B1").data["label"] == row["label"]
    assert f"as entered from {product.source}" in words_of(office.get(at("members", job)))
    assert not schedule_is_stale(schedule)
    product_void(product=product, actor=contractor, reason=REASON)
    assert schedule_is_stale(governing_schedule(job))
    again = latest_run(job).results["beam"]
    assert again["chosen"]["section"] == row["label"]
    assert again["chosen"]["ratio"] == pytest.approx(row["ratio"], rel=1e-9)


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"source": "  "}, "Paper: read nothing"),
        ({"name": ""}, "What is stamped on it: read nothing"),
        ({"Fb": "2900"}, "accepted is a stress with a unit"),
        ({"depths": ""}, "lengths parted by semicolons"),
        ({"depths": "14"}, "accepted is a length with a unit"),
    ],
)
def test_what_can_not_be_read_is_refused_and_nothing_is_kept(job, contractor, changes, sentence):
    with pytest.raises(Refused, match=sentence):
        product_enter(job=job, actor=contractor, values=sections.product_values(**changes))
    assert not EnteredProduct.objects.exists()


def test_a_size_that_the_engine_does_not_cover_says_why(job, contractor):
    with pytest.raises(OutsideRules, match="outside"):
        product_enter(job=job, actor=contractor, values=sections.product_values(depths="30 in"))
    assert not EnteredProduct.objects.exists()


def test_it_is_never_changed_and_voided_once(job, contractor, product):
    product.Fb = "9000 psi"
    with pytest.raises(TypeError, match="never changed"):
        product.save()
    with pytest.raises(TypeError, match="never deleted"):
        product.delete()
    with pytest.raises(Refused, match="a sentence"):
        product_void(product=product, actor=contractor, reason="wrong")
    voided = product_void(product=product, actor=contractor, reason=REASON)
    assert (voided.voided_by, voided.void_reason, voided.Fb) == (contractor, REASON, "2900 psi")
    assert products_of(job) == []
    with pytest.raises(Refused, match="voided already"):
        product_void(product=product, actor=contractor, reason=REASON)
    assert list(job.events.values_list("verb", flat=True)).count("product.voided") == 1


def test_one_name_once_a_job_until_it_is_voided(job, contractor, product):
    with pytest.raises(Refused, match="no product of this job has"):
        product_enter(job=job, actor=contractor, values=sections.product_values(name="2.0e AS stamped"))
    with pytest.raises(IntegrityError), transaction.atomic():
        EnteredProduct.objects.create(job=job, entered_by=contractor, **sections.product_values())
    product_void(product=product, actor=contractor, reason=REASON)
    assert product_enter(job=job, actor=contractor, values=sections.product_values()).pk != product.pk


def test_entering_or_voiding_one_marks_the_run_as_out_of_date(job, contractor):
    sections.stored_section(job, contractor)
    run = wall_design(job=job, actor=contractor)
    assert not run_is_stale(run)
    product = product_enter(job=job, actor=contractor, values=sections.product_values())
    assert run_is_stale(run)
    newer = wall_design(job=job, actor=contractor)
    assert not run_is_stale(newer)
    product_void(product=product, actor=contractor, reason=REASON)
    assert run_is_stale(newer)
    assert governing_schedule(job) is None


def test_the_page_keeps_what_was_typed_and_lists_who_entered_what(office, job, contractor):
    bad = office.post(at("products", job), sections.product_values(Fv="290"))
    assert bad.status_code == 422
    assert bad.context["form"]["Fv"].value() == "290"
    answer = office.post(at("products", job), sections.product_values())
    assert answer.url == at("products", job)
    product = EnteredProduct.objects.get()
    words = words_of(office.get(at("products", job)))
    assert f"Entered by {contractor}" in words
    assert product.source in words
    address = reverse("structure:product_void", args=[job.pk, product.pk])
    assert office.post(address, {"reason": ""}).status_code == 422
    assert office.post(address, {"reason": REASON}).status_code == 302
    assert REASON in words_of(office.get(at("products", job)))


def test_the_crew_reads_and_another_job_does_not_reach_it(client, crew, job, contractor, product):
    client.force_login(crew)
    assert client.get(at("products", job)).status_code == 200
    assert client.post(at("products", job), sections.product_values(name="x")).status_code == 403
    assert client.get(reverse("structure:product_void", args=[job.pk, product.pk])).status_code == 403
    other = make_job(contractor.company)
    client.force_login(contractor)
    assert client.get(reverse("structure:product_void", args=[other.pk, product.pk])).status_code == 404
