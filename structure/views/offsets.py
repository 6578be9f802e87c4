"""The offset check: the wall above against the support below."""

from __future__ import annotations

from django.contrib import messages
from django.forms.models import model_to_dict
from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods

from projects.errors import Refused
from projects.permissions import can
from projects.requests import SignedIn
from structure.forms.site import OffsetForm
from structure.pictures import offset_picture
from structure.selectors import offset_latest
from structure.services.sections import offset_check
from structure.shown import metric
from structure.views.common import page, page_job

#: Where a form of a metric house starts: the same ordinary sizes as the ones in inches, rounded.
METRIC = {
    "above_thickness": "114 mm",
    "below_thickness": "114 mm",
    "wall_shift": "0 mm",
    "joist_depth": "235 mm",
    "tolerance": "12 mm",
}


@require_http_methods(["GET", "POST"])
def offset(request: SignedIn, job_pk: int) -> HttpResponse:
    """The form with the last answer beside it."""
    writing = request.method == "POST"
    job = page_job(request, job_pk, "record_finding" if writing else "view_job")
    last = offset_latest(job)
    if writing:
        form = OffsetForm(request.POST)
        if form.is_valid():
            try:
                offset_check(job=job, actor=request.user, values=form.cleaned_data)
            except Refused as refusal:
                form.add_error(None, refusal.sentence)
            else:
                messages.success(request, "Offset checked and kept.")
                return redirect("structure:offset", job_pk=job.pk)
    else:
        initial = model_to_dict(last, exclude=["job", "id"]) if last else METRIC if metric() else {}
        form = OffsetForm(initial=initial)
    context = page(
        request, job, "offset", form=form, last=last, may_record=can(request.user, "record_finding", job)
    )
    if last is not None:
        context["offset_svg"] = offset_picture(model_to_dict(last), last.result)
    return render(request, "structure/offset.html", context)
