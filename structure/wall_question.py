"""The question of the whole wall, from the section as typed, and who answered it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

Row = Mapping[str, Any]


def wall_inputs(
    section: Row, levels: Sequence[Row], points: Sequence[Row], code: str, beam: Row | None = None
) -> dict[str, Any]:
    raise NotImplementedError


def answer_wall(inputs: Row) -> dict[str, Any]:
    raise NotImplementedError


def core_version() -> str:
    raise NotImplementedError


def data_checksum() -> str:
    raise NotImplementedError
