"""Lumber by its metric name: the yard sells 2x10, the Canadian grading rules have 38 by 235 mm."""

from __future__ import annotations

# Inches of the American grading rules beside the millimetres of the Canadian ones (CSA O86 Table A.2, memory).
_ACTUAL = {"1.5 in": 38, "3.5 in": 89, "5.5 in": 140, "7.25 in": 184, "9.25 in": 235, "11.25 in": 286}


def metric_size(text: str) -> str:
    """The actual size of a piece of lumber, one of its two, as the Canadian grading rules have it."""
    return f"{_ACTUAL[text]} mm"


def metric_name(name: str, size: tuple[int, str, str]) -> str:
    """`2-38x235 (2-2x10)`: actual millimetres, then the name it is called by."""
    plies, width, depth = size
    count = f"{plies}-" if plies > 1 else ""
    return f"{count}{_ACTUAL[width]}x{_ACTUAL[depth]} ({name})"
