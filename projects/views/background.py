"""How far a piece of background work is."""

from __future__ import annotations

from django.db.models import Q
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, render
from django.views.decorators.http import require_safe

from projects.models import BackgroundJob
from projects.requests import SignedIn
from projects.selectors import jobs_visible_to


@require_safe
def background_job(request: SignedIn, pk: int) -> HttpResponse:
    """The state as a page, or as the fragment that the page asks for again until the work is over."""
    visible = BackgroundJob.objects.filter(
        Q(job__in=jobs_visible_to(request.user)) | Q(job__isnull=True, requested_by=request.user)
    ).select_related("job__property", "requested_by")
    row = get_object_or_404(visible, pk=pk)
    fragment = bool(getattr(request, "htmx", False))
    template = "projects/partials/background_job.html" if fragment else "projects/background_job.html"
    return render(request, template, {"work": row, "job": row.job, "nav": "jobs"})
