"""Design values and stock sizes with their sources. Every table is read through `structure.data.loader`."""

from __future__ import annotations

from structure.data.loader import DataError, Table, data_checksum, table

__all__ = ["DataError", "Table", "data_checksum", "table"]
