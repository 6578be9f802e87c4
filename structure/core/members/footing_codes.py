"""The checks of a pad by code: plain, with bars, and of a post on concrete."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from structure.core.clauses import Editions
from structure.core.members.ca_footing_checks import plain_bearing as ca_bearing
from structure.core.members.ca_footing_checks import plain_checks as ca_plain
from structure.core.members.ca_footing_reinforced import reinforced_checks as ca_reinforced
from structure.core.members.footing_checks import plain_bearing, plain_checks
from structure.core.members.footing_pad import Force, Pad
from structure.core.members.footing_reinforced import reinforced_checks
from structure.core.trace import Check

Checked = Callable[[Pad, Force, Force, Editions], tuple[Check, ...]]


@dataclass(frozen=True, slots=True)
class PadChecks:
    """One code's checks: by pad, service and factored load; `bearing` by pad, factored load and a note."""

    plain: Checked
    reinforced: Checked
    bearing: Callable[[Pad, Force, Editions, str], Check]


CHECKS: Mapping[str, PadChecks] = {
    "us": PadChecks(plain_checks, reinforced_checks, plain_bearing),
    "ca": PadChecks(ca_plain, ca_reinforced, ca_bearing),
}
