"""The nightly work by hand or from cron, for an installation without a scheduler of its own."""

from __future__ import annotations

from typing import Any

from django.core.management.base import BaseCommand
from django.utils import timezone

from projects.services.background import background_jobs_requeue
from projects.services.lapses import lapsing_permits_look


class Command(BaseCommand):
    """Look for lapsing permits and send waiting background jobs again. Running it twice adds nothing."""

    help = "Look for lapsing permits and send waiting background jobs again."

    def handle(self, *args: Any, **options: Any) -> None:
        """Print each new notice and how many jobs were sent again."""
        for notice in lapsing_permits_look(today=timezone.localdate()):
            self.stdout.write(f"{notice.permit.job}: {notice}")
        sent = background_jobs_requeue(now=timezone.now())
        self.stdout.write(f"Background jobs sent again: {len(sent)}.")
