"""Products in hand: the values that a person read from the paper of one."""

from __future__ import annotations

from django.conf import settings
from django.db import models

from structure.fields import QuantityField
from structure.models.unchanging import Unchanging


class EnteredProduct(Unchanging):
    """A beam product that a person has in hand, with the values its maker prints. Never changed; voided instead.

    `depths` are typed in one line, parted by semicolons.
    """

    class Family(models.TextChoices):
        PSL = "psl", "PSL, parallel strand lumber"
        LSL = "lsl", "LSL, laminated strand lumber"
        LVL = "lvl", "LVL, laminated veneer lumber"

    job = models.ForeignKey("projects.Job", on_delete=models.PROTECT, related_name="entered_products")
    family = models.CharField(max_length=3, choices=Family)
    name = models.CharField("what is stamped on it", max_length=40)
    source = models.CharField("paper the values are read from", max_length=200)
    width = QuantityField("width of one ply", dimension="length")
    depths = models.CharField("depths on hand", max_length=200)
    plies = models.PositiveSmallIntegerField("most plies side by side", default=1)
    Fb = QuantityField("bending, Fb", dimension="stress")
    Fv = QuantityField("shear, Fv", dimension="stress")
    Fc_perp = QuantityField("bearing across the grain, Fc⊥", dimension="stress")
    E = QuantityField("modulus, E", dimension="stress")
    Emin = QuantityField("modulus for stability, Emin", dimension="stress", blank=True)
    entered_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    entered_at = models.DateTimeField(auto_now_add=True)
    voided_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    voided_at = models.DateTimeField(null=True, blank=True)
    void_reason = models.CharField(max_length=200, blank=True)

    class Meta:
        ordering = ["family", "name", "pk"]
        constraints = [
            models.CheckConstraint(condition=~models.Q(source=""), name="product_has_source"),
            models.CheckConstraint(condition=models.Q(plies__gte=1, plies__lte=5), name="product_has_plies"),
            models.UniqueConstraint(
                fields=["job", "family", "name"],
                condition=models.Q(voided_at__isnull=True),
                name="product_once_a_job",
            ),
            models.CheckConstraint(
                condition=models.Q(voided_at__isnull=True, voided_by__isnull=True, void_reason="")
                | models.Q(voided_at__isnull=False, voided_by__isnull=False) & ~models.Q(void_reason=""),
                name="product_void_has_reason",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.family.upper()} {self.name}"
