"""How shoring walls go up, take load and come down: the crew's part of the plan, as data.

Everything here is common practice of the trade and says so; none of it has a published source.
"""

from __future__ import annotations

from typing import Any

from structure.core.clauses import COMMON_PRACTICE
from structure.core.members.shoring_codes import SHORING
from structure.core.units import quantity

BASIS = COMMON_PRACTICE.document

BRACING = (
    "A diagonal brace each way at either end of each shoring wall and every 8 ft between, header to floor.",
    "Shores are toenailed or strapped at head and foot, so that nothing can be kicked out.",
    "The header stands upright: blocks or a gusset at every shore keep it from rolling over.",
    "Plumb in both directions before any load; sill and header nailed to every shore.",
)
RAISING = (
    "Go through the whole path first: sill, floor, shores below, down to the ground. Shores below go in first.",
    "Services in the way of sill, braces and header located and moved; no soft finish between header and joists.",
    "Lay the sill across the floor joists on solid blocking, or flat on the slab, clear of the footing holes.",
    "Set the header, then the shores from the middle outwards, wedged or jacked until snug under every joist.",
    "Brace against falling over before the wall is touched.",
    "Take up load evenly, a little at a time along the whole wall; stop at the jacking limit.",
    "Mark joists and finishes above; check again the next morning, then have the shoring checked and recorded.",
    "Only then cut the first stud.",
)
LOWERING = (
    "Beam, posts, bearing, ply fastening, hangers and everything below down to the soil are in and recorded.",
    "Footing concrete has its days.",
    "Let the load down evenly, a little at a time along the whole wall, both sides in turn.",
    "Look at beam, posts and finishes after each turn; stop if anything moves that should not.",
    "Take the shores out from the ends to the middle, the levels below last, from the top down.",
)
STOP_WORK = (
    "A shore, header or joist cracks, crushes, bows, or a wedge works loose.",
    "A door above starts to bind, plaster cracks, or a joist end lifts off its far support.",
    "The floor under the sill sags or the slab cracks.",
    "Something stands above that the plan did not count: boards, a filled tub, people, snow out of season.",
    "The framing is not what the plan says: joists run or lap another way, or a load comes down on one place.",
    "A footing hole comes nearer to a sill than it is deep, or fills with water.",
)


def jacking(code: str) -> dict[str, Any]:
    """How far the floor above may be raised: snug and no more."""
    held = SHORING[code]
    return {
        "limit": quantity(held.jacking, "length", code),
        "note": f"Snug, to take the load over and not to lift the house: at most {held.jacking_words} of movement "
        "above. A floor that has sagged for decades is not jacked level on shores.",
        "basis": BASIS,
    }


def rules(lines: tuple[str, ...], code: str = "us") -> list[dict[str, str]]:
    """Numbered by their place, each with what it rests on."""
    told = lines if code == "us" else tuple(line.replace("8 ft", "2.4 m") for line in lines)
    return [{"text": line, "basis": BASIS} for line in told]
