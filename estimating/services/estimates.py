"""Building an estimate from the governing schedule, and issuing it."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from django.db import IntegrityError, transaction
from django.utils import timezone

from estimating.core.document import estimate_document
from estimating.core.rates import Rates, read_rates
from estimating.core.settings import TakeoffSettings, read_settings
from estimating.errors import refusal
from estimating.models import Estimate, EstimateLine, PriceBook
from estimating.selectors import latest_estimate, out_of_date, price_book_of, prices_of
from projects.errors import Conflict, Refused
from projects.models import Job, User
from projects.permissions import require
from projects.services.events import event_record
from projects.services.writing import take_version
from structure.core.errors import InputError, OutOfScope
from structure.models import Schedule
from structure.selectors import governing_schedule, schedule_data

INVENTED = "Prices and rates are invented for demonstration: they are no offer and no survey of a market."
AMOUNT_NAMES = ("net", "waste", "reuse")
LINE_NAMES = (
    "number", "code", "description", "detail", "kind", "division", "cost_code", "marks", "unit", "price_unit",
    "allowance", "stale", "rule", "source",
)  # fmt: skip


def estimate_build(*, job: Job, actor: User, settings: Mapping[str, Any] | None = None) -> Estimate:
    """Take off the governing schedule at today's prices into the draft; a new revision where the last was issued.

    `settings` are takeoff settings by name; absent ones stay as in the last revision.
    Raises Refused where there is no schedule or no price book, or where the takeoff cannot be made; nothing is
    stored then.
    """
    require(actor, "design", job)
    require(actor, "see_prices", job)
    schedule = governing_schedule(job)
    if schedule is None:
        raise Refused("There is no schedule yet: choose sizes first, then they can be taken off and priced.")
    book = price_book_of(job.company, job.code)
    if book is None:
        raise Refused("There is no price book yet: open it and enter prices and rates first.")
    last = latest_estimate(job)
    try:
        kept = read_settings(
            {**(last.takeoff_settings if last else {}), **(settings or {}), "units": job.units}
        )
        rates = read_rates(book.rates).there(job.property.region)
        document = _document(schedule, kept, book, rates)
    except (InputError, OutOfScope) as error:
        raise refusal(error) from None
    try:
        with transaction.atomic():
            estimate = _draft(job, last, schedule)
            _fill(estimate, document, kept, rates, book, actor)
            event_record(
                job=job, actor=actor, verb="estimate.built",
                detail=f"Estimate revision {estimate.revision} built.",
                data={"revision": estimate.revision, "schedule": schedule.pk, "priced": document["priced"]},
            )  # fmt: skip
    except IntegrityError:
        raise Conflict(
            "Somebody else built this estimate at the same moment; look at theirs first."
        ) from None
    return estimate


def estimate_issue(*, estimate: Estimate, actor: User, version: int) -> Estimate:
    """Freeze a draft. From here on it is never changed; the next build makes a new revision.

    Raises Refused while a price is missing or something it was built from has changed, Conflict where somebody
    else was faster.
    """
    require(actor, "edit_prices", estimate.job)
    if estimate.issued:
        raise Refused(f"Revision {estimate.revision} was issued already.")
    with transaction.atomic():
        take_version(estimate, version)
        missing = estimate.document["missing"]
        if missing or estimate.total is None:
            raise Refused(f"Not priced: {len(missing)} prices are missing ({', '.join(missing)}).")
        reasons = out_of_date(estimate)
        if reasons:
            raise Refused(" ".join([*reasons, "Build it again, then issue it."]))
        now = timezone.now()
        estimate.status, estimate.issued_by, estimate.issued_at = Estimate.Status.ISSUED, actor, now
        estimate.save(update_fields=["status", "issued_by", "issued_at"])
        event_record(
            job=estimate.job, actor=actor, verb="estimate.issued",
            detail=f"Estimate revision {estimate.revision} issued.", data={"revision": estimate.revision},
        )  # fmt: skip
    return estimate


def _document(schedule: Schedule, settings: TakeoffSettings, book: PriceBook, rates: Rates) -> dict[str, Any]:
    return estimate_document(
        schedule_data(schedule),
        settings,
        prices_of(book),
        rates,
        timezone.localdate(),
        sealed=schedule.source == Schedule.Source.SEALED,
        notes=[INVENTED] if book.invented else [],
    )


def _draft(job: Job, last: Estimate | None, schedule: Schedule) -> Estimate:
    """The draft to write on: the last one while it is a draft, else the next revision."""
    if last is not None and not last.issued:
        take_version(last, last.version)
        last.lines.all().delete()
        last.schedule = schedule
        return last
    return Estimate(job=job, revision=1 if last is None else last.revision + 1, schedule=schedule)


def _fill(
    estimate: Estimate,
    document: dict[str, Any],
    settings: TakeoffSettings,
    rates: Rates,
    book: PriceBook,
    actor: User,
) -> None:
    estimate.document = document
    estimate.takeoff_settings, estimate.rates = settings.as_data(), rates.as_data()
    estimate.book_version = book.version
    estimate.total = None if document["total"] is None else Decimal(document["total"])
    estimate.dated, estimate.built_by, estimate.built_at = timezone.localdate(), actor, timezone.now()
    estimate.save()
    EstimateLine.objects.bulk_create(
        EstimateLine(
            estimate=estimate,
            **{name: line[name] for name in LINE_NAMES},
            **{name: Decimal(line[name]) for name in AMOUNT_NAMES},
            price=None if line["price"] is None else Decimal(line["price"]),
            amount=None if line["amount"] is None else Decimal(line["amount"]),
        )
        for line in document["lines"]
    )
