"""Drawings: well-formed, to scale, without scripts or inline styles, words escaped."""

from __future__ import annotations

import re

import pytest
from defusedxml import ElementTree

from structure.beam_picture import beam_picture
from structure.core.statics.model import BeamLine, Load
from structure.diagrams.beam import BeamDrawing, BeamLoad, beam_diagram
from structure.diagrams.footing import PostDrawing, post_detail
from structure.diagrams.house_section import HouseDrawing, Level, house_section
from structure.diagrams.offset import OffsetDrawing, offset_drawing
from structure.diagrams.plan_strip import PlanStrip, plan_strip
from structure.diagrams.shoring import ShoringCut, ShoringDrawing, shoring_cut, shoring_elevation
from structure.diagrams.strip import SCALE, Cut, Strip, section_strip
from structure.diagrams.svg import Drawing

SVG = "{http://www.w3.org/2000/svg}"
NASTY = '<script>alert("x")</script> & "quoted"'


def two_storeys(name: str = "Second floor") -> HouseDrawing:
    levels = [
        Level("Roof", "roof", 156, 144, "simple", "simple", brought=20.0, total=20.0),
        Level("Attic", "attic", 156, 144, "simple", "simple", brought=15.0, total=35.0),
        Level(name, "floor", 156, 144, "continuous", "continuous", wall_height=97, brought=65.0, total=100.0),
    ]
    return HouseDrawing(
        "us",
        levels,
        97.0,
        opening=240,
        beam_width=7,
        beam_depth=18,
        beam_label=name,
        headroom=79,
        below="basement",
        below_height=90,
        below_support="beam",
    )


def every_drawing(words: str) -> dict[str, str]:
    line = BeamLine((240.0,))
    return {
        "section": house_section(two_storeys(words)),
        "beam": beam_picture(
            line, [Load.uniform("dead", 40, 0, 240)], EI=5e9, label=words, reactions=[words] * 2
        ).svg,
        "post": post_detail(PostDrawing("us", "P1", words, 90, 7.5, 5, 14000, 18, words, 38, 14, "F1")),
        "shoring": shoring_elevation(ShoringDrawing("us", words, 240, 288, 96, 19, 16, header_label=words)),
        "cut": shoring_cut(ShoringCut("us", 96, 9.25, 4.5, 30, None, reshore=True)),
        "offset": offset_drawing(OffsetDrawing(150, 4.5, 144, 8, 0.75, 9.25)),
        "plan": plan_strip(
            PlanStrip(249, 7, words, 240, [("P1", 2, 3.5)], [("F1", 2, 38)], [("S1", -36, 288)])
        ),
        "strip": section_strip(Strip(beams(words), room=19.0, titles={"a": words})),
    }


def beams(words: str = "beam") -> list[Cut]:
    return [
        Cut("1", "a", words, 4.5, 11.25, plies=3),
        Cut("2", "a", words, 7.0, 18.0, plies=4, passes=False),
        Cut("3", "b", words, 3.5, 11.25, plies=2, plates=[(0.5, 11.0)]),
        Cut("4", "c", words, 5.0, 13.7, form="W", web=0.23, flange=0.335),
        Cut("5", "d", words, 3.4, 15.0, form="C", web=0.4, flange=0.65),
        Cut("6", "e", words, 6.0, 12.0, form="HSS", web=0.349, flange=0.349),
    ]


def outlines(svg: str) -> list[tuple[str, float, float, float, float]]:
    """Class, left, top, width and height of every box and filled outline."""
    found = []
    for element in ElementTree.fromstring(svg).iter():
        kind = element.attrib.get("class", "")
        if element.tag == f"{SVG}rect":
            found.append((kind, *(float(element.attrib[name]) for name in ("x", "y", "width", "height"))))
        elif element.tag == f"{SVG}path" and kind == "steel":
            points = [
                tuple(map(float, pair)) for pair in re.findall(r"([\d.]+) ([\d.]+)", element.attrib["d"])
            ]
            (x0, x1), (y0, y1) = ((min(axis), max(axis)) for axis in zip(*points, strict=True))
            found.append((kind, x0, y0, x1 - x0, y1 - y0))
    return found


def test_beams_cut_across_are_all_at_one_scale_and_hang_from_one_line():
    held = outlines(section_strip(Strip(beams())))
    wood = [each for each in held if each[0] == "wood"]
    assert [round(each[4] / SCALE, 3) for each in wood] == [11.25] * 3 + [18.0] * 4 + [11.25] * 2
    assert [round(each[3] / SCALE, 3) for each in wood] == [1.5] * 3 + [1.75] * 4 + [1.5] * 2
    assert len({each[2] for each in wood}) == 1
    plate, *shapes = (each for each in held if each[0] == "steel")
    assert (round(plate[3] / SCALE, 3), round(plate[4] / SCALE, 3)) == (0.5, 11.0)
    assert [(round(each[3] / SCALE, 2), round(each[4] / SCALE, 2)) for each in shapes] == [
        (5.0, 13.7),
        (3.4, 15.0),
        (6.0, 12.0),
    ]
    assert {round(each[2], 2) for each in shapes} == {wood[0][2]}


def test_the_hatch_stays_inside_its_ply():
    svg = section_strip(Strip([Cut("1", "a", "one ply", 1.5, 7.25)]))
    (_, x, y, width, height), *_ = (each for each in outlines(svg) if each[0] == "wood")
    hatch = next(
        element.attrib["d"]
        for element in ElementTree.fromstring(svg).iter(f"{SVG}path")
        if element.attrib["class"] == "ink-thin"
    )
    points = [tuple(map(float, pair)) for pair in re.findall(r"([\d.]+) ([\d.]+)", hatch)]
    assert len(points) > 8
    assert all(x <= px <= x + width and y <= py <= y + height for px, py in points)


@pytest.mark.parametrize("words", ["plain words", NASTY])
def test_every_drawing_is_well_formed_named_and_free_of_scripts(words):
    for kind, svg in every_drawing(words).items():
        root = ElementTree.fromstring(svg)
        assert root.tag == f"{SVG}svg", kind
        ids = root.attrib["aria-labelledby"].split()
        named = {e.attrib["id"]: e.text for e in root if e.tag in (f"{SVG}title", f"{SVG}desc")}
        assert [bool(named[i]) for i in ids] == [True, True], kind
        tags = {e.tag.removeprefix(SVG) for e in root.iter()}
        assert tags <= {"svg", "title", "desc", "line", "path", "rect", "circle", "text"}, kind
        for element in root.iter():
            assert "style" not in element.attrib, kind
            assert not any(name.startswith("on") for name in element.attrib), kind


def test_words_come_back_from_the_drawing_as_they_were_given():
    root = ElementTree.fromstring(house_section(two_storeys(NASTY)))
    assert NASTY in [e.text for e in root.iter(f"{SVG}text")]


def test_every_mark_lies_on_the_sheet():
    for kind, svg in every_drawing("plain words").items():
        root = ElementTree.fromstring(svg)
        _, _, width, height = (float(v) for v in root.attrib["viewBox"].split())
        for element in root.iter():
            for name, most in (
                ("x", width),
                ("y", height),
                ("x1", width),
                ("x2", width),
                ("y1", height),
                ("y2", height),
            ):
                if name in element.attrib:
                    assert -1 <= float(element.attrib[name]) <= most + 1, (kind, element.attrib)


def load_marks(svg: str, measure: str) -> list[tuple[float, float]]:
    root = ElementTree.fromstring(svg)
    return [
        (float(e.attrib["data-load"]), float(e.attrib[measure])) for e in root.iter() if measure in e.attrib
    ]


def shaft_width(path: str) -> float:
    """Width of an arrow from its outline: its first two corners are the two edges of the shaft."""
    corners = re.findall(r"[ML]([-\d.]+) ([-\d.]+)", path)
    return abs(float(corners[1][0]) - float(corners[0][0]))


def test_section_arrows_grow_in_proportion_to_the_load_on_the_way_down():
    svg = house_section(two_storeys())
    marks = load_marks(svg, "data-width")
    assert [load for load, _ in marks] == [20.0, 35.0, 100.0]
    scale = marks[-1][1] / 100.0
    assert [width for _, width in marks] == pytest.approx([load * scale for load, _ in marks], rel=1e-4)
    drawn = [
        shaft_width(e.attrib["d"]) for e in ElementTree.fromstring(svg).iter() if "data-width" in e.attrib
    ]
    assert drawn == pytest.approx([width for _, width in marks], abs=0.011)


def test_section_spans_are_to_scale():
    svg = house_section(two_storeys())
    root = ElementTree.fromstring(svg)
    xs = {e.text: float(e.attrib["x"]) for e in root.iter(f"{SVG}text") if e.text}
    left, line, right = xs["13'-0\" (3.96 m)"], xs["wall line"], xs["12'-0\" (3.66 m)"]
    assert (line - left) / (right - line) == pytest.approx(156 / 144, rel=1e-3)


def test_a_level_without_loads_has_no_arrow_and_says_so():
    levels = [Level("Floor", "floor", 120, 120, "simple", "simple")]
    svg = house_section(HouseDrawing("us", levels, 97.0))
    assert load_marks(svg, "data-width") == []
    assert "no load worked out yet" in ElementTree.fromstring(svg).find(f"{SVG}desc").text


def test_beam_load_arrows_are_as_long_as_their_load():
    loads = [
        BeamLoad("dead", "uniform", 30, 0, 200),
        BeamLoad("live", "uniform", 60, 0, 200),
        BeamLoad("snow", "trapezoid", 15, 50, 200, 45),
    ]
    svg = beam_diagram(BeamDrawing("us", 200, (0, 200), loads, ["a", "b"], [], "beam"))
    marks = load_marks(svg, "data-length")
    assert {load for load, _ in marks} == {30.0, 60.0, 45.0}
    scales = {round(length / load, 6) for load, length in marks}
    assert len(scales) == 1
    drawn = next(e.attrib["d"] for e in ElementTree.fromstring(svg).iter() if "data-length" in e.attrib)
    (x1, y1), (x2, y2) = [(float(x), float(y)) for x, y in re.findall(r"[ML]([-\d.]+) ([-\d.]+)", drawn)[:2]]
    assert x1 == x2
    assert y2 - y1 == pytest.approx(marks[0][1], abs=0.011)


def test_beam_labels_are_the_exact_extremes():
    w, L, EI = 100.0, 240.0, 5e9
    picture = beam_picture(
        BeamLine((L,)), [Load.uniform("live", w, 0, L)], EI=EI, label="b", reactions=["", ""]
    )
    told = {(what, value) for what, _, value, _ in picture.rows}
    assert (
        "Moment",
        f"{w * L**2 / 8 / 12:,.0f} lbf·ft ({w * L**2 / 8 * 4.4482216152605 * 25.4 / 1e6:,.1f} kN·m)",
    ) in told
    assert ("Shear", f"{w * L / 2:,.0f} lbf ({w * L / 2 * 4.4482216152605 / 1000:,.1f} kN)") in told
    deflection = 5 * w * L**4 / 384 / EI
    assert ("Deflection", f"{deflection:.2f} in ({deflection * 25.4:.1f} mm)") in told
    for _, _, value, _ in picture.rows:
        assert value in picture.svg


def test_beam_diagram_takes_each_curve_from_the_combination_that_is_worst_for_it():
    loads = [
        Load.uniform("dead", 10, 0, 240),
        Load.uniform("snow", 50, 0, 240),
        Load.uniform("live", 20, 0, 240),
    ]
    picture = beam_picture(BeamLine((240.0,)), loads, EI=5e9, label="b", reactions=["", ""])
    combinations = {what: name for what, name, _, _ in picture.rows}
    assert combinations["Moment"] == "D+0.75L+0.75S"
    assert picture.svg.count("D+0.75L+0.75S") >= 2


def test_plain_numbers_are_written_short():
    pad = Drawing(10, 10, "t", "d")
    pad.line((1.0, 2.5), (1 / 3, -0.001))
    assert 'x1="1" y1="2.5" x2="0.33" y2="0"' in pad.marks[0]
