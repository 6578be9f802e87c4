"""Every published check under structure/verification, a test for each row."""

from __future__ import annotations

from pathlib import Path

import pytest

from structure.core.cases.files import find_files, read_cases
from structure.core.cases.verify import VerifyRow, verify_case

FOLDER = Path(__file__).resolve().parents[2] / "structure" / "verification"
CASES = [(path, case) for path in find_files([FOLDER]) for case in read_cases(path)]


def _words(row: VerifyRow) -> str:
    return f"{row.path}: printed {row.printed}, computed {row.computed} ({row.difference}) {row.note}"


@pytest.mark.parametrize(
    ("path", "case"), CASES, ids=[f"{path.stem}-{case.get('id', n)}" for n, (path, case) in enumerate(CASES)]
)
def test_the_engine_agrees_with_its_source(path: Path, case: dict[str, object]) -> None:
    rows = verify_case(case, file=path.name)
    assert rows, "a case in this folder must expect something"
    missed = [_words(row) for row in rows if not row.passed]
    assert not missed, f"{case['source']}\n" + "\n".join(missed)


@pytest.mark.parametrize(("path", "case"), CASES, ids=[str(n) for n in range(len(CASES))])
def test_every_case_names_itself_and_its_source(path: Path, case: dict[str, object]) -> None:
    assert str(case.get("id", "")).strip()
    assert len(str(case.get("source", ""))) > 5


def test_no_two_cases_share_a_name() -> None:
    names = [str(case["id"]) for _, case in CASES]
    assert sorted(set(names)) == sorted(names)


@pytest.mark.parametrize(("path", "case"), CASES[:: max(1, len(CASES) // 40)], ids=lambda x: "")
def test_a_wrong_print_would_be_seen(path: Path, case: dict[str, object]) -> None:
    """Each kind of row can fail: with every expected number five per cent and a bit off, the case misses."""
    spoiled = []
    for row in case["expect"]:  # type: ignore[attr-defined]
        wrong = {k: v for k, v in row.items() if k not in ("differs", "differs_clause")}
        if isinstance(row.get("equals"), bool):
            wrong["equals"] = not row["equals"]
        elif isinstance(row.get("equals"), int | float):
            wrong["equals"] = row["equals"] * 1.5 + 1
        elif isinstance(row.get("equals"), str):
            number, _, unit = row["equals"].partition(" ")
            plain = number.replace(",", "").replace(".", "").isdecimal()
            wrong["equals"] = (
                f"{float(number.replace(',', '')) * 1.5 + 1} {unit}" if plain else "something else"
            )
        else:
            continue
        spoiled.append(wrong)
    rows = verify_case({**case, "expect": spoiled})
    assert all(row.outcome == "missed" for row in rows)
