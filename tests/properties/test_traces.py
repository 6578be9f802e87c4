"""Every calculation line that an answer shows can be worked out again from what it prints, units and all."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import pint
import pytest

from structure.core.cases import run_case
from structure.core.cases.files import find_files, read_cases
from structure.core.units import ureg

FOLDER = Path(__file__).resolve().parents[2] / "structure" / "verification"
FILES = find_files([FOLDER])
WORDS = {
    "min": min,
    "max": max,
    "abs": abs,
    "sqrt": lambda x: x**0.5,
    "pi": math.pi,
    "log10": math.log10,
}
BOTH = {"left": {"span": "10 ft", "support": "simple"}, "right": {"span": "12 ft", "support": "simple"}}
WALL = {
    "kind": "wall",
    "code": "us",
    "given": {
        "levels": [
            {"name": "Roof", "kind": "roof", **BOTH, "dead": "15 psf", "snow": "20 psf"},
            {
                "name": "Floor",
                "kind": "floor",
                **BOTH,
                "dead": [{"layer": "boards", "value": "4 psf"}, {"layer": "joists", "value": "6 psf"}],
                "live": "40 psf",
                "wall_above": {"height": "8 ft", "weight": "8 psf"},
            },
        ],
        "opening": {"clear_width": "12 ft", "ceiling_height": "8 ft"},
        "soil": {"allowable": "2000 psf"},
        "below": {"ground": "crawl", "height": "3 ft"},
        "posts": {"grade": "No.2"},
        "shoring": {
            "joists": {
                "section": {
                    "family": "sawn",
                    "species": "SPF",
                    "grade": "No.2",
                    "width": "1.5 in",
                    "depth": "9.25 in",
                }
            }
        },
    },
}


def _steps(data: Any) -> Iterator[Mapping[str, Any]]:
    if isinstance(data, Mapping):
        if {"symbol", "text", "values", "result"} <= data.keys():
            yield data
        else:
            for inner in data.values():
                yield from _steps(inner)
    elif isinstance(data, list):
        for inner in data:
            yield from _steps(inner)


def _worked_out(step: Mapping[str, Any], values: dict[str, Any]) -> Any:
    return eval(step["text"], {"__builtins__": {}}, WORDS | values)  # noqa: S307 - our own text


def _fault(step: Mapping[str, Any]) -> str:
    """What is wrong with a line; nothing if its numbers and its units both hold."""
    plain = {each["name"]: each["value"] for each in step["values"]}
    got = _worked_out(step, plain)
    if got != pytest.approx(step["result"], rel=1e-9, abs=1e-12):
        return f"{step['symbol']} = {step['text']} gives {got}, not {step['result']}: {plain}"
    if not step["clause"]:
        return f"{step['symbol']} = {step['text']} has no clause"
    given = {
        each["name"]: ureg.Quantity(each["value"], each["unit"]) if each["unit"] else each["value"]
        for each in step["values"]
    }
    try:
        dimension = ureg.Quantity(_worked_out(step, given)).dimensionality
    except pint.DimensionalityError as error:
        return f"{step['symbol']} = {step['text']}: {error}"
    if dimension != ureg.Unit(step["unit"] or "dimensionless").dimensionality:
        return f"{step['symbol']} = {step['text']} is {dimension}, shown in {step['unit'] or 'no unit'}"
    return ""


@pytest.mark.parametrize("path", FILES, ids=[path.stem for path in FILES])
def test_lines_of_the_published_cases(path: Path) -> None:
    faults = {_fault(step) for case in read_cases(path) for step in _steps(run_case(case))}
    assert not faults - {""}


def test_lines_of_a_whole_wall() -> None:
    result = run_case(WALL)
    assert result["status"] == "ok"
    lines = list(_steps(result))
    assert len(lines) > 100
    assert not {_fault(step) for step in lines} - {""}


def test_a_wrong_line_would_be_seen() -> None:
    line = next(step for step in _steps(run_case(WALL)) if len(step["values"]) > 1 and step["unit"])
    assert not _fault(line)
    assert "gives" in _fault({**line, "result": line["result"] * 1.001})
    assert _fault({**line, "unit": "second"})
