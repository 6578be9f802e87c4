"""Which sums of load cases a beam is checked under, by code: for strength, and for what comes and goes."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass

from structure.core.codes.ca import combinations as ca
from structure.core.codes.combination import Combination
from structure.core.codes.us import combinations as us

Formed = Callable[[Collection[str]], tuple[Combination, ...]]


@dataclass(frozen=True, slots=True)
class Sums:
    """`strength`: stress or factored sums of the cases present; `service_live`: the variable part in service."""

    strength: Formed
    service_live: Formed


SUMS: Mapping[str, Sums] = {
    "us": Sums(us.asd, us.service_live),
    "ca": Sums(ca.ultimate, ca.service_live),
}
