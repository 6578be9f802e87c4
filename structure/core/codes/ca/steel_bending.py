"""Bending of steel beams by CSA S16:19 13.5 and 13.6: yielding, and buckling sideways with the moment's gradient.

Moments in N*mm, lengths in mm, stresses in MPa.
"""

from __future__ import annotations

from math import pi

from structure.core.clauses import Clause
from structure.core.trace import formula

SUPPORTED = Clause("CSA S16", "13.5")
UNSUPPORTED = Clause("CSA S16", "13.6")
GRADIENT = Clause("CSA S16", "13.6(a)(ii)")
SLENDER = Clause("CSA S16", "13.5(c)")

MOST_GRADIENT = 2.5
ELASTIC = 0.67  # share of M_p (or M_y) up to which buckling is elastic
# 1.15 (1 - 0.28 M / M_u) is 1 where M_u is this times M: shorter than that the beam does not buckle sideways.
FULL = 0.28 * 1.15 / 0.15
# Loads on the top flange that do not hold it: effective lengths of 13.6, with omega_2 of 1.
TOP_SPAN, TOP_OTHER = 1.2, 1.4


@formula(
    "omega_2",
    "4 * M_max / (M_max ** 2 + 4 * M_a ** 2 + 7 * M_b ** 2 + 4 * M_c ** 2) ** 0.5",
    unit="",
    clause=GRADIENT,
    M_max="N*mm",
    M_a="N*mm",
    M_b="N*mm",
    M_c="N*mm",
)
def moment_gradient(M_max: float, M_a: float, M_b: float, M_c: float) -> float:
    """Coefficient for the moment's gradient in an unbraced segment, before its cap of 2.5. CSA S16 13.6(a)(ii).

    Absolute factored values: the largest, and those at the quarter points [N*mm]. Plain number, 1 to 4.
    """
    value: float = 4 * M_max / (M_max**2 + 4 * M_a**2 + 7 * M_b**2 + 4 * M_c**2) ** 0.5
    return value


@formula("M_p", "Z * F_y", unit="N*mm", clause=SUPPORTED, Z="mm**3", F_y="MPa")
def plastic_moment(Z: float, F_y: float) -> float:
    """Plastic moment of a class 1 or 2 section. CSA S16 13.5(a). Z [mm**3], F_y [MPa]. [N*mm]."""
    return Z * F_y


@formula("M_y", "S * F_y", unit="N*mm", clause=SUPPORTED, S="mm**3", F_y="MPa")
def yield_moment(S: float, F_y: float) -> float:
    """Yield moment of a class 3 section, and of a channel that may buckle sideways. CSA S16 13.5(b), 13.6(b).

    S [mm**3], F_y [MPa]. [N*mm].
    """
    return S * F_y


@formula(
    "S_e",
    "(I_x - 4 * (b / 2 - s_lim * t) * t * ((d - t) / 2) ** 2) / (d / 2)",
    unit="mm**3",
    clause=SLENDER,
    I_x="mm**4",
    b="mm",
    s_lim="",
    t="mm",
    d="mm",
)
def effective_modulus(I_x: float, b: float, s_lim: float, t: float, d: float) -> float:
    """Section modulus of an I shape without what its class 4 flanges have over the limit of class 3.

    CSA S16 13.5(c)(iii) takes it out of the pressed flange; out of both, the axis stays and this is slightly less.
    I_x [mm**4], b: width, t: flange, d: depth [mm], s_lim: 200 / F_y**0.5. [mm**3].
    """
    return (I_x - 4 * (b / 2 - s_lim * t) * t * ((d - t) / 2) ** 2) / (d / 2)


@formula("M_r", "phi * M", unit="N*mm", clause=SUPPORTED, phi="", M="N*mm")
def moment_resistance(phi: float, M: float) -> float:
    """Factored moment resistance of a beam held sideways. CSA S16 13.5. phi: 0.9, M: M_p or M_y [N*mm]."""
    return phi * M


@formula(
    "T", "E * I_y * G * J", unit="N**2*mm**4", clause=UNSUPPORTED, E="MPa", I_y="mm**4", G="MPa", J="mm**4"
)
def torsion_term(E: float, I_y: float, G: float, J: float) -> float:
    """What M_u takes from twisting. CSA S16 13.6(a)(ii). E, G [MPa], I_y, J [mm**4]. [N**2*mm**4]."""
    return E * I_y * G * J


@formula(
    "W",
    "(pi * E) ** 2 * I_y * C_w",
    unit="N**2*mm**6",
    clause=UNSUPPORTED,
    E="MPa",
    I_y="mm**4",
    C_w="mm**6",
)
def warping_term(E: float, I_y: float, C_w: float) -> float:
    """What M_u takes from warping, times L**2. CSA S16 13.6(a)(ii). E [MPa], I_y [mm**4], C_w [mm**6]."""
    return (pi * E) ** 2 * I_y * C_w


@formula(
    "M_u",
    "omega_2 * pi / L * (T + W / L ** 2) ** 0.5",
    unit="N*mm",
    clause=UNSUPPORTED,
    omega_2="",
    L="mm",
    T="N**2*mm**4",
    W="N**2*mm**6",
)
def buckling_moment(omega_2: float, L: float, T: float, W: float) -> float:
    """Elastic lateral-torsional buckling moment. CSA S16 13.6(a)(ii).

    omega_2 plain, L: unbraced length [mm], T: E I_y G J, W: (pi E)**2 I_y C_w. [N*mm].
    """
    moment: float = omega_2 * pi / L * (T + W / L**2) ** 0.5
    return moment


@formula(
    "L_u",
    "pi / M * ((T + (T ** 2 + 4 * W * M ** 2 / pi ** 2) ** 0.5) / 2) ** 0.5",
    unit="mm",
    clause=UNSUPPORTED,
    M="N*mm",
    T="N**2*mm**4",
    W="N**2*mm**6",
)
def supported_length(M: float, T: float, W: float) -> float:
    """Longest unbraced length at which M_u, with omega_2 of 1, still is M. CSA S16 13.6 solved for L.

    M: 2.147 M_p or M_y [N*mm], T, W: terms of M_u. [mm].
    """
    length: float = pi / M * ((T + (T**2 + 4 * W * M**2 / pi**2) ** 0.5) / 2) ** 0.5
    return length


@formula(
    "M_r",
    "1.15 * phi * M * (1 - 0.28 * M / M_u)",
    unit="N*mm",
    clause=UNSUPPORTED,
    phi="",
    M="N*mm",
    M_u="N*mm",
)
def inelastic_resistance(phi: float, M: float, M_u: float) -> float:
    """Factored resistance where M_u is over 0.67 M, before the cap phi M. CSA S16 13.6(a)(i), 13.6(b)(i).

    phi: 0.9, M: M_p, or M_y of class 3 and channels, M_u [N*mm]. [N*mm].
    """
    return 1.15 * phi * M * (1 - 0.28 * M / M_u)


@formula("M_r", "phi * M_u", unit="N*mm", clause=UNSUPPORTED, phi="", M_u="N*mm")
def elastic_resistance(phi: float, M_u: float) -> float:
    """Factored resistance where M_u is 0.67 M or less. CSA S16 13.6. phi: 0.9, M_u [N*mm]. [N*mm]."""
    return phi * M_u
