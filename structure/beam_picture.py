"""The beam diagram from the exact response of the engine: worst combination of each, labels from the extremes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from structure.core.codes.ca import combinations as canadian
from structure.core.codes.combination import Combination
from structure.core.codes.us.combinations import asd, service_live
from structure.core.statics.envelope import Envelope, analyse_cases
from structure.core.statics.model import BeamLine, Load
from structure.diagrams import words
from structure.diagrams.beam import BeamDrawing, BeamLoad, Curve, Extreme, beam_diagram
from structure.diagrams.svg import Point

PIECES = 40  # chords drawn over the whole beam, at least four a segment; labels never come from them
CREEP = 1.5  # NDS 3.5.2, dry: the dead part of a long deflection counts once and a half


@dataclass(frozen=True, slots=True)
class BeamPicture:
    """The drawing and the same facts as rows of a table."""

    svg: str
    rows: tuple[tuple[str, str, str, str], ...]


def beam_picture(
    line: BeamLine,
    loads: Sequence[Load],
    *,
    EI: float | None,
    code: str = "us",
    label: str,
    reactions: Sequence[str],
    name: str = "beam",
    pattern: bool = False,
) -> BeamPicture:
    """Shear, moment and (with EI in lbf*in**2) deflection, each under its worst combination of the code.

    Loads and lengths are in lbf and inches under either code.
    """
    present = list(dict.fromkeys(load.case for load in loads if load.total))
    combinations = asd(present) if code == "us" else canadian.ultimate(present)
    analysis = analyse_cases(line, loads, pattern=pattern)
    names = [each.name for each in combinations]
    strength = analysis.envelope([each.factors for each in combinations])
    curves: list[Curve] = []
    rows: list[tuple[str, str, str, str]] = []
    for kind, title, say in (("shear", "Shear", words.force), ("moment", "Moment", words.moment)):
        curves.append(_curve(kind, title, strength, names, say, 1.0, rows))
    if EI:
        sets, titles = _service(present, code)
        service = analysis.envelope(sets)
        curves.append(_curve("deflection", "Deflection", service, titles, words.small_length, 1 / EI, rows))
    drawing = BeamDrawing(
        code="us",
        length=line.length,
        supports=line.supports,
        loads=[
            BeamLoad(ld.case, ld.shape, ld.value, ld.start, ld.end, ld.end_value) for ld in loads if ld.total
        ],
        reactions=reactions,
        curves=curves,
        label=label,
        name=name,
    )
    return BeamPicture(beam_diagram(drawing), tuple(rows))


def _service(present: Sequence[str], code: str) -> tuple[list[dict[str, float]], list[str]]:
    """Factors of what bends a beam in use, and how each is written; under the us code with creep of the dead part."""
    if code == "ca":
        sums: Sequence[Combination] = canadian.service(present)
        return [dict(each.factors) for each in sums], [each.name for each in sums]
    live = service_live(present) or ()
    sets = [{**each.factors, "dead": CREEP} for each in live] or [{"dead": CREEP}]
    return sets, [f"{CREEP:g}D+{each.name}" for each in live] or [f"{CREEP:g}D"]


def _curve(
    kind: str,
    title: str,
    envelope: Envelope,
    names: Sequence[str],
    say: Any,
    factor: float,
    rows: list[tuple[str, str, str, str]],
) -> Curve:
    found = getattr(envelope, kind)
    row = int(abs(found.largest).argmax())
    response = envelope.response[row]
    name = names[envelope.rows[row].combination]
    held = getattr(response, f"{kind}_extremes")()
    pairs = [(float(held.at_max), float(held.max) * factor), (float(held.at_min), float(held.min) * factor)]
    reach = max(abs(value) for _, value in pairs)
    kept = [(at, value) for at, value in pairs if abs(value) > 1e-6 * reach]
    extremes = [Extreme(at, value, say(value, "us")) for at, value in sorted(dict.fromkeys(kept))]
    rows += [(title, name, each.words, words.length(each.at, "us")) for each in extremes]
    return Curve(kind, f"{title} ({name})", _points(response, kind, factor), extremes)


def _points(response: Any, kind: str, factor: float) -> list[Point]:
    points: list[Point] = []
    edges = [float(b) for b in response.breaks]
    for start, end in pairwise(edges):
        pieces = max(4, round(PIECES * (end - start) / edges[-1]))
        for i in range(pieces + 1):
            x = start + (end - start) * i / pieces
            if kind == "shear":
                value = response.shear(x, side="left" if i == pieces else "right")
            else:
                value = getattr(response, kind)(x)
            points.append((x, float(value) * factor))
    return points
