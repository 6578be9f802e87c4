"""Flitch beams: wood plies and steel plates bolted side by side, loads shared by stiffness.

Plies and plates bend to one curve about one axis, so each takes its part of E I; nothing slips along the
beam. Forces in lbf, lengths in inches, stresses in psi.
"""

from __future__ import annotations

from structure.core.clauses import COMMON_PRACTICE, Clause
from structure.core.trace import formula

SHARING = Clause("statics", "transformed section")
PLATE = Clause("AISC 360", "F11.1")
SPACING = Clause(
    COMMON_PRACTICE.document, "bolts of a flitch beam at most 24 in apart, in two staggered rows"
)
LAYOUT = Clause(COMMON_PRACTICE.document, "flitch plates lie between plies")
DISTANCES = Clause("NDS", "12.5.1")

WIDEST_SPACING = 24.0  # in; common practice


@formula("n", "E_s / E_w", unit="", clause=SHARING, E_s="psi", E_w="psi")
def modular_ratio(E_s: float, E_w: float) -> float:
    """How many times stiffer steel is than the wood. Statics.

    E_s: of steel, E_w: of the wood, adjusted [psi]. Plain number.
    """
    return E_s / E_w


@formula("I_s", "N * t * h ** 3 / 12", unit="in**4", clause=SHARING, N="", t="in", h="in")
def plate_inertia(N: float, t: float, h: float) -> float:
    """Second moment of area of the plates on edge. Statics.

    N: plates, t: thickness, h: depth of a plate [in]. [in**4].
    """
    inertia: float = N * t * h**3 / 12
    return inertia


@formula("I_t", "I_w + n * I_s", unit="in**4", clause=SHARING, I_w="in**4", n="", I_s="in**4")
def transformed_inertia(I_w: float, n: float, I_s: float) -> float:
    """Second moment of area of the whole, the plates turned into wood. Statics.

    I_w: of the wood, I_s: of the plates [in**4], n plain. [in**4].
    """
    return I_w + n * I_s


@formula("k_s", "n * I_s / I_t", unit="", clause=SHARING, n="", I_s="in**4", I_t="in**4")
def steel_share(n: float, I_s: float, I_t: float) -> float:
    """Part of every load that the plates take. Statics.

    n plain, I_s, I_t [in**4]. Plain number, 0 to 1.
    """
    return n * I_s / I_t


@formula("M_w", "M * (1 - k_s)", unit="lbf*in", clause=SHARING, M="lbf*in", k_s="")
def wood_moment(M: float, k_s: float) -> float:
    """Moment that the wood takes. Statics. M [lbf*in], k_s plain. [lbf*in]."""
    return M * (1 - k_s)


@formula("M_s", "M * k_s", unit="lbf*in", clause=SHARING, M="lbf*in", k_s="")
def plate_moment(M: float, k_s: float) -> float:
    """Moment that the plates take. Statics. M [lbf*in], k_s plain. [lbf*in]."""
    return M * k_s


@formula("M_n", "F_y * I_s / (h / 2)", unit="lbf*in", clause=PLATE, F_y="psi", I_s="in**4", h="in")
def yield_moment(F_y: float, I_s: float, h: float) -> float:
    """Moment at which the plates begin to yield, taken as their strength. AISC 360 F11.1.

    The clause goes on to the plastic moment; loads are shared by stiffness only as long as the steel is
    elastic, so the first yield is the end here. F_y [psi], I_s [in**4], h: depth of a plate [in]. [lbf*in].
    """
    return F_y * I_s / (h / 2)


@formula("q_s", "k_s * w", unit="lbf/in", clause=SHARING, k_s="", w="lbf/in")
def line_transfer(k_s: float, w: float) -> float:
    """What the bolts bring from the wood into the plates along the beam. Statics.

    k_s plain, w: load on the beam [lbf/in]. [lbf/in].
    """
    return k_s * w


@formula("V_b", "q_s * s", unit="lbf", clause=SHARING, q_s="lbf/in", s="in")
def bolt_load(q_s: float, s: float) -> float:
    """Load of one bolt between wood and plates. Statics. q_s [lbf/in], s: spacing along the beam [in]. [lbf]."""
    return q_s * s


@formula("s", "Z / q_s", unit="in", clause=SHARING, Z="lbf", q_s="lbf/in")
def bolt_spacing(Z: float, q_s: float) -> float:
    """Spacing along the beam that just uses a bolt up. Statics. Z: adjusted value [lbf], q_s [lbf/in]. [in]."""
    return Z / q_s


@formula("R_s", "k_s * R", unit="lbf", clause=SHARING, k_s="", R="lbf")
def end_transfer(k_s: float, R: float) -> float:
    """What the bolts at a support bring back from the plates into the wood that bears. Statics.

    k_s plain, R: reaction, or a point load that stands on the wood [lbf]. [lbf].
    """
    return k_s * R
