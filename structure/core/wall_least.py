"""The least length of bearing that a beam has on its post in Canada, whatever the wood there would carry."""

from __future__ import annotations

from structure.core.clauses import Clause
from structure.core.codes.ca import nbc
from structure.core.codes.ca.scope import supported_length
from structure.core.materials.section import Section
from structure.core.takedown import Level

TABLE_NOTE = Clause("NBC", "Span Table 9.23.4.2.-H")
LONG_JOISTS, LONGER_BEARING, THREE_PLIES = (
    4_200.0,
    114.0,
    3,
)  # mm, mm: notes to the span tables of built-up beams


def least_bearing(beam: Section, lowest: Level) -> tuple[float, Clause]:
    """89 mm; 114 mm for three plies of lumber that support more than 4.2 m of joists. [mm] and the clause.

    NBC 9.23.8.1. and the notes to its span tables, which let other built-up beams have 76 mm; that is not used here.
    """
    held = beam.family == "sawn" and beam.plies == THREE_PLIES
    if held and lowest.framing == "perpendicular":
        spans = [
            side.span or 0.0
            for side in (lowest.left, lowest.right)
            if side is not None and side.support != "none"
        ]
        left, right = (*spans, 0.0, 0.0)[:2]
        if supported_length(L_1=left, L_2=right) > LONG_JOISTS + 1e-6:
            return LONGER_BEARING, TABLE_NOTE
    return nbc.LEAST_BEAM_BEARING, nbc.BEAM_BEARING
