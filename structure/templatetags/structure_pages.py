"""How the pages of this app print quantities, calculation lines and drawings."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from django import template
from django.utils.safestring import SafeString, mark_safe

from structure import reading
from structure.diagrams import words
from structure.question import service_total
from structure.understood import understood

register = template.Library()


@register.filter
def refused(rows: Iterable[Mapping[str, Any]]) -> list[Mapping[str, Any]]:
    """The rows whose form was refused, without those marked absent."""
    return [row for row in rows if not row["absent"] and row["form"].is_bound and row["form"].errors]


@register.filter
def quantity(held: Any) -> str:
    """A quantity in the trade's unit with the other system beside it."""
    return reading.quantity_words(held)


@register.filter
def quantity_short(held: Any) -> str:
    """A quantity in one unit."""
    return reading.quantity_words(held, both=False)


@register.filter
def carried(pounds: float) -> str:
    """What a piece weighs."""
    return words.weight(pounds)


@register.filter
def typed_as(text: str, dimension: str) -> str:
    """What a typed quantity was read as."""
    return understood(text or "", dimension)


@register.filter
def step_line(step: Mapping[str, Any]) -> dict[str, str]:
    """One calculation line as words."""
    return reading.step_line(step)


@register.filter
def plain(name: str) -> str:
    """`deflection_total` as words."""
    return str(name).replace("_", " ").replace(".", " ")


@register.filter
def get(held: Mapping[str, Any] | None, key: str) -> Any:
    """A value by its key, None where there is none."""
    return None if not held else held.get(key)


@register.filter
def ratio_words(value: Any) -> str:
    """A ratio of demand to capacity: two places, never rounded down to a pass."""
    if value is None:
        return "none"
    number = float(value)
    if number == float("inf"):
        return "∞"
    shown = f"{number:.2f}"
    return f"{number:.4f}" if number > 1 and float(shown) <= 1 else shown


@register.filter
def svg(drawing: str) -> SafeString:
    """A drawing made by structure.diagrams, which escapes every word it is given."""
    return mark_safe(drawing)  # noqa: S308 - the only source is our own pen, tested to escape


@register.filter
def line_total(line: Mapping[str, Any] | None) -> Any:
    """Dead, live and the larger roof load of a line load by case."""
    return {"value": service_total(line), "unit": "lbf/ft"} if line else None
