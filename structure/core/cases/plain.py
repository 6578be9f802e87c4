"""Results as JSON that any reader accepts."""

from __future__ import annotations

import json
import math
from typing import Any


def to_json(data: Any) -> str:
    """Indented JSON. A ratio without bound becomes the word `infinite`, since JSON has no number for it."""
    return json.dumps(_finite(data), indent=2, ensure_ascii=False, allow_nan=False)


def _finite(data: Any) -> Any:
    if isinstance(data, dict):
        return {str(key): _finite(value) for key, value in data.items()}
    if isinstance(data, list | tuple):
        return [_finite(value) for value in data]
    if isinstance(data, float) and not math.isfinite(data):
        return "infinite" if data > 0 else "minus infinite" if data < 0 else "undefined"
    return data
