"""Clauses and limits of the National Building Code of Canada that stand beside the calculation.

Division B unless said. N, mm, MPa.
"""

from __future__ import annotations

from structure.core.clauses import Clause

GOOD_PRACTICE = Clause("NBC", "9.4.1.1.")
LOAD_PATH = Clause("NBC", "9.4.1.1.")
SCOPE = Clause("NBC", "Division A, 1.3.3.3.")
FRAMING_LIMITS = Clause("NBC", "9.23.1.1.")
LIGHT_FRAME = Clause("NBC", "9.4.2.1.")
FOUNDATION_LIMITS = Clause("NBC", "9.15.1.1.")
FOOTING_SPANS = Clause("NBC", "9.15.3.3.")
COLUMN_LIMITS = Clause("NBC", "9.17.1.1.")
STEEL_COLUMNS = Clause("NBC", "9.17.3.4.")
OFFSET_BEARING_WALL = Clause("NBC", "9.23.9.8.")
RAFTER_TIE = Clause("NBC", "9.23.14.8.")
BEAM_BEARING = Clause("NBC", "9.23.8.1.")
UPLIFT = Clause("NBC", "4.1.3.2.")

MAX_STOREYS = 3  # 1.3.3.3. of Division A
MAX_BUILDING_AREA = 600.0e6  # mm2, the same
MAX_SPAN = 12_200.0  # mm, 9.4.2.1. and 9.23.1.1.
MAX_JOIST_SPACING = 600.0  # mm, the same
MAX_LIVE = 0.0024  # MPa, 9.4.1.1., 9.15.3.3., 9.17.1.1., 9.23.1.1.
MAX_FLOORS_ON_COLUMNS = 2  # 9.17.1.1.
MAX_SUPPORTED_LENGTH = 5_000.0  # mm, 9.17.1.1.
MAX_FOOTING_SPAN = 4_900.0  # mm, 9.15.3.3.
LEAST_SOIL = 0.075  # MPa, 9.15.1.1.
MAX_ADJUSTABLE_COLUMN = 36_000.0  # N, 9.17.3.4.
LEAST_BEAM_BEARING = 89.0  # mm, 9.23.8.1.
SLAB_THICKNESS = 75.0  # mm, 9.16.4.3.
