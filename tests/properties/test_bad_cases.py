"""Any part of a case spoiled: the answer is a result, a refusal or one clear sentence, never a crash."""

from __future__ import annotations

import copy
import json
import random
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from structure.core.cases import run_case
from structure.core.cases.files import find_files, read_cases
from structure.core.cases.plain import to_json
from structure.core.errors import InputError

FOLDER = Path(__file__).resolve().parents[2] / "structure" / "verification"
SPOILS: tuple[Any, ...] = (
    None,
    "",
    " ",
    "12",
    "12 ft 18 in",
    "-5 ft",
    "0 ft",
    "0 in",
    "1e14 ft",
    "1e-5 in",
    "nan psi",
    "0 psi",
    "1e9 psi",
    "-400 lbf/ft",
    "-3 kip",
    "1e9 kip",
    "1e-9 lbf",
    "0 lbf",
    "99,999 psf",
    "Oak",
    "continuous",
    0,
    -1,
    7,
    10**30,
    0.0,
    1e300,
    float("nan"),
    float("inf"),
    True,
    [],
    {},
    ["a"],
    {"a": 1},
)


def _places(data: Any, path: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    if isinstance(data, dict):
        for key, value in data.items():
            yield (*path, key)
            yield from _places(value, (*path, key))
    elif isinstance(data, list):
        for n, value in enumerate(data):
            yield (*path, n)
            yield from _places(value, (*path, n))


def _spoiled(case: dict[str, Any], place: tuple[Any, ...], value: Any) -> dict[str, Any]:
    made = copy.deepcopy(case)
    held: Any = made["given"]
    for part in place[:-1]:
        held = held[part]
    held[place[-1]] = copy.deepcopy(value)
    return made


def _answer(case: dict[str, Any]) -> dict[str, Any] | InputError:
    try:
        return run_case(case)
    except InputError as error:
        return error


def _kinds() -> dict[str, list[dict[str, Any]]]:
    """A few cases of each kind, those with the most fields."""
    held: dict[str, list[dict[str, Any]]] = {}
    for path in find_files([FOLDER]):
        for case in read_cases(path):
            held.setdefault(case["kind"], []).append({k: v for k, v in case.items() if k != "expect"})
    return {
        kind: sorted(cases, key=lambda case: -len(list(_places(case["given"]))))[:4]
        for kind, cases in held.items()
    }


KINDS = _kinds()
# A whole wall is a few hundred checks: one case, fewer draws.
KINDS["wall"] = KINDS["wall"][:1]
DRAWS = {"wall": 40, "shoring": 60}


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_a_spoiled_case_is_answered_or_told(kind: str) -> None:
    draw = random.Random(20)
    for case in KINDS[kind]:
        places = list(_places(case["given"]))
        for _ in range(DRAWS.get(kind, 150)):
            place, value = draw.choice(places), draw.choice(SPOILS)
            spoiled = _spoiled(case, place, value)
            result = _answer(spoiled)
            if isinstance(result, InputError):
                assert result.field.startswith(("given", "case", "edition")), str(result)
                assert "\n" not in str(result)
                assert len(str(result)) < 1000
                continue
            assert result["status"] in ("ok", "refused"), (place, value)
            if result["status"] == "refused":
                assert result["clause"], (place, value)
                assert result["reason"], (place, value)
            json.loads(to_json(result))


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_what_is_left_out_is_told_or_has_a_default(kind: str) -> None:
    for case in KINDS[kind]:
        for place in [each for each in _places(case["given"]) if kind != "wall" or len(each) < 3]:
            made = copy.deepcopy(case)
            held: Any = made["given"]
            for part in place[:-1]:
                held = held[part]
            del held[place[-1]]
            result = _answer(made)
            assert not isinstance(result, InputError) or result.field.startswith("given"), str(result)
