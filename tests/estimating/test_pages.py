"""Pages: who sees what, bad input kept with its sentence, the download, and the number of queries."""

from __future__ import annotations

import io
import re
from decimal import Decimal
from html import unescape

import pytest
from django.urls import reverse
from django.utils import timezone
from openpyxl import load_workbook

from estimating.models import Estimate
from estimating.services.estimates import estimate_build, estimate_issue
from estimating.services.workbooks import workbook_path
from projects.models import BackgroundJob
from structure.models import HouseSection
from tests.estimating.conftest import make_schedule
from tests.factories import make_company, make_job, make_user

pytestmark = pytest.mark.django_db
JOB_PAGES = ["quote", "takeoff", "options"]


def url(name: str, estimate: Estimate, *more: int) -> str:
    return reverse(f"estimating:{name}", args=[estimate.job_id, *more])


def words(response) -> str:
    """The text of a page without its marks."""
    return re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]+>", " ", response.content.decode())))


def test_the_quote_shows_every_total_of_the_document(client, estimator, estimate):
    client.force_login(estimator)
    page = words(client.get(url("quote", estimate)))
    for division in estimate.document["divisions"]:
        assert f"{division['division']} {division['title']} {Decimal(division['amount']):,.2f}" in page
    for name in ("direct", "price", "total"):
        assert f"{Decimal(estimate.document[name]):,.2f}" in page
    for sentence in (
        *estimate.document["exclusions"],
        *estimate.document["assumptions"],
        estimate.document["rounding"],
    ):
        assert sentence in page
    assert "PRELIMINARY" in page


def test_every_line_unfolds_to_its_member_and_rule(client, estimator, estimate):
    client.force_login(estimator)
    page = words(client.get(url("takeoff", estimate)))
    for line in estimate.document["lines"]:
        assert line["rule"] in page
        assert line["source"] in page
        assert ", ".join(line["marks"]) in page
    assert page.count("allowance") >= sum(line["allowance"] for line in estimate.document["lines"])


@pytest.mark.parametrize("name", [*JOB_PAGES, "settings"])
def test_crew_and_strangers_never_see_money(client, crew, stranger, estimate, name):
    client.force_login(crew)
    assert client.get(url(name, estimate)).status_code == 403
    client.force_login(stranger)
    assert client.get(url(name, estimate)).status_code == 404


def test_crew_reads_the_cut_list_without_a_price(client, crew, estimate):
    client.force_login(crew)
    response = client.get(url("cut_list", estimate))
    page = words(response)
    assert response.status_code == 200
    assert "1 3/4 x 18 LVL 2.0E-2900F" in page
    assert "20'-7\"" in page
    amounts = {f"{Decimal(line['amount']):,.2f}" for line in estimate.document["lines"]}
    assert not amounts & set(page.split())
    assert "Estimate" not in page.split("Cut list")[0]


def test_a_section_changed_since_is_said_on_the_cut_list_and_on_an_issued_quote(
    client, crew, estimator, estimate
):
    estimate_issue(estimate=estimate, actor=estimator, version=estimate.version)
    client.force_login(crew)
    assert "Out of date" not in words(client.get(url("cut_list", estimate)))
    HouseSection.objects.filter(job=estimate.job).update(version=2)
    assert "Out of date: cut nothing from this list." in words(client.get(url("cut_list", estimate)))
    client.force_login(estimator)
    page = words(client.get(url("quote", estimate)))
    assert (
        "The house section was changed after the schedule was chosen. This revision stays as it was" in page
    )


def test_another_job_of_the_company_does_not_open_this_estimate(client, estimator, estimate, company):
    other = make_job(company)
    client.force_login(estimator)
    assert client.get(reverse("estimating:revision", args=[other.pk, estimate.pk])).status_code == 404
    assert client.get(reverse("estimating:workbook", args=[other.pk, estimate.pk])).status_code == 404


def test_before_anything_is_priced_the_page_says_what_is_missing(client, estimator, job, contractor):
    client.force_login(estimator)
    address = reverse("estimating:quote", args=[job.pk])
    assert "There is no schedule to take off" in words(client.get(address))
    make_schedule(job, contractor)
    assert "There is no price book" in words(client.get(address))


def test_build_and_issue_from_the_page(client, estimator, job, schedule, price_book):
    client.force_login(estimator)
    assert client.get(reverse("estimating:build", args=[job.pk])).status_code == 405
    client.post(reverse("estimating:build", args=[job.pk]))
    estimate = Estimate.objects.get(job=job)
    client.post(url("issue", estimate, estimate.pk), {"version": estimate.version})
    estimate.refresh_from_db()
    assert estimate.issued
    client.post(reverse("estimating:build", args=[job.pk]))
    page = words(client.get(reverse("estimating:quote", args=[job.pk])))
    assert "Changed since revision 1" in page
    assert "No line changed." in page


def test_an_old_page_cannot_issue(client, estimator, estimate):
    client.force_login(estimator)
    response = client.post(url("issue", estimate, estimate.pk), {"version": "99"}, follow=True)
    assert "Somebody else changed this" in words(response)
    estimate.refresh_from_db()
    assert not estimate.issued


def test_missing_and_stale_prices_are_said(client, estimator, job, schedule, price_book):
    price_book.items.filter(code="alarm").update(price=None, dated=None)
    estimate = estimate_build(job=job, actor=estimator)
    client.force_login(estimator)
    page = words(client.get(url("quote", estimate)))
    assert "Not priced: 1 price missing" in page
    assert page.count("not priced") >= 4
    stale = estimate.document["stale"]
    assert bool(stale) == ("Ask the supplier again" in page)
    assert "Issue revision" not in page


@pytest.mark.parametrize(
    ("name", "typed", "sentence"),
    [
        ("board_waste_percent", "400", "Board waste: read 400.0; accepted is a number from 0 to 40 %"),
        ("inspections", "two", "Inspections to attend: accepted is a whole number from 0 to 12"),
        ("productivity", "", "accepted is a number from 0.2 to 5"),
        ("lining", "straw", "Read 'straw'; accepted is one of: "),
    ],
)
def test_a_bad_setting_keeps_what_was_typed_and_stores_nothing(
    client, estimator, estimate, name, typed, sentence
):
    client.force_login(estimator)
    good = client.get(url("settings", estimate)).context["form"].initial
    data = {key: value for key, value in good.items() if key != "units" and value is not False}
    response = client.post(url("settings", estimate), {**data, name: typed})
    assert response.status_code == 422
    assert sentence in words(response)
    assert response.context["form"][name].value() == typed
    assert Estimate.objects.get(pk=estimate.pk).version == estimate.version


def test_settings_build_the_draft_again(client, estimator, estimate):
    client.force_login(estimator)
    good = client.get(url("settings", estimate)).context["form"].initial
    data = {key: value for key, value in good.items() if key != "units" and value is not False}
    del data["paint"]
    response = client.post(url("settings", estimate), {**data, "productivity": "1.5"})
    assert response.status_code == 302
    built = Estimate.objects.get(pk=estimate.pk).takeoff_settings
    assert (built["paint"], built["productivity"]) == (False, 1.5)


def test_download(client, estimator, crew, estimate, django_capture_on_commit_callbacks):
    file, ask = url("workbook", estimate, estimate.pk), url("workbook_request", estimate, estimate.pk)
    client.force_login(estimator)
    assert client.get(file).status_code == 404
    with django_capture_on_commit_callbacks(execute=True):
        client.post(ask)
    assert BackgroundJob.objects.get().state == "done"
    assert "Download the workbook" in words(client.get(url("quote", estimate)))
    workbook_path(estimate).unlink()  # lost from the disk: written again
    response = client.get(file)
    content = b"".join(response.streaming_content)
    assert response["Content-Disposition"].startswith("attachment; filename=")
    assert response["Content-Type"].endswith("spreadsheetml.sheet")
    assert response["Cache-Control"] == "private, no-store"
    assert load_workbook(io.BytesIO(content)).sheetnames[0] == "Quote"
    client.force_login(crew)
    assert client.get(file).status_code == 403
    assert client.post(ask).status_code == 403
    client.force_login(make_user(make_company()))
    assert client.get(file).status_code == 404


def test_prices_page(client, estimator, crew, price_book):
    client.force_login(crew)
    assert client.get(reverse("estimating:prices")).status_code == 403
    client.force_login(estimator)
    page = words(client.get(reverse("estimating:prices"), {"words": "alarm"}))
    assert "118.00" in page
    assert "invented for demonstration" in page
    price_book.items.filter(code="alarm").update(price=None, dated=None)
    assert "missing" in words(client.get(reverse("estimating:prices"), {"state": "missing"}))


def test_prices_of_another_company_are_not_there(client, price_book):
    item = price_book.items.get(code="alarm")
    client.force_login(make_user(make_company(), "estimator"))
    assert client.get(reverse("estimating:price_edit", args=[item.pk])).status_code == 404
    assert "118.00" not in words(client.get(reverse("estimating:prices")))


def test_a_bad_price_keeps_what_was_typed(client, estimator, price_book):
    item = price_book.items.get(code="alarm")
    client.force_login(estimator)
    address = reverse("estimating:price_edit", args=[item.pk])
    data = {"description": "Alarm", "unit": "each", "price": "about 5", "supplier": "S",
            "dated": timezone.localdate().isoformat(), "version": item.version}  # fmt: skip
    response = client.post(address, data)
    assert response.status_code == 422
    assert "Unit price: read 'about 5'; accepted is a price above zero" in words(response)
    assert 'value="about 5"' in response.content.decode()
    assert client.post(address, {**data, "price": "5"}).status_code == 302
    assert client.post(address, {**data, "price": "6"}).status_code == 409
    item.refresh_from_db()
    assert item.price == 5
    assert item.history.count() == 2


def test_a_price_that_a_takeoff_misses_is_added(client, estimator, price_book):
    client.force_login(estimator)
    address = reverse("estimating:price_new")
    assert client.get(address, {"code": "lvl-9x9-x"}).context["form"]["code"].value() == "lvl-9x9-x"
    data = {"code": "lvl-9x9-x", "unit": "ft", "price": "", "dated": ""}
    assert client.post(address, data).status_code == 302
    assert price_book.items.get(code="lvl-9x9-x").price is None


def test_rates_page(client, estimator, project_manager, price_book):
    client.force_login(project_manager)
    assert client.get(reverse("estimating:rates")).status_code == 403
    client.force_login(estimator)
    form = client.get(reverse("estimating:rates")).context["form"]
    data = {name: value for name, value in form.initial.items() if value is not None}
    bad = client.post(reverse("estimating:rates"), {**data, "profit": "lots", "tax_2_percent": "5"})
    assert bad.status_code == 422
    assert "Profit, %: read 'lots'; accepted is a percentage" in words(bad)
    assert "Tax 2, name: read nothing" in words(bad)
    assert client.post(reverse("estimating:rates"), {**data, "profit": "9.5 %"}).status_code == 302
    price_book.refresh_from_db()
    assert price_book.rates["profit"] == "9.5"
    assert len(price_book.rates["taxes"]) == 1


def test_queries_do_not_grow_with_revisions(client, estimator, estimate, django_assert_max_num_queries):
    client.force_login(estimator)
    client.get(url("quote", estimate))
    for name, most in (("quote", 24), ("takeoff", 24), ("cut_list", 14)):
        with django_assert_max_num_queries(most) as one:
            client.get(url(name, estimate))
        before = len(one)
        estimate_issue(
            estimate=Estimate.objects.get(pk=estimate.pk), actor=estimator, version=estimate.version
        )
        for _ in range(2):
            newer = estimate_build(job=estimate.job, actor=estimator)
            estimate_issue(estimate=newer, actor=estimator, version=newer.version)
        with django_assert_max_num_queries(before + 1):
            client.get(url(name, estimate))
        estimate = estimate_build(job=estimate.job, actor=estimator)


def test_queries_of_the_price_list_do_not_grow(client, estimator, price_book, django_assert_max_num_queries):
    client.force_login(estimator)
    with django_assert_max_num_queries(8):
        client.get(reverse("estimating:prices"))
    with django_assert_max_num_queries(8):
        client.get(reverse("estimating:prices"), {"words": "alarm"})
