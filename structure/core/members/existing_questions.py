"""What the engineer is asked about an existing footing under a new post."""

from __future__ import annotations

from typing import TYPE_CHECKING

from structure.core.trace import Check
from structure.core.units import in_words

if TYPE_CHECKING:
    from structure.core.members.existing_pad import ExistingQuestion

_FIRST = "Does the existing footing carry the new post as it is, or does it get a pad of its own?"
_BARS = "It is reckoned as plain concrete. Are there bars in it that should count?"


def questions(question: ExistingQuestion, checks: tuple[Check, ...], code: str) -> tuple[str, ...]:
    """The questions in the order in which somebody on site can settle them."""
    found = question.found
    asked = [_FIRST]
    failing = ", ".join(check.name for check in checks if not check.passes)
    if failing:
        asked.append(f"It does not pass: {failing}. Widen it, underpin it, or pour a new pad beside it?")
    if not found.measured:
        asked.append("Its sizes are assumed and not measured. Who opens it up, and where?")
    if not question.tested:
        strength = in_words(question.f_c, "stress", code)
        asked.append(f"The strength of {strength} is assumed. Is a core or a rebound test wanted?")
    if not question.points and not question.line:
        asked.append("What it carries already was not given and counts as nothing. What stands on it?")
    if question.soil_from is None:
        asked.append("Where does the soil value come from: presumed, or from an investigation?")
    if found.kind != "pad":
        asked.append(
            "The load is spread at 45 degrees. Is the concrete sound, without joint, crack, step or opening "
            "along that length?"
        )
    if found.kind != "pad" and found.to_end is None:
        asked.append("No end of the strip was given. Does it run on past that length both ways?")
    if found.kind == "thickened_slab":
        asked.append("Was the thickening seen, and does it stand on undisturbed soil?")
    asked.append(_BARS)
    return tuple(asked)
