"""Takeoff rules: counted by hand here, or held to what must always be so."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.core.items import ITEMS
from estimating.core.lines import COST_CODES, DIVISIONS, KINDS, Line
from estimating.core.schedule import read_schedule
from estimating.core.settings import DEFAULT_SETTINGS, TakeoffSettings, read_settings
from estimating.core.takeoff import Takeoff, takeoff
from estimating.core.takeoff.fasteners import beam_fastening, in_row, nail_for, post_fastening
from estimating.core.units import UNITS
from structure.core.errors import InputError, OutOfScope
from tests.estimating.samples import schedule, section


def one(taken: Takeoff, code: str, cost_code: str = "") -> Line:
    found = [line for line in taken.lines if line.code == code and cost_code in ("", line.cost_code)]
    assert len(found) == 1, [line.code for line in taken.lines]
    return found[0]


def none(taken: Takeoff, code: str) -> bool:
    return all(line.code != code for line in taken.lines)


def test_beam_plies_are_ordered_to_length_in_two_foot_steps() -> None:
    """Four plies of 247 in (20.583 ft): four pieces of 22 ft, 82.333 ft of beam and 5.667 ft of waste."""
    line = one(takeoff(schedule()), "lvl-1.75x18-2.0e-2900f")
    assert (line.net, line.waste, line.quantity, line.unit) == (Decimal("82.333"), Decimal("5.667"), 88, "ft")
    assert line.detail == "buy 4 of 22 ft"
    assert line.marks == ("B1",)


def test_posts_come_out_of_stock() -> None:
    """Eight plies of 91 1/2 in: two out of each 16 ft length."""
    line = one(takeoff(schedule()), "lumber-2x6-spf-no2", "06-20")
    assert (line.net, line.quantity, line.marks) == (61, 64, ("P1", "P2"))
    assert line.detail == "buy 4 of 16 ft"


def test_shoring_lumber_is_shared_over_its_uses() -> None:
    """Header of both sides, two levels: 16 pieces of 138 in out of 12 ft stock; half of 192 ft is charged."""
    line = one(takeoff(schedule()), "lumber-2x10-spf-no2", "01-60")
    assert (line.net, line.waste, line.reuse, line.quantity) == (184, 8, 96, 96)
    once = one(takeoff(schedule(), TakeoffSettings(shoring_uses=1)), "lumber-2x10-spf-no2", "01-60")
    assert (once.reuse, once.quantity) == (0, 192)


def test_shores_are_as_long_as_the_plan_says() -> None:
    """18 a side, two sides, two levels, each as long as the plan's shore."""
    cuts = [
        c
        for plan in takeoff(schedule()).cuts
        for b in plan.boards
        for c in b.cuts
        if c.use.startswith("shore ")
    ]
    assert {cut.length for cut in cuts} == {85.25}
    assert len(cuts) == 2 * 2 * 18


def test_concrete_in_bags_by_their_yield() -> None:
    """One pad of 24 x 24 x 12 in is 4.0 ft3; with 10 % more over 0.60 ft3 a bag: 7.33, so 8 bags."""
    pad = {"mark": "F1", "side_in": 24.0, "thickness_in": 12.0, "existing": False}
    line = one(takeoff(schedule(footings=[pad], slab_cut=False)), "concrete-bag-80lb")
    assert (line.net, line.quantity, line.unit) == (Decimal("6.667"), 8, "bag")


def test_much_concrete_is_ready_mixed() -> None:
    """Two pads of 18144 in3 and 4 in of slab over two 48 in holes: 54720 in3, 1.173 yd3."""
    taken = takeoff(schedule(), TakeoffSettings(bag_limit=40))
    line = one(taken, "concrete-ready")
    assert (line.net, line.waste) == (Decimal("1.173"), Decimal("0.117"))
    assert one(taken, "concrete-short-load").quantity == 1
    assert none(taken, "concrete-bag-80lb")


def test_metric_takeoff_counts_metric_units_and_bags() -> None:
    taken = takeoff(schedule(), TakeoffSettings(units="metric", concrete_as="bags"))
    assert {line.unit for line in taken.lines} <= set(UNITS) - {"ft", "ft2", "yd3", "ft3", "lb", "gal"}
    assert one(taken, "concrete-bag-30kg").unit == "bag"
    assert one(taken, "lvl-1.75x18-2.0e-2900f").quantity == Decimal("26.822")


def test_bars_by_weight() -> None:
    """Four #5 each way in a 36 in pad with 3 in cover: 8 x 30 in x 1.043 lb/ft = 20.86 lb."""
    pad = {"mark": "F1", "side_in": 36.0, "thickness_in": 14.0, "bar": "#5", "bars": 4}
    line = one(takeoff(schedule(footings=[pad])), "rebar-no5")
    assert (line.net, line.waste) == (Decimal("20.860"), Decimal("1.043"))


def test_an_existing_pad_is_named_and_not_priced() -> None:
    pad = {"mark": "F1", "side_in": 24.0, "thickness_in": 12.0, "existing": True}
    taken = takeoff(schedule(footings=[pad], slab_cut=False))
    assert any("F1 exists" in caution for caution in taken.cautions)
    assert all(line.division != "03" for line in taken.lines)


def test_flush_beam_hangers_and_rafter_tie() -> None:
    """Twenty feet of joists at 16 in: 16 straps. Hangers as the schedule counts them, no board round the beam."""
    taken = takeoff(schedule(flush=True, hangers=32, rafter_tie=True))
    assert one(taken, "hanger").quantity == 32
    assert one(taken, "tie-strap").quantity == 16
    assert "R802.5.2" in one(taken, "tie-strap").rule.source
    assert any("tie the rafters" in caution for caution in taken.cautions)
    assert none(takeoff(schedule()), "tie-strap")


def test_a_flush_beam_without_hangers_is_a_caution() -> None:
    assert any("no hangers" in caution for caution in takeoff(schedule(flush=True)).cautions)


def test_no_shoring_plan_is_a_caution_and_not_a_free_ride() -> None:
    taken = takeoff(schedule(shoring={"sides": []}))
    assert any("no shoring plan" in caution for caution in taken.cautions)
    assert none(taken, "labour-shore")


def test_what_has_no_sizes_is_an_allowance_and_a_caution() -> None:
    """A post by its maker's paper and shoring by the engineer are named, never left out of the price."""
    named = ["P2 Adjustable or pipe post by its maker's paper", "S1 Shoring by the engineer"]
    taken = takeoff(schedule(not_measured=named, shoring={"sides": []}))
    post, shoring = one(taken, "post-stated"), one(taken, "shoring-engineered")
    assert (post.marks, post.quantity, post.allowance) == (("P2",), 1, True)
    assert (shoring.marks, shoring.quantity, shoring.allowance) == (("S1",), 1, True)
    assert any("P2 Adjustable" in caution for caution in taken.cautions)
    assert not any("no shoring plan" in caution for caution in taken.cautions)


def test_ply_pattern_of_an_engineered_beam_is_never_made_up() -> None:
    line = one(takeoff(schedule()), "ply-fastening")
    assert line.allowance
    known = takeoff(schedule(), TakeoffSettings(ply_rows=3, ply_spacing_in=24.0))
    assert one(known, "ply-fastener").quantity == 3 * 12  # 247 in at 24 in: eleven gaps, twelve in a row
    assert none(known, "ply-fastening")


def test_long_pieces_warn() -> None:
    cautions = takeoff(schedule()).cautions
    assert any("20'-7\"" in c and "come into the house" in c for c in cautions)
    sawn = {"mark": "B1", **section(plies=3, depth_in=11.25), "length_in": 250.0}
    assert any(
        "special order" in c and "not to be spliced" in c for c in takeoff(schedule(beam=sawn)).cautions
    )


def test_nails_through_a_built_up_post() -> None:
    """Three plies of 1 1/2 in: 3 in and three quarters of the last, 4 1/8 in, takes a 30d nail (4 1/2 in).

    NDS 2018 15.3.3: spacing at most 9 in, end distance at most 18 x 0.207 = 3.726 in, one row up to 4 1/2 in
    of depth and two above. 96 in high: 88.548 in at 9 in is ten gaps, so eleven nails in a row.
    """
    assert nail_for(4.125) == ("30d", 4.5, 0.207)
    narrow = post_fastening(read_schedule(schedule()).posts[0].section, 96.0, "nailed", "us")
    assert narrow is not None
    assert narrow.name == "60d common nail"
    three = read_schedule(schedule(posts=[{"height_in": 96.0, **section(plies=3)}])).posts[0].section
    found = post_fastening(three, 96.0, "nailed", "us")
    assert found is not None
    assert (found.name, found.count) == ("30d common nail", 11)
    deep = (
        read_schedule(schedule(posts=[{"height_in": 96.0, **section(plies=3, depth_in=5.5)}]))
        .posts[0]
        .section
    )
    twice = post_fastening(deep, 96.0, "nailed", "us")
    assert twice is not None
    assert twice.count == 22


def test_too_many_plies_for_nails_are_bolted() -> None:
    five = read_schedule(schedule(posts=[{"height_in": 96.0, **section(plies=5)}])).posts[0].section
    found = post_fastening(five, 96.0, "nailed", "us")
    assert found is not None
    assert found.kind == "bolt"
    assert "no common nail" in found.rule.sentence


def test_nails_of_a_built_up_beam() -> None:
    """Three plies, 12 ft: two joints, each two rows of 7 (140 in at 24 in) and three more at each end."""
    three = read_schedule(schedule(posts=[{"height_in": 96.0, **section(plies=3)}])).posts[0].section
    found = beam_fastening(three, 144.0, "us")
    assert found is not None
    assert found.count == 2 * (2 * 7 + 6)


@pytest.mark.parametrize(
    ("length", "end", "spacing", "count"), [(24, 0, 24, 2), (25, 0, 24, 3), (10, 6, 24, 1)]
)
def test_in_a_row(length: float, end: float, spacing: float, count: int) -> None:
    assert in_row(length, end, spacing) == count


def test_labour_follows_the_contractors_factor() -> None:
    base, slow = takeoff(schedule()), takeoff(schedule(), TakeoffSettings(productivity=2.0))
    for line in (line for line in base.lines if line.kind == "labour" and line.code != "labour-supervise"):
        twin = one(slow, line.code)
        assert abs(twin.quantity - 2 * line.quantity) <= Decimal("0.001")


def test_what_a_quote_must_not_forget() -> None:
    """The list an estimator goes through before a quote for a wall leaves the office."""
    taken = takeoff(schedule(), TakeoffSettings(plumbing=True, ducts=True))
    codes = {line.code for line in taken.lines}
    assert {
        "dust-screen", "floor-protection", "air-scrubber", "hazard-sampling", "electrical-move", "plumbing-move",
        "duct-move", "alarm", "board-half-4x8", "board-compound", "corner-bead", "floor-covering", "trim", "paint",
        "permit-fee", "engineer-design", "engineer-review", "inspection-attendance", "delivery", "delivery-long",
        "beam-lift", "bin", "disposal", "slab-saw", "labour-slab-patch", "labour-dig", "shore-shims",
        "labour-supervise", "labour-clean", "post-base", "post-cap",
    } <= codes  # fmt: skip
    assert all(
        one(taken, code).allowance for code in ("electrical-move", "permit-fee", "engineer-design", "paint")
    )
    assert any("asbestos" in sentence for sentence in taken.exclusions)


def check_lines(lines: tuple[Line, ...]) -> None:
    for line in lines:
        assert line.quantity > 0
        assert min(line.net, line.waste, line.reuse) >= 0
        assert line.quantity == line.net + line.waste - line.reuse
        assert line.unit in UNITS
        assert line.division in DIVISIONS
        assert line.cost_code in COST_CODES
        assert line.cost_code.startswith(line.division)
        assert line.kind in KINDS
        assert line.marks
        assert line.rule.sentence
        assert line.rule.source


sides = st.floats(min_value=60, max_value=400)
heights = st.floats(min_value=60, max_value=144)


@st.composite
def schedules(draw: st.DrawFn) -> dict[str, Any]:
    """Any wall that could stand in a house."""
    family = draw(st.sampled_from(["lvl", "sawn"]))
    beam = {"family": family, "plies": draw(st.integers(1, 5)), "length_in": draw(sides), "grade": "No.2",
            "ply_width_in": 1.75 if family == "lvl" else 1.5, "species": "SPF",
            "depth_in": draw(st.sampled_from([9.25, 11.25]))}  # fmt: skip
    posts = [
        {"height_in": draw(heights), "fastening": draw(st.sampled_from(["nailed", "bolted"])),
         **section(plies=draw(st.integers(1, 6)), depth_in=draw(st.sampled_from([3.5, 5.5])))}
        for _ in range(draw(st.integers(0, 3)))
    ]  # fmt: skip
    footings = [
        {
            "side_in": draw(st.floats(12, 60)),
            "thickness_in": draw(st.floats(6, 24)),
            "existing": draw(st.booleans()),
        }
        for _ in range(draw(st.integers(0, 3)))
    ]
    shores = [
        {"length_in": draw(sides), "height_in": draw(heights), "shores": draw(st.integers(1, 30)),
         "reshore": draw(st.booleans()), "header": section(plies=2, depth_in=9.25), "shore": section(),
         "sill": section(depth_in=5.5)}
        for _ in range(draw(st.integers(0, 2)))
    ]  # fmt: skip
    opening = draw(sides)
    return schedule(
        code=draw(st.sampled_from(["us", "ca"])), beam=beam, posts=posts, footings=footings,
        shoring={"sides": shores}, opening_in=opening, slab_cut=draw(st.booleans()), flush=draw(st.booleans()),
        hangers=draw(st.integers(0, 40)), rafter_tie=draw(st.booleans()),
        wall={"length_in": opening + 24, "height_in": draw(heights), "thickness_in": draw(st.floats(3.5, 12))},
    )  # fmt: skip


@given(schedules(), st.sampled_from(["imperial", "metric"]), st.integers(1, 4))
def test_every_line_of_any_takeoff_is_whole(data: dict[str, Any], units: str, uses: int) -> None:
    taken = takeoff(data, TakeoffSettings(units=units, shoring_uses=uses))
    check_lines(taken.lines)
    lumber = [line for line in taken.lines if line.code.startswith(("lumber-", "lvl-"))]
    assert len(lumber) == len(taken.cuts)


@given(schedules())
def test_a_wider_opening_never_takes_less_demolition(data: dict[str, Any]) -> None:
    wider = {**data, "opening_in": data["opening_in"] + 24}
    before, after = takeoff(data), takeoff(wider)
    for code in ("disposal", "labour-demolish", "board-half-4x8", "dust-screen"):
        assert one(after, code).quantity >= one(before, code).quantity


def test_catalogue_is_whole() -> None:
    for item in ITEMS.values():
        assert item.unit in UNITS or item.unit == ""
        assert item.kind in KINDS
        assert item.cost_code in COST_CODES
        assert item.description


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"beam": None}, "beam"),
        ({"beam": {"family": "sawn", "plies": 2}}, "beam.ply_width_in"),
        ({"opening_in": 0}, "opening_in"),
        ({"opening_in": float("nan")}, "opening_in"),
        ({"posts": [{"height_in": -3, **section()}]}, "posts[0].height_in"),
        ({"posts": [{"height_in": 90, "fastening": "glued", **section()}]}, "posts[0].fastening"),
        ({"hangers": -1}, "hangers"),
        ({"code": "fr"}, "code"),
        ({"shoring": {"sides": [{"length_in": 100, "height_in": 90}]}}, "shoring.sides[0].header"),
        ({"wall": {"length_in": 1, "height_in": 1}}, "wall.thickness_in"),
    ],
)
def test_a_schedule_that_cannot_be_read_names_the_field(changes: dict[str, Any], field: str) -> None:
    with pytest.raises(InputError) as caught:
        takeoff(schedule(**changes))
    assert caught.value.field == field


def test_what_no_rule_measures_is_refused() -> None:
    beam = {"family": "other", "plies": 1, "length_in": 240.0}
    with pytest.raises(OutOfScope, match="not covered yet"):
        takeoff(schedule(beam=beam))


@pytest.mark.parametrize(
    ("data", "words"),
    [
        ({"inspections": 13}, "a whole number from 0 to 12"),
        ({"inspections": 2.5}, "a whole number"),
        ({"kerf_in": float("inf")}, "a number from 0 to 0.5 in"),
        ({"paint": "yes"}, "true or false"),
        ({"lining": "straw"}, "board or plaster"),
        ({"inspection": 2}, "one of"),
    ],
)
def test_a_setting_out_of_its_limits_is_refused(data: dict[str, Any], words: str) -> None:
    with pytest.raises(InputError, match=words):
        read_settings(data)


def test_settings_survive_a_round_trip() -> None:
    assert read_settings(DEFAULT_SETTINGS.as_data()) == DEFAULT_SETTINGS
