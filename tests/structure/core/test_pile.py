"""Piles by their stated capacity."""

from __future__ import annotations

from typing import Any

import pytest

from structure.core.cases.registry import run_case
from structure.core.errors import InputError

LOADS = [{"case": "dead", "value": "5000 lbf"}, {"case": "live", "value": "7000 lbf"}]


def answer(**given: Any) -> dict[str, Any]:
    asked = {"loads": LOADS, "capacity": "12 kip", "source": "the installer's sheet"}
    return run_case({"kind": "pile", "code": "us", "given": asked | given})


def test_the_service_load_against_what_is_stated() -> None:
    result = answer()
    assert (result["ratio"], result["passes"]) == (1.0, True)
    assert result["checks"]["stated"]["combination"] == "D+L"
    assert any("installer's sheet" in remark for remark in result["remarks"])
    assert answer(capacity="11999 lbf")["passes"] is False


def test_several_piles_share_alike_and_say_so() -> None:
    result = answer(count=2, capacity="6 kip")
    assert result["load_each"]["value"] == pytest.approx(6000)
    assert result["capacity"]["value"] == pytest.approx(12000)
    assert any("stiff cap" in remark for remark in result["remarks"])
    assert not any("stiff cap" in remark for remark in answer()["remarks"])


def test_a_load_that_pulls_up_is_refused() -> None:
    assert answer(loads=[{"case": "dead", "value": "-1 kip"}])["status"] == "refused"


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({"count": 0}, "given.count"),
        ({"source": " "}, "given.source"),
        ({"capacity": "0 lbf"}, "given.capacity"),
        ({"loads": [{"case": "dead", "value": "0 lbf"}]}, "given.loads"),
    ],
)
def test_bad_fields_are_named(given: dict[str, Any], field: str) -> None:
    with pytest.raises(InputError) as caught:
        answer(**given)
    assert caught.value.field == field
