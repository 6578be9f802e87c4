"""The price list as a table."""

from __future__ import annotations

from datetime import date
from typing import Any

import django_tables2 as tables
from django.urls import reverse
from django.utils.html import format_html

from estimating.models import PriceItem
from estimating.templatetags.estimating_money import unit_price

NUMBER = {"td": {"class": "num money"}, "th": {"class": "num"}}


class PriceTable(tables.Table):
    """Prices with supplier and age; a missing one and a stale one say so in words."""

    code = tables.Column()
    description = tables.Column()
    price = tables.Column(attrs=NUMBER, empty_values=())
    unit = tables.Column()
    supplier = tables.Column()
    dated = tables.Column(verbose_name="Said on", empty_values=())

    class Meta:
        model = PriceItem
        fields = ("code", "description", "price", "unit", "supplier", "dated")
        order_by = "code"

    def __init__(self, *args: Any, today: date, stale_after_days: int, may_edit: bool, **kwargs: Any) -> None:
        self.today, self.stale_after_days, self.may_edit = today, stale_after_days, may_edit
        super().__init__(*args, **kwargs)

    def render_code(self, record: PriceItem) -> str:
        """A link to the price for those who may change it."""
        if not self.may_edit:
            return record.code
        return format_html(
            '<a href="{}">{}</a>', reverse("estimating:price_edit", args=[record.pk]), record.code
        )

    def render_price(self, record: PriceItem) -> str:
        """Never zero: missing."""
        if record.price is None:
            return format_html('<span class="tag tag--bad">{}</span>', "missing")
        return unit_price(record.price)

    def render_dated(self, record: PriceItem) -> str:
        """The day, marked where it is long ago."""
        if record.dated is None:
            return ""
        shown = record.dated.isoformat()
        if (self.today - record.dated).days > self.stale_after_days:
            return format_html('{} <span class="tag tag--warn">{}</span>', shown, "stale")
        return shown
