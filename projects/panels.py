"""What other apps add to our pages, so that this app need not know them.

An app registers, in its AppConfig.ready(), panels of the job page, links of the main navigation, and pages of
the job's own navigation.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from django.urls import reverse

from projects.permissions import can


@dataclass(frozen=True)
class Summary:
    """What a panel shows of a job: a few lines, and a word for how it stands.

    `tone` is the colour of that word: `ok`, `warn`, `bad`, `note` or `muted`.
    """

    lines: tuple[str, ...]
    status: str = ""
    tone: str = "note"


@dataclass(frozen=True)
class Panel:
    """One panel of the job page. `summary(job, user)` gives a Summary."""

    key: str
    title: str
    url_name: str
    summary: Callable[[Any, Any], Summary]
    permission: str = "view_job"
    order: int = 100
    in_nav: bool = True


@dataclass(frozen=True)
class MainLink:
    """One link of the main navigation; `key` is what a page sets as `nav` when it is current."""

    key: str
    title: str
    url_name: str
    permission: str = "view_job"
    order: int = 100


@dataclass(frozen=True)
class ShownPanel:
    """A panel with its answer for one job."""

    panel: Panel
    url: str
    summary: Summary


_panels: dict[str, Panel] = {}
_links: dict[str, MainLink] = {}


def register_panel(panel: Panel) -> None:
    """Add a panel to the job page; the same key registered again replaces it."""
    _panels[panel.key] = panel


def register_main_link(link: MainLink) -> None:
    """Add a link to the main navigation; the same key registered again replaces it."""
    _links[link.key] = link


def panels_for(job: Any, user: Any) -> list[ShownPanel]:
    """The panels this person may see of this job, in order, computed."""
    shown = sorted(_panels.values(), key=lambda panel: (panel.order, panel.title))
    return [
        ShownPanel(panel, reverse(panel.url_name, args=[job.pk]), panel.summary(job, user))
        for panel in shown
        if can(user, panel.permission, job)
    ]


def job_nav_for(job: Any, user: Any) -> list[dict[str, str]]:
    """Links of the job's navigation that other apps add: key, title, url."""
    shown = sorted(_panels.values(), key=lambda panel: (panel.order, panel.title))
    return [
        {"key": panel.key, "title": panel.title, "url": reverse(panel.url_name, args=[job.pk])}
        for panel in shown
        if panel.in_nav and can(user, panel.permission, job)
    ]


def main_links_for(user: Any) -> list[dict[str, str]]:
    """Links that other apps add to the main navigation: key, title, url."""
    shown = sorted(_links.values(), key=lambda link: (link.order, link.title))
    return [
        {"key": link.key, "title": link.title, "url": reverse(link.url_name)}
        for link in shown
        if can(user, link.permission)
    ]
