"""One page for every act on a paper: a form, the service that does it, and the way back."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpResponse
from django.shortcuts import redirect, render

from projects.errors import Conflict, Refused
from projects.forms.paper import PaperForm, VersionedForm
from projects.requests import SignedIn


@dataclass(frozen=True)
class Act:
    """What can be done to a row: how it is asked, and which service does it."""

    title: str
    button: str
    form: type[PaperForm]
    service: Callable[..., Any]
    done: str
    lead: str = ""
    #: Whether what the service returns is shown in the sentence, and values the form starts from.
    initial: Callable[[Any], dict[str, Any]] = field(default=lambda row: {})
    danger: bool = False


def act_page(
    request: SignedIn,
    act: Act,
    *,
    row: Any,
    keyword: str,
    back: str,
    context: dict[str, Any],
    form_kwargs: dict[str, Any] | None = None,
) -> HttpResponse:
    """Show the form, or do the act. A refusal or a conflict comes back with everything that was typed."""
    extra = form_kwargs or {}
    versioned = issubclass(act.form, VersionedForm)
    status = 200
    if request.method == "POST":
        form = act.form(request.POST, request.FILES, **extra)
        if form.is_valid():
            try:
                act.service(**{keyword: row}, actor=request.user, **form.cleaned_data)
            except Conflict as conflict:
                row.refresh_from_db()
                if isinstance(form, VersionedForm):
                    form.put_conflict(conflict, row.version)
                else:
                    form.put_refusal(conflict)
                status = 409
            except Refused as refusal:
                form.put_refusal(refusal)
            except ValidationError as wrong:
                for sentence in wrong.messages:
                    form.add_error(None, sentence)
            else:
                messages.success(request, act.done)
                return redirect(back)
        status = 422 if status == 200 else status
    else:
        initial = act.initial(row)
        if versioned:
            initial["version"] = row.version
        form = act.form(initial=initial, **extra)
    return render(
        request,
        "projects/act.html",
        {**context, "act": act, "form": form, "row": row, "back": back},
        status=status,
    )
