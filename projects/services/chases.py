"""Chases: every call, message and visit on record."""

from __future__ import annotations

from datetime import date

from django.db import transaction

from projects.errors import Refused
from projects.models import Chase, Job, User
from projects.permissions import require
from projects.services.events import event_record
from projects.services.writing import check_not_future, check_text


@transaction.atomic
def chase_record(
    *,
    job: Job,
    actor: User,
    about: str,
    who: str,
    how: str,
    said: str,
    on: date,
    next_on: date | None = None,
) -> Chase:
    """Who was asked, how, what they said, when to ask again. Raises Refused for a next day that is not later."""
    require(actor, "log_chase", job)
    for field, label, value, known in (
        ("about", "About", about, Chase.About.values),
        ("how", "How", how, Chase.How.values),
    ):
        if value not in known:
            raise Refused(f"{label}: read {value!r}; accepted is one of {', '.join(known)}.", field=field)
    check_not_future("on", "Asked on", on)
    if next_on is not None and next_on <= on:
        raise Refused(
            f"Next chase on: read {next_on:%Y-%m-%d}; accepted is a day after {on:%Y-%m-%d}, or nothing.",
            field="next_on",
        )
    chase = Chase(
        job=job,
        about=about,
        who=check_text("who", "Who", who, "the name of the person asked"),
        how=how,
        said=check_text("said", "Said what", said, "what they answered, or that nobody answered"),
        on=on,
        next_on=next_on,
        by=actor,
    )
    chase.full_clean()
    chase.save()
    after = f" Next on {next_on:%Y-%m-%d}." if next_on else ""
    event_record(
        job=job,
        actor=actor,
        verb="chased",
        detail=f"{chase.who} ({chase.get_how_display()}): {chase.said}{after}",
        data={"chase": chase.pk, "about": about},
    )
    return chase
