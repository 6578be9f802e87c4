"""Expectations: what is met, what misses, and in which words."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from structure.core.cases.files import MAX_BYTES, FileError, find_files, read_cases
from structure.core.cases.verify import VerifyRow, _compare, _MissError, verify_case, verify_paths
from structure.core.errors import InputError

GIVEN = {
    "spans": ["12 ft"],
    "loads": [{"case": "dead", "shape": "uniform", "value": "400 lbf/ft"}],
    "E": "1,600,000 psi",
    "I": "355.96 in**4",
}


def _rows(*expect: Any, **changes: Any) -> tuple[VerifyRow, ...]:
    case = {"id": "a", "source": "memory: statics", "kind": "statics", "code": "us", "given": GIVEN}
    return verify_case({**case, **changes, "expect": list(expect)})


@pytest.mark.parametrize(
    ("expect", "met"),
    [
        ({"value": "moment.max", "equals": "7200 lbf*ft"}, True),
        ({"value": "moment.max", "equals": "7.2 kip*ft"}, True),
        ({"value": "moment.max", "equals": "7.1 kip*ft"}, False),
        ({"value": "moment.max", "equals": "7.1 kip*ft", "within": "1.5 %"}, True),
        ({"value": "moment.max", "equals": "7.1 kip*ft", "within": "1.3 %"}, False),
        ({"value": "moment.max", "equals": "7100 lbf*ft", "within": "100 lbf*ft"}, True),
        ({"value": "moment.max", "equals": "7100 lbf*ft", "within": "99 lbf*ft"}, False),
        ({"value": "deflection.max", "equals": "0.3277 in"}, True),
        ({"value": "deflection.max", "equals": "0.3276 in"}, False),
        ({"value": "deflection.max", "equals": "0.327677 in"}, True),
        ({"value": "deflection.max_at", "equals": "6 ft 0 in"}, True),
        ({"value": "deflection.max_at", "equals": "6 ft 1/8 in"}, False),
        ({"value": "reactions.0.max", "at_least": "2400 lbf"}, True),
        ({"value": "reactions.0.max", "at_least": "2401 lbf"}, False),
        ({"value": "reactions.0.max", "at_most": "2400 lbf"}, True),
        ({"value": "reactions.0.max", "at_most": "2399 lbf"}, False),
        ({"value": "reactions.0.max", "at_least": "2000 lbf", "at_most": "3000 lbf"}, True),
        ({"value": "status", "equals": "ok"}, True),
        ({"value": "status", "equals": "refused"}, False),
    ],
)
def test_rows(expect: dict[str, Any], met: bool) -> None:
    (row,) = _rows(expect)
    assert row.passed is met, row
    assert row.mark == "memory"


@pytest.mark.parametrize(
    ("expect", "word"),
    [
        ({"value": "moment.most", "equals": "1 lbf*ft"}, "has no 'most'"),
        ({"value": "moment", "equals": "1 lbf*ft"}, "names a group"),
        ({"value": "reactions.9.max", "equals": "1 lbf"}, "has no '9'"),
        ({"value": "moment.max", "equals": "7200 lbf"}, "moment with a unit"),
        ({"value": "moment.max", "equals": 7200}, "moment with a unit"),
        ({"value": "moment.max", "equals": "7200 lbf*ft", "within": "soon"}, "within"),
        ({"value": "moment.max", "equals": "7200 lbf*ft", "within": "-5 %"}, "within"),
        ({"value": "moment.max"}, "one of equals, at_least, at_most"),
        ({"equals": "7200 lbf*ft"}, "expect[0].value"),
        ({"value": "moment.max", "equal": "7200 lbf*ft"}, "equals is close"),
        ({"value": "status", "at_least": "ok"}, "accepted is equals"),
        ({"value": "status", "equals": True}, "true was expected"),
        ("moment.max", "record"),
    ],
)
def test_rows_that_cannot_be_met_say_why(expect: Any, word: str) -> None:
    (row,) = _rows(expect)
    assert row.outcome == "missed"
    assert word in row.note


def test_a_refusal_can_be_expected_and_explains_a_miss() -> None:
    refused, other = _rows(
        {"value": "status", "equals": "refused"},
        {"value": "moment.max", "equals": "1 lbf*ft"},
        edition={"NDS": "2015"},
    )
    assert refused.outcome == "met"
    assert other.outcome == "missed"
    assert other.computed == "refused"
    assert "only edition 2018 of NDS is held" in other.note


def test_bad_input_is_a_miss_of_every_row() -> None:
    rows = _rows(
        {"value": "moment.max", "equals": "1 lbf*ft"},
        {"value": "status", "equals": "ok"},
        given={**GIVEN, "spans": ["12 ft 18 in"]},
    )
    assert [row.outcome for row in rows] == ["missed", "missed"]
    assert "given.spans[0]" in rows[0].note


def test_a_stated_difference_counts_only_while_it_is_there() -> None:
    reason = {"differs": "the source rounds first", "differs_clause": "NDS 3.3.3"}
    differs, agrees, silent = _rows(
        {"value": "moment.max", "equals": "7000 lbf*ft", **reason},
        {"value": "moment.max", "equals": "7200 lbf*ft", **reason},
        {"value": "moment.max", "equals": "7000 lbf*ft", "differs": "no clause given"},
    )
    assert (differs.outcome, differs.note, differs.clause) == (
        "differs",
        "the source rounds first",
        "NDS 3.3.3",
    )
    assert agrees.outcome == "missed"
    assert silent.outcome == "missed"


def test_numbers_without_units() -> None:
    def met(value: Any, **expect: Any) -> bool:
        held = {"value": "x", "equals": None, "within": None, "at_least": None, "at_most": None} | expect
        try:
            _compare(held, {"x": value}, "expect[0]", "us")
        except (_MissError, InputError):
            return False
        return True

    assert met(3, equals=3)
    assert not met(3.4, equals=3)
    assert met(0.876, equals=0.88)
    assert not met(0.874, equals=0.88)
    assert met(1.0, equals=1.004, within="0.5 %")
    assert met(1.0, equals=1.1, within=0.1)
    assert not met(True, equals=1)
    assert met(True, equals=True)
    assert not met("true", equals=True)
    assert not met(1.0, equals=float("nan"))
    assert met(0.99, at_most=1)


def test_files_and_folders(tmp_path: Path) -> None:
    (tmp_path / "b.yaml").write_text("- &a {id: one, given: {x: 1}}\n- {<<: *a, id: two}\n")
    (tmp_path / "deep").mkdir()
    (tmp_path / "deep" / "a.json").write_text('{"id": "three"}')
    (tmp_path / "note.txt").write_text("not a case")
    files = find_files([tmp_path])
    assert [path.name for path in files] == ["b.yaml", "a.json"]
    assert [case["id"] for path in files for case in read_cases(path)] == ["one", "two", "three"]


def test_merged_keys_give_way_to_own_ones_however_often_they_are_used(tmp_path: Path) -> None:
    path = tmp_path / "a.yaml"
    path.write_text("- &a {k: 1, id: x}\n- &b {<<: *a, k: 2}\n- {<<: *b, id: y}\n- {<<: *b, k: 3}\n")
    assert [(case["k"], case["id"]) for case in read_cases(path)] == [(1, "x"), (2, "x"), (2, "y"), (3, "x")]


BOMB = "a: &a [x, x, x, x, x, x, x, x, x, x]\n" + "".join(
    f"{b}: &{b} [{', '.join(['*' + a] * 10)}]\n" for a, b in zip("abcdefgh", "bcdefghi", strict=True)
)
MERGE_BOMB = "- &a {" + ", ".join(f"k{n}: {n}" for n in range(3000)) + "}\n" + "- {<<: *a}\n" * 70


@pytest.mark.parametrize(
    ("name", "content", "word"),
    [
        ("a.yaml", "", "no record"),
        ("a.yaml", "[]", "no case"),
        ("a.yaml", "just words", "no record"),
        ("a.yaml", "- 3", "no record"),
        ("a.yaml", "{a: [}", "not valid YAML"),
        ("a.yaml", "a: 1\na: 2", "stands twice"),
        ("a.yaml", "!!python/object/apply:os.system ['true']", "not valid YAML"),
        ("a.yaml", "[" * 5000, "nested"),
        ("a.yaml", BOMB, "larger or nested"),
        ("a.yaml", MERGE_BOMB, "merged keys"),
        ("a.yaml", "&a {b: *a}", "nested"),
        ("a.yaml", "? [1, 2]\n: 3", "key"),
        ("a.yaml", "x: " + "9" * 5000, "not valid YAML"),
        ("a.json", "{", "not valid JSON"),
        ("a.json", '{"a": 1, "a": 2}', "stands twice"),
        ("a.json", "[" * 100_000, "nested"),
        ("a.yaml", b"\xff\xfe\x00", "UTF-8"),
        ("a.yaml", "#" * (MAX_BYTES + 1), "larger than"),
    ],
)
def test_files_that_cannot_be_read_say_so_in_one_line(
    tmp_path: Path, name: str, content: str | bytes, word: str
) -> None:
    path = tmp_path / name
    path.write_bytes(content if isinstance(content, bytes) else content.encode())
    with pytest.raises(FileError, match=word) as caught:
        read_cases(path)
    assert str(path) in str(caught.value)
    assert "\n" not in str(caught.value)


def test_paths_that_are_not_there(tmp_path: Path) -> None:
    with pytest.raises(FileError, match="no such"):
        find_files([tmp_path / "nothing"])
    with pytest.raises(FileError, match="holds no file"):
        find_files([tmp_path])


def test_one_broken_file_stops_the_run_before_it_starts(tmp_path: Path) -> None:
    (tmp_path / "a.yaml").write_text("{id: x, expect: []}")
    (tmp_path / "b.yaml").write_text("{")
    with pytest.raises(FileError):
        verify_paths([tmp_path])
    report = verify_paths([tmp_path / "a.yaml"])
    assert (report.cases, report.without_expectation, report.passed) == (0, 1, True)


@pytest.mark.parametrize(("equals", "within", "met"), [("0.5", "0.01", True), ("0.52", "0.01", False)])
def test_numbers_written_as_text(equals: str, within: str, met: bool) -> None:
    case = {
        "kind": "snow",
        "code": "us",
        "given": {"ground": "50 psf", "Ce": 1.0, "Ct": 1.0, "Is": 1.0, "slope": "50 deg"},
        "expect": [{"value": "Cs", "equals": equals, "within": within}],
    }
    assert verify_case(case)[0].passed is met
