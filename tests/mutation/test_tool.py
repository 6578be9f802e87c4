"""The tool that puts faults into formulas finds what it should, and the reviewed list holds what it says."""

from __future__ import annotations

import functools
import os
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from tests.mutation import changes, reviewed
from tests.mutation.formulas import outcomes
from tests.mutation.texts import as_function, faulty_texts
from tests.published import kernels

ROOT = Path(__file__).resolve().parents[2]
STRESS = "structure.core.codes.us.wood_beams.bending_stress"
BOUNDED = "structure.core.codes.us.shoring.spread_along"


def test_a_fault_of_bending_is_seen_by_a_printed_number() -> None:
    found = list(outcomes([STRESS]))
    assert [each.text for each in found] == ["M * S"]
    assert found[0].seen_by == "published"


def test_faults_are_of_every_kind_and_none_says_what_the_formula_says() -> None:
    each = kernels.formulas()[BOUNDED]
    texts = list(faulty_texts(each))
    assert len(set(texts)) == len(texts)
    assert "max(b + 2 * t_sill + 2 * t_slab, s)" in texts
    assert "s" in texts
    assert "min(b - 2 * t_sill + 2 * t_slab, s)" in texts
    assert "min(b + 2 * t_sill + 2 * s, s)" in texts
    assert any("2.1 *" in text for text in texts)
    assert "min(b + 2 * t_slab + 2 * t_sill, s)" not in texts


def test_a_fault_that_nothing_sees_survives() -> None:
    each = kernels.formulas()[STRESS]
    with kernels.replaced(each, as_function(each, "M / S * 1.0000001")):
        assert not kernels.noticed(kernels.cases()[kernels.calls()[STRESS][0]])


def test_the_text_stands_in_for_the_function_with_arrays_too() -> None:
    each = kernels.formulas()[BOUNDED]
    answer = as_function(each, each.text)
    many = answer(3.5, 1.5, np.array([4.0, 0.0]), s=12.0)
    assert many.tolist() == [12.0, 6.5]
    assert answer(3.5, 1.5, 0.0, 12.0) == 6.5


@pytest.mark.parametrize(
    "entry", reviewed.entries("formula"), ids=lambda entry: entry["name"].rsplit(".", 1)[-1]
)
def test_a_reviewed_fault_is_one_and_has_its_reason(entry: dict[str, object]) -> None:
    each = kernels.formulas()[str(entry["name"])]
    assert set(entry.get("texts", [])) <= set(faulty_texts(each))  # type: ignore[call-overload]
    assert len(str(entry["reason"]).split()) > 4


def test_no_time_is_no_fault_that_nothing_sees() -> None:
    assert list(outcomes([STRESS, BOUNDED], seconds=0.0)) == []


def _command(*words: str, **env: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "tests.mutation", *words],
        cwd=ROOT, env=os.environ | env, capture_output=True, text=True, check=False,
    )  # fmt: skip


def test_a_base_that_is_not_here_is_told() -> None:
    told = _command("--changed", "no-such-commit")
    assert told.returncode == 2
    assert "there is no commit no-such-commit here" in told.stderr


def test_without_any_base_it_is_told_and_passes(tmp_path: Path) -> None:
    told = _command("--changed", GIT_DIR=str(tmp_path))
    assert told.returncode == 0
    assert "No commit to compare with is here" in told.stdout


@pytest.fixture
def clone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A tree with three commits of the engine's files, and one file that is not committed."""
    monkeypatch.setattr(changes, "ROOT", tmp_path)
    for name in ("GIT_DIR", "GIT_WORK_TREE"):
        monkeypatch.delenv(name, raising=False)
    core = tmp_path / "structure" / "core"
    core.mkdir(parents=True)
    as_someone = ("-c", "user.name=someone", "-c", "user.email=someone@example.org")
    git = functools.partial(subprocess.run, cwd=tmp_path, check=True, capture_output=True)
    git(["git", "init", "-q"])
    for name in ("first", "second", "third"):
        (core / f"{name}.py").write_text("")
        git(["git", "add", "."])
        git(["git", *as_someone, "commit", "-qm", name])
    (core / "new.py").write_text("")
    (core / "notes.txt").write_text("")
    return tmp_path


def test_modules_that_changed_last_come_first(clone: Path) -> None:
    assert changes.modules("HEAD~2") == [f"structure.core.{name}" for name in ("new", "third", "second")]
    (clone / "structure/core/first.py").write_text("A = 1\n")
    assert changes.modules("HEAD") == ["structure.core.new", "structure.core.first"]


def test_the_base_is_the_commit_of_the_results_else_the_one_before(
    clone: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    results = clone / "RESULTS.md"
    monkeypatch.setattr(changes, "RESULTS", results)
    results.write_text(f"At commit {changes.short_head()}. Written by hand.")
    assert changes.base() == changes.short_head()
    results.write_text("At commit 0123abc. Written by hand.")
    assert changes.base() == "HEAD~1"
