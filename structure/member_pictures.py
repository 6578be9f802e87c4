"""Members of an answered wall as a page shows them: drawing, facts, checks, remarks."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from structure.beam_picture import beam_picture
from structure.connection_facts import connection_facts
from structure.core.statics.model import BeamLine, Load
from structure.diagrams.footing import PostDrawing, post_detail
from structure.diagrams.plan_strip import PlanStrip, plan_strip
from structure.diagrams.shoring import ShoringCut, ShoringDrawing, shoring_cut, shoring_elevation
from structure.fields import inches_of
from structure.marks import lumber_size
from structure.models import DesignRun
from structure.pictures import section_picture
from structure.reading import DIMENSION_OF, quantity_words
from structure.results import beam_of, beam_size, checks_of
from structure.shown import inches, value_in

Row = Mapping[str, Any]
SIDES = ("left", "right")


def run_section_picture(run: DesignRun) -> str:
    """The house section of a run with its beam in place."""
    inputs, results = run.inputs, run.results
    down = results.get("takedown")
    down = {"status": "ok", **down} if down else None
    return section_picture(
        inputs["section"], inputs["levels"], down, beam=beam_size(results), name="run-section"
    )


def member_pages(run: DesignRun) -> dict[str, Any]:
    """Beam, posts and footings of a run in the order that the load takes."""
    results = run.results
    beam = beam_of(results)
    if beam is None:
        return {"members": []}
    members = [_beam(results, beam, run.inputs.get("products", ()), run.inputs["case"]["code"])]
    pads = {each["end"]: each for each in results["footings"]}
    bearings = {each["mark"]: each for each in results["bearing"]}
    below = {post["end"] for post in results["posts"] if post["storey"] != "wall"}
    for post in results["posts"]:
        # The pad stands under the lowest post of its end.
        pad = pads.get(post["end"]) if post["storey"] != "wall" or post["end"] not in below else None
        members.append(_post(post, bearings.get(post["mark"]), pad, beam))
    members += [_footing(each) for each in results["footings"]]
    return {"members": members}


def _beam(results: Row, beam: Row, products: Sequence[Row], code: str) -> dict[str, Any]:
    held = results["beam"]
    span = inches(held["span"])
    loads = [_load(each, span) for each in held["loads"]]
    if beam["self_weight"]["counted"]:
        loads.append(Load.uniform("dead", value_in(beam["self_weight"]["line"], "lbf/ft") / 12, 0.0, span))
    EI = value_in(beam["adjusted"]["E"], "psi") * value_in(beam["size"]["inertia"], "in**4")
    reactions = [quantity_words(each["max"]) for each in beam["reactions"].values()]
    picture = beam_picture(
        BeamLine((span,)),
        loads,
        EI=EI,
        code=code,
        label=beam["section"],
        reactions=reactions,
        name="beam-b1",
    )
    clear = beam["headroom"]
    facts = [
        ("Length to cut", quantity_words(held["length"])),
        ("Design span", quantity_words(held["span"])),
        ("Largest moment", quantity_words(beam["moment"]["max"])),
        ("Largest shear", quantity_words(beam["shear"]["max"])),
        ("Reaction, each end", " and ".join(dict.fromkeys(reactions))),
        ("Clear under it", quantity_words(clear["clear"])),
        ("Its own weight", quantity_words(beam["self_weight"]["total"])),
        (
            "Top edge held",
            str(held["bracing"]) if isinstance(held["bracing"], str) else quantity_words(held["bracing"]),
        ),
    ]
    if clear["asked"] is not None:
        word = "kept" if clear["passes"] else "not kept"
        facts.append(("Headroom asked for", f"{quantity_words(clear['asked'])}: {word}"))
    facts += [("Design values", f"as entered from {source}") for source in _sources(beam["member"], products)]
    facts += connection_facts(held)
    return {
        "mark": "B1",
        "title": beam["section"],
        "passes": beam["passes"],
        "svg": picture.svg,
        "rows": picture.rows,
        "facts": facts,
        "checks": checks_of(beam),
        "factors": beam["factors"],
        "remarks": beam["remarks"],
    }


def _sources(member: Row, products: Sequence[Row]) -> list[str]:
    """The paper that the values of a product in hand were read from."""
    same = (member["family"], member["grade"])
    return [product["source"] for product in products if (product["family"], product["name"]) == same]


def _load(each: Row, span: float) -> Load:
    """A load of the answer back in the engine's units."""
    if each["shape"] == "point":
        return Load.point(each["case"], value_in(each["value"], "lbf"), inches(each["at"]))
    first, last = value_in(each["value"], "lbf/ft") / 12, value_in(each["end_value"], "lbf/ft") / 12
    return Load(
        each["case"], each["shape"], first, inches(each["start"]), min(inches(each["end"]), span), last
    )


def _post(post: Row, bearing: Row | None, pad: Row | None, beam: Row) -> dict[str, Any]:
    result, member = post["result"], post["member"]
    page: dict[str, Any] = {
        "mark": post["mark"],
        "title": "not found",
        "passes": False,
        "checks": [],
        "remarks": [],
        "facts": [(case.replace("_", " "), quantity_words(value)) for case, value in post["loads"].items()],
        "steps": post["steps"],
    }
    if result is None:
        page["remarks"] = [f"{each['section']}: {each['why']}" for each in post["candidates"]]
        return page
    page |= {
        "title": result.get("section", "by its maker's paper"),
        "passes": result["passes"],
        "checks": checks_of(result),
        "remarks": result["remarks"],
    }
    if bearing is not None:
        page["checks"] = [*page["checks"], ("bearing of the beam on it", bearing["check"])]
    if member is not None:
        page["facts"].append(("Cut to", quantity_words(member["height"])))
        page["svg"] = post_detail(
            PostDrawing(
                code="us",
                mark=post["mark"],
                label=member["label"],
                height=inches(member["height"]),
                width=inches(member["width"]),
                plies=member["plies"],
                load=_demand(result),
                beam_depth=inches(beam["size"]["depth"]) if post["storey"] == "wall" else 9.25,
                beam_label=f"B1 {beam['section']}" if post["storey"] == "wall" else "floor framing, blocked",
                pad_side=inches(pad["result"]["side"]) if pad else 0.0,
                pad_thickness=inches(pad["result"]["thickness"]) if pad else 0.0,
                pad_mark=pad["mark"] if pad else "",
                foot="" if pad else "goes on below: see the load path",
                name=f"post-{post['mark'].lower()}",
            )
        )
    return page


def _demand(result: Row) -> float:
    """The largest force that a post was checked for [lbf]."""
    demands = [check["demand"] for check in result["checks"].values()]
    return max(value_in(each, "lbf") for each in demands if DIMENSION_OF.get(each["unit"]) == "force")


def _footing(footing: Row) -> dict[str, Any]:
    result = footing["result"]
    bars = result.get("bars")
    facts = [
        ("Side", quantity_words(result["side"])),
        ("Thickness", quantity_words(result["thickness"])),
        ("Concrete, no waste", quantity_words(result["volume"])),
        ("Pressure on the soil", quantity_words(result["pressure"])),
        ("Side the soil needs", quantity_words(result["required_side"])),
    ]
    if bars:
        ways = f"{bars['along_length']['count']} and {bars['along_width']['count']}"
        facts += [
            ("Bars, both ways", f"{ways} {bars['bar']}, {quantity_words(bars['length'])} long"),
            ("Cover of the bars", quantity_words(bars["cover"])),
            ("Bars weigh", quantity_words(bars["weight"])),
        ]
    facts += _part9(result.get("part9") or {})
    kind = "Concrete pad with bars" if bars else "Plain concrete pad"
    return {
        "mark": footing["mark"],
        "title": f"{kind}, {quantity_words(result['side'])} square",
        "passes": result["passes"],
        "facts": facts,
        "checks": checks_of(result),
        "remarks": result["remarks"],
        "steps": result["steps"],
    }


def _part9(held: Row) -> list[tuple[str, str]]:
    """What NBC Part 9 asks of the pad by itself, beside what was calculated."""
    facts = []
    if held.get("side"):
        facts.append(("Side by NBC Part 9", f"{quantity_words(held['side'])} square ({held['clause']})"))
    if held.get("thickness"):
        facts.append(("Least thickness by NBC Part 9", quantity_words(held["thickness"])))
    if held.get("warning"):
        facts.append(("Of the two", str(held["warning"])))
    return facts


def plan_picture(run: DesignRun) -> str:
    """The opening from above."""
    results = run.results
    beam = beam_of(results)
    if beam is None:
        return ""
    length = inches(results["beam"]["length"])
    opening = inches_of(run.inputs["section"], "opening")
    bearing = (length - opening) / 2
    places = {"left": bearing / 2, "right": length - bearing / 2}
    shoring = results["shoring"] or {}
    shores = []
    for n, (side, sign) in enumerate((("left", -1), ("right", 1)), start=1):
        held = shoring.get(side) or {}
        if held.get("needed"):
            shores.append((f"S{n}", sign * inches(held["stand_off"]), inches(held["length"])))
    posts = [
        (post["mark"], places[post["end"]], inches(post["member"]["width"]))
        for post in results["posts"]
        if post["storey"] == "wall" and post["member"]
    ]
    pads = [
        (each["mark"], places[each["end"]], inches(each["result"]["side"])) for each in results["footings"]
    ]
    points = [
        inches(load["at"]) + bearing / 2 for load in results["beam"]["loads"] if load["shape"] == "point"
    ]
    return plan_strip(
        PlanStrip(length, inches(beam["size"]["width"]), "B1", opening, posts, pads, shores, points)
    )


def shoring_pages(run: DesignRun) -> dict[str, Any]:
    """The shoring plan: walls with their checks, order of work, cut list, stop-work signs."""
    shoring = run.results.get("shoring")
    if not shoring or shoring.get("status") == "refused":
        return {"shoring": shoring}
    asked = run.inputs["case"]["given"]["shoring"]
    sizes = {part: lumber_size(asked[part]) for part in ("header", "shore", "sill")}
    section = run.inputs["section"]
    sides = {side: shoring[side] for side in SIDES if (shoring.get(side) or {}).get("needed")}
    members = [
        _side(f"S{n}", side, held, sizes, section) for n, (side, held) in enumerate(sides.items(), start=1)
    ]
    stands = {side: inches(held["stand_off"]) for side, held in sides.items()}
    cut = ShoringCut(
        code="us",
        height=inches_of(section, "ceiling_height", 97.0),
        joist_depth=inches_of(section, "joist_depth", 9.25),
        wall_thickness=inches_of(section, "wall_thickness", 4.5),
        left_stand_off=stands.get("left"),
        right_stand_off=stands.get("right"),
        reshore=bool(shoring.get("reshore")),
    )
    return {
        "shoring": shoring,
        "members": members,
        "cut_svg": shoring_cut(cut),
        "raising": shoring["raising"],
        "lowering": shoring["lowering"],
        "bracing": shoring["bracing"],
        "stop_work": shoring["stop_work"],
        "jacking": shoring["jacking"],
        "counted": shoring["loads"],
        "cut_list": [
            {"mark": member["mark"], **row, "length": quantity_words(row["length"])}
            for member, held in zip(members, sides.values(), strict=True)
            for row in held["cut_list"]
        ],
        "shoring_remarks": shoring["remarks"],
    }


def _side(mark: str, side: str, held: Row, sizes: Mapping[str, Row], section: Row) -> dict[str, Any]:
    picture = shoring_elevation(
        ShoringDrawing(
            code="us",
            side=side,
            opening=inches_of(section, "opening"),
            length=inches(held["length"]),
            height=inches_of(section, "ceiling_height", 97.0),
            shores=held["shores"],
            spacing=inches(held["spacing"]),
            header_depth=sizes["header"]["depth_in"],
            sill_depth=sizes["sill"]["ply_width_in"],
            shore_width=sizes["shore"]["ply_width_in"] * sizes["shore"]["plies"],
            header_label=sizes["header"]["label"],
            shore_label=sizes["shore"]["label"],
            sill_label=sizes["sill"]["label"],
            line=value_in(held["line"], "lbf/ft") / 12,
            name=f"shoring-{side}",
        )
    )
    facts = [
        ("On the header", quantity_words(held["line"])),
        *(
            (case.replace("_", " "), quantity_words(held["line"][case]))
            for case in held["line"]
            if case not in ("value", "unit")
        ),
        ("Off the wall", quantity_words(held["stand_off"])),
        ("Header", sizes["header"]["label"]),
        ("Shores", f"{held['shores']} of {sizes['shore']['label']} at {quantity_words(held['spacing'])}"),
        ("Cut shores to", quantity_words(held["shore_length"])),
        ("Sill", sizes["sill"]["label"]),
        ("On one shore", quantity_words(held["shore_load"])),
        ("Against falling over, hold", quantity_words(held["bracing"]["sideways"])),
        (
            "Shored again below",
            "yes, down to the ground" if held["reshore"] else "no: it stands on the ground",
        ),
    ]
    wider = [
        f"{quantity_words(each['spacing'])} apart was tried: {each['why']}" for each in held["wider_spacings"]
    ]
    return {
        "mark": mark,
        "title": f"{side} shoring wall",
        "passes": held["passes"],
        "svg": picture,
        "facts": facts,
        "checks": checks_of(held),
        "remarks": [*held["blocks"], *wider],
        "steps": held["steps"],
    }
