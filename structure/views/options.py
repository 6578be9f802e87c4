"""Beams side by side, and all that were tried."""

from __future__ import annotations

from typing import Any

from django.utils.html import format_html
from django.utils.safestring import SafeString
from django_tables2 import RequestConfig

from projects.models import Job
from projects.permissions import can
from projects.requests import SignedIn
from structure.forms.options import OptionsFilter
from structure.member_pictures import run_section_picture
from structure.models import DesignRun
from structure.options_page import options_of, strip_picture
from structure.results import refusals, remarks
from structure.selectors import run_is_stale
from structure.tables import CandidateTable
from structure.views.runs import run_page

A_PAGE = 25
TAKE = "take-beam"


@run_page("options", part="every-beam")
def options(request: SignedIn, job: Job, run: DesignRun) -> dict[str, Any]:
    """The best of each family, drawn and compared, and the whole list, filtered as asked."""
    found = options_of(run, request.user)
    may_take = can(request.user, "choose_schedule", job) and not run_is_stale(run)
    chooser = OptionsFilter(request.GET, rows=found.rows)
    kept = chooser.kept(found.rows)
    table = CandidateTable(kept, take=_take if may_take else None, priced=found.costs is not None)
    table.caption = f"{len(kept)} of {len(found.rows)} beams tried"
    RequestConfig(request, paginate={"per_page": A_PAGE}).configure(table)
    return {
        "may_take": may_take,
        "take": TAKE,
        "options": found,
        "chooser": chooser,
        "table": table,
        "strip_svg": strip_picture(found),
        "section_svg": run_section_picture(run),
        "refusals": refusals(run.results),
        "remarks": remarks(run.results),
    }


def _take(row: Any) -> SafeString:
    """The button that takes this beam; it belongs to the form around the comparison."""
    return format_html(
        '<button class="btn btn--small" form="{}" name="beam" value="{}" aria-label="Take {}">Take</button>',
        TAKE,
        row["key"],
        row["label"],
    )
