"""The section form under the Canadian code: its own choices, words and starting values, in metric round numbers."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from django import forms

from structure.core.cases.grammars import GRADES, SPECIES
from structure.core.members.ca_footing_scope import soil_classes
from structure.families import FAMILIES
from structure.lumber import metric_name
from structure.models.choices import HEADERS, SHORES, SILLS

#: Fields that only one of the two codes asks for.
CANADIAN = ("rain", "snow_rule", "roof_width", "soil_class", "concrete", "storeys", "building_area")
AMERICAN = ("exposure", "thermal")
BARS = ("10M", "15M", "20M")
STARTING: Mapping[str, Any] = MappingProxyType(
    {
        "wall_thickness": "114 mm",
        "joist_depth": "235 mm",
        "end_bearing": "114 mm",
        "roof_live": "1 kPa",
        "soil": "75 kPa",
        "concrete": "20 MPa",
        "pad_bar": "10M",
        "species": "SPF",
        "grade": "No.1/No.2",
        "post_species": "SPF",
        "post_grade": "No.1/No.2",
        "stand_off": "750 mm",
        "joist_width": "38 mm",
        "joist_spacing": "400 mm",
        "construction": "1 kPa",
    }
)
LABELS = {
    "ground_snow": "Ground snow S_s",
    "ground_snow_source": "Where S_s and S_r come from",
    "stated_capacity": "Capacity by the column's own report",
    "stated_source": "That report",
}
HELP = {
    "opening": "Between the faces of the posts, such as 3.5 m or 11 ft 6 in.",
    "ground_snow": "Once in 50 years, from the climatic table of the place; none is held here.",
    "rain": "S_r, from the same line of the table.",
    "ground_snow_source": "Such as: NBC Appendix C, read at the library; letter of the building department.",
    "snow_rule": "Part 9 takes nothing off for slope; Part 4 does.",
    "roof_width": "Across the whole roof. Up to 4.3 m takes less snow by Part 9; empty: wider.",
    "roof_slope": "Leave empty when not known. Only Part 4 counts with it.",
    "roof_live": "1 kPa, NBC Table 4.1.5.3.; it never meets snow.",
    "stated_capacity": "Working load. Empty: 36 kN, the most that NBC 9.17.3.4. lets an adjustable column carry.",
    "soil": "75 kPa is what Part 9 presumes (9.15.1.1.). Empty where the kind of soil says it.",
    "soil_class": "A row of NBC Table 9.4.4.1.",
    "concrete": "15 MPa is the least of NBC 9.3.1.6.; bars ask for 20 MPa.",
    "storeys": "Part 9 reaches to three storeys.",
    "building_area": "Of the whole building; Part 9 reaches to 600 m\u00b2.",
    "headroom": "The beam must leave this free. Empty: only what the code asks for.",
}
LEVEL_HELP = {
    "spacing": "Of joists along the wall, or of trusses. Empty: 400 mm.",
    "dead": "One pressure, or layers: floor boards: 0.12 kPa; joists: 0.15 kPa; ceiling: 0.1 kPa.",
    "live": "Rooms 1.9 kPa, attic with little access 0.5 kPa (NBC 9.4.2.4., Table 4.1.5.3.). Not for a roof.",
    "wall_weight": "Per area of wall; a stud wall with board on both faces is about 0.4 kPa.",
}
#: Families whose generic values the Canadian tables hold.
_HELD = ("sawn", "timber", "glulam", "steel_w", "steel_hss")
_WORDS = {
    "sawn": "38 mm pieces (2x) nailed together",
    "timber": "one solid piece, 89 mm (4x) or thicker",
    "glulam": "24f-E and 20f-E of the industry's grades",
    "steel_w": "wide flange beam, 345WM or 350W",
    "steel_hss": "rectangular HSS, 350W",
}


def speak_canadian(form: Any) -> None:
    """Choices, labels, help and starting values of the Canadian code on a section form."""
    species = [(each, each) for each in SPECIES["ca"]]
    grades = [(each, each) for each in GRADES["ca"]]
    unknown = ("", "not known")
    _choices(
        form,
        {
            "families": [(f.key, f"{f.title}: {_WORDS[f.key]}") for f in FAMILIES if f.key in _HELD],
            "species": species,
            "more_species": species,
            "grade": grades,
            "post_species": species,
            "post_grade": grades,
            "joist_species": [unknown, *species],
            "joist_grade": [unknown, *grades],
            "pad_bar": [(bar, bar) for bar in BARS],
            "shoring_header": [(key, metric_name(key, size)) for key, size in HEADERS.items()],
            "shoring_shore": [(key, metric_name(key, size)) for key, size in SHORES.items()],
            "shoring_sill": [(key, metric_name(key, size)) for key, size in SILLS.items()],
        },
    )
    form.fields["soil_class"] = forms.ChoiceField(
        label="Kind of soil",
        required=False,
        choices=[
            ("", "nobody has looked: presumed"),
            *((each.id, f"{each.name}, {each.value * 1000:.0f} kPa") for each in soil_classes()),
        ],
    )
    form.fields["rain"].required = True
    for name, label in LABELS.items():
        form.fields[name].label = label
    for name, told in HELP.items():
        form.fields[name].help_text = told
    if form.instance.pk is None:
        form.initial = {"families": ["sawn"], **STARTING, **form.initial}


def speak_canadian_level(form: Any) -> None:
    """Help of one level in metric, by the Canadian code."""
    for name, told in LEVEL_HELP.items():
        form.fields[name].help_text = told


def _choices(form: Any, held: Mapping[str, list[tuple[str, str]]]) -> None:
    for name, choices in held.items():
        form.fields[name].choices = choices
