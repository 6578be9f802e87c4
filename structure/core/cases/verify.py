"""Holding results against what a source prints: one row for each expectation.

Without `within`, text and true/false must be equal, a whole number without a unit must be met exactly, and
anything else to half of its last printed digit (a length in feet and inches to 1/32 in).
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, Literal

from structure.core.cases.files import find_files, read_cases
from structure.core.cases.registry import run_case
from structure.core.cases.types import LARGEST, Choice, Field, Text, read_record
from structure.core.clauses import DEFAULT_EDITIONS
from structure.core.errors import InputError
from structure.core.measure import read_feet_inches, read_number, tidy
from structure.core.units import DIMENSIONS, quantity, read_quantity

Outcome = Literal["met", "missed", "differs"]
# Room for the last bits of floating point, relative and absolute; far below any printed digit.
NOISE = 1e-9
# Where the lines stand of a value that is told outside its check.
_OF_CHECK = {"factors": "bending", "adjusted": "bending", "axes": "buckling", "pressure": "soil"}
_OF_THE_GOVERNING = ("ratio", "passes", "governing", "capacity")
_PERCENT = re.compile(r"\+?(\d+(?:\.\d+)?|\.\d+)\s*%")
_DIGITS = re.compile(r"[+-]?[\d,]*(?:\.(\d+))?(?:[eE]([+-]?\d{1,3}))?")


@dataclass(frozen=True, slots=True)
class VerifyRow:
    """One expectation: what the source prints, what the engine computes, and how far apart they are.

    `outcome` is `differs` where the case says, with a clause, why the source differs; `steps` are the
    lines of the check that the value belongs to.
    """

    id: str
    title: str
    source: str
    file: str
    kind: str
    path: str
    printed: str
    computed: str
    difference: str
    outcome: Outcome
    note: str = ""
    clause: str = ""
    steps: tuple[Mapping[str, Any], ...] = ()
    code: str = ""

    @property
    def passed(self) -> bool:
        return self.outcome != "missed"

    @property
    def mark(self) -> str:
        """`common practice`, `memory` or nothing: how well the source is known."""
        return next((m for m in ("common practice", "memory") if self.source.lower().startswith(m)), "")


@dataclass(frozen=True, slots=True)
class Report:
    """All rows of a run, and how many cases had nothing to check."""

    rows: tuple[VerifyRow, ...]
    cases: int
    without_expectation: int

    def count(self, outcome: Outcome) -> int:
        return sum(row.outcome == outcome for row in self.rows)

    @property
    def passed(self) -> bool:
        return all(row.passed for row in self.rows)


class _MissError(Exception):
    """The expectation is not met, in words."""

    def __init__(self, computed: str, why: str, difference: str = "-") -> None:
        super().__init__(why)
        self.computed = computed
        self.why = why
        self.difference = difference


def verify_paths(paths: Iterable[str | os.PathLike[str]]) -> Report:
    """Run every case with `expect` in the files and folders. Raises FileError for one that cannot be read."""
    rows: list[VerifyRow] = []
    cases = silent = 0
    # All files are read before any case runs, so that a bad one is told at once.
    for path, held in [(path, read_cases(path)) for path in find_files(paths)]:
        for case in held:
            found = verify_case(case, file=str(path))
            rows.extend(found)
            cases += bool(found)
            silent += not found
    return Report(tuple(rows), cases, silent)


def verify_case(case: Mapping[str, Any], *, file: str = "") -> tuple[VerifyRow, ...]:
    """A row for each expectation of the case; none if it has no `expect`."""
    expected = case.get("expect")
    if not expected:
        return ()
    result, failure = _run(case)
    rows = expected if isinstance(expected, list) else [expected]
    return tuple(_row(case, f"expect[{n}]", row, result, failure, file) for n, row in enumerate(rows))


def _run(case: Mapping[str, Any]) -> tuple[dict[str, Any], str]:
    try:
        return run_case(case), ""
    except InputError as error:
        return {}, str(error)
    except Exception as error:  # noqa: BLE001  one broken case must not hide the rows of the others
        return {}, f"the engine failed: {type(error).__name__}: {error}"


def _row(
    case: Mapping[str, Any], where: str, row: Any, result: dict[str, Any], failure: str, file: str
) -> VerifyRow:
    code = case.get("code") if case.get("code") in DEFAULT_EDITIONS else "us"
    held = row if isinstance(row, Mapping) else {}
    path = str(held.get("value", where))
    outcome: Outcome = "met"
    note = clause = ""
    try:
        expected = read_record(_EXPECT, row, where, "us")
        clause = expected["differs_clause"] or ""
        if failure:
            raise _MissError("no result", failure)
        computed, difference = _compare(expected, result, where, str(code))
    except _MissError as miss:
        computed, difference, note, outcome = miss.computed, miss.difference, miss.why, "missed"
    except InputError as error:
        computed, difference, note, outcome = "no result", "-", str(error), "missed"
    reason = held.get("differs")
    if outcome == "missed" and isinstance(reason, str) and clause and not failure:
        outcome, note = "differs", reason
    elif outcome == "met" and reason is not None:
        outcome, note = "missed", "the row says that the source differs, but it agrees"
    return VerifyRow(
        id=_words(case.get("id")),
        title=_words(case.get("title")),
        source=_words(case.get("source")),
        file=file,
        kind=_words(case.get("kind")),
        path=path,
        printed=_printed(held),
        computed=computed,
        difference=difference,
        outcome=outcome,
        note=note,
        clause=clause,
        steps=_steps(result, path),
        code=str(code),
    )


@dataclass(frozen=True, slots=True)
class _Anything:
    """Whatever may be expected: a quantity, a number, a text or true/false."""

    def read(self, value: Any, path: str, code: str) -> Any:
        if not isinstance(value, str | int | float | bool):
            raise InputError(path, value, self.accepted())
        return value

    def fits(self, value: Any) -> bool:
        return True

    def accepted(self) -> str:
        return "a quantity, a number, a text, true or false"

    def schema(self, code: str) -> dict[str, Any]:
        return {"type": "anything"}


_EXPECT = (
    Field("value", Text(), required=True, doc="dotted path into the result"),
    Field("equals", _Anything()),
    Field("within", _Anything(), doc="a percentage of the expected value, or a quantity"),
    Field("at_least", _Anything()),
    Field("at_most", _Anything()),
    Field("differs", Text(600), doc="why the source differs; then the row must not agree"),
    Field("differs_clause", Text(), doc="the clause by which it differs"),
)


def _compare(expected: dict[str, Any], result: dict[str, Any], where: str, code: str) -> tuple[str, str]:
    """Computed value and difference as text; raises _MissError where the expectation is not met."""
    value = _find(result, expected["value"])
    shown = _show(value)
    tests = [name for name in ("equals", "at_least", "at_most") if expected[name] is not None]
    if not tests:
        raise InputError(where, None, "one of equals, at_least, at_most")
    difference = ""
    for name in tests:
        wanted = expected[name]
        if isinstance(value, bool | str) or isinstance(wanted, bool):
            Choice(("equals",)).read(name, f"{where}.{name}", code)
            if type(value) is not type(wanted) or value != wanted:
                raise _MissError(shown, f"{_show(wanted)} was expected")
            difference = "none"
            continue
        got, unit = _number(value, expected["value"])
        aim = _in_unit(wanted, unit, f"{where}.{name}", code)
        difference = _difference(got, aim, unit)
        if name == "equals":
            room = _room(expected["within"], wanted, aim, unit, f"{where}.within", code)
            missed = not abs(got - aim) <= room + NOISE * max(1.0, abs(aim))
        else:
            short = aim - got if name == "at_least" else got - aim
            missed = not short <= NOISE * max(1.0, abs(aim))
        if missed:
            raise _MissError(shown, f"{name.replace('_', ' ')} {_show(wanted)} is not met", difference)
    return shown, difference


def _find(result: dict[str, Any], path: str) -> Any:
    value: Any = result
    for part in path.split("."):
        if isinstance(value, Mapping) and part in value:
            value = value[part]
        elif (
            isinstance(value, list | tuple) and part.isdecimal() and len(part) < 5 and int(part) < len(value)
        ):
            value = value[int(part)]
        else:
            if result.get("status") == "refused":
                raise _MissError("refused", f"{result.get('clause')}: {result.get('reason')}")
            raise _MissError("missing", f"the result has no {part!r} in {path}")
    if value is None:
        raise _MissError("nothing", f"the result leaves {path} empty")
    return value


def _number(value: Any, path: str) -> tuple[float, str]:
    if isinstance(value, Mapping) and isinstance(value.get("value"), int | float):
        return float(value["value"]), str(value.get("unit", ""))
    if isinstance(value, int | float):
        return float(value), ""
    raise _MissError("a group of values", f"{path} names a group; name one value in it")


def _in_unit(wanted: Any, unit: str, path: str, code: str) -> float:
    """The expected number in the unit of the computed one."""
    if not unit:
        number = read_number(tidy(wanted)) if isinstance(wanted, str) else wanted
        if number is None or not -LARGEST <= number <= LARGEST:
            raise InputError(path, wanted, "a number without a unit")
        return float(number)
    dimension = next((d.name for d in DIMENSIONS.values() if d.shown[code] == unit), None)
    if dimension is None:
        raise InputError(path, wanted, f"a quantity in {unit}")
    return float(quantity(read_quantity(wanted, dimension, path, code), dimension, code)["value"])


def _room(within: Any, wanted: Any, aim: float, unit: str, path: str, code: str) -> float:
    """How far from the expected number the computed one may be."""
    if within is None:
        return _last_digit(wanted, unit, path, code)
    match = _PERCENT.fullmatch(within.strip()) if isinstance(within, str) else None
    room = abs(aim) * float(match[1]) / 100 if match else _in_unit(within, unit, path, code)
    if isinstance(within, bool) or not room >= 0:
        raise InputError(path, within, "a percentage such as 0.5 %, or a quantity of zero or more")
    return room


def _last_digit(wanted: Any, unit: str, path: str, code: str) -> float:
    """Half of the last printed digit, in the unit of the computed value."""
    if isinstance(wanted, int):
        return 0.0
    text = tidy(wanted) if isinstance(wanted, str) else repr(wanted)
    if isinstance(wanted, str) and (read_feet_inches(text) is not None or "/" in text.split()[0]):
        return _in_unit("0.03125 in", unit, path, code)
    match = _DIGITS.match(text)
    if match is None:
        return 0.0
    half = 0.5 * 10.0 ** (int(match[2] or 0) - len(match[1] or ""))
    if not unit:
        return half
    return _in_unit(f"{half:.12f} {text[match.end() :].strip()}", unit, path, code)


def _difference(got: float, aim: float, unit: str) -> str:
    apart = got - aim if abs(got - aim) > NOISE * max(1.0, abs(aim)) else 0.0
    share = f" ({apart / abs(aim):+.2%})" if aim else ""
    return f"{apart:+.4g}{' ' + unit if unit else ''}{share}"


def _show(value: Any) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, Mapping) and "value" in value and isinstance(value["value"], int | float):
        return f"{value['value']:.6g} {value.get('unit', '')}".strip()
    if isinstance(value, int | float):
        return f"{value:.6g}"
    return _words(value) if isinstance(value, str) else "a group of values"


def _printed(row: Mapping[str, Any]) -> str:
    words = {"equals": "", "at_least": "at least ", "at_most": "at most "}
    parts = [f"{word}{_show(row[name])}" for name, word in words.items() if row.get(name) is not None]
    if row.get("within") is not None:
        parts.append(f"within {_show(row['within'])}")
    return " ".join(parts) or "-"


def _steps(result: Mapping[str, Any], path: str) -> tuple[Mapping[str, Any], ...]:
    """The steps nearest to the value: those of its check, or of the part of the result it stands in."""
    value: Any = result
    found: Any = result.get("steps")
    for part in path.split("."):
        if not isinstance(value, Mapping):
            break
        value = value.get(part)
        if isinstance(value, Mapping) and value.get("steps"):
            found = value["steps"]
    if not found:
        found = _steps_of_check(result, path.split(".")[0])
    return tuple(found) if isinstance(found, list | tuple) else ()


def _steps_of_check(result: Mapping[str, Any], name: str) -> Any:
    """The steps of the check that a value outside the checks comes from."""
    checks = result.get("checks")
    if not isinstance(checks, Mapping):
        return None
    of = result.get("governing") if name in _OF_THE_GOVERNING else _OF_CHECK.get(name)
    check = checks.get(of)
    return check.get("steps") if isinstance(check, Mapping) else None


def _words(value: Any) -> str:
    return "" if value is None else " ".join(str(value)[:800].split())
