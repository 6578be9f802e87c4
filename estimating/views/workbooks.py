"""Asking for the workbook, watching it being written, and taking it away."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import FileResponse, Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_GET, require_POST

from estimating.models import Estimate
from estimating.services.workbooks import (
    workbook_key,
    workbook_name,
    workbook_path,
    workbook_request,
    workbook_write,
)
from estimating.views.common import page_estimate, person
from projects.errors import Refused
from projects.models import BackgroundJob

SHEET_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"


def workbook_state(estimate: Estimate) -> dict[str, Any]:
    """The background row of this estimate's workbook and whether the file stands."""
    row = BackgroundJob.objects.filter(key=workbook_key(estimate)).first()
    return {"background": row, "workbook_ready": row is not None and row.state == BackgroundJob.State.DONE}


@require_POST
def request_workbook(request: HttpRequest, job_pk: int, pk: int) -> HttpResponse:
    """Ask for the file."""
    estimate = page_estimate(request, job_pk, pk, "export_quote")
    try:
        workbook_request(estimate=estimate, actor=person(request))
    except Refused as refused:
        messages.error(request, refused.sentence)
    return redirect("estimating:revision", job_pk=job_pk, pk=pk)


@require_GET
def download(request: HttpRequest, job_pk: int, pk: int) -> FileResponse:
    """The file, for those who may export it. A file that was asked for and got lost is written again."""
    estimate = page_estimate(request, job_pk, pk, "export_quote")
    if not workbook_state(estimate)["workbook_ready"]:
        raise Http404("The workbook has not been built yet.")
    path = workbook_path(estimate)
    if not path.exists():
        path = workbook_write(estimate=estimate)
    response = FileResponse(
        path.open("rb"), as_attachment=True, filename=workbook_name(estimate), content_type=SHEET_TYPE
    )
    response["Cache-Control"] = "private, no-store"
    return response
