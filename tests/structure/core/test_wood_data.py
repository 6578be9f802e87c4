"""Tables with sources and checksums, and the sections that read them."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structure.core.errors import InputError, OutOfScope
from structure.core.materials import LvlSection, SawnSection, held_species, perpendicular_value
from structure.core.materials.section import PROPERTY_NAMES, inches
from structure.data import loader

WOOD_TABLES = ("us/nds_4a", "us/nds_4b", "us/nds_4d", "us/lvl")


@pytest.mark.parametrize("name", loader.names())
def test_every_table_has_a_source_and_agrees_with_its_checksum(name: str) -> None:
    held = loader.table(name)
    assert held.title
    assert held.sources
    assert all(len(source) > 20 for source in held.sources)


@pytest.mark.parametrize("name", WOOD_TABLES)
def test_rows_are_whole_and_say_what_was_not_read(name: str) -> None:
    rows = loader.table(name).rows
    keys = [tuple((k, str(v)) for k, v in row.items() if k not in {"values", "mark"}) for row in rows]
    assert len(set(keys)) == len(keys)
    for row in rows:
        assert set(row["values"]) == set(PROPERTY_NAMES)
        assert all(value > 0 for value in row["values"].values())
        mark = row["mark"]
        assert mark == "" or mark.split(":")[0] in {"memory", "common practice"}


@pytest.mark.parametrize("name", WOOD_TABLES)
def test_stiffness_for_stability_follows_from_stiffness(name: str) -> None:
    # NDS appendix D.4: visually graded COV 0.25 with 1.03 to pure bending; composite lumber COV 0.10, without.
    for row in loader.table(name).rows:
        E, E_min = row["values"]["E"], row["values"]["Emin"]
        factor = (1 - 1.645 * 0.10) / 1.66 if name == "us/lvl" else (1 - 1.645 * 0.25) * 1.03 / 1.66
        assert E_min == pytest.approx(E * factor, abs=10000)


def test_an_edited_table_is_not_used(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for source in loader.FOLDER.rglob("*.toml"):
        copy = tmp_path / source.relative_to(loader.FOLDER)
        copy.parent.mkdir(exist_ok=True)
        copy.write_text(source.read_text(encoding="utf-8"), encoding="utf-8")
    monkeypatch.setattr(loader, "FOLDER", tmp_path)
    loader.table.cache_clear()
    try:
        assert loader.table("us/lvl").rows
        loader.table.cache_clear()
        edited = tmp_path / "us" / "lvl.toml"
        edited.write_text(edited.read_text(encoding="utf-8").replace("2900,", "3900,"), encoding="utf-8")
        with pytest.raises(loader.DataError, match="does not agree with its checksum"):
            loader.table("us/lvl")
    finally:
        loader.table.cache_clear()


def test_an_unknown_table_is_named() -> None:
    with pytest.raises(loader.DataError, match="no table us/none"):
        loader.table("us/none")


@pytest.mark.parametrize(
    ("section", "label"),
    [
        (SawnSection("SPF", "No.2", 3, 1.5, 9.25), "3-2x10 SPF No.2"),
        (SawnSection("DF-L", "No.1", 1, 3.5, 11.25), "4x12 DF-L No.1"),
        (SawnSection("DF-L", "No.1", 1, 5.5, 11.5), "6x12 DF-L No.1"),
        (SawnSection("DF-L", "No.1", 1, 6.0, 8.25), "6 x 8 1/4 DF-L No.1"),
        (LvlSection("2.0E-2900F", 4, 1.75, 18.0), "4-ply 1 3/4 x 18 LVL 2.0E-2900F"),
        (LvlSection("2.0E-2900F", 1, 3.5, 11.875), "3 1/2 x 11 7/8 LVL 2.0E-2900F"),
    ],
)
def test_labels(section: SawnSection | LvlSection, label: str) -> None:
    assert section.label == label


def test_section_properties_of_all_plies() -> None:
    section = SawnSection("SPF", "No.2", 3, 1.5, 9.25)
    # NDS Supplement table 1B prints 13.88 in2, 21.39 in3 and 98.93 in4 for one 2x10.
    assert section.area / 3 == pytest.approx(13.88, abs=0.0051)
    assert section.section_modulus / 3 == pytest.approx(21.39, abs=0.005)
    assert section.inertia / 3 == pytest.approx(98.93, abs=0.005)


@pytest.mark.parametrize(
    ("grade", "depth", "C_F", "F_b"),
    [
        ("Stud", 3.5, 1.1, 675.0),
        ("Stud", 5.5, 1.0, 675.0),
        ("Stud", 9.25, 1.1, 500.0),
        ("No.3", 9.25, 1.1, 500.0),
    ],
)
def test_stud_grade_is_no3_from_eight_inches_on(grade: str, depth: float, C_F: float, F_b: float) -> None:
    section = SawnSection("SPF", grade, depth=depth)
    assert section.size_factors["Fb"] == C_F
    assert section.reference.value("Fb") == F_b


@pytest.mark.parametrize(
    ("width", "depth", "factors"),
    [
        (1.5, 11.25, (1.0, 1.0, 1.0)),
        (3.5, 5.5, (1.0, 1.0, 1.0)),
        (3.5, 7.25, (1.1, 1.0, 1.0)),
        (1.5, 13.25, (0.9, 0.9, 0.9)),
    ],
)
def test_southern_pine_has_its_size_inside_its_values(
    width: float, depth: float, factors: tuple[float, float, float]
) -> None:
    held = SawnSection("SP", "No.2", width=width, depth=depth).size_factors
    assert (held["Fb"], held["Ft"], held["Fc"]) == factors


def test_timber_classes_and_their_size_factor() -> None:
    post, beam = SawnSection("DF-L", "No.1", 1, 5.5, 7.5), SawnSection("DF-L", "No.1", 1, 5.5, 13.5)
    assert (post.size_class, beam.size_class) == ("posts and timbers", "beams and stringers")
    assert (post.reference.value("Fb"), beam.reference.value("Fb")) == (1200.0, 1350.0)
    assert post.size_factors["Fb"] == 1.0
    assert beam.size_factors["Fb"] == pytest.approx(0.987, abs=0.0005)  # (12 / 13.5)^(1/9)
    assert beam.repetitive_factor == 1.0


def test_no1_no2_of_spf_is_one_row() -> None:
    assert SawnSection("SPF", "No.1/No.2").reference.values == SawnSection("SPF", "No.2").reference.values
    with pytest.raises(InputError, match=r"grade: read 'No.1/No.2'"):
        SawnSection("DF-L", "No.1/No.2")


def test_entered_values_stand_in_place_and_are_marked() -> None:
    section = SawnSection("HF", "No.1", depth=7.25, properties={"Fv": 75.0})
    assert section.reference.value("Fv") == 75.0
    assert section.reference.value("Fb") == 975.0
    assert any("Fv as entered" in remark for remark in section.remarks)


def test_memory_reaches_the_reader() -> None:
    assert any("memory" in remark for remark in SawnSection("SPF-S", "No.2").remarks)
    assert not SawnSection("DF-L", "No.2").remarks


def test_a_product_in_hand_needs_its_values() -> None:
    whole = {"Fb": 2600.0, "Fv": 285.0, "Fc_perp": 750.0, "E": 1.9e6}
    assert LvlSection("1.9E product", properties=whole).reference.value("Fb") == 2600.0
    with pytest.raises(InputError, match="a stress class held"):
        LvlSection("1.9E product", properties={"Fb": 2600.0})
    with pytest.raises(InputError, match=r"properties.Emin: read nothing"):
        LvlSection("1.9E product", properties=whole).reference.value("Emin")


@pytest.mark.parametrize(
    ("given", "error", "words"),
    [
        ({"species": "Oak", "grade": "No.2"}, InputError, "species: read 'Oak'.*DF-L, HF, SPF"),
        ({"species": "SPF", "grade": "No.1&Btr"}, InputError, "grade: read 'No.1&Btr'.*SS, No.1, No.2"),
        ({"species": "SPF", "grade": "No.2", "depth": 10.0}, OutOfScope, "Table 1A.*no standard size"),
        ({"species": "SPF", "grade": "No.2", "plies": 6}, OutOfScope, "at most 5"),
        ({"species": "SPF", "grade": "No.2", "plies": 0}, InputError, "plies: read 0"),
        (
            {"species": "DF-L", "grade": "No.2", "plies": 2, "width": 5.5, "depth": 11.5},
            OutOfScope,
            "timbers side by side",
        ),
        (
            {"species": "SPF-S", "grade": "No.2", "width": 5.5, "depth": 5.5},
            InputError,
            "species: read 'SPF-S'.*Table 4D",
        ),
    ],
)
def test_what_is_not_held_is_refused(given: dict[str, object], error: type[Exception], words: str) -> None:
    with pytest.raises(error, match=words):
        SawnSection(**given)  # type: ignore[arg-type]


def test_lvl_sizes_outside_a_billet_are_refused() -> None:
    with pytest.raises(OutOfScope, match="ply depth of 30 in"):
        LvlSection("2.0E-2900F", depth=30.0)
    with pytest.raises(OutOfScope, match="ply width of 9 in"):
        LvlSection("2.0E-2900F", width=9.0)


def test_wet_service() -> None:
    dry = SawnSection("SPF", "No.2").wet_factors(False)
    assert set(dry.values()) == {1.0}
    # Fb C_F = 962.5 psi is not over 1150; Fc C_F = 1150 psi is over 750 (NDS Supplement table 4A).
    wet = SawnSection("SPF", "No.2").wet_factors(True)
    assert (wet["Fb"], wet["Fc"], wet["E"]) == (1.0, 0.8, 0.9)
    assert SawnSection("DF-L", "SS", depth=7.25).wet_factors(True)["Fb"] == 0.85
    assert SawnSection("DF-L", "No.1", 1, 5.5, 11.5).wet_factors(True)["Fc_perp"] == 0.67
    with pytest.raises(OutOfScope, match=r"NDS 2018 8.1.4"):
        LvlSection("2.0E-2900F").wet_factors(True)


def test_weight_from_specific_gravity() -> None:
    # 62.4 x 0.50 / (1 + 0.50 x 0.009 x 19) x 1.19 = 34.2 lbf/ft3, by hand.
    assert SawnSection("DF-L", "No.2").density * 1728 == pytest.approx(34.2, abs=0.05)
    assert LvlSection("2.0E-2900F", 4, 1.75, 18.0).weight * 12 == pytest.approx(7 * 18 / 144 * 42)


def test_across_the_grain_by_species() -> None:
    assert [perpendicular_value(each) for each in held_species()] == [
        625.0,
        405.0,
        425.0,
        335.0,
        350.0,
        565.0,
    ]
    with pytest.raises(InputError, match="species: read 'Oak'"):
        perpendicular_value("Oak")


@settings(max_examples=100, deadline=None)
@given(st.integers(1, 400))
def test_inches_read_back(sixteenths: int) -> None:
    whole, _, part = inches(sixteenths / 16).rpartition(" ")
    top, _, bottom = part.partition("/")
    assert float(whole or 0) + float(top) / float(bottom or 1) == sixteenths / 16
