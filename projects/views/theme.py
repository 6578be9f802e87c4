"""Light, dark or as the device says: a cookie, so that it works without scripts and signed out."""

from __future__ import annotations

from django.conf import settings
from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.shortcuts import resolve_url
from django.utils.http import url_has_allowed_host_and_scheme
from django.views.decorators.http import require_POST

from projects.context import THEME_COOKIE, THEMES

A_YEAR = 365 * 24 * 3600


@require_POST
@login_not_required
def theme_set(request: HttpRequest) -> HttpResponse:
    """Remember the colour setting and go back to the page it was asked from."""
    target = request.POST.get("next", "")
    if not url_has_allowed_host_and_scheme(
        target, allowed_hosts={request.get_host()}, require_https=request.is_secure()
    ):
        target = resolve_url("projects:dashboard")
    response = HttpResponseRedirect(target)
    asked = request.POST.get("theme")
    if asked in THEMES:
        response.set_cookie(
            THEME_COOKIE,
            asked,
            max_age=A_YEAR,
            samesite="Lax",
            httponly=True,
            secure=settings.SESSION_COOKIE_SECURE,
        )
    return response
