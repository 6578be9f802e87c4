"""Stored design runs asked again: what the engine of today says otherwise."""

from __future__ import annotations

from structure.core.cases.compare import differences, leaves
from structure.core.errors import InputError
from structure.models import DesignRun
from structure.wall_question import answer_wall


def run_differences(run: DesignRun) -> list[str]:
    """Every stored number, flag and choice of the run that comes out otherwise now, in words."""
    try:
        today = answer_wall(run.inputs["case"])
    except InputError as error:
        return [f"the stored question is no longer accepted: {error}"]
    return differences(dict(leaves(run.results)), dict(leaves(today)))
