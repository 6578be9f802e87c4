"""How the bars of a pad lie: spacing each way, the band of a rectangular pad, lengths and weight."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from structure.core.clauses import Editions
from structure.core.codes.pads import pad_rules
from structure.core.codes.us import concrete_reinforced as code
from structure.core.members.footing_pad import SAME, Mat, Pad
from structure.core.trace import Step
from structure.core.units import quantity

LEAST_BARS = 2


@dataclass(frozen=True, slots=True)
class Layout:
    """The bars of one way: how many, over what width, spacing in the band and outside of it.

    `in_band` is less than `count` only for the short bars of a rectangular pad.
    """

    way: str
    count: int
    in_band: int
    band: float
    spacing: float
    outside: float | None
    length: float
    steps: tuple[Step, ...]

    @property
    def closest(self) -> float:
        return self.spacing if self.outside is None else min(self.spacing, self.outside)

    @property
    def widest(self) -> float:
        return self.spacing if self.outside is None else max(self.spacing, self.outside)

    def as_data(self, code: str = "us") -> dict[str, Any]:
        """One way of the `bars` of a result."""
        outside = self.outside
        return {
            "count": self.count,
            "spacing": quantity(self.spacing, "length", code),
            "length": quantity(self.length, "length", code),
            "in_band": self.in_band,
            "band": quantity(self.band, "length", code),
            "spacing_outside": None if outside is None else quantity(outside, "length", code),
        }


def layouts(pad: Pad, mat: Mat, editions: Editions) -> tuple[Layout, Layout]:
    """The bars along the length, then those along the width."""
    return (
        _way("along the length", mat.along_length, pad.length, pad.width, mat, editions),
        _way("along the width", mat.along_width, pad.width, pad.length, mat, editions),
    )


def _way(name: str, count: int, side: float, across: float, mat: Mat, editions: Editions) -> Layout:
    """Bars of length `side` spread over `across`; the short ones crowd into a band under the post."""
    at, d_b, clauses = editions, mat.bar.diameter, pad_rules(editions).clauses
    spacing = code.bar_spacing.under(clauses.spacing)
    length = code.bar_length.under(clauses.cover).step(at, b=side, cover=mat.cover)
    if across <= side * (1 + SAME):
        s = spacing.step(at, b=across, cover=mat.cover, d_b=d_b, n=float(count))
        return Layout(name, count, count, across, s.result, None, length.result, (s,))
    share = code.band_share.under(clauses.band).step(at, L=across, W=side)
    # Bars are whole and lie alike on both sides of the band.
    inside = math.ceil(share.result * count * (1 - SAME))
    inside += (count - inside) % 2
    # In a pad that is nearly square the covers at both ends leave less than the band.
    room = min(side, across - 2 * mat.cover - d_b)
    band = spacing.step(at, b=room, cover=0.0, d_b=0.0, n=float(max(inside, 2)), note="in the band")
    outer = (count - inside) // 2
    steps = (share, band)
    if not outer:
        # Nothing beyond the band: the pad beyond it is one wide gap.
        gap = (across - side) / 2 - mat.cover
        return Layout(name, count, inside, side, band.result, max(gap, band.result), length.result, steps)
    out = code.outer_spacing.under(clauses.band).step(
        at, L=across, W=side, cover=mat.cover, d_b=d_b, n=float(outer)
    )
    return Layout(name, count, inside, side, band.result, out.result, length.result, (*steps, out))


def bars_data(pad: Pad, mat: Mat, editions: Editions) -> dict[str, Any]:
    """The `bars` of a result: what is cut and tied, no laps and no waste."""
    along, across = layouts(pad, mat, editions)
    shown = editions.code
    weight = code.bar_weight.under(pad_rules(editions).clauses.cover).step(
        editions,
        n_1=float(along.count),
        l_1=along.length,
        n_2=float(across.count),
        l_2=across.length,
        w_b=mat.bar.weight,
    )
    return {
        "bar": mat.bar.name,
        "count": along.count,
        "total": along.count + across.count,
        "spacing": quantity(along.spacing, "length", shown),
        "length": quantity(along.length, "length", shown),
        "along_length": along.as_data(shown),
        "along_width": across.as_data(shown),
        "cover": quantity(mat.cover, "length", shown),
        "fy": quantity(mat.f_y, "stress", shown),
        "weight": quantity(weight.result, "force", shown),
        "steps": [*(s.as_data() for s in (*along.steps, *across.steps)), weight.as_data()],
    }
