"""Metric steel shapes: labels, tables against mechanics, grades and the wall that counts."""

from __future__ import annotations

from math import pi, sqrt

import pytest

from structure.core.codes.ca import steel_geometry as geometry
from structure.core.errors import InputError
from structure.core.materials.ca_steel import CaSteelSection
from structure.core.materials.ca_steel_shapes import KILOGRAM, TABLES, shape
from structure.data.loader import table

LABELS = [str(row[0]) for name in TABLES for row in table(name).content["rows"]]


def steel(label: str, grade: str = "", **properties: float) -> CaSteelSection:
    return CaSteelSection(shape=label, grade=grade, properties=properties)


@pytest.mark.parametrize("label", LABELS)
def test_a_row_agrees_with_mechanics(label: str) -> None:
    held = shape(label)
    assert held.label == label
    assert pytest.approx(held.W / KILOGRAM, rel=0.05) == held.A * 7.85e-3
    assert held.I_x / (held.d / 2) == pytest.approx(held.S_x, rel=0.011)
    assert sqrt(held.I_x / held.A) == pytest.approx(held.r_x, rel=0.011)
    assert sqrt(held.I_y / held.A) == pytest.approx(held.r_y, rel=0.02)
    assert 1.05 < held.Z_x / held.S_x < 1.5
    assert 1.0 < held.web < 70.0
    assert held.k > held.t_f


@pytest.mark.parametrize("label", [each for each in LABELS if each.startswith("W")])
def test_a_w_shape_is_the_sum_of_its_plates(label: str) -> None:
    held = shape(label)
    plates = 2 * held.b * held.t_f + (held.d - 2 * held.t_f) * held.t_w
    assert plates <= held.A * 1.01
    assert pytest.approx(plates, rel=0.08) == held.A  # what is left are the fillets
    assert held.I_y == pytest.approx(2 * held.t_f * held.b**3 / 12, rel=0.03)
    assert held.C_w == pytest.approx(held.I_y * (held.d - held.t_f) ** 2 / 4, rel=0.03)
    plain = (2 * held.b * held.t_f**3 + (held.d - held.t_f) * held.t_w**3) / 3
    assert plain * 0.98 <= held.J < plain * 1.6


@pytest.mark.parametrize("label", [each for each in LABELS if each.startswith("HSS")])
def test_the_formulas_of_a_tube_meet_its_table(label: str) -> None:
    held = shape(label)
    t = held.t_w
    size = {"H": held.d, "B": held.b, "t": t}
    assert geometry.tube_area(**size) == pytest.approx(held.A, rel=0.006)
    assert geometry.tube_inertia(**size) == pytest.approx(held.I_x, rel=0.006)
    assert geometry.tube_plastic_modulus(**size) == pytest.approx(held.Z_x, rel=0.006)
    assert geometry.tube_torsion(**size) == pytest.approx(held.J, rel=0.03)


@pytest.mark.parametrize(
    ("told", "meant"),
    [
        ("w200 x 27", "W200x27"),
        ("W200X26.6", "W200x27"),
        ("W8x18", "W200x27"),
        ("W12x14", "W310x21"),
        ("W6×12", "W150x18"),
        ("C8x11.5", "C200x17"),
        ("C200X17.1", "C200x17"),
        ("S8x18.4", "S200x27"),
        ("HSS 3x3x3/16", "HSS76x76x4.8"),
        ("HSS3-1/2x3-1/2x0.25", "HSS89x89x6.4"),
        ("HSS76.2x76.2x4.78", "HSS76x76x4.8"),
        ("HSS152X102X13", "HSS152x102x13"),
        ("HSS73x4.8", "HSS73x4.8 round"),
        ("HS 73 x 4.78 round", "HSS73x4.8 round"),
        ("HSS2.875x0.188", "HSS73x4.8 round"),
        ("HSS73x4.8 round", "HSS73x4.8 round"),
        ("Pipe3STD", "Pipe80STD"),
        ("pipe80std", "Pipe80STD"),
        ("Pipe 73x5.16", "Pipe73x5.2"),
        ("HSS73x4.8-round", "HSS73x4.8 round"),
        ("Pipe3-1/2XS", "Pipe90XS"),
    ],
)
def test_a_label_as_a_shop_writes_it(told: str, meant: str) -> None:
    held = shape(told)
    assert held.label == meant
    again = shape(held.label)
    assert again.label == held.label
    assert pytest.approx(held.A, rel=0.01) == again.A


@pytest.mark.parametrize(
    ("told", "near"),
    [
        ("W200x30", "W200x31"),
        ("W250x23", "W250x22"),
        ("W8x19", "W200x27"),
        ("HSS152x76x5", "HSS152x76x4.8"),
        ("HSS76x76", "round tube of 27 to 324 mm"),
        ("HSS400x10", "round tube"),
        ("W200", "such as W200x27"),
        ("W200x27x3", "such as W200x27"),
        ("W0x27", "such as W200x27"),
        ("W1/0x27", "such as W200x27"),
        ("Pipe7STD", "standard"),
        ("Pipe80", "such as W200x27"),
        ("IPE200", "such as W200x27"),
        ("", "such as W200x27"),
    ],
)
def test_an_unknown_label_says_what_is_held(told: str, near: str) -> None:
    with pytest.raises(InputError, match=near) as error:
        shape(told)
    assert error.value.field == "shape"


def test_a_round_tube_by_mechanics() -> None:
    held = shape("HSS89x4.8")
    D, d = 88.9, 88.9 - 2 * 4.78
    assert pytest.approx(pi / 4 * (D**2 - d**2)) == held.A
    assert held.I_x == pytest.approx(pi / 64 * (D**4 - d**4))
    assert (held.S_x, held.J) == (pytest.approx(held.I_x / (D / 2)), pytest.approx(2 * held.I_x))
    assert held.r_x == pytest.approx(sqrt(D**2 + d**2) / 4)
    assert held.web == pytest.approx(D / 4.78)
    assert pytest.approx(held.A * 7850 * 9.80665e-9, rel=1e-3) == held.W


@pytest.mark.parametrize("label", ["HSS89x89x6.4", "HSS203x102x6.4", "HSS89x6.4", "Pipe80STD"])
def test_the_wall_of_an_astm_tube_counts_for_less_but_weighs_as_much(label: str) -> None:
    full, less = shape(label), shape(label, 0.9)
    assert less.t_w == pytest.approx(0.9 * full.t_w)
    assert (less.label, less.d, less.b) == (full.label, full.d, full.b)
    assert pytest.approx(full.W) == less.W
    for name in ("A", "I_x", "S_x", "Z_x", "I_y", "J"):
        assert 0.88 < getattr(less, name) / getattr(full, name) < 0.94
    assert less.web > full.web


@pytest.mark.parametrize(
    ("label", "grade", "Fy", "wall"),
    [
        ("W200x27", "350W", 350, 1.0),
        ("W200x27", "CSA G40.21 350W", 350, 1.0),
        ("W200x27", "345WM", 345, 1.0),
        ("W200x27", "A992", 345, 1.0),
        ("W200x27", "300W", 300, 1.0),
        ("W200x27", "A36", 248, 1.0),
        ("HSS76x76x4.8", "350W", 350, 1.0),
        ("HSS76x76x4.8", "350W Class C", 350, 1.0),
        ("HSS76x76x4.8", "ASTM A500 Grade C", 345, 0.9),
        ("HSS76x76x4.8", "A1085", 345, 1.0),
        ("HSS73x4.8", "A500 Gr C", 317, 0.9),
        ("Pipe80STD", "A53", 240, 0.9),
    ],
)
def test_grades(label: str, grade: str, Fy: float, wall: float) -> None:
    section = steel(label, grade)
    assert section.reference.value("Fy") == Fy
    assert section.reference.value("E") == 200_000
    assert section.rolled.t_w == pytest.approx(wall * shape(label).t_w)


@pytest.mark.parametrize(
    ("label", "taken"),
    [
        ("W200x27", "345WM"),
        ("C200x17", "300W"),
        ("S200x27", "A36"),
        ("HSS76x76x4.8", "350W"),
        ("HSS73x4.8", "350W"),
        ("Pipe80STD", "A53 Gr B"),
        ("Pipe73x5.2", "A53 Gr B"),
    ],
)
def test_a_grade_that_was_not_named_is_said(label: str, taken: str) -> None:
    section = steel(label)
    assert section.label.endswith(taken)
    assert any("no grade was named" in remark for remark in section.remarks)


def test_what_is_entered_and_what_is_worked_out_is_said() -> None:
    assert any("as entered" in remark for remark in steel("HSS73x4.8", "350W", Fy=240.0).remarks)
    assert any("worked out from outside diameter" in remark for remark in steel("HSS73x4.8", "350W").remarks)
    assert any("wall counts 0.9" in remark for remark in steel("HSS76x76x4.8", "A500 Gr C").remarks)
    assert steel("W200x27", "A992").remarks == ()
    assert steel("W200x27", "mill sheet 12", Fy=360.0).reference.source.endswith("mill sheet 12")


def test_what_is_refused() -> None:
    with pytest.raises(InputError, match="a grade held"):
        steel("W200x27", "A53")
    with pytest.raises(InputError, match="only Fy, Fu, E"):
        steel("W200x27", "A992", fb=10.0)


def test_only_a_stress_relieved_tube_has_the_higher_curve() -> None:
    assert [steel("HSS76x76x4.8", grade).curve for grade in ("350W", "350W Class H", "350WH")] == [
        1.34,
        2.24,
        2.24,
    ]
    assert steel("W200x27", "no table", Fy=300.0).curve == 1.34
