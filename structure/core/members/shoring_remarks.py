"""What is said with a shoring plan: what was assumed, what is an engineer's item, what the crew must keep to."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Protocol

from structure.core.members.shoring_codes import SHORING
from structure.core.members.shoring_lines import TRANSIENT, ShoreLine, WallLine
from structure.core.members.shoring_parts import FRAMED, Floor
from structure.core.takedown import Level
from structure.core.units import in_words


class Asked(Protocol):
    """What of the question is told again."""

    @property
    def code(self) -> str: ...
    @property
    def assumed(self) -> tuple[str, ...]: ...
    @property
    def every_level(self) -> bool: ...
    @property
    def floors(self) -> tuple[Floor, ...]: ...


class Side(Protocol):
    """What of a side is told."""

    @property
    def reshore(self) -> bool: ...


def shoring_remarks(
    question: Asked,
    levels: Sequence[Level],
    wall: WallLine,
    lines: Mapping[str, ShoreLine | None],
    sides: Mapping[str, Side | None],
) -> tuple[str, ...]:
    """What the crew and the engineer must be told of a shoring plan."""
    code, held = question.code, SHORING[question.code]
    remarks = ["Preliminary: a shoring plan is checked by a named person before any stud is cut."]
    remarks += question.assumed
    floors = [level.name for level in levels if level.kind == "floor"]
    if len(floors) > 1:
        remarks.append(
            f"More than one floor is carried ({', '.join(floors)}): shoring under more than one floor is an "
            "engineer's item (common practice). These sizes are to talk over with the engineer, not to build from."
        )
    for name, line in lines.items():
        if line is None:
            remarks.append(f"No joists land on the wall from the {name}: no shoring there.")
        elif line.stand_off > held.near:
            remarks.append(
                f"The {name} shores stand more than {held.near_words} from the wall (common practice): a long "
                "overhang."
            )
    if question.every_level:
        remarks.append(
            "Every level is shored on the same two lines, shore over shore with solid blocking in the floors "
            "between; the lowest shores are checked, the ones above are built alike. One joist section stands for "
            "all levels."
        )
    if any(line is not None and line.support == "continuous" for line in lines.values()):
        remarks.append(
            "Joists run on over the wall: people and materials are put on the spans where they are worst for each "
            "shore, so the checks may take more than the line load with everything on at once."
        )
    if wall.total > 0:
        remarks.append(
            f"{', '.join(wall.sources)}: {in_words(wall.total, 'line_load', code)} on the joists' ends. Nobody knows "
            "which joists the plate rests on, so either side is taken to carry all of it. If the joists do not "
            "pass: needles (engineer), or pick the levels above up on shores of their own (every_level)."
        )
    if not any(case in line.loads for line in lines.values() if line for case in TRANSIENT):
        remarks.append(
            "No people and no materials are counted on the floor above: it stays closed until the shores are out."
        )
    if any("construction" in line.loads for line in lines.values() if line is not None):
        remarks.append(f"{held.construction_words}: nothing is stored on the floor above.")
    if any(side is not None and side.reshore for side in sides.values()):
        remarks.append(
            "Shore again on every level below, post under post with solid blocking between, down to the ground "
            "(common practice). The floor itself is not counted on, and it is empty: what stands on it is "
            "not in the shores below."
        )
        if any(floor.kind == FRAMED and floor.height is None for floor in question.floors):
            remarks.append(
                "The height of a storey that is shored again was not given: its shores are not checked."
            )
    remarks.append(
        "Joints in header plies fall on shores, one ply at a time; sills are one piece between joints."
    )
    remarks.append(
        "Sills stay clear of the footing holes: as far from a hole as it is deep (common practice)."
    )
    return tuple(remarks)
