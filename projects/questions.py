"""Questions asked beside the evidence: duties that can block a decision, services in the way, hazards.

Pure data.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True)
class Question:
    """A question of its own. `yes` says what an answer of yes means."""

    name: str
    title: str
    group: Literal["duty", "services", "hazards"]
    yes: str
    help: str = ""


#: Each can keep a wall from being recorded as not bearing: unanswered, unknown or yes.
DUTY_QUESTIONS: tuple[Question, ...] = (
    Question(
        "bracing",
        "Does the wall brace the house?",
        "duty",
        "The wall braces the house: an engineer decides.",
        "Sheathed, strapped or let-in braced walls, and long walls in line with few others, often do.",
    ),
    Question(
        "rafter_tie",
        "Do ceiling joists lapped over the wall tie the rafters?",
        "duty",
        "Ceiling joists over the wall tie the rafters: the tie has to be made good, and an engineer decides "
        "(IRC R802.5.2, NBC 9.23.14).",
    ),
    Question(
        "fire_or_party",
        "Is it a fire-rated or party wall?",
        "duty",
        "It is a fire-rated or party wall: the authority and an engineer decide.",
    ),
    Question("masonry", "Is the wall of masonry?", "duty", "It is a masonry wall: an engineer decides."),
    Question(
        "balloon_framed",
        "Is the house balloon-framed at this wall?",
        "duty",
        "The house is balloon-framed here: an engineer decides.",
        "Studs that run past the floor without a plate at floor level.",
    ),
    Question(
        "cut_trusses",
        "Does the wall stand under cut or altered trusses?",
        "duty",
        "It stands under cut or altered trusses: an engineer decides.",
    ),
    Question(
        "exterior",
        "Is it an outside wall?",
        "duty",
        "It is an outside wall: it is taken as bearing.",
        "Common practice: an outside wall is always taken as bearing.",
    ),
)

SERVICE_QUESTIONS: tuple[Question, ...] = (
    Question(
        "electrical",
        "Are there electrical cables or boxes in the wall?",
        "services",
        "Electrical runs in the wall.",
    ),
    Question(
        "plumbing",
        "Are there water pipes, drains or vents in the wall?",
        "services",
        "Plumbing runs in the wall.",
    ),
    Question("gas", "Is there a gas line in the wall?", "services", "A gas line runs in the wall."),
    Question("ducts", "Are there ducts or returns in the wall?", "services", "Ducts run in the wall."),
    Question(
        "under_slab",
        "Are there drains, heating pipes or cables under the floor where a footing may go?",
        "services",
        "Services run under the floor where a footing may go: they are located before anything is cut or dug.",
    ),
)

HAZARD_QUESTIONS: tuple[Question, ...] = (
    Question(
        "asbestos",
        "Is there asbestos in what will be opened or taken out?",
        "hazards",
        "Asbestos is present.",
    ),
    Question(
        "lead",
        "Is there lead paint on what will be opened or taken out?",
        "hazards",
        "Lead paint is present.",
    ),
    Question(
        "mould",
        "Is there mould or animal waste in what will be opened?",
        "hazards",
        "Mould or animal waste is present.",
    ),
)

QUESTIONS: tuple[Question, ...] = (*DUTY_QUESTIONS, *SERVICE_QUESTIONS, *HAZARD_QUESTIONS)
QUESTION_BY_NAME: dict[str, Question] = {question.name: question for question in QUESTIONS}

ANSWERS: dict[str, str] = {"yes": "Yes", "no": "No", "unknown": "Not known yet"}
