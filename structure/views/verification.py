"""The published checks: what each source prints against what the engine computes, and the lines of each case."""

from __future__ import annotations

from itertools import groupby
from typing import Any

import yaml
from django.core.paginator import Paginator
from django.http import Http404, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from projects.requests import SignedIn
from structure.core.cases.files import FileError
from structure.forms.verification import ChecksFilter
from structure.published import published_case, published_rows

A_PAGE = 150


@require_GET
def verification(request: SignedIn) -> HttpResponse:
    """Every row that is asked for: source, printed, computed, difference."""
    context: dict[str, Any] = {"nav": "verification"}
    try:
        published = published_rows()
    except FileError as error:
        context["failure"] = str(error)
    else:
        chooser = ChecksFilter(request.GET, rows=published.rows)
        kept = chooser.kept(published.rows)
        page = Paginator(kept, A_PAGE).get_page(request.GET.get("page"))
        asked = request.GET.copy()
        asked.pop("page", None)
        context |= {
            "published": published,
            "met": published.count("met"),
            "missed": published.count("missed"),
            "differs": published.count("differs"),
            "chooser": chooser,
            "kept": len(kept),
            "page": page,
            "asked": asked.urlencode(),
            "groups": [(file, list(rows)) for file, rows in groupby(page, key=lambda row: row.file)],
        }
    part = request.headers.get("HX-Request") and not request.headers.get("HX-Boosted")
    return render(
        request, "structure/partials/checks.html" if part else "structure/verification.html", context
    )


@require_GET
def verification_case(request: SignedIn, case_id: str) -> HttpResponse:
    """One case: what is asked, every row, and the lines of calculation each row stands in."""
    try:
        found = published_case(case_id)
    except FileError as error:
        context: dict[str, Any] = {"nav": "verification", "failure": str(error)}
        return render(request, "structure/verification.html", context)
    if found is None:
        raise Http404
    case, rows = found
    # Several rows of one check stand in the same lines: they are shown once, under the first of them.
    lines = [
        (", ".join(row.path for row in held), steps)
        for steps, held in ((steps, list(group)) for steps, group in groupby(rows, key=lambda row: row.steps))
        if steps
    ]
    given = yaml.safe_dump(case.get("given"), sort_keys=False, allow_unicode=True, width=100)
    context = {"nav": "verification", "case": case, "rows": rows, "first": rows[0] if rows else None}
    return render(request, "structure/verification_case.html", context | {"lines": lines, "given": given})
