"""A steel beam where it bears, under any code: the web above the bearing, the plate and the wood below it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Protocol

import numpy as np

from structure.core.clauses import Editions
from structure.core.codes.ca import wood, wood_bearing
from structure.core.codes.us.wood_bearing import ACROSS_THE_GRAIN
from structure.core.materials.rolled import RolledSection
from structure.core.members.beam_demand import Demands
from structure.core.members.beam_question import Support
from structure.core.members.beam_result import SupportBearing
from structure.core.members.ca_wood_values import support_duration
from structure.core.members.steel_plate import Plate, length_on_wood, plate_for
from structure.core.trace import Check, Step


class Web(Protocol):
    """The web of a shape above one bearing, by the rules of one code."""

    def checks(
        self, where: str, R: float, combination: str, length: float, editions: Editions
    ) -> tuple[Check, ...]: ...

    def required(self, R: float, editions: Editions) -> float:
        """The shortest bearing whose web holds."""


@dataclass(frozen=True, slots=True)
class Wood:
    """What a support of wood bears under the sum that is worst for it: pressure, force, sum, lines of the sheet."""

    F_c: float
    R: float
    combination: str
    steps: tuple[Step, ...] = ()


def supports(
    demands: Demands, weight: int, section: RolledSection, web_at: Callable[[float], Web], editions: Editions
) -> tuple[tuple[SupportBearing, ...], Mapping[str, Plate]]:
    """Every support with its checks and needed length, and the plates by support.

    `web_at`: the web, by the distance from the support to the nearer end of the beam.
    """
    question, block = demands.question, demands.strength
    reactions = block.response.reactions[block.rows(weight)]
    found: list[SupportBearing] = []
    plates: dict[str, Plate] = {}
    for n in range(reactions.shape[1]):
        row = int(reactions[:, n].argmax())
        R = max(float(reactions[row, n]), 0.0)
        name = block.names[int(block.combination_of[row])]
        length = question.bearings[n] if question.bearings else None
        at = question.line.supports[n]
        web = web_at(min(at, question.line.length - at))
        under = question.support
        below = None if under is None or R <= 0 else WOOD[demands.code](demands, weight, n, under, editions)
        checks: tuple[Check, ...] = ()
        if length is not None and R > 0:
            where = f"support {n + 1} from the left"
            checks = web.checks(where, R, name, length, editions)
            if under is not None and below is not None:
                plate = plate_for(below.R, length, section, below.F_c, editions)
                checks = (
                    *checks,
                    CRUSHED[demands.code](plate, f"{where}, {under.material}", below, editions),
                )
                if plate.needed:
                    plates[str(n)] = plate
        required = web.required(R, editions)
        if below is not None:
            required = max(required, length_on_wood(below.R, section, below.F_c, editions))
        found.append(SupportBearing(n, R, name, length, required, checks))
    return tuple(found), plates


def _us_wood(demands: Demands, weight: int, n: int, under: Support, editions: Editions) -> Wood:
    block = demands.strength
    reactions = block.response.reactions[block.rows(weight)][:, n]
    row = int(reactions.argmax())
    return Wood(under.F_c_perp, float(reactions[row]), block.names[int(block.combination_of[row])])


def _ca_wood(demands: Demands, weight: int, n: int, under: Support, editions: Editions) -> Wood:
    """The sum whose reaction is largest for its load duration. CSA O86 6.5.6.2; no K_B is counted."""
    block = demands.strength
    reactions = block.response.reactions[block.rows(weight)][:, n]
    lasting = [support_duration(demands, weight, n, c) for c in range(len(block.combinations))]
    K_D = np.array([each.K_D for each in lasting])[block.combination_of]
    row = int((reactions / K_D).argmax())
    combination = int(block.combination_of[row])
    F_cp = wood.strength.step(
        editions,
        note=f"fcp of {under.material}",
        f=under.F_c_perp,
        K_D=float(K_D[row]),
        K_H=1.0,
        K_S=1.0,
        K_T=1.0,
    )
    steps = (*lasting[combination].steps(editions), F_cp)
    return Wood(wood.PHI_COMPRESSION * F_cp.result, float(reactions[row]), block.names[combination], steps)


def _us_crushed(plate: Plate, where: str, below: Wood, editions: Editions) -> Check:
    on = f"a plate {plate.label}" if plate.needed else "the flange alone"
    return Check(
        "support_bearing", plate.pressure.result, below.F_c, "stress", below.combination,
        ACROSS_THE_GRAIN.at(editions), plate.steps, note=f"{where}, without C_b, on {on}",
    )  # fmt: skip


def _ca_crushed(plate: Plate, where: str, below: Wood, editions: Editions) -> Check:
    on = f"a plate {plate.label}" if plate.needed else "the flange alone"
    Q_r = wood_bearing.bearing_resistance.step(
        editions,
        phi=wood.PHI_COMPRESSION,
        F_cp=below.steps[-1].result,
        b=plate.B,
        l_b=plate.N,
        K_B=1.0,
        K_Zcp=1.0,
    )
    return Check(
        "support_bearing", below.R, Q_r.result, "force", below.combination, Q_r.clause,
        (*plate.steps, *below.steps, Q_r), note=f"{where}, without K_B, on {on}",
    )  # fmt: skip


WOOD: Mapping[str, Callable[[Demands, int, int, Support, Editions], Wood]] = {"us": _us_wood, "ca": _ca_wood}
CRUSHED: Mapping[str, Callable[[Plate, str, Wood, Editions], Check]] = {"us": _us_crushed, "ca": _ca_crushed}
