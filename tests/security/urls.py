"""Every address of the site, taken from the urlpatterns themselves."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from django.urls import URLPattern, URLResolver, get_resolver


@dataclass(frozen=True)
class Address:
    """One pattern: its full name and the names of its arguments."""

    name: str
    arguments: tuple[str, ...]


def _walk(patterns: list[URLPattern | URLResolver], prefix: str, held: tuple[str, ...]) -> Iterator[Address]:
    for entry in patterns:
        found = held + tuple(entry.pattern.regex.groupindex)
        if isinstance(entry, URLResolver):
            inner = f"{prefix}{entry.namespace}:" if entry.namespace else prefix
            yield from _walk(entry.url_patterns, inner, found)
        elif entry.name:
            yield Address(f"{prefix}{entry.name}", found)
        else:
            yield Address(f"{prefix}{entry.pattern}", found)


def addresses() -> list[Address]:
    """All of ours; the admin site is Django's and guarded as one."""
    found = {
        address
        for address in _walk(get_resolver().url_patterns, "", ())
        if not address.name.startswith("admin:")
    }
    return sorted(found, key=lambda address: address.name)
