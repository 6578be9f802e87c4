"""The tool that puts faults into formulas finds what it should, and the reviewed list holds what it says."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from tests.mutation import reviewed
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


def test_the_command_runs_on_what_changed() -> None:
    told = subprocess.run(
        [sys.executable, "-m", "tests.mutation", "--changed", "no-such-commit"],
        cwd=ROOT, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert told.returncode == 2
    assert "there is no commit no-such-commit here" in told.stderr
