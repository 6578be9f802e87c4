"""What a beam costs installed, from whoever knows prices: an app registers itself, this one knows none.

Prices are for those who may see them. A provider says None in the place of an amount, with the reason,
where a price is missing; nothing is ever taken as zero.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

Rows = Sequence[Mapping[str, Any]]


@dataclass(frozen=True, slots=True)
class BeamCost:
    """The direct cost of one beam set in place; None with `why` where a price is missing."""

    amount: Decimal | None
    why: str = ""


@dataclass(frozen=True)
class Costs:
    """Costs by the key of a candidate, what is in them, and a caution such as invented prices."""

    by_key: Mapping[str, BeamCost]
    currency: str
    basis: str
    caution: str = ""


Provider = Callable[[Any, Any, Any, Rows], Costs | None]
_provider: list[Provider] = []


def register_costs(provider: Provider) -> None:
    """Ask `provider(job, user, run, rows)` from now on; it answers None to who may see no price."""
    _provider[:] = [provider]


def costs_for(job: Any, user: Any, run: Any, rows: Rows) -> Costs | None:
    """Costs of these candidates for this person, None where there are no prices to show."""
    return _provider[0](job, user, run, rows) if _provider else None
