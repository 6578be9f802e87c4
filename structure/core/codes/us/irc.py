"""Rules of the IRC that stand beside the calculation: pad sizes, offset bearing walls, scope."""

from __future__ import annotations

from structure.core.clauses import Clause

COMPLETE_LOAD_PATH = Clause("IRC", "R301.1")
ENGINEERED_DESIGN = Clause("IRC", "R301.1.3")
STORIES = Clause("IRC", "R101.2")
SNOW_RANGE = Clause("IRC", "R301.2.3")
ROOF_SPAN_RANGE = Clause("IRC", "R802.10.2.1")
FOOTING_SIZE = Clause("IRC", "R403.1.1")
OFFSET_BEARING_WALL = Clause("IRC", "R502.4")

MIN_FOOTING_THICKNESS = 6.0  # in, R403.1.1
MIN_PROJECTION = 2.0  # in, R403.1.1
MAX_GROUND_SNOW = 70.0 / 144.0  # psi, R301.2.3
MAX_SPAN = 36.0 * 12.0  # in, R802.10.2.1: width parallel to the joist, rafter or truss span
MAX_STORIES = 3  # R101.2
BLOCKING_SPACING = 48.0  # in, R502.4: blocks between doubled joists that are held apart
