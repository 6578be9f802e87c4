"""Takeoff of steel, flitch, engineered wood by length, counted fasteners, pads with bars, hangers with their load."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from estimating.core.options import Place, beam_installed
from estimating.core.pricing import make_quote
from estimating.core.settings import DEFAULT_SETTINGS
from estimating.core.takeoff import takeoff
from structure.core.errors import InputError
from tests.estimating.samples import DAY, flitch, prices, rates, schedule, section, steel


def lines_of(**changes: Any) -> dict[str, Any]:
    found = takeoff(schedule(**changes)).lines
    return {line.code: line for line in found if "B1" in line.marks or line.division in ("03", "05", "31")}


def test_a_steel_beam_by_its_weight() -> None:
    """22 lb/ft by 20 ft is 440 lb; 4 x 5.0 + 2 x 13.7 in of face by 240 in is 79 ft2; nine people, so a crane."""
    lines = lines_of(beam=steel())
    assert (lines["steel-w"].net, lines["steel-w"].unit) == (Decimal("440.000"), "lb")
    assert lines["steel-w"].description == "Steel W14x22 A992"
    assert lines["steel-prime"].net == Decimal("79.000")
    assert lines["crane"].quantity == 1
    assert lines["labour-carry"].net == Decimal("4.500")  # six people, half an hour, 1.5 for alteration
    assert lines["steel-plates"].allowance
    assert lines["beam-lift"].quantity == 1
    assert lines["bolt-set"].quantity == lines["steel-hole"].quantity == 22  # two rows of 11 for the nailer
    assert not any(code.startswith("lvl") for code in lines)


def test_a_flush_steel_beam_has_no_nailer() -> None:
    lines = lines_of(beam=steel(), flush=True, hangers=32, hanger_lb=612.3)
    assert "steel-hole" not in lines
    assert lines["hanger"].description == "Joist hanger with its nails, rated for at least 613 lb"


def test_hangers_without_a_load_say_so() -> None:
    taken = takeoff(schedule(flush=True, hangers=32))
    assert any("load of one hanger is not on the schedule" in each for each in taken.cautions)


def test_a_light_tube_needs_no_crane() -> None:
    """HSS6x4x1/4 at 15.62 lb/ft, 10 ft: 156 lb, four people."""
    tube = steel(
        shape="HSS6x4x1/4", form="HSS", weight_lb_ft=15.62, depth_in=6.0, width_in=4.0, length_in=120.0
    )
    lines = lines_of(beam=tube)
    assert lines["steel-hss"].net == Decimal("156.200")
    assert lines["labour-carry"].net == Decimal("3.000")
    assert "crane" not in lines
    assert lines["steel-prime"].net == Decimal("16.667")  # 20 in of face by 120 in


def test_bearing_plates_of_the_design_are_weighed() -> None:
    """Two plates 6 x 8 x 3/4 in: 72 in3 at 490 lb/ft3 is 20.417 lb."""
    plate = {"length_in": 6.0, "width_in": 8.0, "thickness_in": 0.75}
    lines = lines_of(beam=steel(bearing_plates=[plate, plate]))
    assert lines["steel-plate"].net == Decimal("20.417")
    assert "steel-plates" not in lines


def test_a_flitch_beam_is_lumber_plates_and_bolts() -> None:
    """0.5 x 11 x 240 in of plate is 374.31 lb; 18 bolts as counted, a hole in the plate for each."""
    lines = lines_of(beam=flitch())
    assert lines["steel-plate"].net == Decimal("374.306")
    assert lines["lumber-2x12-spf-no2"].net == Decimal("40.000")
    assert lines["bolt-set"].quantity == lines["steel-hole"].quantity == 18
    assert "ply-fastening" not in lines
    unknown = lines_of(beam=flitch(bolts=0))
    assert unknown["ply-fastening"].allowance
    assert "bolt-set" not in unknown


@pytest.mark.parametrize(
    ("family", "grade", "code"),
    [
        ("glulam", "24F-V4", "glulam-5.5x18-24f-v4"),
        ("psl", "invented PSL", "psl-5.5x18-inventedpsl"),
        ("lsl", "invented LSL", "lsl-5.5x18-inventedlsl"),
    ],
)
def test_one_piece_of_engineered_wood_by_its_length(family: str, grade: str, code: str) -> None:
    beam = {"mark": "B1", "family": family, "plies": 1, "ply_width_in": 5.5, "depth_in": 18.0, "grade": grade}
    lines = lines_of(beam=beam | {"length_in": 249.0})
    assert (lines[code].net, lines[code].quantity) == (Decimal("20.750"), Decimal("22.000"))
    assert "ply-fastening" not in lines


def test_ply_fasteners_as_the_engine_counts_them() -> None:
    counted = {
        "ply_fasteners": 126, "ply_fastener": "16d common nail", "ply_fastener_kind": "nail",
        "ply_fastener_in": 0.162, "ply_fastener_length_in": 3.5, "ply_rows": 3, "ply_spacing_in": 12.0,
        "ply_source": "common practice least pattern of laminated veneer plies",
    }  # fmt: skip
    beam = schedule()["beam"]
    line = lines_of(beam=beam | counted, posts=[])["nail-box"]
    assert line.detail == "126 of 16d common nail"
    assert line.rule.source == counted["ply_source"]
    assert "3 rows at 12 in" in line.rule.sentence
    screws = counted | {"ply_fastener_kind": "screw", "ply_fastener": "structural screw 6 in"}
    line = lines_of(beam=beam | screws)["ply-fastener"]
    assert (line.quantity, line.description) == (126, "structural screw 6 in")
    with pytest.raises(InputError, match="nail or screw or bolt"):
        takeoff(schedule(beam=beam | counted | {"ply_fastener_kind": "glue"}))


def test_a_steel_post_has_plates_and_anchors_and_no_wood() -> None:
    """A pipe of 9.12 lb/ft, 8 ft tall: 72.96 lb; 4 in of diameter makes 8.378 ft2 to prime."""
    post = {"height_in": 96.0, "family": "steel", "shape": "Pipe3-1/2STD", "form": "round", "grade": "A53 Gr B",
            "depth_in": 4.0, "width_in": 4.0, "weight_lb_ft": 9.12}  # fmt: skip
    wood = {"mark": "P2", "height_in": 91.5, "fastening": "nailed", **section(plies=3, depth_in=5.5)}
    lines = {line.code: line for line in takeoff(schedule(posts=[{"mark": "P1", **post}, wood])).lines}
    assert (lines["steel-pipe"].net, lines["steel-pipe"].marks) == (Decimal("72.960"), ("P1",))
    assert lines["steel-prime"].net == Decimal("8.378")
    assert lines["anchor-set"].quantity == 4
    assert lines["steel-plates"].quantity == 2
    plate = {"length_in": 8.0, "width_in": 8.0, "thickness_in": 0.5}  # 32 in3
    sized = takeoff(schedule(posts=[{"mark": "P1", **post, "bearing_plates": [plate]}])).lines
    assert next(line.net for line in sized if line.code == "steel-plate") == Decimal("9.074")
    assert next(line.quantity for line in sized if line.code == "steel-plates") == 1
    assert (lines["post-base"].quantity, lines["post-base"].marks) == (1, ("P2",))


def test_a_rectangular_pad_with_bars() -> None:
    """60 x 36 x 12 in: 15 ft3 and 15 ft2. Five #4 of 54 in and eight of 30 in: 42.5 ft at 0.668 lb, 28.39 lb."""
    pad = {
        "mark": "F1",
        "side_in": 60.0,
        "width_in": 36.0,
        "thickness_in": 12.0,
        "bar": "#4",
        "bars": 5,
        "cross_bars": 8,
    }
    lines = lines_of(footings=[pad], slab_cut=False)
    bars = lines["rebar-no4"]
    assert (bars.net, bars.waste) == (Decimal("28.390"), Decimal("1.420"))
    assert bars.detail == "5 of 4'-6\" and 8 of 2'-6\""
    assert lines["bar-chair"].quantity == 4
    assert lines["concrete-bag-80lb"].net == Decimal("25.000")
    assert lines["labour-dig"].net == Decimal("3.600")  # 72 x 48 x 12 in of hole at 0.1 h and 1.5


def test_long_bars_are_lapped() -> None:
    """A strip 25 ft long: each bar of 294 in has one lap of 40 x 0.5 in, 20 in."""
    pad = {
        "mark": "F1",
        "side_in": 300.0,
        "width_in": 24.0,
        "thickness_in": 12.0,
        "bar": "#4",
        "bars": 3,
        "cross_bars": 2,
    }
    bars = lines_of(footings=[pad], slab_cut=False)["rebar-no4"]
    net = (3 * 294 + 2 * 18) / 12 * 0.668
    with_laps = (3 * 314 + 2 * 18) / 12 * 0.668 * 1.05
    assert bars.net == Decimal(f"{net:.3f}")
    assert bars.quantity == Decimal(f"{with_laps:.3f}")
    assert "laps of 40 diameters" in bars.rule.sentence


@pytest.mark.parametrize("beam", [steel(), steel(form="C"), steel(form="HSS"), flitch(), flitch(bolts=0)])
def test_everything_of_the_demo_book_is_priced(beam: dict[str, Any]) -> None:
    quote = make_quote(takeoff(schedule(beam=beam)).lines, prices(), rates(), DAY)
    assert quote.missing == ()
    assert all(line.amount and line.amount > 0 for line in quote.lines)


def test_a_missing_price_says_so_and_is_not_zero() -> None:
    held = {code: price for code, price in prices().items() if code != "steel-w"}
    quote = make_quote(takeoff(schedule(beam=steel())).lines, held, rates(), DAY)
    assert quote.missing == ("steel-w",)
    assert quote.total is None
    place = Place("us", 240.0)
    found = beam_installed([("a", steel()), ("b", flitch())], place, DEFAULT_SETTINGS, held, rates(), DAY)
    assert found["a"].amount is None
    assert found["a"].why == "no price for steel-w"
    assert found["b"].amount is not None


def test_a_beam_alone_costs_what_its_lines_of_the_whole_job_cost() -> None:
    data = steel()
    whole = make_quote(takeoff(schedule(beam=data)).lines, prices(), rates(), DAY)
    own = ("05-10", "05-20", "06-10", "01-50")
    delivered = ("delivery", "delivery-long")
    mine = sum(
        each.amount
        for each in whole.lines
        if "B1" in each.line.marks and each.line.cost_code in own and each.line.code not in delivered
    )
    place = Place("us", data["length_in"])
    alone = beam_installed([("a", data)], place, DEFAULT_SETTINGS, prices(), rates(), DAY)["a"]
    assert alone.amount == mine


def test_a_shape_without_its_weight_names_the_field() -> None:
    data = steel()
    del data["weight_lb_ft"]
    with pytest.raises(InputError) as refused:
        takeoff(schedule(beam=data))
    assert refused.value.field == "beam.weight_lb_ft"
