"""Dead load as it is typed on site: one pressure, or layers by name."""

from __future__ import annotations

import re
from typing import Any

from structure.core.cases.types import Quantity
from structure.core.errors import InputError

ACCEPTED = (
    "one pressure, such as 12 psf, or layers with a name each, such as "
    "floor boards: 2.5 psf; joists: 3 psf; ceiling: 2.2 psf"
)
LAYER_NAME = 60
MOST_LAYERS = 12
_PRESSURE = Quantity("pressure", non_negative=True)


def read_dead(text: str, field: str) -> str | list[dict[str, str]]:
    """The dead load in the case grammar: the pressure as typed, or a list of layers.

    Raises InputError that names `field`, the layer and what was read.
    """
    parts = [part.strip() for part in re.split(r"[;\n]", text) if part.strip()]
    if not parts or len(parts) > MOST_LAYERS:
        raise InputError(field, text, ACCEPTED)
    if len(parts) == 1 and ":" not in parts[0]:
        _PRESSURE.read(parts[0], field, "us")
        return parts[0]
    layers = []
    for part in parts:
        name, colon, value = (piece.strip() for piece in part.partition(":"))
        if not colon or not name or len(name) > LAYER_NAME:
            raise InputError(field, part, ACCEPTED)
        _PRESSURE.read(value, f"{field}, {name}", "us")
        layers.append({"layer": name, "value": value})
    return layers


def dead_pressure(text: str) -> float | None:
    """The sum in psi, None where the text can not be read."""
    try:
        read: Any = read_dead(text, "dead load")
    except InputError:
        return None
    if isinstance(read, str):
        return _PRESSURE.read(read, "dead load", "us")
    return sum(_PRESSURE.read(layer["value"], "dead load", "us") for layer in read)
