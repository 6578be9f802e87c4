"""Stored questions get the numbers they got before, unless the changelog says which changed and why."""

from __future__ import annotations

import json
import math
from dataclasses import replace
from pathlib import Path

import pytest

from structure.core.cases import KINDS
from structure.core.version import CORE_VERSION
from tests.regression import stored as room
from tests.regression.stored import CHANGELOG, FIRST, Stored, accept, answer_today, differences, stored, told

STORED = stored()


@pytest.mark.parametrize("held", STORED, ids=[held.id for held in STORED])
def test_the_answer_is_what_it_was(held: Stored) -> None:
    changed = differences(held, answer_today(held.case))
    assert not changed, f"{held.id}, stored with {held.version}:\n" + "\n".join(changed[:20])


@pytest.mark.parametrize("held", STORED, ids=[held.id for held in STORED])
def test_it_was_stored_by_the_command_and_a_change_is_in_the_changelog(held: Stored) -> None:
    assert held.digest == held.sealed().digest, "edited by hand"
    assert told(held, CHANGELOG.read_text(encoding="utf-8"))
    assert len(held.answer) > 3


def test_every_kind_has_a_stored_answer_under_each_code() -> None:
    answered = {(name, code) for name, kind in KINDS.items() for code in kind.solve}
    assert {(held.case["kind"], held.case["code"]) for held in STORED} == answered


def _one() -> Stored:
    return next(held for held in STORED if held.case["kind"] == "beam" and held.answer["status"] == "ok")


def test_a_number_in_its_tenth_digit_would_be_seen() -> None:
    held = _one()
    today = dict(held.answer)
    path = next(p for p, value in today.items() if isinstance(value, float) and value > 1e-3)
    today[path] = today[path] * (1 + 1e-8)  # type: ignore[operator]
    assert differences(held, today) == [f"{path}: was {held.answer[path]}, is {today[path]}"]
    today[path] = math.nextafter(held.answer[path], math.inf)  # type: ignore[arg-type]
    assert not differences(held, today)
    del today[path]
    assert differences(held, today) == [f"{path}: was {held.answer[path]}, is gone"]
    today[path] = True
    assert differences(held, today)


def test_a_change_is_accepted_only_with_its_line_in_the_changelog(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    held = _one()
    path = next(p for p, value in held.answer.items() if isinstance(value, float))
    wrong = replace(held, answer={**held.answer, path: -1.0})
    monkeypatch.setattr(room, "FOLDER", tmp_path)
    wrong.write()
    log = f"## Changelog\n\n### {CORE_VERSION}\n\nWords.\n"
    assert "a line is missing" in accept(held.id, "the sign was wrong", log)
    assert "a line is missing" in accept(held.id, FIRST, log + f"- {held.id}: {FIRST}\n")
    older = log.replace(f"### {CORE_VERSION}", "### 0.0.1") + f"- {held.id}: the sign was wrong\n"
    assert "a line is missing" in accept(held.id, "the sign was wrong", older)
    assert json.loads((tmp_path / f"{held.id}.json").read_text())["answer"][path] == -1.0

    assert accept(held.id, "the sign was wrong", log + f"- {held.id}: the sign was wrong\n") == ""
    new = stored()[0]
    assert (new.why, new.version) == ("the sign was wrong", CORE_VERSION)
    assert not differences(new, answer_today(new.case))
    assert told(new, log + f"- {held.id}: the sign was wrong\n")
    assert not told(new, log)
    assert accept(held.id, "again", log) == f"{held.id} has not changed"
    assert accept("no-such", "why", log) == "nothing is stored as no-such"
