"""A footing that is there under a new post: the spread, pressure before and after, what is asked and refused."""

from __future__ import annotations

from typing import Any

import pytest

from structure.core.cases.registry import run_case
from structure.core.errors import InputError

FIVE = [{"case": "dead", "value": "2000 lbf"}, {"case": "live", "value": "3000 lbf"}]
LINE = [{"case": "dead", "value": "400 lbf/ft"}, {"case": "live", "value": "500 lbf/ft"}]
STRIP = {"kind": "strip", "width": "16 in", "thickness": "8 in", "known": "measured"}
SQUARE = {"kind": "pad", "side": "24 in", "thickness": "10 in", "known": "measured"}
WALL = {"height": "24 in", "thickness": "8 in", "material": "concrete"}


def answer(pad: dict[str, Any], **given: Any) -> dict[str, Any]:
    asked = {"loads": FIVE, "soil": "2000 psf", "post": "5.5 in", "pad": pad}
    return run_case({"kind": "existing_pad", "code": "us", "given": asked | given})


def net(result: dict[str, Any], when: str) -> float:
    found: float = result["pressures"][when]["net"]["max"]["value"]
    return found


def test_a_strip_carries_the_post_over_45_degrees() -> None:
    result = answer(STRIP, existing={"line": LINE})
    assert result["length"]["value"] == pytest.approx(5.5 + 2 * 8)
    assert net(result, "before") == pytest.approx(900 * 12 / 16)
    assert net(result, "after") == pytest.approx(900 * 12 / 16 + 5000 / (21.5 * 16 / 144))
    assert result["pressures"]["after"]["gross"]["max"]["value"] == pytest.approx(net(result, "after") + 100)


def test_a_concrete_wall_spreads_it_further() -> None:
    result = answer(STRIP | {"wall": WALL}, existing={"line": LINE})
    assert result["length"]["value"] == pytest.approx(5.5 + 2 * (24 + 8))
    # The post bears on the wall, 1.25 in of concrete each side of it.
    bearing = result["checks"]["bearing"]
    assert bearing["capacity"]["value"] == pytest.approx(0.6 * 0.85 * 2500 * 5.5 * 8)
    assert bearing["demand"]["value"] == pytest.approx(1.2 * 2000 + 1.6 * 3000)
    assert result["passes"] is True


def test_nothing_spreads_past_the_end_of_the_strip() -> None:
    near, far = (answer(STRIP | {"to_end": end}) for end in ("8 in", "10 ft"))
    assert near["length"]["value"] == pytest.approx(16)
    assert far["length"]["value"] == pytest.approx(21.5)
    assert net(near, "after") > net(far, "after")


def test_a_pad_adds_what_it_carries_already() -> None:
    result = answer(SQUARE, existing={"points": FIVE})
    assert (net(result, "before"), net(result, "after")) == pytest.approx((1250, 2500))
    assert result["load"]["before"]["value"] == pytest.approx(5000)
    assert result["checks"]["soil"]["ratio"] == pytest.approx(2625 / 2000)
    # 25 psi factored on a projection of 9.25 in
    assert result["checks"]["flexure"]["demand"]["value"] == pytest.approx(14400 / 24 * 9.25**2 / 2 / 12)


def test_the_same_load_gives_the_same_checks_as_a_plain_pad() -> None:
    held = answer(SQUARE)["checks"]
    plain = run_case(
        {
            "kind": "footing",
            "code": "us",
            "given": {
                "loads": FIVE,
                "soil": "2000 psf",
                "post": "5.5 in",
                "side": "24 in",
                "thickness": "10 in",
                "plain": True,
            },
        }
    )["checks"]
    assert held == plain


def test_a_thickened_slab_is_taken_like_a_strip() -> None:
    thick = answer(STRIP | {"kind": "thickened_slab"}, existing={"line": LINE})
    assert net(thick, "after") == net(answer(STRIP, existing={"line": LINE}), "after")
    assert any("thickening" in question for question in thick["questions"])


def test_the_engineer_is_asked_what_nobody_knows() -> None:
    bare = answer(SQUARE | {"known": "assumed"})["questions"]
    known = answer(SQUARE, existing={"points": FIVE}, concrete={"fc": "3000 psi"}, soil_from="investigation")[
        "questions"
    ]
    for word in ("assumed and not measured", "strength of 2,500 psi", "carries already", "soil value"):
        assert any(word in question for question in bare), word
        assert not any(word in question for question in known), word
    assert any("does not pass" in question for question in known)
    assert "engineer" in " ".join(answer(SQUARE)["remarks"])


def test_a_post_off_the_middle_presses_one_corner() -> None:
    result = answer(SQUARE, eccentricity="2 in")
    assert net(result, "after") == pytest.approx(1250 * 1.5)
    assert answer(SQUARE, eccentricity="4.1 in")["clause"] == "ACI 318-19 13.3.1.1"


@pytest.mark.parametrize(
    ("pad", "clause"),
    [
        ({"kind": "slab", "thickness": "4 in", "known": "measured"}, "IRC 2021 R403.1.1"),
        ({"kind": "pad", "side": "24 in", "known": "measured"}, "IRC 2021 R403.1.1"),
        ({"kind": "pad", "width": "24 in", "thickness": "8 in", "known": "measured"}, "IRC 2021 R403.1.1"),
        ({"kind": "strip", "thickness": "8 in", "known": "assumed"}, "IRC 2021 R403.1.1"),
        (STRIP | {"wall": WALL | {"material": "masonry"}}, "IRC 2021 R301.1.3"),
    ],
)
def test_what_is_not_known_is_refused(pad: dict[str, Any], clause: str) -> None:
    result = answer(pad)
    assert (result["status"], result["clause"]) == ("refused", clause)


def test_soil_and_concrete_keep_their_limits() -> None:
    assert answer(SQUARE, soil="1000 psf", soil_from="presumptive")["clause"] == "IRC 2021 R401.4.1"
    assert answer(SQUARE, concrete={"fc": "2000 psi"})["clause"] == "ACI 318-19 Table 19.2.1.1"


@pytest.mark.parametrize(
    ("pad", "given", "field"),
    [
        (SQUARE | {"width": "20 in"}, {}, "given.pad.side"),
        (STRIP | {"length": "20 ft"}, {}, "given.pad.length"),
        (SQUARE | {"wall": WALL}, {}, "given.pad.wall"),
        (SQUARE | {"to_end": "2 ft"}, {}, "given.pad.to_end"),
        (SQUARE, {"existing": {"line": LINE}}, "given.existing.line"),
        (STRIP, {"existing": {"points": FIVE}}, "given.existing.points"),
        (STRIP, {"eccentricity": "1 in"}, "given.eccentricity"),
        (STRIP | {"thickness": "2 in"}, {}, "given.pad.thickness"),
        (STRIP | {"width": "5 in"}, {}, "given.pad.width"),
        (STRIP | {"wall": WALL | {"thickness": "5 in"}}, {}, "given.pad.wall.thickness"),
        (SQUARE, {"post": {"length": "4 in", "width": "4 in", "column": "6 in"}}, "given.post.column"),
        (SQUARE, {"loads": [{"case": "dead", "value": "0 lbf"}]}, "given.loads"),
    ],
)
def test_bad_fields_are_named(pad: dict[str, Any], given: dict[str, Any], field: str) -> None:
    with pytest.raises(InputError) as caught:
        answer(pad, **given)
    assert caught.value.field == field
