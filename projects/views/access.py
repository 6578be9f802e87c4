"""The doors of pages: who may come in, and which row they get."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_http_methods, require_safe

from projects.permissions import require
from projects.selectors import job_for

View = Callable[..., HttpResponse]

get_or_post = require_http_methods(["GET", "HEAD", "POST"])
get_only = require_safe


def job_page(action: str) -> Callable[[View], View]:
    """Hand the job of the address to a view as `job`.

    A job that does not exist and one of another company are both 404; a job of one's own company without the
    permission is 403. People who are not signed in never get here: the site asks everybody to sign in.
    """

    def door(view: View) -> View:
        @wraps(view)
        def entered(request: HttpRequest, job_pk: int, **kwargs: Any) -> HttpResponse:
            job = job_for(request.user, job_pk)
            require(request.user, action, job)
            return view(request, job=job, **kwargs)

        return entered

    return door


def company_page(action: str) -> Callable[[View], View]:
    """A page of the company: 403 without the permission."""

    def door(view: View) -> View:
        @wraps(view)
        def entered(request: HttpRequest, **kwargs: Any) -> HttpResponse:
            require(request.user, action)
            return view(request, **kwargs)

        return entered

    return door
