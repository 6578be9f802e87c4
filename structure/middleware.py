"""What stands around every request of this app."""

from __future__ import annotations

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse

from structure.shown import IMPERIAL, shown_in


def units_middleware(
    get_response: Callable[[HttpRequest], HttpResponse],
) -> Callable[[HttpRequest], HttpResponse]:
    """Each request begins in feet and inches: what the one before it showed is forgotten."""

    def respond(request: HttpRequest) -> HttpResponse:
        with shown_in(IMPERIAL):
            return get_response(request)

    return respond
