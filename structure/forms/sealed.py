"""The sizes of a sealed design as its drawing gives them: lumber, engineered wood, steel, flitch, pads with bars."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from django import forms

from structure.core.errors import InputError
from structure.core.materials.ca_steel_shapes import shape as canadian
from structure.core.materials.steel_shapes import Shape, shape
from structure.core.units import read_quantity
from structure.fields import QuantityFormField
from structure.forms.canadian import BARS as CANADIAN_BARS
from structure.forms.section import BARS, EchoMixin
from structure.models import Schedule

BEAMS = [
    ("sawn", "Lumber, built up or solid"),
    ("lvl", "LVL"),
    ("psl", "PSL"),
    ("lsl", "LSL"),
    ("glulam", "Glulam"),
    ("steel", "Steel shape"),
    ("flitch", "Flitch: steel plates between lumber"),
    ("other", "Something else (as written below)"),
]
FORMS = [
    ("", "from the shape"),
    ("W", "W"),
    ("C", "channel"),
    ("HSS", "rectangular tube"),
    ("round", "round"),
]
METRIC_BARS = [(bar, bar) for bar in CANADIAN_BARS]
A_LENGTH = "a length with a unit, such as 9 1/4 in"
WOOD = {"plies": "a whole number", "ply_width": A_LENGTH, "depth": A_LENGTH}
PLATES = {"plates": "a whole number", "plate_thickness": A_LENGTH, "plate_depth": A_LENGTH}


class SealedForm(EchoMixin, forms.Form):
    """What all of them share: fields that only some kinds need are asked for by kind, and folded away.

    `FOLDED`: those fields; `FOLD`: what stands over them.
    """

    FOLD = ""
    FOLDED: tuple[str, ...] = ()

    @property
    def plain(self) -> list[forms.BoundField]:
        """Fields that every member needs."""
        return [field for field in self if field.name not in self.FOLDED]

    @property
    def folded(self) -> list[forms.BoundField]:
        """Fields that only some members need."""
        return [field for field in self if field.name in self.FOLDED]

    @property
    def unfolded(self) -> bool:
        """Whether something stands, or is wrong, in what is folded away."""
        return any(field.value() or field.errors for field in self.folded)

    def _need(self, data: Mapping[str, Any], wanted: Mapping[str, str], kind: str) -> None:
        for name, accepted in wanted.items():
            if data.get(name) in ("", None) and name not in self.errors:
                label = str(self.fields[name].label or name).capitalize()
                self.add_error(name, f"{label}: read nothing; accepted for {kind} is {accepted}.")

    def _drop(self, data: dict[str, Any], names: Iterable[str]) -> None:
        """What another kind needs is not kept."""
        for name in names:
            data[name] = None if name in ("plies", "plates", "bolts") else ""

    def _steel(self, data: dict[str, Any]) -> None:
        """Form, sizes and weight of a shape from the tables; typed where the tables do not hold it."""
        self._need(data, {"shape": "a shape, such as W14x22"}, "steel")
        if not data.get("shape"):
            return
        try:
            held = _shape(data["shape"])
        except InputError as error:
            own = {"form": "its form", "weight": "a weight by length, such as 22 lbf/ft", "depth": A_LENGTH}
            if any(not data.get(name) for name in own):
                self.add_error("shape", f"{error} Or give form, weight and depth as the drawing has them.")
            return
        metric = held.table.startswith("ca/")
        length, weight = ("mm", f"{held.W!r} kN/m") if metric else ("in", f"{held.W * 12!r} lbf/ft")
        data |= {
            "shape": held.label,
            "form": held.form,
            "width": f"{held.b!r} {length}",
            "depth": f"{held.d!r} {length}",
            "weight": weight,
        }


def _shape(label: str) -> Shape:
    """The shape of a label of either country, `W14x22` or `W360x33`. Raises InputError for neither."""
    try:
        return shape(label)
    except InputError:
        try:
            found = canadian(label)
        except InputError:
            found = None
        # Only its own label: what stands near it under another name is no reading of a drawing.
        if found is None or found.label.lower() != label.strip().lower():
            raise
        return found


class SealedBeamForm(SealedForm):
    """The beam as the sealed design gives it."""

    FOLD = "Steel shape, or plates of a flitch beam"
    FOLDED = ("shape", "form", "weight", "plates", "plate_thickness", "plate_depth", "bolts")

    family = forms.ChoiceField(label="Kind of beam", choices=BEAMS)
    label = forms.CharField(label="As written on the drawing", max_length=120)
    length = QuantityFormField(dimension="length", label="Length")
    plies = forms.IntegerField(min_value=1, max_value=8, required=False)
    ply_width = QuantityFormField(dimension="length", label="Width of one ply", required=False)
    depth = QuantityFormField(dimension="length", label="Depth", required=False)
    species = forms.CharField(max_length=20, required=False)
    grade = forms.CharField(max_length=30, required=False)
    shape = forms.CharField(
        label="Steel shape", max_length=30, required=False, help_text="Such as W14x22, HSS8x4x1/4, W360x33."
    )
    form = forms.ChoiceField(label="Form of the shape", choices=FORMS, required=False)
    weight = QuantityFormField(
        dimension="line_load",
        label="Weight of the steel",
        required=False,
        help_text="By length; empty: from the shape.",
    )
    plates = forms.IntegerField(label="Flitch plates", min_value=1, max_value=4, required=False)
    plate_thickness = QuantityFormField(dimension="length", label="Thickness of a plate", required=False)
    plate_depth = QuantityFormField(dimension="length", label="Depth of a plate", required=False)
    bolts = forms.IntegerField(label="Bolts of the flitch beam", min_value=1, max_value=400, required=False)

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or {}
        family = data.get("family")
        flitch = ("plates", "plate_thickness", "plate_depth", "bolts")
        if family == "steel":
            self._steel(data)
            self._drop(data, ("plies", "ply_width", "species", *flitch))
        elif family == "flitch":
            self._need(data, WOOD | PLATES, "a flitch beam")
            self._drop(data, ("shape", "form", "weight"))
        elif family:
            if family != "other":
                self._need(data, WOOD, dict(BEAMS)[family].lower())
            self._drop(data, ("shape", "form", "weight", *flitch))
        return data


class SealedPostForm(SealedForm):
    """A post as the sealed design gives it: plies of wood, one timber, or a steel shape."""

    FOLD = "Steel shape"
    FOLDED = ("shape", "form", "weight")

    family = forms.ChoiceField(
        label="Kind of post", choices=[("sawn", "Wood"), ("steel", "Steel pipe or tube")]
    )
    label = forms.CharField(label="As written on the drawing", max_length=120)
    height = QuantityFormField(dimension="length", label="Height")
    plies = forms.IntegerField(min_value=1, max_value=10, required=False)
    ply_width = QuantityFormField(dimension="length", label="Width of one ply", required=False)
    depth = QuantityFormField(dimension="length", label="Depth", required=False)
    species = forms.CharField(max_length=20, required=False)
    grade = forms.CharField(max_length=30, required=False)
    fastening = forms.ChoiceField(choices=[("nailed", "nailed"), ("bolted", "bolted")])
    shape = forms.CharField(
        label="Steel shape", max_length=30, required=False, help_text="Such as Pipe3-1/2STD or HSS4x4x1/4."
    )
    form = forms.ChoiceField(label="Form of the shape", choices=FORMS, required=False)
    weight = QuantityFormField(
        dimension="line_load",
        label="Weight of the steel",
        required=False,
        help_text="By length; empty: from the shape.",
    )

    def has_changed(self) -> bool:
        """True once somebody typed in it: what a browser posts of the lists that show is no post."""
        return bool(set(self.changed_data) - {"fastening", "family", "form"})

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or {}
        if data.get("family") == "steel":
            self._steel(data)
            self._drop(data, ("plies", "ply_width", "species", "fastening"))
        elif data.get("family"):
            self._need(data, WOOD, "a wood post")
            self._drop(data, ("shape", "form", "weight"))
        return data


class SealedFootingForm(SealedForm):
    """A pad as the sealed design gives it, square or not, plain or with bars."""

    FOLD = "Not square, or with bars"
    FOLDED = ("width", "bar", "bars", "cross_bars", "cover")

    label = forms.CharField(label="As written on the drawing", max_length=120)
    side = QuantityFormField(dimension="length", label="Side, or its length")
    width = QuantityFormField(dimension="length", label="Width, where it is not square", required=False)
    thickness = QuantityFormField(dimension="length", label="Thickness")
    bar = forms.ChoiceField(
        label="Bars", choices=[("", "none, plain concrete"), *BARS, *METRIC_BARS], required=False
    )
    bars = forms.IntegerField(label="Bars along its length", min_value=2, max_value=60, required=False)
    cross_bars = forms.IntegerField(label="Bars across", min_value=2, max_value=60, required=False)
    cover = QuantityFormField(dimension="length", label="Cover of the bars", required=False)
    existing = forms.BooleanField(label="It is there already and stays", required=False)

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or {}
        if data.get("bar"):
            self._need(data, {"bars": "a whole number"}, "a pad with bars")
            data["cross_bars"] = data.get("cross_bars") or data.get("bars")
            cover = data.get("cover") or "3 in"
            if not self.errors and 2 * _inches(cover) >= min(
                _inches(data["side"]), _inches(data.get("width"))
            ):
                self.add_error(
                    "cover", "Cover of the bars: the pad is no wider than its cover at both sides."
                )
            data["cover"] = cover
        else:
            self._drop(data, ("cover",))
            data["bars"] = data["cross_bars"] = None
        return data


def _inches(text: str | None) -> float:
    return read_quantity(text, "length", "length") if text else float("inf")


class SealedShoringForm(SealedForm):
    """Shoring that the engineer designed; it takes the place of the plan here."""

    label = forms.CharField(
        label="Shoring by the engineer, as written on the drawing",
        max_length=160,
        help_text="Only if the sealed design has its own shoring: title and number of its sheet.",
    )


SEALED_FORMS: Mapping[str, type[forms.Form]] = {
    "beam": SealedBeamForm,
    "post": SealedPostForm,
    "footing": SealedFootingForm,
    "shoring": SealedShoringForm,
}


class SealedNoteForm(forms.ModelForm):
    """What the sealed design says beyond the sizes."""

    class Meta:
        model = Schedule
        fields = ["note"]
        widgets = {"note": forms.Textarea(attrs={"rows": 3})}
