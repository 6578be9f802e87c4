"""The section with its levels and point loads."""

from __future__ import annotations

from typing import Any

from django import forms

from projects.forms.sentences import SentenceMixin
from structure.core.errors import InputError
from structure.dead_loads import read_dead
from structure.families import FAMILIES
from structure.fields import echo
from structure.forms.canadian import AMERICAN, CANADIAN, speak_canadian, speak_canadian_level
from structure.models import HouseSection, PointLoad, SectionLevel

MOST_LEVELS, MOST_POINTS = 8, 12
SPECIES = [(s, s) for s in ("SPF", "DF-L", "HF", "SP", "SPF-S", "Northern")]
GRADES = [(g, g) for g in ("SS", "No.1", "No.2", "No.3", "Stud")]
ON_HAND = [(family.key, family.choice) for family in FAMILIES if not family.entered]
BARS = [(bar, bar) for bar in ("#3", "#4", "#5", "#6")]

# Headings of the form and their fields, in the order a person walks through a house.
GROUPS = (
    (
        "The opening",
        (
            "opening wall_length wall_thickness ceiling_height headroom mounting joist_depth end_bearing "
            "top_edge top_edge_every"
        ),
    ),
    (
        "Snow and roof",
        "ground_snow rain ground_snow_source snow_rule roof_width roof_slope exposure thermal roof_live",
    ),
    (
        "What is below",
        (
            "below below_height way blocked stated_capacity stated_source stated_plate soil soil_from "
            "soil_class soil_source pad_kind pad_bar concrete"
        ),
    ),
    ("The building", "storeys building_area"),
    (
        "Beams and lumber",
        "families species grade more_species max_plies post_kind post_species post_grade post_solid",
    ),
    (
        "Shoring",
        (
            "stand_off shoring_header shoring_shore shoring_sill joist_species joist_grade joist_width "
            "joist_spacing every_level construction occupancy cleared cleared_reason snow_season "
            "snow_left_out_reason"
        ),
    ),
)


class EchoMixin(SentenceMixin):
    """Shows under every quantity what it was read as."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fit()
        echo(self)  # type: ignore[arg-type]

    def fit(self) -> None:
        """What a form changes of its fields before they are shown."""


class SectionForm(EchoMixin, forms.ModelForm):
    """The section of the house: what a contractor measures and asks on site."""

    families = forms.MultipleChoiceField(
        label="Beams to try", choices=ON_HAND, widget=forms.CheckboxSelectMultiple, initial=["sawn", "lvl"]
    )
    more_species = forms.MultipleChoiceField(
        label="Other lumber to try",
        choices=SPECIES,
        widget=forms.CheckboxSelectMultiple,
        required=False,
        help_text="Besides the lumber on hand; each is tried in the same grade.",
    )
    pad_bar = forms.ChoiceField(label="Bar of the pads", choices=BARS, initial="#4")
    species = forms.ChoiceField(label="Sawn lumber on hand", choices=SPECIES, initial="SPF")
    grade = forms.ChoiceField(label="Its grade", choices=GRADES, initial="No.2")
    post_species = forms.ChoiceField(label="Post lumber", choices=SPECIES, initial="SPF")
    post_grade = forms.ChoiceField(label="Its grade", choices=GRADES, initial="Stud")
    max_plies = forms.IntegerField(label="Most plies", min_value=1, max_value=5, initial=4)
    joist_species = forms.ChoiceField(
        label="Joists over the wall are",
        choices=[("", "not known"), *SPECIES],
        required=False,
        help_text="Needed where a wall stands on their ends while they are shored.",
    )
    joist_grade = forms.ChoiceField(label="Their grade", choices=[("", "not known"), *GRADES], required=False)
    roof_slope = forms.DecimalField(
        label="Roof slope, rise in 12",
        min_value=0,
        max_value=24,
        max_digits=4,
        decimal_places=2,
        required=False,
        help_text="Leave empty when not known: snow is then taken as on a flat roof.",
    )
    exposure = forms.DecimalField(
        label="Exposure factor C_e",
        min_value=0.7,
        max_value=1.2,
        initial=1,
        max_digits=3,
        decimal_places=2,
        help_text="ASCE 7 Table 7.3-1; 1.0 is partly exposed.",
    )
    thermal = forms.DecimalField(
        label="Thermal factor C_t",
        min_value=0.85,
        max_value=1.3,
        initial=1,
        max_digits=3,
        decimal_places=2,
        help_text="ASCE 7 Table 7.3-2; 1.0 is a heated house, 1.1 a cold ventilated roof.",
    )
    version = forms.IntegerField(widget=forms.HiddenInput, required=False)

    def __init__(self, *args: Any, code: str = "us", **kwargs: Any) -> None:
        self.code = code
        super().__init__(*args, **kwargs)

    def fit(self) -> None:
        for name in AMERICAN if self.code == "ca" else CANADIAN:
            del self.fields[name]
        if self.code == "ca":
            speak_canadian(self)

    class Meta:
        model = HouseSection
        fields = ["shape", *[name for _, names in GROUPS for name in names.split()]]
        widgets = {"shape": forms.HiddenInput}
        help_texts = {
            "opening": "Between the faces of the posts, such as 11 ft 6 in or 3.5 m.",
            "wall_length": "Empty: as long as the opening.",
            "headroom": "The beam must leave this free. Empty: not checked.",
            "top_edge_every": "Only where the top edge is held at a distance.",
            "post_kind": "Steel has a cap and a base plate; plates under posts stay of the post lumber.",
            "pad_kind": "Plain is thicker; bars make a pad thinner and cost steel and care.",
            "end_bearing": "Length of beam that sits on each post.",
            "ground_snow": "From the building department, with its source beside it.",
            "ground_snow_source": "Such as: county table of 2023, letter of the building department.",
            "roof_live": "20 psf unless the roof is steep; ASCE 7 Table 4.3-1.",
            "occupancy": "Empty: each level's own live load.",
            "way": "Each end of the beam brings a load of its own. A bare slab is no footing.",
            "stated_capacity": "Only for an adjustable or pipe post: what its paper allows at this height.",
            "every_level": "Each floor is then picked up where it is; only walls and roofs stand on joists' ends.",
            "soil": "1,500 psf is the least of IRC Table R401.4.1; soft ground needs an engineer.",
            "families": "",
            "cleared": "Leaves the room load out of the shoring; needs a name and a reason.",
            "snow_season": "Uncheck only with a reason.",
        }

    def groups(self) -> list[tuple[str, list[forms.BoundField]]]:
        """Fields by heading; those that the code does not know are not there."""
        made = [(t, [self[n] for n in names.split() if n in self.fields]) for t, names in GROUPS]
        return [(title, fields) for title, fields in made if fields]

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or {}
        if data.get("cleared") and not data.get("cleared_reason"):
            self.add_error(
                "cleared_reason", "Cleared rooms: read nothing; accepted is who saw to it and how."
            )
        if data.get("snow_season") is False and not data.get("snow_left_out_reason"):
            self.add_error(
                "snow_left_out_reason", "No snow while shored: read nothing; accepted is a reason."
            )
        if data.get("top_edge") == "every" and not data.get("top_edge_every"):
            self._ask(data, "top_edge_every", "a length with a unit, such as 4 ft")
        self._clean_below(data)
        if bool(data.get("joist_species")) != bool(data.get("joist_grade")):
            self.add_error(
                "joist_grade", "Joists: read one of species and grade; accepted is both, or neither."
            )
        return data

    def _clean_below(self, data: dict[str, Any]) -> None:
        needed: dict[str, str] = {}
        if data.get("below") in ("crawl", "basement"):
            needed["below_height"] = "a length with a unit, such as 7 ft 6 in"
            if data.get("way") == "stated_post":
                if self.code == "us" or data.get("stated_capacity"):
                    needed["stated_capacity"] = "a force with a unit, such as 16,000 lbf or 71 kN"
                    needed["stated_source"] = "the maker's paper"
                needed["stated_plate"] = "a length with a unit, such as 8 in or 200 mm"
        if not data.get("soil_class"):
            needed["soil"] = "a pressure with a unit, such as 1,500 psf or 75 kPa"
        for name, accepted in needed.items():
            self._ask(data, name, accepted)

    def _ask(self, data: dict[str, Any], name: str, accepted: str) -> None:
        if not data.get(name) and name not in self.errors:
            self.add_error(name, f"{self.fields[name].label}: read nothing; accepted is {accepted}.")


class LevelForm(EchoMixin, forms.ModelForm):
    """One level over the wall."""

    def __init__(self, *args: Any, code: str = "us", **kwargs: Any) -> None:
        self.code = code
        super().__init__(*args, **kwargs)

    def fit(self) -> None:
        if self.code == "ca":
            speak_canadian_level(self)

    class Meta:
        model = SectionLevel
        fields = [
            "name",
            "kind",
            "framing",
            "left_span",
            "left_support",
            "right_span",
            "right_support",
            "spacing",
            "dead",
            "live",
            "wall_height",
            "wall_weight",
            "reaction_dead",
            "reaction_snow",
        ]
        widgets = {"dead": forms.Textarea(attrs={"rows": 2})}
        help_texts = {
            "left_span": "From the wall to the next support on the left.",
            "right_span": "From the wall to the next support on the right.",
            "spacing": "Of joists along the wall, or of trusses. Empty: 16 in.",
            "dead": "One pressure, or layers: floor boards: 2.5 psf; joists: 3 psf; ceiling: 2.2 psf.",
            "live": "Rooms 40 psf, bedrooms 30 psf, attic without storage 10 psf (IRC Table R301.5). Not for a roof.",
            "wall_weight": "Per area of wall; a stud wall with board on both faces is about 8 psf.",
        }

    def clean_dead(self) -> str:
        """Layers read one by one, so that the sentence names the layer."""
        text: str = self.cleaned_data["dead"]
        try:
            read_dead(text, f"{self.data.get(self.add_prefix('name')) or 'Level'}, dead load")
        except InputError as error:
            raise forms.ValidationError(str(error), code="quantity") from None
        return text

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or {}
        if data.get("framing") == "perpendicular":
            for side in ("left", "right"):
                empty = not data.get(f"{side}_span") and f"{side}_span" not in self.errors
                if data.get(f"{side}_support") != "none" and empty:
                    self.add_error(
                        f"{side}_span",
                        f"Span on the {side}: read nothing; accepted is a length with a unit, such as "
                        "13 ft 6 in, or a side that does not reach the wall.",
                    )
        return data


class PointLoadForm(EchoMixin, forms.ModelForm):
    """A concentrated load on the wall line."""

    class Meta:
        model = PointLoad
        fields = ["label", "case", "value", "at"]


class _Rows(forms.BaseFormSet):
    """Rows that keep the order they were given and may all be taken out but the last."""

    def kept(self) -> list[dict[str, Any]]:
        """Cleaned rows in order, without the ones marked to go and without empty ones."""
        rows = (
            self.ordered_forms
            if self.can_order
            else [f for f in self.forms if not f.cleaned_data.get("DELETE")]
        )
        return [
            {k: v for k, v in form.cleaned_data.items() if k not in ("DELETE", "ORDER", "id")}
            for form in rows
            if form.cleaned_data and form.has_changed()
        ]


class _LevelRows(_Rows):
    """A level that came with the page counts although nobody typed in it: it is all initial data."""

    def kept(self) -> list[dict[str, Any]]:
        rows = [form for form in self.forms if form.cleaned_data and not form.cleaned_data.get("DELETE")]
        rows.sort(key=lambda f: (f.cleaned_data.get("ORDER") is None, f.cleaned_data.get("ORDER") or 0))
        return [
            {k: v for k, v in form.cleaned_data.items() if k not in ("DELETE", "ORDER", "id")}
            for form in rows
            if form.cleaned_data.get("name")
        ]


LevelRows = forms.formset_factory(
    LevelForm,
    formset=_LevelRows,
    extra=0,
    can_delete=True,
    can_order=True,
    max_num=MOST_LEVELS,
    validate_max=True,
    absolute_max=MOST_LEVELS + 2,
    min_num=1,
    validate_min=True,
)
PointRows = forms.formset_factory(
    PointLoadForm,
    formset=_Rows,
    extra=1,
    can_delete=True,
    max_num=MOST_POINTS,
    validate_max=True,
    absolute_max=MOST_POINTS + 2,
)
