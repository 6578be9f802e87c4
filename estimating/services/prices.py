"""Prices and rates: one at a time by hand, or a whole book from plain data."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

import yaml
from django.db import transaction
from django.db.models import F
from django.utils import timezone

from estimating.core.items import ITEMS
from estimating.core.rates import read_price, read_rates
from estimating.core.units import unit_read
from estimating.errors import refusal
from estimating.models import COUNTRIES, PriceBook, PriceItem
from projects.errors import Refused
from projects.models import Company, User
from projects.permissions import require
from projects.services.writing import take_version
from structure.core.errors import InputError

EMPTY_RATES: dict[str, Any] = {"contingency": "0", "overhead": "0", "profit": "0", "taxes": []}
CURRENCIES = {"us": "USD", "ca": "CAD"}
CODE_LETTERS = frozenset("abcdefghijklmnopqrstuvwxyz0123456789.-")


def price_book_open(*, company: Company, actor: User | None, code: str = "us") -> PriceBook:
    """The company's book of one country, made empty and with no rates where there is none yet."""
    if actor is not None:
        require(actor, "edit_prices", company)
    if code not in CURRENCIES:
        raise Refused(f"Country: read {code!r}; accepted is one of {', '.join(CURRENCIES)}.")
    book, _ = PriceBook.objects.get_or_create(
        company=company,
        code=code,
        defaults={
            "name": f"Prices, {dict(COUNTRIES)[code]}",
            "rates": {**EMPTY_RATES, "currency": CURRENCIES[code]},
        },
    )
    return book


def price_item_save(
    *, book: PriceBook, actor: User, code: str, description: str, unit: str, price: Decimal | str | None,
    supplier: str, dated: date | None, item: PriceItem | None = None, version: int | None = None,
) -> PriceItem:  # fmt: skip
    """Add or change one price. An empty price is kept as missing.

    Raises Refused naming the field, Conflict where somebody else changed it in between; nothing is stored then.
    """
    require(actor, "edit_prices", book)
    try:
        kept = None if price in (None, "") else read_price(price, "price")
        unit = unit_read(unit, "unit")
    except InputError as error:
        raise refusal(error) from None
    code = code.strip().lower()
    if not code or not set(code) <= CODE_LETTERS:
        raise Refused(
            f"code: read {code!r}; accepted is letters, digits, dots and hyphens, such as lumber-2x10-spf-no2.",
            field="code",
        )
    if kept is not None and dated is None:
        raise Refused("dated: read nothing; accepted is the day the supplier said this price.", field="dated")
    if dated is not None and dated > timezone.localdate():
        raise Refused(f"dated: read {dated:%Y-%m-%d}; accepted is today or an earlier day.", field="dated")
    with transaction.atomic():
        if item is None:
            if book.items.filter(code=code).exists():
                raise Refused(
                    f"code: read {code!r}; accepted is a code that is not in the book yet.", field="code"
                )
            item = PriceItem(book=book)
        else:
            take_version(item, item.version if version is None else version)
        item.code, item.unit, item.price, item.dated = code, unit, kept, dated
        item.description, item.supplier = description.strip() or _words(code), supplier.strip()
        item.full_clean()
        item.save()
        _touch(book)
    return item


def rates_save(*, book: PriceBook, actor: User, rates: Mapping[str, Any], version: int) -> PriceBook:
    """Change what is added to the direct cost. Raises Refused or Conflict; nothing is stored then."""
    require(actor, "edit_prices", book)
    try:
        kept = read_rates(rates)
    except InputError as error:
        raise refusal(error) from None
    with transaction.atomic():
        take_version(book, version)
        book.rates = kept.as_data()
        book.save(update_fields=["rates", "updated_at"])
    return book


def price_book_load(*, company: Company, data: Mapping[str, Any], actor: User | None = None) -> PriceBook:
    """A whole book from plain data; prices of the same code are replaced, others stay. Running it twice is harmless.

    Raises Refused naming the row and field; nothing is stored then.
    """
    if actor is not None:
        require(actor, "edit_prices", company)
    try:
        rates = read_rates(data["rates"]).as_data()
        rows = [_row(row, index) for index, row in enumerate(data["prices"])]
    except InputError as error:
        raise refusal(error) from None
    with transaction.atomic():
        book, _ = PriceBook.objects.get_or_create(
            company=company, code=str(data.get("code", "us")), defaults={"name": data["name"], "rates": rates}
        )
        stored = {item.code: item for item in book.items.all()}
        changed = (
            book.rates != rates or book.name != data["name"] or book.invented != bool(data.get("invented"))
        )
        for row in rows:
            item = stored.get(row["code"]) or PriceItem(book=book, code=row["code"])
            if item.pk is None or any(getattr(item, name) != value for name, value in row.items()):
                for name, value in row.items():
                    setattr(item, name, value)
                item.full_clean(exclude=["book"], validate_constraints=False)
                item.save()
                changed = True
        if changed:
            book.name, book.invented, book.rates = data["name"], bool(data.get("invented")), rates
            book.save()
            _touch(book)
    return book


def price_book_load_file(*, company: Company, path: Path, actor: User | None = None) -> PriceBook:
    """`price_book_load` from a YAML file of our own."""
    return price_book_load(
        company=company, data=yaml.safe_load(path.read_text(encoding="utf-8")), actor=actor
    )


def _row(row: Mapping[str, Any], index: int) -> dict[str, Any]:
    path = f"prices[{index}]"
    code, dated = str(row.get("code", "")), row.get("dated")
    if not code or not set(code) <= CODE_LETTERS:
        raise InputError(f"{path}.code", code, "letters, digits, dots and hyphens")
    if not isinstance(dated, date):
        raise InputError(f"{path}.dated", dated, "a day, such as 2026-11-02")
    return {
        "code": code,
        "description": str(row.get("description") or _words(code)),
        "unit": unit_read(str(row.get("unit", "")), f"{path}.unit"),
        "price": read_price(row.get("price"), f"{path}.price"),
        "supplier": str(row.get("supplier", "")),
        "dated": dated,
    }


def _words(code: str) -> str:
    """What a code stands for: the catalogue's words, or the code's own parts in capitals where they are a size."""
    item = ITEMS.get(code)
    if item is not None:
        return item.description
    head, _, rest = code.partition("-")
    return f"{head.upper() if len(head) < 4 else head.capitalize()} {rest.upper().replace('-', ' ')}".strip()


def _touch(book: PriceBook) -> None:
    """A new version of the book, so that estimates know their prices have moved."""
    PriceBook.objects.filter(pk=book.pk).update(version=F("version") + 1)
    book.refresh_from_db()
