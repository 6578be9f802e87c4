"""The price book: the list, one price, the rates."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_GET, require_http_methods
from django_tables2 import RequestConfig

from estimating.filters import PriceFilter
from estimating.forms import PriceForm, RatesForm
from estimating.models import PriceBook, PriceItem
from estimating.selectors import price_book_of, price_books_of, price_item_for, price_items_visible_to
from estimating.services.prices import CURRENCIES, EMPTY_RATES, price_book_open, price_item_save, rates_save
from estimating.tables import PriceTable
from estimating.views.common import person
from projects.errors import Conflict, Refused
from projects.permissions import can, require
from projects.selectors import company_of

PER_PAGE = 50


def _country(request: HttpRequest) -> str:
    """The country asked for, else that of the book there is, else the United States."""
    return _asked(request, price_books_of(company_of(request.user)))


def _asked(request: HttpRequest, books: list[PriceBook]) -> str:
    asked = request.GET.get("country", "")
    if asked in CURRENCIES:
        return asked
    return books[0].code if books else "us"


def _book(request: HttpRequest) -> PriceBook | None:
    return price_book_of(company_of(request.user), _country(request))


def _back(book: PriceBook) -> HttpResponse:
    """To the list of the book that was written in."""
    return redirect(f"{reverse('estimating:prices')}?country={book.code}")


@require_GET
def price_list(request: HttpRequest) -> HttpResponse:
    """Prices with supplier, date and age; missing and stale ones can be picked out."""
    require(request.user, "see_prices")
    books = price_books_of(company_of(request.user))
    country = _asked(request, books)
    book = next((each for each in books if each.code == country), None)
    rates = book.rates if book else EMPTY_RATES
    stale_after = int(rates.get("stale_after_days", 60))
    may_edit = can(request.user, "edit_prices")
    found = PriceFilter(
        request.GET,
        queryset=price_items_visible_to(request.user).filter(book=book),
        stale_after_days=stale_after,
    )
    table = PriceTable(
        found.qs, today=timezone.localdate(), stale_after_days=stale_after, may_edit=may_edit,
        empty_text="No price fits. Change the filter, or add the price.",
    )  # fmt: skip
    table.caption = "Prices"
    RequestConfig(request, paginate={"per_page": PER_PAGE}).configure(table)
    context = {
        "nav": "prices",
        "book": book,
        "books": books,
        "country": country,
        "rates": rates,
        "filter": found,
        "table": table,
        "may_edit": may_edit,
    }
    return render(request, "estimating/prices.html", context)


@require_http_methods(["GET", "POST"])
def price_new(request: HttpRequest) -> HttpResponse:
    """Add a price; `?code=` fills in the code that a takeoff misses."""
    require(request.user, "edit_prices")
    form = PriceForm(request.POST or None, initial={"code": request.GET.get("code", ""), "unit": "each"})
    return _price(request, form, None)


@require_http_methods(["GET", "POST"])
def price_edit(request: HttpRequest, pk: int) -> HttpResponse:
    """Change one price."""
    require(request.user, "edit_prices")
    item = price_item_for(request.user, pk)
    names = ("code", "description", "unit", "supplier", "dated", "version")
    initial: dict[str, Any] = {name: getattr(item, name) for name in names}
    initial["price"] = "" if item.price is None else f"{item.price.normalize():f}"
    return _price(request, PriceForm(request.POST or None, initial=initial, known=True), item)


def _price(request: HttpRequest, form: PriceForm, item: PriceItem | None) -> HttpResponse:
    status = 200
    if request.method == "POST":
        status = 422
        if form.is_valid():
            data = {name: value for name, value in form.cleaned_data.items() if name != "version"}
            try:
                company, actor = company_of(request.user), person(request)
                book = (
                    item.book
                    if item
                    else price_book_open(company=company, actor=actor, code=_country(request))
                )
                saved = price_item_save(
                    book=book, actor=person(request), item=item, version=form.cleaned_data["version"], **data
                )
            except Conflict as conflict:
                form.add_error(None, conflict.sentence)
                status = 409
            except Refused as refused:
                form.add_error(refused.field if refused.field in form.fields else None, refused.sentence)
            else:
                messages.success(request, f"{saved.code} saved. Estimates built before this are out of date.")
                return _back(book)
    context = {
        "nav": "prices",
        "form": form,
        "item": item,
        "country": item.book.code if item else _country(request),
    }
    if item is not None:
        context["history"] = item.history.select_related("history_user")[:20]
    return render(request, "estimating/price_form.html", context, status=status)


@require_http_methods(["GET", "POST"])
def rates(request: HttpRequest) -> HttpResponse:
    """What is added to the direct cost."""
    require(request.user, "edit_prices")
    book = _book(request)
    if book is None and request.method == "POST":
        book = price_book_open(
            company=company_of(request.user), actor=person(request), code=_country(request)
        )
    held, version = (book.rates, book.version) if book else (EMPTY_RATES, 1)
    form = RatesForm(request.POST or None, initial=RatesForm.initial_of(held, version))
    status = 200
    if request.method == "POST" and book is not None:
        status = 422
        if form.is_valid():
            try:
                rates_save(
                    book=book, actor=person(request), rates=form.rates(), version=form.cleaned_data["version"]
                )
            except Conflict as conflict:
                form.add_error(None, conflict.sentence)
                status = 409
            except Refused as refused:
                form.add_error(refused.field if refused.field in form.fields else None, refused.sentence)
            else:
                messages.success(request, "Rates saved. Estimates built before this are out of date.")
                return _back(book)
    context = {"nav": "prices", "form": form, "country": _country(request)}
    return render(request, "estimating/rates.html", context, status=status)
