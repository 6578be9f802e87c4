"""Building, issuing and freezing estimates; prices one at a time and as a book; the workbook as background work."""

from __future__ import annotations

import hashlib
import io
from datetime import timedelta
from decimal import Decimal

import pytest
from django.core.exceptions import PermissionDenied
from django.db import IntegrityError, transaction
from django.utils import timezone
from openpyxl import load_workbook

from estimating.errors import Frozen
from estimating.models import Estimate, EstimateLine, PriceBook, PriceItem
from estimating.selectors import beam_costs, changes_since, latest_estimate, out_of_date, previous_estimate
from estimating.services.estimates import estimate_build, estimate_issue
from estimating.services.prices import price_book_load, price_book_open, price_item_save, rates_save
from estimating.services.workbooks import workbook_name, workbook_path, workbook_request, workbook_write
from projects.errors import Conflict, Refused
from projects.models import BackgroundJob, JobEvent
from tests.estimating.conftest import make_schedule
from tests.estimating.samples import book as book_data

pytestmark = pytest.mark.django_db


def item(book, code="alarm") -> PriceItem:
    return book.items.get(code=code)


def save_price(book, actor, **changes):
    row = item(book)
    given = {"code": row.code, "description": row.description, "unit": row.unit, "price": "120", "supplier": "S",
             "dated": timezone.localdate(), "item": row, "version": row.version}  # fmt: skip
    return price_item_save(book=book, actor=actor, **{**given, **changes})


def test_an_estimate_is_its_document_and_its_lines(estimate):
    lines = list(estimate.lines.all())
    assert (estimate.revision, estimate.status) == (1, "draft")
    assert [line.code for line in lines] == [line["code"] for line in estimate.document["lines"]]
    assert sum(line.amount for line in lines) == Decimal(estimate.document["direct"])
    assert estimate.total == Decimal(estimate.document["total"])
    assert JobEvent.objects.filter(job=estimate.job, verb="estimate.built").count() == 1


def test_building_again_writes_on_the_draft(estimate, estimator):
    again = estimate_build(job=estimate.job, actor=estimator, settings={"paint": False})
    assert (again.pk, again.revision) == (estimate.pk, 1)
    assert again.version == estimate.version + 1
    assert not EstimateLine.objects.filter(estimate=again, code="paint").exists()
    assert estimate_build(job=estimate.job, actor=estimator).takeoff_settings["paint"] is False


def test_nothing_to_price(job, estimator, contractor):
    with pytest.raises(Refused, match="no schedule yet"):
        estimate_build(job=job, actor=estimator)
    make_schedule(job, contractor)
    with pytest.raises(Refused, match="no price book"):
        estimate_build(job=job, actor=estimator)
    assert not Estimate.objects.exists()


def test_a_schedule_that_cannot_be_taken_off_stores_nothing(job, estimator, contractor, price_book):
    made = make_schedule(job, contractor)
    beam = made.marks.get(kind="beam")
    beam.data["family"] = "other"
    beam.save()
    with pytest.raises(Refused, match="not covered yet"):
        estimate_build(job=job, actor=estimator)
    assert not Estimate.objects.exists()


def test_the_units_are_those_of_the_property(job, estimator, schedule, price_book):
    job.property.units = "metric"
    job.property.save()
    made = estimate_build(job=job, actor=estimator, settings={"units": "imperial"})
    assert made.document["units"] == "metric"


def test_issued_is_frozen(estimate, estimator):
    issued = estimate_issue(estimate=estimate, actor=estimator, version=estimate.version)
    before = Estimate.objects.filter(pk=issued.pk).values().get()
    line = issued.lines.first()
    issued.total = 1
    for act in (
        issued.save, issued.delete, line.save, line.delete,
        lambda: Estimate.objects.filter(pk=issued.pk).update(total=1),
        lambda: Estimate.objects.all().delete(),
        lambda: EstimateLine.objects.filter(estimate=issued).update(amount=1),
        lambda: issued.lines.all().delete(),
        lambda: EstimateLine.objects.bulk_create([EstimateLine(estimate=issued, number=999)]),
    ):  # fmt: skip
        with pytest.raises(Frozen):
            act()
    assert Estimate.objects.filter(pk=issued.pk).values().get() == before


def test_after_issue_the_next_build_is_a_new_revision(estimate, estimator):
    estimate_issue(estimate=estimate, actor=estimator, version=estimate.version)
    after = estimate_build(job=estimate.job, actor=estimator, settings={"paint": False})
    assert (after.revision, after.status) == (2, "draft")
    assert previous_estimate(after) == estimate
    gone = [
        change.description
        for change in changes_since(previous_estimate(after), after)
        if change.kind == "gone"
    ]
    assert "Paint and primer" in gone
    assert latest_estimate(estimate.job) == after


def test_a_missing_price_blocks_issue(estimate, estimator, price_book):
    save_price(price_book, estimator, price="", dated=None)
    again = estimate_build(job=estimate.job, actor=estimator)
    assert (again.total, again.document["missing"]) == (None, ["alarm"])
    assert EstimateLine.objects.get(estimate=again, code="alarm").amount is None
    with pytest.raises(Refused, match="1 prices are missing"):
        estimate_issue(estimate=again, actor=estimator, version=again.version)
    again.refresh_from_db()
    assert not again.issued


def test_what_changed_since_blocks_issue(estimate, estimator, contractor, price_book):
    save_price(price_book, estimator)
    assert out_of_date(estimate) == ["Prices or rates were changed after this was built."]
    with pytest.raises(Refused, match="Build it again"):
        estimate_issue(estimate=estimate, actor=estimator, version=estimate.version)
    again = estimate_build(job=estimate.job, actor=estimator)
    make_schedule(estimate.job, contractor)
    with pytest.raises(Refused, match="schedule that governs is another"):
        estimate_issue(estimate=again, actor=estimator, version=again.version)


def test_the_sealed_schedule_is_the_one_that_is_priced(estimate, estimator, contractor):
    make_schedule(estimate.job, contractor, "sealed", slab_cut=False)
    again = estimate_build(job=estimate.job, actor=estimator)
    assert again.document["sealed"]
    assert again.schedule.source == "sealed"


def test_two_people_issue_at_once(estimate, estimator, contractor):
    theirs = Estimate.objects.get(pk=estimate.pk)
    estimate_issue(estimate=estimate, actor=estimator, version=estimate.version)
    with pytest.raises((Conflict, Refused, Frozen)):
        estimate_issue(estimate=theirs, actor=contractor, version=theirs.version)
    assert JobEvent.objects.filter(job=estimate.job, verb="estimate.issued").count() == 1


def test_who_may_not(estimate, crew, project_manager, stranger, price_book):
    for actor in (crew, stranger):
        with pytest.raises(PermissionDenied):
            estimate_build(job=estimate.job, actor=actor)
        with pytest.raises(PermissionDenied):
            workbook_request(estimate=estimate, actor=actor)
    for actor in (crew, stranger, project_manager):
        with pytest.raises(PermissionDenied):
            estimate_issue(estimate=estimate, actor=actor, version=estimate.version)
        with pytest.raises(PermissionDenied):
            save_price(price_book, actor)
        with pytest.raises(PermissionDenied):
            rates_save(book=price_book, actor=actor, rates=price_book.rates, version=price_book.version)
        with pytest.raises(PermissionDenied):
            price_book_open(company=price_book.company, actor=actor)


def test_only_one_draft_and_no_issue_without_a_total(estimate):
    for change in ({"revision": 2}, {"revision": 2, "status": "issued"}):
        copy = Estimate.objects.get(pk=estimate.pk)
        copy.pk = None
        for name, value in change.items():
            setattr(copy, name, value)
        with pytest.raises(IntegrityError), transaction.atomic():
            copy.save(force_insert=True)


def test_loading_a_book_twice_changes_nothing(company, price_book):
    before = (price_book.version, PriceItem.history.count())
    again = price_book_load(company=company, data=book_data())
    assert (again.version, PriceItem.history.count()) == before
    assert PriceBook.objects.count() == 1
    assert again.items.count() == len(book_data()["prices"])
    assert again.invented


@pytest.mark.parametrize(
    ("row", "field"),
    [
        ({"price": "0"}, "prices[1].price"),
        ({"unit": "furlong"}, "prices[1].unit"),
        ({"code": "=cmd"}, "prices[1].code"),
        ({"dated": "soon"}, "prices[1].dated"),
    ],
)
def test_a_book_with_one_bad_row_is_not_loaded(company, row, field):
    good = book_data()["prices"][0]
    data = {**book_data(), "prices": [good, {**good, "code": "other", **row}]}
    with pytest.raises(Refused) as caught:
        price_book_load(company=company, data=data)
    assert caught.value.field == field
    assert not PriceItem.objects.exists()
    assert not PriceBook.objects.exists()


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"price": "0"}, "price"),
        ({"price": "-4"}, "price"),
        ({"price": "four"}, "price"),
        ({"unit": "furlong"}, "unit"),
        ({"dated": None}, "dated"),
        ({"dated": timezone.localdate() + timedelta(days=2)}, "dated"),
        ({"code": "two words"}, "code"),
    ],
)
def test_a_price_that_cannot_be_kept_names_the_field(price_book, estimator, change, field):
    before = item(price_book).price
    with pytest.raises(Refused, match="accepted is") as caught:
        save_price(price_book, estimator, **change)
    assert caught.value.field == field
    assert item(price_book).price == before


def test_a_price_read_before_somebody_else_saved_it_is_a_conflict(price_book, estimator):
    stale = item(price_book)
    save_price(price_book, estimator, price="130")
    with pytest.raises(Conflict):
        save_price(price_book, estimator, item=stale, version=stale.version, price="99")
    assert item(price_book).price == 130


def test_a_new_price_under_a_taken_code_is_refused(price_book, estimator):
    with pytest.raises(Refused, match="not in the book yet"):
        save_price(price_book, estimator, item=None)


def test_rates(price_book, estimator):
    kept = rates_save(
        book=price_book,
        actor=estimator,
        rates={**price_book.rates, "profit": "9.5"},
        version=price_book.version,
    )
    assert kept.rates["profit"] == "9.5"
    with pytest.raises(Conflict):
        rates_save(book=price_book, actor=estimator, rates=price_book.rates, version=1)
    with pytest.raises(Refused, match="from 0 to 100"):
        rates_save(book=kept, actor=estimator, rates={**kept.rates, "profit": "101"}, version=kept.version)


def test_beams_side_by_side_at_full_cost(estimate):
    options = beam_costs(estimate)
    assert {option.title for option in options} == {"4-ply 18", "4-ply 20"}
    assert options[0].total == estimate.total
    assert [option.total for option in options] == sorted(option.total for option in options)


def test_the_workbook_is_written_once_and_whole(estimate, estimator, django_capture_on_commit_callbacks):
    with django_capture_on_commit_callbacks(execute=True):
        row = workbook_request(estimate=estimate, actor=estimator)
        assert workbook_request(estimate=estimate, actor=estimator).pk == row.pk
    row.refresh_from_db()
    assert (row.state, row.error) == (BackgroundJob.State.DONE, "")
    content = workbook_path(estimate).read_bytes()
    assert row.result["sha256"] == hashlib.sha256(content).hexdigest()
    assert workbook_write(estimate=estimate).read_bytes() == content
    assert [p.name for p in workbook_path(estimate).parent.iterdir()] == [workbook_path(estimate).name]
    quote = load_workbook(io.BytesIO(content), data_only=True)["Quote"]
    values = {r[1].value: r[3].value for r in quote.iter_rows(max_col=4)}
    assert Decimal(str(values["Total (USD)"])) == estimate.total


def test_a_workbook_that_fails_leaves_no_file(estimate, monkeypatch):
    def full(*_: object) -> None:
        raise OSError("no space left")

    monkeypatch.setattr("estimating.services.workbooks.os.fsync", full)
    with pytest.raises(OSError, match="no space"):
        workbook_write(estimate=estimate)
    assert list(workbook_path(estimate).parent.iterdir()) == []


def test_the_name_of_the_file_is_plain(estimate):
    estimate.job.name = '../=cmd "x"\r\nÅ'
    assert workbook_name(estimate).startswith("house-")
    assert set(workbook_name(estimate)) <= set("abcdefghijklmnopqrstuvwxyz0123456789-.")
