"""Wood crushed across the grain by CSA O86:19 6.5.6.

Forces in N, lengths in mm, stresses in MPa.
"""

from __future__ import annotations

from structure.core.clauses import Clause
from structure.core.trace import formula

ALL_LOADS = Clause("CSA O86", "6.5.6.2")
NEAR_A_SUPPORT = Clause("CSA O86", "6.5.6.3")
SIZE = Clause("CSA O86", "6.5.6.4")
LENGTH = Clause("CSA O86", "6.5.6.5")

END_DISTANCE = 75.0  # mm: a bearing nearer to the end of the member has no K_B
LONGEST = 150.0  # mm: K_B is 1 from here on


@formula(
    "K_B",
    "K_1 + (K_2 - K_1) * (l_b - l_1) / (l_2 - l_1)",
    unit="",
    clause=LENGTH,
    K_1="",
    K_2="",
    l_b="mm",
    l_1="mm",
    l_2="mm",
)
def length_factor(K_1: float, K_2: float, l_b: float, l_1: float, l_2: float) -> float:
    """Length of bearing factor between two rows of its table. CSA O86 6.5.6.5.

    K_1 and K_2: of the rows [-], l_b: length along the grain, l_1 and l_2: of the rows [mm]. Plain number.
    """
    return K_1 + (K_2 - K_1) * (l_b - l_1) / (l_2 - l_1)


@formula("K_Zcp", "min(1.15, max(1, 0.85 + 0.15 * b / d))", unit="", clause=SIZE, b="mm", d="mm")
def size_factor(b: float, d: float) -> float:
    """Size factor for bearing of sawn lumber, 1 to 1.15. CSA O86 6.5.6.4.

    b: width of the member that is crushed, of one ply where there are several on edge, since each is sawn on its
    own; d: its depth [mm]. Plain number.
    """
    factor: float = min(1.15, max(1, 0.85 + 0.15 * b / d))
    return factor


@formula(
    "Q_r",
    "phi * F_cp * b * l_b * K_B * K_Zcp",
    unit="N",
    clause=ALL_LOADS,
    phi="",
    F_cp="MPa",
    b="mm",
    l_b="mm",
    K_B="",
    K_Zcp="",
)
def bearing_resistance(phi: float, F_cp: float, b: float, l_b: float, K_B: float, K_Zcp: float) -> float:
    """Factored bearing resistance across the grain under all loads. CSA O86 6.5.6.2.

    phi: 0.8, F_cp [MPa], b: width, l_b: length along the grain [mm], factors plain. [N].
    """
    return phi * F_cp * b * l_b * K_B * K_Zcp


@formula(
    "Q_r'",
    "2 / 3 * phi * F_cp * b * l_b * K_Zcp",
    unit="N",
    clause=NEAR_A_SUPPORT,
    phi="",
    F_cp="MPa",
    b="mm",
    l_b="mm",
    K_Zcp="",
)
def bearing_resistance_near(phi: float, F_cp: float, b: float, l_b: float, K_Zcp: float) -> float:
    """Factored bearing resistance under the loads no further than the depth from the support. CSA O86 6.5.6.3.

    phi: 0.8, F_cp [MPa], b: width, l_b: mean length of both bearings, at most 1.5 times the lesser [mm], K_Zcp plain;
    K_B is 1 at the supports of a beam. [N].
    """
    return 2 / 3 * phi * F_cp * b * l_b * K_Zcp


@formula(
    "l_b",
    "Q_f / (phi * F_cp * b * K_Zcp)",
    unit="mm",
    clause=ALL_LOADS,
    Q_f="N",
    phi="",
    F_cp="MPa",
    b="mm",
    K_Zcp="",
)
def required_length(Q_f: float, phi: float, F_cp: float, b: float, K_Zcp: float) -> float:
    """Length whose bearing is just used up, without K_B. CSA O86 6.5.6.2.

    Q_f: factored force [N], phi: 0.8, F_cp [MPa], b: width [mm], K_Zcp plain. [mm].
    """
    return Q_f / (phi * F_cp * b * K_Zcp)
