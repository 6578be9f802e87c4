"""Pages of the authorities and their rules."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_safe

from projects.errors import Conflict, Refused
from projects.forms.paper import JurisdictionForm
from projects.models import Jurisdiction
from projects.permissions import can, require
from projects.permit_selectors import jurisdictions_visible_to
from projects.requests import SignedIn
from projects.services.jurisdictions import DAY_RULES, jurisdiction_save

get_or_post = require_http_methods(["GET", "HEAD", "POST"])


@require_safe
def jurisdiction_list(request: SignedIn) -> HttpResponse:
    """Every authority of the company with its days."""
    rows = jurisdictions_visible_to(request.user).prefetch_related("required_documents", "inspection_rules")
    return render(
        request,
        "projects/jurisdictions.html",
        {"jurisdictions": rows, "nav": "jurisdictions", "may_edit": can(request.user, "edit_jurisdiction")},
    )


def _initial(authority: Jurisdiction) -> dict[str, Any]:
    names = ["name", "code", "region", "lapse_source", "source", "note", "version"]
    names += [f"{rule}_{part}" for rule in DAY_RULES for part in ("days", "kind")]
    return {
        **{name: getattr(authority, name) for name in names},
        "documents": "\n".join(paper.title for paper in authority.required_documents.all()),
        "inspections": "\n".join(f"{rule.kind}: {rule.title}" for rule in authority.inspection_rules.all()),
    }


@get_or_post
def jurisdiction_edit(request: SignedIn, pk: int | None = None) -> HttpResponse:
    """Make an authority, or change one."""
    authority = None if pk is None else get_object_or_404(jurisdictions_visible_to(request.user), pk=pk)
    require(request.user, "edit_jurisdiction", authority)
    status = 200
    if request.method == "POST":
        form = JurisdictionForm(request.POST)
        if form.is_valid():
            values = dict(form.cleaned_data)
            try:
                jurisdiction_save(
                    actor=request.user,
                    documents=values.pop("documents"),
                    inspections=values.pop("inspections"),
                    version=values.pop("version") or 0,
                    values=values,
                    jurisdiction=authority,
                )
            except Refused as refusal:
                if isinstance(refusal, Conflict) and authority is not None:
                    authority.refresh_from_db()
                    form.put_conflict(refusal, authority.version)
                else:
                    form.put_refusal(refusal)
            else:
                messages.success(request, "The jurisdiction is saved.")
                return redirect("projects:jurisdictions")
        status = 422
    else:
        form = JurisdictionForm(initial=_initial(authority) if authority else None)
    return render(
        request,
        "projects/jurisdiction_form.html",
        {
            "form": form,
            "jurisdiction": authority,
            "nav": "jurisdictions",
            "back": reverse("projects:jurisdictions"),
        },
        status=status,
    )
