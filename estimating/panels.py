"""What estimating adds to the job page and the main navigation."""

from __future__ import annotations

from typing import Any

from estimating.models import Estimate
from estimating.selectors import latest_estimate, out_of_date
from projects.panels import MainLink, Panel, Summary, register_main_link, register_panel


def estimate_summary(job: Any, user: Any) -> Summary:
    """The newest revision, whether it is priced, and whether it still holds."""
    estimate = latest_estimate(job)
    if estimate is None:
        return Summary(("Nothing priced yet.",), "not built", "muted")
    reasons = out_of_date(estimate)
    lines = [f"Revision {estimate.revision}, {estimate.get_status_display()}, {estimate.dated:%Y-%m-%d}"]
    if estimate.total is None:
        missing = len(estimate.document["missing"])
        return Summary((*lines, f"No total: {missing} prices missing"), "not priced", "bad")
    lines.append(f"Total {estimate.document['rates']['currency']} {estimate.total:,.2f}")
    if reasons:
        return Summary((*lines, *reasons), "out of date", "warn")
    return Summary(
        tuple(lines), "issued" if estimate.issued else "draft", "ok" if estimate.issued else "note"
    )


def cut_list_summary(job: Any, user: Any) -> Summary:
    """How many boards are to be cut. No prices: the crew reads this."""
    estimate = latest_estimate(job)
    if estimate is None:
        return Summary(("No cut list yet.",), "", "muted")
    return Summary((f"{boards_of(estimate)} boards to buy and cut, revision {estimate.revision}",))


def boards_of(estimate: Estimate) -> int:
    """Boards in all cut plans of an estimate."""
    return sum(len(plan["boards"]) for plan in estimate.document["cuts"])


def register_all() -> None:
    """Called once when the app is ready."""
    register_panel(Panel("estimate", "Estimate", "estimating:quote", estimate_summary, "see_prices", 60))
    register_panel(Panel("cut_list", "Cut list", "estimating:cut_list", cut_list_summary, "view_job", 65))
    register_main_link(MainLink("prices", "Prices", "estimating:prices", "see_prices", 60))
