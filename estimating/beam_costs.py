"""What each beam of a run costs in place, for the page of sizes and for those who may see prices."""

from __future__ import annotations

from typing import Any

from django.utils import timezone

from estimating.core.options import Place, beam_installed
from estimating.core.rates import read_rates
from estimating.core.settings import read_settings
from estimating.selectors import latest_estimate, price_book_of, prices_of
from projects.permissions import can
from structure.costs import BeamCost, Costs, Rows, register_costs
from structure.measured import measured
from structure.shown import inches

BASIS = (
    "material with cutting waste, fastening of the plies, hangers, lifting and labour to set it, before contingency, "
    "overhead, profit and tax; posts, pads and shoring are not in it."
)
INVENTED = "Prices are invented."


def run_beam_costs(job: Any, user: Any, run: Any, rows: Rows) -> Costs | None:
    """Direct cost of every beam that passes, at today's prices; None to who may see none or without a book."""
    if not can(user, "see_prices", job):
        return None
    book = price_book_of(job.company, job.code)
    if book is None:
        return None
    rates, last = read_rates(book.rates), latest_estimate(job)
    settings = read_settings({**(last.takeoff_settings if last else {}), "units": job.units})
    beam = run.results["beam"]
    place = Place(
        job.code, inches(beam["length"]), beam["mounting"] == "flush", int(beam.get("hangers") or 0)
    )
    beams = [(row["key"], measured(row)) for row in rows if row["passes"]]
    found = beam_installed(beams, place, settings, prices_of(book), rates, timezone.localdate())
    return Costs(
        {key: BeamCost(each.amount, each.why) for key, each in found.items()},
        rates.currency,
        BASIS,
        INVENTED if book.invented else "",
    )


def register_all() -> None:
    """Called once when the app is ready."""
    register_costs(run_beam_costs)
