"""Reads of the estimating app. Rows are reached through the job or the company that a person may see."""

from __future__ import annotations

from typing import Any

from django.db.models import QuerySet
from django.http import Http404

from estimating.core.compare import Change, changes
from estimating.core.options import Option, beam_options
from estimating.core.pricing import Price
from estimating.core.rates import read_rates
from estimating.core.settings import read_settings
from estimating.models import Estimate, PriceBook, PriceItem
from projects.models import Company, Job
from projects.selectors import company_of, jobs_visible_to
from structure.measured import measured
from structure.models import Schedule
from structure.results import candidates
from structure.selectors import governing_schedule, schedule_data, schedule_is_stale


def price_book_of(company: Company, code: str) -> PriceBook | None:
    """The company's price book for one country, if it has one: prices of two currencies never meet in a quote."""
    return PriceBook.objects.filter(company=company, code=code).first()


def price_books_of(company: Company) -> list[PriceBook]:
    """All its books, by country."""
    return list(PriceBook.objects.filter(company=company).order_by("-code"))


def price_items_visible_to(user: Any) -> QuerySet[PriceItem]:
    """Prices of the person's company."""
    return PriceItem.objects.filter(book__company=company_of(user)).select_related("book")


def price_item_for(user: Any, pk: int) -> PriceItem:
    """The price, or Http404 when it does not exist or belongs to another company."""
    found = price_items_visible_to(user).filter(pk=pk).first()
    if found is None:
        raise Http404("No such price.")
    return found


def prices_of(book: PriceBook) -> dict[str, Price]:
    """Known prices by code; a missing one is left out, never zero."""
    known = book.items.filter(price__isnull=False)
    return {
        item.code: Price(item.code, item.unit, item.price, item.supplier, item.dated)
        for item in known
        if item.price is not None and item.dated is not None
    }


def estimates_visible_to(user: Any) -> QuerySet[Estimate]:
    """Estimates of jobs of the person's company."""
    return Estimate.objects.filter(job__in=jobs_visible_to(user)).select_related(
        "job__property__company", "schedule", "built_by", "issued_by"
    )


def estimate_for(user: Any, pk: int) -> Estimate:
    """The estimate, or Http404 when it does not exist or belongs to another company."""
    found = estimates_visible_to(user).filter(pk=pk).first()
    if found is None:
        raise Http404("No such estimate.")
    return found


def estimates_of(job: Job) -> QuerySet[Estimate]:
    """All revisions, newest first."""
    return Estimate.objects.filter(job=job).select_related("built_by", "issued_by").order_by("-revision")


def latest_estimate(job: Job) -> Estimate | None:
    """The newest revision, draft or issued."""
    return estimates_of(job).select_related("schedule", "job__property__company").first()


def previous_estimate(estimate: Estimate) -> Estimate | None:
    """The revision before this one."""
    return estimates_of(estimate.job).filter(revision__lt=estimate.revision).first()


def changes_since(before: Estimate | None, after: Estimate) -> list[Change]:
    """What changed from one revision to the next, line by line; empty for a first revision."""
    if before is None:
        return []
    return changes(before.document["lines"], after.document["lines"])


def not_as_scheduled(estimate: Estimate) -> list[str]:
    """Why members and pieces of this estimate are no longer those of the job; prices do not come into it."""
    reasons = []
    governing: Schedule | None = governing_schedule(estimate.job)
    if governing is None or governing.pk != estimate.schedule_id:
        reasons.append("The schedule that governs is another one than the one this was built from.")
    elif governing.source == Schedule.Source.PRELIMINARY and schedule_is_stale(governing):
        reasons.append("The house section was changed after the schedule was chosen.")
    return reasons


def out_of_date(estimate: Estimate) -> list[str]:
    """Why this estimate no longer says what it would say if it were built now."""
    reasons = not_as_scheduled(estimate)
    book = price_book_of(estimate.job.company, estimate.job.code)
    if book is not None and book.version != estimate.book_version:
        reasons.append("Prices or rates were changed after this was built.")
    return reasons


def document_title(estimate: Estimate) -> dict[str, Any]:
    """What stands at the head of the quote and of each sheet."""
    job = estimate.job
    return {
        "company": job.company.name,
        "property": job.property.name,
        "address": job.property.address,
        "job": job.name,
        "wall": job.wall,
        "revision": estimate.revision,
        "status": estimate.get_status_display(),
        "prepared_by": estimate.built_by.display_name,
    }


def beams_of(schedule: Schedule) -> list[dict[str, Any]]:
    """Beams of the run behind a schedule that pass, as the takeoff reads them."""
    return [measured(row) for row in candidates(schedule.run.results) if row["passes"]]


def beam_costs(estimate: Estimate) -> list[Option]:
    """Each beam that passes in the run behind the schedule, the cheapest first, the whole job priced each time.

    Prices are today's, the day and the rates those of the estimate; a beam without a price comes last.
    """
    book = price_book_of(estimate.job.company, estimate.job.code)
    beams = beams_of(estimate.schedule)
    if book is None or not beams:
        return []
    found = beam_options(
        schedule_data(estimate.schedule),
        beams,
        read_settings(estimate.takeoff_settings),
        prices_of(book),
        read_rates(estimate.rates),
        estimate.dated,
    )
    return sorted(found, key=lambda option: (option.total is None, option.total or 0))
