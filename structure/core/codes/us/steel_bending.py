"""Bending of steel beams by AISC 360 chapter F: W shapes, channels, rectangular and round tubes.

Moments in lbf*in, lengths in inches, stresses in psi. Kernels are plain arithmetic, so that arrays and
quantities with units can pass through them.
"""

from __future__ import annotations

from math import pi

from structure.core.clauses import Clause
from structure.core.trace import formula

GRADIENT = Clause("AISC 360", "F1-1")
CANTILEVER = Clause("AISC 360", "F1")
YIELDING = Clause("AISC 360", "F2.1")
LATERAL = Clause("AISC 360", "F2.2")
FLANGE = Clause("AISC 360", "F3.2")
SLENDER_WEB = Clause("AISC 360", "F4")
MINOR_AXIS = Clause("AISC 360", "F6.1")
MINOR_FLANGE = Clause("AISC 360", "F6.2")
TUBE_YIELDING = Clause("AISC 360", "F7.1")
TUBE_FLANGE = Clause("AISC 360", "F7.2")
TUBE_WEB = Clause("AISC 360", "F7.3")
TUBE_LATERAL = Clause("AISC 360", "F7.4")
ROUND_YIELDING = Clause("AISC 360", "F8.1")
ROUND_LOCAL = Clause("AISC 360", "F8.2")


@formula(
    "C_b",
    "12.5 * M_max / (2.5 * M_max + 3 * M_A + 4 * M_B + 3 * M_C)",
    unit="",
    clause=GRADIENT,
    M_max="lbf*in",
    M_A="lbf*in",
    M_B="lbf*in",
    M_C="lbf*in",
)
def gradient_factor(M_max: float, M_A: float, M_B: float, M_C: float) -> float:
    """Lateral-torsional buckling modification factor of an unbraced segment. AISC 360 equation F1-1.

    Absolute values [lbf*in]: the largest, and those at the quarter points. Plain number, 1 to 5.
    """
    return 12.5 * M_max / (2.5 * M_max + 3 * M_A + 4 * M_B + 3 * M_C)


@formula("M_p", "F_y * Z_x", unit="lbf*in", clause=YIELDING, F_y="psi", Z_x="in**3")
def plastic_moment(F_y: float, Z_x: float) -> float:
    """Plastic moment. AISC 360 equation F2-1 (F7-1, F8-1). F_y [psi], Z_x [in**3]. [lbf*in]."""
    return F_y * Z_x


@formula("L_p", "1.76 * r_y * (E / F_y) ** 0.5", unit="in", clause=LATERAL, r_y="in", E="psi", F_y="psi")
def plastic_length(r_y: float, E: float, F_y: float) -> float:
    """Longest unbraced length that reaches the plastic moment. AISC 360 equation F2-5.

    r_y [in], E, F_y [psi]. [in].
    """
    length: float = 1.76 * r_y * (E / F_y) ** 0.5
    return length


@formula("c", "h_o / 2 * (I_y / C_w) ** 0.5", unit="", clause=LATERAL, h_o="in", I_y="in**4", C_w="in**6")
def channel_coefficient(h_o: float, I_y: float, C_w: float) -> float:
    """Coefficient c of a channel; 1 for a W shape. AISC 360 equation F2-8b.

    h_o: between flange centres [in], I_y [in**4], C_w [in**6]. Plain number.
    """
    value: float = h_o / 2 * (I_y / C_w) ** 0.5
    return value


@formula("T", "J * c / (S_x * h_o)", unit="", clause=LATERAL, J="in**4", c="", S_x="in**3", h_o="in")
def torsion_ratio(J: float, c: float, S_x: float, h_o: float) -> float:
    """Share of torsion J c / (S_x h_o) in equations F2-4 and F2-6 of AISC 360.

    J [in**4], c plain, S_x [in**3], h_o [in]. Plain number.
    """
    return J * c / (S_x * h_o)


@formula(
    "L_r",
    "1.95 * r_ts * E / (0.7 * F_y) * (T + (T ** 2 + 6.76 * (0.7 * F_y / E) ** 2) ** 0.5) ** 0.5",
    unit="in",
    clause=LATERAL,
    r_ts="in",
    E="psi",
    F_y="psi",
    T="",
)
def elastic_length(r_ts: float, E: float, F_y: float, T: float) -> float:
    """Unbraced length from which buckling is elastic. AISC 360 equation F2-6.

    r_ts [in], E, F_y [psi], T: J c / (S_x h_o). [in].
    """
    length: float = 1.95 * r_ts * E / (0.7 * F_y) * (T + (T**2 + 6.76 * (0.7 * F_y / E) ** 2) ** 0.5) ** 0.5
    return length


@formula(
    "M_LTB",
    "C_b * (M_p - (M_p - 0.7 * F_y * S_x) * (L_b - L_p) / (L_r - L_p))",
    unit="lbf*in",
    clause=LATERAL,
    C_b="",
    M_p="lbf*in",
    F_y="psi",
    S_x="in**3",
    L_b="in",
    L_p="in",
    L_r="in",
)
def inelastic_buckling(
    C_b: float, M_p: float, F_y: float, S_x: float, L_b: float, L_p: float, L_r: float
) -> float:
    """Inelastic lateral-torsional buckling, before the cap M_p. AISC 360 equations F2-2 and F7-10.

    For L_p < L_b <= L_r [in]; M_p [lbf*in], F_y [psi], S_x [in**3]. [lbf*in].
    """
    return C_b * (M_p - (M_p - 0.7 * F_y * S_x) * (L_b - L_p) / (L_r - L_p))


@formula(
    "F_cr",
    "C_b * pi ** 2 * E / (L_b / r_ts) ** 2 * (1 + 0.078 * T * (L_b / r_ts) ** 2) ** 0.5",
    unit="psi",
    clause=LATERAL,
    C_b="",
    E="psi",
    L_b="in",
    r_ts="in",
    T="",
)
def elastic_buckling_stress(C_b: float, E: float, L_b: float, r_ts: float, T: float) -> float:
    """Elastic lateral-torsional buckling stress. AISC 360 equation F2-4.

    For L_b > L_r; E [psi], L_b, r_ts [in], T: J c / (S_x h_o). [psi].
    """
    stress: float = C_b * pi**2 * E / (L_b / r_ts) ** 2 * (1 + 0.078 * T * (L_b / r_ts) ** 2) ** 0.5
    return stress


@formula("M_LTB", "F_cr * S_x", unit="lbf*in", clause=LATERAL, F_cr="psi", S_x="in**3")
def elastic_buckling(F_cr: float, S_x: float) -> float:
    """Moment of elastic buckling, before the cap M_p. AISC 360 equation F2-3.

    F_cr [psi], S_x [in**3]. [lbf*in].
    """
    return F_cr * S_x


@formula(
    "M_FLB",
    "M_p - (M_p - 0.7 * F_y * S_x) * (s - s_p) / (s_r - s_p)",
    unit="lbf*in",
    clause=FLANGE,
    M_p="lbf*in",
    F_y="psi",
    S_x="in**3",
    s="",
    s_p="",
    s_r="",
)
def noncompact_flange(M_p: float, F_y: float, S_x: float, s: float, s_p: float, s_r: float) -> float:
    """Local buckling of a noncompact flange. AISC 360 equation F3-1.

    M_p [lbf*in], F_y [psi], S_x [in**3], s: b_f / 2 t_f between its limits s_p and s_r. [lbf*in].
    """
    return M_p - (M_p - 0.7 * F_y * S_x) * (s - s_p) / (s_r - s_p)


@formula(
    "M_py",
    "min(F_y * Z_y, 1.6 * F_y * S_y)",
    unit="lbf*in",
    clause=MINOR_AXIS,
    F_y="psi",
    Z_y="in**3",
    S_y="in**3",
)
def minor_plastic_moment(F_y: float, Z_y: float, S_y: float) -> float:
    """Plastic moment about the minor axis of a W shape. AISC 360 equation F6-1.

    F_y [psi], Z_y, S_y [in**3]. [lbf*in].
    """
    return min(F_y * Z_y, 1.6 * F_y * S_y)


@formula(
    "M_FLB",
    "M_p - (M_p - 0.7 * F_y * S_y) * (s - s_p) / (s_r - s_p)",
    unit="lbf*in",
    clause=MINOR_FLANGE,
    M_p="lbf*in",
    F_y="psi",
    S_y="in**3",
    s="",
    s_p="",
    s_r="",
)
def minor_noncompact_flange(M_p: float, F_y: float, S_y: float, s: float, s_p: float, s_r: float) -> float:
    """Local buckling of noncompact flanges bent about the minor axis. AISC 360 equation F6-2.

    M_p [lbf*in], F_y [psi], S_y [in**3], s: b_f / 2 t_f between its limits s_p and s_r. [lbf*in].
    """
    return M_p - (M_p - 0.7 * F_y * S_y) * (s - s_p) / (s_r - s_p)


@formula(
    "M_FLB",
    "M_p - (M_p - F_y * S) * (3.57 * s * (F_y / E) ** 0.5 - 4)",
    unit="lbf*in",
    clause=TUBE_FLANGE,
    M_p="lbf*in",
    F_y="psi",
    S="in**3",
    s="",
    E="psi",
)
def noncompact_tube_flange(M_p: float, F_y: float, S: float, s: float, E: float) -> float:
    """Local buckling of the noncompact flange of a rectangular tube, before the cap M_p. AISC 360 F7-2.

    M_p [lbf*in], F_y, E [psi], S [in**3], s: flat width over thickness. [lbf*in].
    """
    moment: float = M_p - (M_p - F_y * S) * (3.57 * s * (F_y / E) ** 0.5 - 4)
    return moment


@formula(
    "b_e",
    "1.92 * t * (E / F_y) ** 0.5 * (1 - 0.38 / s * (E / F_y) ** 0.5)",
    unit="in",
    clause=TUBE_FLANGE,
    t="in",
    E="psi",
    F_y="psi",
    s="",
)
def effective_flange(t: float, E: float, F_y: float, s: float) -> float:
    """Effective width of the slender flange of a tube, at most its flat width. AISC 360 equation F7-4.

    t [in], E, F_y [psi], s: flat width over thickness. [in].
    """
    width: float = 1.92 * t * (E / F_y) ** 0.5 * (1 - 0.38 / s * (E / F_y) ** 0.5)
    return width


@formula(
    "S_e",
    "(I_x - 2 * ((s * t - b_e) * t * ((H - t) / 2) ** 2 + (s * t - b_e) * t ** 3 / 12)) / (H / 2)",
    unit="in**3",
    clause=TUBE_FLANGE,
    I_x="in**4",
    s="",
    t="in",
    b_e="in",
    H="in",
)
def effective_tube_modulus(I_x: float, s: float, t: float, b_e: float, H: float) -> float:
    """Section modulus with the idle part of both flanges taken out, so that the axis stays. AISC 360 F7.2(c).

    The clause takes it out of the pressed flange alone; this is slightly less. I_x [in**4], s: flat width
    over thickness, t, b_e: effective width, H: depth [in]. [in**3].
    """
    idle = s * t - b_e
    return (I_x - 2 * (idle * t * ((H - t) / 2) ** 2 + idle * t**3 / 12)) / (H / 2)


@formula(
    "M_WLB",
    "M_p - (M_p - F_y * S) * (0.305 * s * (F_y / E) ** 0.5 - 0.738)",
    unit="lbf*in",
    clause=TUBE_WEB,
    M_p="lbf*in",
    F_y="psi",
    S="in**3",
    s="",
    E="psi",
)
def noncompact_tube_web(M_p: float, F_y: float, S: float, s: float, E: float) -> float:
    """Local buckling of the noncompact webs of a rectangular tube, before the cap M_p. AISC 360 F7-6.

    M_p [lbf*in], F_y, E [psi], S [in**3], s: h / t. [lbf*in].
    """
    moment: float = M_p - (M_p - F_y * S) * (0.305 * s * (F_y / E) ** 0.5 - 0.738)
    return moment


@formula(
    "L_p",
    "0.13 * E * r_y * (J * A) ** 0.5 / M_p",
    unit="in",
    clause=TUBE_LATERAL,
    E="psi",
    r_y="in",
    J="in**4",
    A="in**2",
    M_p="lbf*in",
)
def tube_plastic_length(E: float, r_y: float, J: float, A: float, M_p: float) -> float:
    """Longest unbraced length of a rectangular tube at the plastic moment. AISC 360 equation F7-12.

    E [psi], r_y [in], J [in**4], A [in**2], M_p [lbf*in]. [in].
    """
    length: float = 0.13 * E * r_y * (J * A) ** 0.5 / M_p
    return length


@formula(
    "L_r",
    "2 * E * r_y * (J * A) ** 0.5 / (0.7 * F_y * S_x)",
    unit="in",
    clause=TUBE_LATERAL,
    E="psi",
    r_y="in",
    J="in**4",
    A="in**2",
    F_y="psi",
    S_x="in**3",
)
def tube_elastic_length(E: float, r_y: float, J: float, A: float, F_y: float, S_x: float) -> float:
    """Unbraced length from which a rectangular tube buckles elastically. AISC 360 equation F7-13.

    E, F_y [psi], r_y [in], J [in**4], A [in**2], S_x [in**3]. [in].
    """
    length: float = 2 * E * r_y * (J * A) ** 0.5 / (0.7 * F_y * S_x)
    return length


@formula(
    "M_LB",
    "(0.021 * E / s + F_y) * S",
    unit="lbf*in",
    clause=ROUND_LOCAL,
    E="psi",
    s="",
    F_y="psi",
    S="in**3",
)
def noncompact_round(E: float, s: float, F_y: float, S: float) -> float:
    """Local buckling of a noncompact round tube. AISC 360 equation F8-2.

    E, F_y [psi], s: D / t, S [in**3]. [lbf*in].
    """
    return (0.021 * E / s + F_y) * S
