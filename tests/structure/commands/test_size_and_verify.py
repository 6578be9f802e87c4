"""`manage.py size` and `manage.py verify`: output, exit codes, one clear line, no database."""

from __future__ import annotations

import json
from io import StringIO
from pathlib import Path
from typing import Any

import pytest
import yaml
from django.core.management import call_command

from structure.core.cases import KINDS

CASE: dict[str, Any] = {
    "id": "one",
    "source": "common practice",
    "kind": "statics",
    "code": "us",
    "given": {"spans": ["10 ft"], "loads": [{"case": "dead", "shape": "uniform", "value": "100 plf"}]},
    "expect": [{"value": "moment.max", "equals": "1250 lbf*ft", "within": "0.1 %"}],
}


def _run(*arguments: str) -> tuple[int, str, str]:
    out, err = StringIO(), StringIO()
    try:
        call_command(*arguments, stdout=out, stderr=err, no_color=True)
    except SystemExit as end:
        return int(end.code or 0), out.getvalue(), err.getvalue()
    return 0, out.getvalue(), err.getvalue()


@pytest.fixture
def case_file(tmp_path: Path) -> Path:
    path = tmp_path / "case.yaml"
    path.write_text(yaml.safe_dump(CASE))
    return path


def test_size_prints_the_result(case_file: Path) -> None:
    code, out, err = _run("size", str(case_file))
    assert (code, err) == (0, "")
    result = json.loads(out)
    assert result["status"] == "ok"
    assert result["moment"]["max"] == {"value": pytest.approx(1250.0), "unit": "lbf*ft"}


def test_size_answers_a_list_in_json(tmp_path: Path) -> None:
    path = tmp_path / "cases.json"
    canadian = {**CASE, "code": "ca"}
    cases = [CASE, {**canadian, "id": "two"}, {**canadian, "id": "three", "edition": {"NBC": "2015"}}]
    path.write_text(json.dumps(cases))
    code, out, _ = _run("size", str(path))
    assert code == 0
    answers = [(r["id"], r["status"]) for r in json.loads(out)]
    assert answers == [("one", "ok"), ("two", "ok"), ("three", "refused")]


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"spans": ["10"]}, ["given.spans[0]", "'10'", "accepted is"]),
        ({"spans": ["12 ft 18 in"]}, ["given.spans[0]", "12 ft 18 in", "less than 12 in"]),
        ({"spans": ["0 ft"]}, ["given.spans[0]", "0 ft", "more than zero"]),
        ({"spans": ["-4 ft"]}, ["given.spans[0]", "-4 ft", "more than zero"]),
        ({"lods": []}, ["given.lods", "loads is close"]),
        (
            {"loads": [{"case": "dead", "shape": "point", "value": "1 kip", "at": "11 ft"}]},
            ["given.loads[0].at", "on the beam"],
        ),
        ({"E": "1.6e6 psi"}, ["given.I", "nothing"]),
    ],
)
def test_size_tells_bad_input_in_one_line(tmp_path: Path, change: dict[str, Any], words: list[str]) -> None:
    path = tmp_path / "case.yaml"
    path.write_text(yaml.safe_dump({**CASE, "given": {**CASE["given"], **change}}))
    code, out, err = _run("size", str(path))
    assert (code, out) == (2, "")
    assert err.count("\n") == 1
    for word in words:
        assert word in err


def test_size_tells_a_missing_file_and_no_file() -> None:
    for arguments in (("size", "nowhere.yaml"), ("size",)):
        code, out, err = _run(*arguments)
        assert (code, out) == (2, "")
        assert err.count("\n") == 1


@pytest.mark.parametrize("kind", list(KINDS))
def test_schema_of_each_kind(kind: str) -> None:
    code, out, _ = _run("size", "--schema", kind)
    assert code == 0
    schema = json.loads(out)
    assert schema["kind"] == kind
    assert schema["fields"]


def test_schema_of_an_unknown_kind() -> None:
    code, _, err = _run("size", "--schema", "roof")
    assert code == 2
    assert "statics" in err


def test_verify_prints_a_row_and_a_count(case_file: Path) -> None:
    code, out, _ = _run("verify", str(case_file))
    assert code == 0
    row, closing = out.splitlines()
    for word in ("one", "moment.max", "1250 lbf*ft within 0.1 %", "common practice", "+0.00%"):
        assert word in row
    assert closing == "1 checks in 1 cases; 1 met; 0 missed."


def test_verify_exits_1_on_a_miss_and_2_on_a_bad_file(case_file: Path, tmp_path: Path) -> None:
    wrong = {**CASE, "expect": [{"value": "moment.max", "equals": "1300 lbf*ft", "within": "1 %"}]}
    (tmp_path / "wrong.yaml").write_text(yaml.safe_dump([wrong]))
    code, out, _ = _run("verify", str(tmp_path))
    assert code == 1
    assert "MISS" in out
    assert out.splitlines()[-1] == "2 checks in 2 cases; 1 met; 1 missed."
    (tmp_path / "bad.yaml").write_text("{")
    code, out, err = _run("verify", str(tmp_path))
    assert (code, out) == (2, "")
    assert err.count("\n") == 1


def test_verify_with_trace_prints_the_lines_of_each_check_once(tmp_path: Path) -> None:
    section = {"family": "sawn", "species": "SPF", "grade": "No.2", "width": "1.5 in", "depth": "9.25 in"}
    given = {
        "section": section,
        "length": "4 in",
        "width": "1.5 in",
        "loads": [{"case": "live", "value": "900 lbf"}],
    }
    rows = [{"value": "capacity", "at_least": "1 lbf"}, {"value": "checks.bearing.ratio", "at_most": 1}]
    case = {
        "id": "two",
        "source": "common practice",
        "kind": "bearing",
        "code": "us",
        "given": given,
        "expect": rows,
    }
    (tmp_path / "two.yaml").write_text(yaml.safe_dump(case))
    code, out, _ = _run("verify", "--trace", str(tmp_path))
    assert code == 0
    lines = [line for line in out.splitlines() if line.startswith("        ")]
    assert lines
    assert len(set(lines)) == len(lines)
    assert any("F_cp" in line and "425 psi" in line and "[NDS 2018 3.10.2]" in line for line in lines)
    _, plain, _ = _run("verify", str(tmp_path))
    assert not [line for line in plain.splitlines() if line.startswith("        ")]
