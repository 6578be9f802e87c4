"""The nightly look at permits: what is about to run out is said once, what has run out stops counting."""

from __future__ import annotations

from datetime import date

from django.db import transaction

from projects.models import Permit, PermitNotice
from projects.permit_selectors import permit_outlook
from projects.services.events import event_record

SENTENCES = {
    "lapsing": "{permit} lapses on {day} unless the work moves on ({source}, last progress {progress}).",
    "lapsed": "{permit} lapsed on {day} for want of progress ({source}, last progress {progress}).",
    "expiring": "{permit} expires on {day}.",
    "expired": "{permit} expired on {day}.",
}


@transaction.atomic
def _look_at(permit: Permit, today: date) -> PermitNotice | None:
    seen = permit_outlook(permit, today)
    if seen is None or seen.threat is None:
        return None
    notice, new = PermitNotice.objects.get_or_create(permit=permit, kind=seen.threat, due_on=seen.ends_on)
    if not new:
        return None
    if seen.threat in ("lapsed", "expired"):
        won = Permit.objects.filter(pk=permit.pk, version=permit.version, status=Permit.Status.ISSUED).update(
            version=permit.version + 1
        )
        if not won:
            # Somebody is at it this minute; the next look sees what they did.
            notice.delete()
            return None
        permit.refresh_from_db()
        permit.status, permit.ended_on = Permit.Status.EXPIRED, seen.ends_on
        permit.save()
    sentence = SENTENCES[seen.threat].format(
        permit=permit,
        day=f"{seen.ends_on:%Y-%m-%d}",
        source=permit.jurisdiction.lapse_source,
        progress=f"{permit.last_progress_on:%Y-%m-%d}",
    )
    event_record(
        job=permit.job,
        actor=None,
        verb=f"permit_{seen.threat}",
        detail=sentence,
        data={"permit": permit.pk, "due_on": seen.ends_on.isoformat()},
    )
    return notice


def lapsing_permits_look(*, today: date) -> list[PermitNotice]:
    """Look at every issued permit. Returns the notices that are new; running it again the same day adds none."""
    issued = Permit.objects.filter(status=Permit.Status.ISSUED).select_related("job", "jurisdiction")
    return [notice for permit in issued if (notice := _look_at(permit, today))]
