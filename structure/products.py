"""A product in hand as plain data, and the sections that a search tries of it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from structure.core.errors import InputError
from structure.fields import read_typed

VALUES = ("Fb", "Fv", "Fc_perp", "E", "Emin")
#: The same values as each code calls them: allowable stresses, or specified strengths of limit states.
CALLED = {
    "us": {name: name for name in VALUES},
    "ca": {"Fb": "fb", "Fv": "fv", "Fc_perp": "fcp", "E": "E", "Emin": "E05"},
}
MOST_DEPTHS = 12


def depths_of(text: str) -> list[str]:
    """The depths of one typed line, parted by semicolons. Raises InputError for none, or for one that is none."""
    found = [part.strip() for part in text.replace("\n", ";").split(";") if part.strip()]
    if not 1 <= len(found) <= MOST_DEPTHS:
        raise InputError(
            "Depths on hand", text.strip() or None, f"1 to {MOST_DEPTHS} lengths parted by semicolons"
        )
    for part in found:
        read_typed(part, "length", "Depths on hand")
    return found


def product_sections(
    product: Mapping[str, Any], most_plies: int | None = None, code: str = "us"
) -> Iterator[dict[str, Any]]:
    """Every depth and number of plies of a product, as a case of `code` writes a section."""
    values = {called: product[name] for name, called in CALLED[code].items() if product[name]}
    plies = product["plies"] if most_plies is None else min(product["plies"], most_plies)
    for depth in depths_of(product["depths"]):
        for count in range(1, plies + 1):
            yield {
                "family": product["family"],
                "grade": product["name"],
                "plies": count,
                "width": product["width"],
                "depth": depth,
                "properties": dict(values),
            }
