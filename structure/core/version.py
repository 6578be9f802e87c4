"""Version of the engine, kept with every answer."""

from __future__ import annotations

CORE_VERSION = "0.2.0"
