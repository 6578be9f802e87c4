"""Forces and deflections of continuous beams, exact and free of units."""

from __future__ import annotations

from structure.core.statics.model import CASES, Bay, BeamLine, Load
from structure.core.statics.response import Extremes, Response
from structure.core.statics.solve import analyse, analyse_sets

__all__ = ["CASES", "Bay", "BeamLine", "Extremes", "Load", "Response", "analyse", "analyse_sets"]
