"""What pages of a job share: its navigation, its stage rail, and what this person may do."""

from __future__ import annotations

from typing import Any

from django import template
from django.urls import NoReverseMatch, reverse

from projects.panels import job_nav_for
from projects.permissions import can
from projects.standing import JobStanding
from projects.workflow import STAGE_TITLES, WORK_STAGES, Stage

register = template.Library()


@register.filter
def after_label(sentence: Any, label: Any) -> str:
    """A refusal without the name of its field in front, for where the name stands there already."""
    text, name = str(sentence), f"{label}: "
    rest = text[len(name) :] if text.casefold().startswith(name.casefold()) else text
    return rest[:1].upper() + rest[1:]


#: Pages of this app in the navigation of a job; those of other apps come from their panels.
BEFORE = (("Job", "projects:job"), ("Survey", "projects:survey"), ("Verdict", "projects:verdict"))
AFTER = (
    ("Engineer", "projects:engineering"),
    ("Permit", "projects:permit"),
    ("Chases", "projects:chases"),
    ("Hold points", "projects:holds"),
)


def _own(pages: tuple[tuple[str, str], ...], job: Any) -> list[dict[str, str]]:
    found = []
    for title, name in pages:
        try:
            found.append({"title": title, "url": reverse(name, args=[job.pk])})
        except NoReverseMatch:  # pragma: no cover - a page that this installation does not have
            continue
    return found


@register.simple_tag(takes_context=True)
def job_nav_links(context: dict[str, Any], job: Any) -> list[dict[str, Any]]:
    """Title, url and whether it is the current one, by the address of the page."""
    request = context["request"]
    links = _own(BEFORE, job) + job_nav_for(job, request.user) + _own(AFTER, job)
    best = max((link["url"] for link in links if request.path.startswith(link["url"])), key=len, default=None)
    return [{**link, "current": link["url"] == best} for link in links]


@register.simple_tag
def may(user: Any, action: str, obj: Any = None) -> bool:
    """`{% may user "edit_job" job as ok %}`."""
    return can(user, action, obj)


@register.simple_tag
def rail(standing: JobStanding) -> list[dict[str, Any]]:
    """The ten stages with how each stands: done, here, blocked or ahead."""
    here = standing.job.stage_now
    words = {"done": "done", "here": "here", "blocked": "here, blocked", "ahead": "ahead"}
    stops = []
    for stage in WORK_STAGES:
        if here is Stage.CLOSED or stage.number < here.number:
            state = "done"
        elif stage is here:
            state = "blocked" if standing.blocked_by else "here"
        else:
            state = "ahead"
        stops.append(
            {"number": stage.number, "name": STAGE_TITLES[stage], "state": state, "word": words[state]}
        )
    return stops


HOLD_TONES = {
    "met": "met",
    "unmet": "unmet",
    "overridden": "overridden",
    "skipped": "skipped",
    "not needed": "skipped",
}


@register.filter
def hold_class(status: str) -> str:
    """The class of a hold point by its status."""
    return f"hold--{HOLD_TONES[status]}"


TONES = {
    "bearing": "warn",
    "treat as bearing": "warn",
    "nothing found that bears": "note",
    "met": "ok",
    "unmet": "bad",
    "overridden": "warn",
    "skipped": "muted",
    "not needed": "muted",
}


@register.filter
def tone(word: str) -> str:
    """The tone of a status word."""
    return TONES.get(word, "note")
