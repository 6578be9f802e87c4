"""Engineering questions as plain data: reading a case, answering it, checking what was expected."""

from __future__ import annotations

from structure.core.cases.registry import KINDS, run_case

__all__ = ["KINDS", "run_case"]
