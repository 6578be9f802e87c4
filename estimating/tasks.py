"""Tasks: each fetches a row and calls one service."""

from __future__ import annotations

import hashlib
from typing import Any

from celery import shared_task
from django.urls import reverse

from estimating.models import Estimate
from estimating.services.workbooks import workbook_name, workbook_write
from projects.models import BackgroundJob
from projects.services.background import Report, background_job_run


@shared_task(name="estimating.build_workbook")
def build_workbook(pk: int) -> None:
    """Write the workbook that the background row `pk` asks for."""
    background_job_run(pk=pk, work=_write)


def _write(row: BackgroundJob, report: Report) -> dict[str, Any]:
    estimate = Estimate.objects.select_related("job__property__company", "built_by").get(
        pk=row.inputs["estimate"]
    )
    report(20)
    path = workbook_write(estimate=estimate)
    content = path.read_bytes()
    return {
        "title": workbook_name(estimate),
        "url": reverse("estimating:workbook", args=[estimate.job_id, estimate.pk]),
        "bytes": len(content),
        "sha256": hashlib.sha256(content).hexdigest(),
    }
