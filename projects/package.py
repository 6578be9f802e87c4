"""The package for the engineer: what goes in, and what must be whole before it goes out.

Other apps add their parts (framing, loads, preliminary sizes) when they start, so that this app need not know them.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from projects.models import Job


@dataclass(frozen=True)
class Part:
    """One part: a template with what it shows, and what stops the package (nothing in an empty list)."""

    name: str
    title: str
    template: str
    context: Callable[[Job], dict[str, Any]]
    obstacles: Callable[[Job], list[str]]


_PARTS: dict[str, Part] = {}


def _nothing(job: Job) -> list[str]:
    return []


def register(
    name: str,
    title: str,
    template: str,
    context: Callable[[Job], dict[str, Any]],
    obstacles: Callable[[Job], list[str]] = _nothing,
) -> None:
    """Add a part to every package. A second registration under the same name replaces the first."""
    _PARTS[name] = Part(name, title, template, context, obstacles)


def parts() -> tuple[Part, ...]:
    """Every part, in the order the apps started."""
    return tuple(_PARTS.values())


def package_obstacles(job: Job) -> list[str]:
    """Every sentence that stops the package from going out; empty when it may go."""
    return [sentence for part in parts() for sentence in part.obstacles(job)]
