"""The house section as typed: what is asked of the engine, and the offset check."""

from __future__ import annotations

from django.conf import settings
from django.db import models

from structure.fields import QuantityField
from structure.models.choices import (
    HEADERS,
    SHORES,
    SILLS,
    Below,
    Mounting,
    PadKind,
    PostKind,
    Shape,
    SnowRule,
    SoilFrom,
    TopEdge,
    Way,
)


class HouseSection(models.Model):
    """The house cut across one wall: what is asked of the engine, kept as it was typed."""

    job = models.OneToOneField("projects.Job", on_delete=models.PROTECT, related_name="section")
    shape = models.CharField(max_length=20, choices=Shape, blank=True)

    opening = QuantityField("clear opening", dimension="length")
    wall_length = QuantityField("length of the wall taken out", dimension="length", blank=True)
    wall_thickness = QuantityField("thickness of the wall", dimension="length", default="4 1/2 in")
    ceiling_height = QuantityField("floor to ceiling", dimension="length")
    joist_depth = QuantityField("depth of the joists on the wall", dimension="length", default="9 1/4 in")
    mounting = models.CharField("beam", max_length=8, choices=Mounting, default=Mounting.DROPPED)
    end_bearing = QuantityField("bearing at each end", dimension="length", default="4 1/2 in")
    headroom = QuantityField("least headroom under the beam", dimension="length", blank=True)
    top_edge = models.CharField("top edge is held", max_length=6, choices=TopEdge, default=TopEdge.FRAMED)
    top_edge_every = QuantityField("held every", dimension="length", blank=True)
    roof_slope = models.DecimalField(
        "roof slope, rise in 12", max_digits=4, decimal_places=2, null=True, blank=True
    )

    ground_snow = QuantityField("ground snow", dimension="pressure", positive=False)
    ground_snow_source = models.CharField("where the ground snow comes from", max_length=200)
    # Canada: the rain that comes with the snow, and the rule.
    rain = QuantityField("rain with it S_r", dimension="pressure", positive=False, blank=True)
    snow_rule = models.CharField("roof snow by", max_length=5, choices=SnowRule, default=SnowRule.PART_9)
    roof_width = QuantityField("width of the roof", dimension="length", blank=True)
    exposure = models.DecimalField("exposure factor C_e", max_digits=3, decimal_places=2, default=1)
    thermal = models.DecimalField("thermal factor C_t", max_digits=3, decimal_places=2, default=1)
    roof_live = QuantityField("roof live load", dimension="pressure", positive=False, default="20 psf")

    below = models.CharField("under this floor", max_length=10, choices=Below)
    below_height = QuantityField("height down there", dimension="length", blank=True)
    way = models.CharField("the load goes on by", max_length=14, choices=Way, default=Way.UNKNOWN)
    blocked = models.BooleanField("solid blocking through the floor is put in", default=True)
    stated_capacity = QuantityField("stated capacity of that post", dimension="force", blank=True)
    stated_source = models.CharField("paper that states it", max_length=200, blank=True)
    stated_plate = QuantityField("side of its base plate", dimension="length", blank=True)
    soil = QuantityField("allowable soil pressure", dimension="pressure", default="1500 psf", blank=True)
    soil_class = models.CharField("kind of soil", max_length=24, blank=True)
    soil_from = models.CharField(
        "soil pressure is", max_length=14, choices=SoilFrom, default=SoilFrom.PRESUMPTIVE
    )
    soil_source = models.CharField(
        "where the soil pressure comes from", max_length=200, default="assumed, nobody has tested it"
    )

    pad_kind = models.CharField("new pads are", max_length=5, choices=PadKind, default=PadKind.PLAIN)
    pad_bar = models.CharField("bar", max_length=4, default="#4")

    concrete = QuantityField("strength of its concrete", dimension="stress", blank=True)
    # Canada: what decides whether Part 9 covers the house.
    storeys = models.PositiveSmallIntegerField("storeys of the building", null=True, blank=True)
    building_area = QuantityField("building area", dimension="area", blank=True)

    families = models.JSONField("beam families to try", default=list)
    species = models.CharField("sawn lumber on hand", max_length=12, default="SPF")
    more_species = models.JSONField("other species to try", default=list, blank=True)
    grade = models.CharField("grade", max_length=12, default="No.2")
    max_plies = models.PositiveSmallIntegerField("most plies", default=4)
    post_kind = models.CharField("posts are of", max_length=4, choices=PostKind, default=PostKind.WOOD)
    post_species = models.CharField("post lumber", max_length=12, default="SPF")
    post_grade = models.CharField("post grade", max_length=12, default="Stud")
    post_solid = models.BooleanField("try small solid timbers as posts too", default=False)

    stand_off = QuantityField("shoring stands off the wall by", dimension="length", default="30 in")
    shoring_header = models.CharField(
        "header", max_length=8, choices=[(h, h) for h in HEADERS], default="2-2x10"
    )
    shoring_shore = models.CharField("shores", max_length=8, choices=[(h, h) for h in SHORES], default="4x4")
    shoring_sill = models.CharField(
        "sill, flat", max_length=8, choices=[(h, h) for h in SILLS], default="2x10"
    )
    joist_species = models.CharField("joists over the wall are", max_length=12, blank=True)
    joist_grade = models.CharField("their grade", max_length=12, blank=True)
    joist_width = QuantityField("thickness of one joist", dimension="length", default="1 1/2 in")
    joist_spacing = QuantityField("their spacing", dimension="length", default="16 in")
    every_level = models.BooleanField("shore every level above on the same lines", default=False)
    construction = QuantityField("construction load while shored", dimension="pressure", default="20 psf")
    occupancy = QuantityField("room load while shored", dimension="pressure", blank=True)
    cleared = models.BooleanField("rooms above are cleared and kept empty while shored", default=False)
    cleared_reason = models.CharField("who saw to it and how", max_length=200, blank=True)
    snow_season = models.BooleanField("shoring stands in snow season", default=True)
    snow_left_out_reason = models.CharField("why no snow while shored", max_length=200, blank=True)

    version = models.PositiveIntegerField(default=1, editable=False)
    updated_at = models.DateTimeField(auto_now=True)
    updated_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")

    class Meta:
        constraints = [
            models.CheckConstraint(condition=models.Q(max_plies__gte=1), name="section_has_plies"),
            models.CheckConstraint(
                condition=models.Q(cleared=False) | ~models.Q(cleared_reason=""),
                name="section_cleared_has_reason",
            ),
            models.CheckConstraint(
                condition=models.Q(snow_season=True) | ~models.Q(snow_left_out_reason=""),
                name="section_snow_left_out_has_reason",
            ),
        ]

    def __str__(self) -> str:
        return f"Section of {self.job_id}"


class SectionLevel(models.Model):
    """One level over the wall, from the top down by `order`."""

    class Kind(models.TextChoices):
        ROOF = "roof", "Roof"
        ATTIC = "attic", "Attic or ceiling"
        FLOOR = "floor", "Floor"

    class Framing(models.TextChoices):
        PERPENDICULAR = "perpendicular", "across the wall"
        PARALLEL = "parallel", "along the wall"
        TRUSS_CLEAR = "truss_clear", "trusses, clear over the wall"
        TRUSS_INTERIOR = "truss_interior", "trusses that bear on the wall"

    class Support(models.TextChoices):
        SIMPLE = "simple", "ends on the wall"
        CONTINUOUS = "continuous", "runs over the wall"
        NONE = "none", "does not reach the wall"

    section = models.ForeignKey(HouseSection, on_delete=models.CASCADE, related_name="levels")
    order = models.PositiveSmallIntegerField()
    name = models.CharField(max_length=60)
    kind = models.CharField(max_length=6, choices=Kind)
    framing = models.CharField("joists run", max_length=16, choices=Framing, default=Framing.PERPENDICULAR)
    left_span = QuantityField("span on the left", dimension="length", blank=True)
    left_support = models.CharField("on the left", max_length=10, choices=Support, default=Support.SIMPLE)
    right_span = QuantityField("span on the right", dimension="length", blank=True)
    right_support = models.CharField("on the right", max_length=10, choices=Support, default=Support.SIMPLE)
    spacing = QuantityField("spacing", dimension="length", blank=True)
    dead = models.TextField("dead load, in one or by layer", max_length=600)
    live = QuantityField("live load", dimension="pressure", positive=False, blank=True)
    wall_height = QuantityField("height of a wall standing on this line", dimension="length", blank=True)
    wall_weight = QuantityField("weight of that wall", dimension="pressure", blank=True)
    reaction_dead = QuantityField("truss reaction, dead", dimension="line_load", positive=False, blank=True)
    reaction_snow = QuantityField(
        "truss reaction, snow or roof live", dimension="line_load", positive=False, blank=True
    )

    class Meta:
        ordering = ["section", "order"]
        constraints = [
            models.UniqueConstraint(fields=["section", "order"], name="level_order_once"),
        ]

    def __str__(self) -> str:
        return self.name


class PointLoad(models.Model):
    """A concentrated load on the wall line, from the left end of the opening."""

    class Case(models.TextChoices):
        DEAD = "dead", "dead"
        LIVE = "live", "live"
        ROOF_LIVE = "roof_live", "roof live"
        SNOW = "snow", "snow"

    section = models.ForeignKey(HouseSection, on_delete=models.CASCADE, related_name="points")
    label = models.CharField("what brings it", max_length=80)
    case = models.CharField(max_length=10, choices=Case, default=Case.DEAD)
    value = QuantityField("load", dimension="force")
    at = QuantityField("from the left end of the opening", dimension="length", positive=False)

    class Meta:
        ordering = ["section", "pk"]

    def __str__(self) -> str:
        return self.label


class OffsetCheck(models.Model):
    """The wall above measured against the support below, as typed, with the engine's answer."""

    class To(models.TextChoices):
        NEAR_FACE = "near_face", "near face"
        CENTRE = "centre", "centre"

    job = models.ForeignKey("projects.Job", on_delete=models.PROTECT, related_name="offset_checks")
    above_distance = QuantityField("wall above: from the outside face", dimension="length")
    above_to = models.CharField("to its", max_length=10, choices=To, default=To.NEAR_FACE)
    above_thickness = QuantityField("wall above: thickness", dimension="length", default="4 1/2 in")
    below_distance = QuantityField("support below: from the outside face", dimension="length")
    below_to = models.CharField("to its", max_length=10, choices=To, default=To.NEAR_FACE)
    below_thickness = QuantityField("support below: thickness", dimension="length", default="4 1/2 in")
    wall_shift = QuantityField(
        "outside face below stands in from the one above by",
        dimension="length",
        positive=None,
        default="0 in",
    )
    joist_depth = QuantityField("joist depth", dimension="length", default="9 1/4 in")
    tolerance = QuantityField(
        "tape and finishes, give or take", dimension="length", positive=False, default="1/2 in"
    )
    supports_floor = models.BooleanField("the wall above carries a floor", default=True)
    framing = models.CharField(
        "joists between them run",
        max_length=16,
        default="perpendicular",
        choices=[("perpendicular", "across the wall"), ("parallel", "along the wall")],
    )
    result = models.JSONField(editable=False)
    checked_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    checked_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["-checked_at", "-pk"]

    def __str__(self) -> str:
        return f"Offset check of {self.checked_at:%Y-%m-%d}"
