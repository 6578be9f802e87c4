"""Money and quantities as people read them."""

from __future__ import annotations

from decimal import Decimal

from django import template

from estimating.core.numbers import plain

register = template.Library()
NOT_PRICED = "not priced"


@register.filter
def money(amount: Decimal | str | None) -> str:
    """`1,234.50`; a missing amount says so."""
    return NOT_PRICED if amount is None or amount == "" else f"{Decimal(amount):,.2f}"


@register.filter
def signed(amount: Decimal | str | None) -> str:
    """`+88.35` or `-1,546.96`: what an alternate adds or takes off."""
    return NOT_PRICED if amount is None or amount == "" else f"{Decimal(amount):+,.2f}"


@register.filter
def unit_price(price: Decimal) -> str:
    """At least cents, and the further decimals a unit price may have."""
    whole, _, cents = plain(Decimal(price)).partition(".")
    return f"{int(whole):,}.{cents:0<2}"


@register.filter
def count(quantity: Decimal | str) -> str:
    """A quantity without trailing zeros, thousands parted."""
    whole, _, rest = plain(Decimal(quantity)).partition(".")
    return f"{int(whole):,}.{rest}" if rest else f"{int(whole):,}"
