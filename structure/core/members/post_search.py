"""Every post that the yard can make for a load and a height, each with what it says about itself."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Any

from structure.core.clauses import Editions
from structure.core.errors import InputError, OutOfScope
from structure.core.materials import SawnSection
from structure.core.materials.ca_sawn import CaSawnSection
from structure.core.materials.ca_steel import CaSteelSection
from structure.core.materials.section import Section
from structure.core.materials.steel import SteelSection
from structure.core.members.post import PostQuestion, PostResult, check_post
from structure.core.members.post_fastening import COMMON_NAILS, LAST_PLY
from structure.core.units import place_in_words

PLIES = (1, 2, 3, 4, 5)


@dataclass(frozen=True, slots=True)
class Yard:
    """Dressed sizes of studs and of small solid timbers; common practice of what a yard keeps. In the code's unit."""

    studs: tuple[tuple[float, float], ...]
    solid: tuple[tuple[float, float], ...]
    lumber: Callable[..., Section]
    rolled: Callable[..., Section]
    longest_nail: float


YARDS: Mapping[str, Yard] = {
    "us": Yard(
        ((1.5, 3.5), (1.5, 5.5)),
        ((3.5, 3.5), (3.5, 5.5), (5.5, 5.5)),
        SawnSection,
        SteelSection,
        COMMON_NAILS[-1][1],
    ),
    "ca": Yard(
        ((38.0, 89.0), (38.0, 140.0)),
        ((89.0, 89.0), (89.0, 140.0), (140.0, 140.0)),
        CaSawnSection,
        CaSteelSection,
        152.0,
    ),
}
# Steel posts of a kind with the grade that they come in; common practice.
STEEL: Mapping[str, tuple[str, tuple[str, ...]]] = MappingProxyType(
    {
        "pipe": ("A53 Gr B", ("Pipe3STD", "Pipe3-1/2STD", "Pipe4STD", "Pipe5STD", "Pipe6STD")),
        "hss": (
            "A500 Gr C",
            (
                "HSS3x3x3/16",
                "HSS3x3x1/4",
                "HSS4x4x3/16",
                "HSS4x4x1/4",
                "HSS5x5x3/16",
                "HSS5x5x1/4",
                "HSS6x6x1/4",
            ),
        ),
    }
)


CA_STEEL: Mapping[str, tuple[str, tuple[str, ...]]] = MappingProxyType(
    {
        "pipe": ("A53 Gr B", ("Pipe80STD", "Pipe90STD", "Pipe100STD", "Pipe125STD", "Pipe150STD")),
        "hss": (
            "350W",
            (
                "HSS89x89x4.8",
                "HSS89x89x6.4",
                "HSS102x102x4.8",
                "HSS102x102x6.4",
                "HSS127x127x4.8",
                "HSS127x127x6.4",
                "HSS152x152x6.4",
            ),
        ),
    }
)


@dataclass(frozen=True, slots=True)
class PostCandidate:
    """One post tried: its result, or why it was refused; and in words why it fails or how close it is."""

    section: Section | None
    label: str
    result: PostResult | None
    why: str

    @property
    def passes(self) -> bool:
        return self.result is not None and self.result.passes

    @property
    def area(self) -> float:
        """Of all plies; what the candidates are ordered by."""
        return self.section.area if self.section is not None else float("inf")

    def as_data(self) -> dict[str, Any]:
        return {
            "section": self.label,
            "passes": self.passes,
            "ratio": self.result.ratio if self.result else None,
            "governing": self.result.governing.name if self.result else None,
            "why": self.why,
        }


@dataclass(frozen=True, slots=True)
class PostSearch:
    """All candidates from the lightest on; `chosen` is the first that passes."""

    candidates: tuple[PostCandidate, ...]

    @property
    def chosen(self) -> PostCandidate | None:
        return next((each for each in self.candidates if each.passes), None)


def search_posts(
    question: PostQuestion,
    editions: Editions,
    *,
    species: Sequence[str] = ("SPF",),
    grade: str = "No.2",
    solid: bool = True,
    deepest: float | None = None,
    least_width: float | None = None,
    steel: str | None = None,
) -> PostSearch:
    """Try one to five plies of 2x4 and 2x6, and the solid sizes, of the species on hand.

    `steel`, pipe or hss, tries those in the place of lumber; a cap plate makes up their width.
    `question.section` is not looked at. `deepest` is what the wall hides; `least_width` is the
    beam that must stand on the post. The lightest comes first; ties go to fewer plies.
    """
    lumber = _sections(species, grade, solid, question.fastening or "nailed", editions)
    found = [
        _tried(question, section, label, why, editions, deepest, least_width)
        for section, label, why in (lumber if steel is None else _steel(steel, editions.code))
    ]
    found.sort(key=lambda each: (each.area, each.section.plies if each.section else 0))
    return PostSearch(tuple(found))


def _steel(kind: str, code: str) -> Iterator[tuple[Section | None, str, str]]:
    grade, shapes = (STEEL if code == "us" else CA_STEEL)[kind]
    for shape in shapes:
        section = YARDS[code].rolled(shape=shape, grade=grade)
        yield section, section.label, ""


def _sections(
    species: Sequence[str], grade: str, solid: bool, fastening: str, editions: Editions
) -> Iterator[tuple[Section | None, str, str]]:
    yard = YARDS[editions.code]
    sizes = [(plies, *size) for size in yard.studs for plies in PLIES]
    if solid:
        sizes += [(1, *size) for size in yard.solid]
    for name in species:
        for plies, width, depth in sizes:
            try:
                # No common nail goes through five plies: those are bolted.
                reached = plies == 1 or (plies - 1 + LAST_PLY) * width <= yard.longest_nail
                held_by = fastening if reached else "bolted"
                section = yard.lumber(name, grade, plies, width, depth, fastening=held_by)
            except (InputError, OutOfScope) as error:
                size = f"{width:g} x {place_in_words(depth, editions.code)}"
                yield None, f"{plies}-ply {size} {name} {grade}", _told(error)
            else:
                yield section, section.label, ""


def _tried(
    question: PostQuestion,
    section: Section | None,
    label: str,
    why: str,
    editions: Editions,
    deepest: float | None,
    least_width: float | None,
) -> PostCandidate:
    if section is None:
        return PostCandidate(None, label, None, why)
    if deepest is not None and section.depth > deepest + 1e-9:
        deep, hidden = (place_in_words(each, editions.code) for each in (section.depth, deepest))
        return PostCandidate(section, label, None, f"{deep} deep; the wall hides {hidden}")
    capped = section.material == "steel"
    if least_width is not None and not capped and max(section.breadth, section.depth) < least_width - 1e-9:
        wide = place_in_words(least_width, editions.code)
        return PostCandidate(section, label, None, f"too narrow for a beam {wide} wide to stand on")
    try:
        result = check_post(
            replace(question, section=section, fastening=getattr(section, "fastening", None)), editions
        )
    except OutOfScope as refusal:
        return PostCandidate(section, label, None, f"refused by {refusal.clause}: {refusal.reason}")
    return PostCandidate(section, label, result, _words(result))


def _words(result: PostResult) -> str:
    """Why it fails, every failing check with its ratio; or which check is nearest to failing."""
    failing = [check for check in result.checks.values() if not check.passes]
    if not failing:
        check = result.governing
        how = f", {result.fastening.kind}" if result.fastening else ""
        return f"passes{how}: {_name(check.name)} at {check.ratio:.2f}"
    failing.sort(key=lambda check: -check.ratio)
    return "; ".join(
        f"{_name(check.name)} {check.ratio:.2f} ({check.combination}"
        + (f", {check.note})" if check.note and check.name == "buckling" else ")")
        for check in failing
    )


def _name(name: str) -> str:
    return name.replace("_", " ")


def _told(error: InputError | OutOfScope) -> str:
    if isinstance(error, OutOfScope):
        return f"refused by {error.clause}: {error.reason}"
    return str(error)


def chosen_data(search: PostSearch) -> Mapping[str, Any]:
    """The candidates as plain data, with the chosen post's whole result."""
    chosen = search.chosen
    return {
        "chosen": chosen.result.as_data() if chosen and chosen.result else None,
        "candidates": [each.as_data() for each in search.candidates],
    }
