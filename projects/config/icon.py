"""The mark of the site at the address that browsers ask without being told."""

from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from projects.config.env import BASE_DIR

MARK = BASE_DIR / "projects" / "static" / "projects" / "mark.svg"


@login_not_required
@require_safe
def favicon(request: HttpRequest) -> HttpResponse:
    """The drawing itself; every browser that asks here by habit can show it."""
    return HttpResponse(MARK.read_bytes(), content_type="image/svg+xml")
