"""What differs between the codes for shoring walls: sizes of the trade, soil, and how prying is held down.

Everything without a clause is common practice. Lengths and pressures in the units of the code.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from structure.core.clauses import Clause
from structure.core.codes.ca import nbc
from structure.core.codes.ca.wood_columns import SLENDERNESS as O86_SLENDERNESS
from structure.core.codes.us import shoring as us
from structure.core.codes.us.soil import PRESUMPTIVE, PRESUMPTIVE_FLOOR
from structure.core.codes.us.wood_columns import SLENDERNESS as NDS_SLENDERNESS


@dataclass(frozen=True, slots=True)
class ShoringRules:
    """One code's own. `spacings`: between shores, widest first; `spare`: height that shores need at the least.

    `dead_factor`, `live_factor`: on what pries up a far end; `holding`: on the dead load that holds it. `people`: a
    free end loaded by people alone is held against this part of the dead load.
    """

    spacings: tuple[float, ...]
    least_spacing: float
    most_spacing: float
    spare: float
    near: float
    near_words: str
    joist_width: float
    system_spacing: float
    slab: float
    soil: float
    soil_clause: Clause
    soil_words: str
    slenderness: Clause
    held_down: Clause
    dead_factor: float
    live_factor: float
    holding: float
    people: float
    light_duty: float
    light_words: str
    jacking: float
    jacking_words: str
    construction_words: str


SHORING: Mapping[str, ShoringRules] = {
    "us": ShoringRules(
        # They fall on joists 16 in apart or divide a sheet; wider than 96 in a header is a beam of its own.
        spacings=(48.0, 32.0, 24.0, 16.0, 12.0),
        least_spacing=6.0,
        most_spacing=96.0,
        spare=12.0,
        near=36.0,
        near_words="3 ft",
        joist_width=1.5,
        system_spacing=24.0,
        slab=us.SLAB_THICKNESS,
        soil=PRESUMPTIVE_FLOOR,
        soil_clause=PRESUMPTIVE,
        soil_words="least presumptive value of IRC Table R401.4.1",
        slenderness=NDS_SLENDERNESS,
        held_down=us.HELD_DOWN,
        dead_factor=1.0,
        live_factor=1.0,
        holding=us.DEAD_AGAINST_UPLIFT,
        people=1.0,
        light_duty=20.0 / 144.0,
        light_words="very light duty, ASCE 37 (memory)",
        jacking=0.125,
        jacking_words="1/8 in",
        construction_words="Construction load counts with C_D 1.25 (seven days in all)",
    ),
    "ca": ShoringRules(
        spacings=(1200.0, 800.0, 600.0, 400.0, 300.0),
        least_spacing=150.0,
        most_spacing=2400.0,
        spare=300.0,
        near=900.0,
        near_words="900 mm",
        joist_width=38.0,
        system_spacing=610.0,
        slab=nbc.SLAB_THICKNESS,
        soil=nbc.LEAST_SOIL,
        soil_clause=nbc.FOUNDATION_LIMITS,
        soil_words="75 kPa, the least that NBC 9.15. covers",
        slenderness=O86_SLENDERNESS,
        held_down=nbc.UPLIFT,
        dead_factor=1.25,
        live_factor=1.5,
        holding=0.9,
        people=0.9,
        light_duty=0.001,
        light_words="very light duty, 1 kPa as ASCE 37 has it (memory)",
        jacking=3.0,
        jacking_words="3 mm",
        construction_words="Construction load alone counts as short-term, K_D 1.15 (seven days in all)",
    ),
}
