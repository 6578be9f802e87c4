"""Headers that every answer carries and Django has no setting for."""

from collections.abc import Callable

from django.http import HttpRequest, HttpResponseBase


class PlainHeadersMiddleware:
    """Keep answers out of shared caches and devices' sensors out of reach.

    A page shows one company's houses and prices, so nothing is stored unless a view says so itself.
    """

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponseBase]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponseBase:
        response = self.get_response(request)
        response.headers.setdefault("Cache-Control", "no-store")
        response.headers.setdefault(
            "Permissions-Policy", "camera=(), geolocation=(), microphone=(), payment=(), usb=()"
        )
        response.headers.setdefault("Cross-Origin-Resource-Policy", "same-origin")
        return response
