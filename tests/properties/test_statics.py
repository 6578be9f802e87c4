"""What every beam obeys, on random beams: balance, mirror, sums, and no sampled value beyond the extremes."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structure.core.statics import BeamLine, Load, Response, analyse
from structure.core.statics.envelope import analyse_cases


def _places(length: float) -> st.SearchStrategy[float]:
    return st.floats(min_value=0.0, max_value=1.0).map(lambda share: share * length)


@st.composite
def beams(draw: st.DrawFn, spans: int = 6) -> BeamLine:
    held = draw(st.lists(st.floats(min_value=20.0, max_value=300.0), min_size=1, max_size=spans))
    ends = st.one_of(st.just(0.0), st.floats(min_value=5.0, max_value=100.0))
    return BeamLine(tuple(held), draw(ends), draw(ends))


@st.composite
def loads_on(draw: st.DrawFn, line: BeamLine) -> list[Load]:
    loads = []
    for _ in range(draw(st.integers(min_value=1, max_value=5))):
        case = draw(st.sampled_from(["dead", "live", "snow"]))
        size = st.floats(min_value=-50.0, max_value=200.0)
        kind = draw(st.sampled_from(["uniform", "trapezoid", "point"]))
        at = draw(_places(line.length))
        if kind == "point":
            loads.append(Load.point(case, draw(size) * 50, at))
            continue
        other = draw(_places(line.length))
        start, end = sorted((at, other))
        if end - start < 0.1:
            start, end = 0.0, line.length
        first = draw(size)
        last = draw(size) if kind == "trapezoid" else first
        loads.append(Load.trapezoid(case, first, last, start, end))
    return loads


@st.composite
def loaded_beams(draw: st.DrawFn, spans: int = 6) -> tuple[BeamLine, list[Load]]:
    line = draw(beams(spans))
    return line, draw(loads_on(line))


def _scale(loads: list[Load], line: BeamLine) -> float:
    return max(1.0, sum(abs(x.value) + abs(x.end_value) for x in loads) * line.length)


def _arm(load: Load) -> float:
    if load.shape == "point":
        return load.value * load.start
    a, b, p, q = load.start, load.end, load.value, load.end_value
    return load.total * a + (b - a) ** 2 * (p + 2 * q) / 6


@given(loaded_beams())
def test_forces_and_moments_balance(beam: tuple[BeamLine, list[Load]]) -> None:
    line, loads = beam
    reactions = analyse(line, loads).reactions
    scale = _scale(loads, line)
    assert abs(reactions.sum() - sum(load.total for load in loads)) <= 1e-9 * scale
    turned = float((reactions * np.array(line.supports)).sum())
    assert abs(turned - sum(_arm(load) for load in loads)) <= 1e-9 * scale * line.length


@given(loaded_beams())
def test_the_beam_does_not_move_at_its_supports_and_is_smooth(beam: tuple[BeamLine, list[Load]]) -> None:
    line, loads = beam
    response = analyse(line, loads)
    scale = _scale(loads, line) * line.length**3
    for place in line.supports:
        assert abs(float(response.deflection(place))) <= 1e-9 * scale
    gap = 1e-7 * line.length
    for place in response.breaks[1:-1]:
        assert abs(float(response.moment(place - gap) - response.moment(place + gap))) <= 1e-5 * scale
        before, after = response.slope(place - gap), response.slope(place + gap)
        assert abs(float(before - after)) <= 1e-5 * scale


@given(loaded_beams())
def test_a_beam_seen_from_the_other_side_is_the_same_beam(beam: tuple[BeamLine, list[Load]]) -> None:
    line, loads = beam
    L = line.length
    mirrored = BeamLine(line.spans[::-1], line.overhang_right, line.overhang_left)
    turned = [Load(x.case, x.shape, x.end_value, L - x.end, L - x.start, x.value) for x in loads]
    one, other = analyse(line, loads), analyse(mirrored, turned)
    scale = _scale(loads, line)
    assert np.allclose(one.reactions, other.reactions[::-1], rtol=0, atol=1e-9 * scale)
    for left, right, power in (
        (one.moment_extremes(), other.moment_extremes(), 1),
        (one.deflection_extremes(), other.deflection_extremes(), 3),
    ):
        room = 1e-9 * scale * L**power
        assert abs(left.max - right.max) <= room
        assert abs(left.min - right.min) <= room
    shear, back = one.shear_extremes(), other.shear_extremes()
    assert abs(shear.max + back.min) <= 1e-9 * scale


@given(loaded_beams(), st.floats(min_value=-3.0, max_value=3.0))
def test_loads_add_and_scale(beam: tuple[BeamLine, list[Load]], factor: float) -> None:
    line, loads = beam
    together = analyse(line, [*loads, Load.uniform("dead", 7.0, 0.0, line.length)])
    apart = analyse(line, loads) + analyse(line, [Load.uniform("dead", 7.0, 0.0, line.length)])
    scale = _scale(loads, line)
    assert np.allclose(together.reactions, apart.reactions, rtol=0, atol=1e-9 * scale)
    for share in (0.1, 0.37, 0.5, 0.83):
        x = share * line.length
        assert abs(float(together.moment(x) - apart.moment(x))) <= 1e-9 * scale * line.length
        assert abs(float(together.deflection(x) - apart.deflection(x))) <= 1e-9 * scale * line.length**3
    scaled = analyse(line, loads) * factor
    directly = analyse(
        line, [Load(x.case, x.shape, x.value * factor, x.start, x.end, x.end_value * factor) for x in loads]
    )
    assert np.allclose(scaled.reactions, directly.reactions, rtol=0, atol=1e-9 * scale * 3)


def test_an_extreme_at_a_support_names_the_support_to_the_last_bit() -> None:
    """A place one rounding beside the support would lie on its other side, where the shear is another."""
    line = BeamLine(spans=(162.91865458003136, 20.79099369684998))
    loads = [
        Load("dead", "trapezoid", 0.0, 0.0, 0.1875 * line.length, 0.0),
        Load("dead", "trapezoid", 1.0, 0.0, line.length, 1.0),
    ]
    extremes = analyse(line, loads).shear_extremes()
    assert float(extremes.at_min) == float(extremes.at_max) == line.supports[1]


def test_a_turn_of_the_shear_at_the_end_of_a_piece_is_at_the_support_too() -> None:
    line = BeamLine(spans=(72.43499004613479, 20.0, 20.0, 20.0, 132.0, 63.26887436403232))
    response = analyse(line, [Load("dead", "trapezoid", 1.0, 0.0, 0.5 * line.length, 0.0)])
    extremes = response.shear_extremes()
    for place, value in ((extremes.at_min, extremes.min), (extremes.at_max, extremes.max)):
        sides = [float(response.shear(float(place), side=side)) for side in ("left", "right")]
        assert min(abs(side - float(value)) for side in sides) < 1e-9


@settings(max_examples=200)
@given(loaded_beams())
def test_no_sampled_value_lies_beyond_an_extreme(beam: tuple[BeamLine, list[Load]]) -> None:
    line, loads = beam
    response = analyse(line, loads)
    scale = _scale(loads, line)
    samples = [line.length * n / 400 for n in range(401)]
    for extremes, at, power in (
        (response.shear_extremes(), response.shear, 0),
        (response.moment_extremes(), response.moment, 1),
        (response.deflection_extremes(), response.deflection, 3),
    ):
        values = [float(at(x)) for x in samples]
        room = 1e-12 * scale * line.length**power
        assert max(values) <= float(extremes.max) + room
        assert min(values) >= float(extremes.min) - room
        # And the extreme is a value of the beam itself, at the place it names.
        for value, place in ((extremes.max, extremes.at_max), (extremes.min, extremes.at_min)):
            both = [float(at(float(place)))]
            if power == 0:
                both.append(float(response.shear(float(place), side="left")))
            assert min(abs(v - float(value)) for v in both) <= 1e-9 * scale * line.length**power


@given(loaded_beams())
def test_each_bay_is_a_part_of_the_whole(beam: tuple[BeamLine, list[Load]]) -> None:
    line, loads = beam
    response = analyse(line, loads)
    whole = response.deflection_extremes()
    bays = response.deflection_by_bay()
    room = 1e-9 * _scale(loads, line) * line.length**3
    assert abs(max(float(b.max) for b in bays) - float(whole.max)) <= room
    assert abs(min(float(b.min) for b in bays) - float(whole.min)) <= room


@settings(max_examples=40)
@given(loaded_beams(3))
def test_the_pattern_envelope_holds_every_single_pattern(beam: tuple[BeamLine, list[Load]]) -> None:
    line, loads = beam
    analysis = analyse_cases(line, loads, pattern=True)
    envelope = analysis.envelope([dict.fromkeys(analysis.cases, 1.0)], empty_patterns=True)
    everywhere = analyse(line, loads)
    scale = _scale(loads, line)
    assert float(envelope.moment.max.max()) >= float(everywhere.moment_extremes().max) - 1e-9 * scale
    assert float(envelope.moment.min.min()) <= float(everywhere.moment_extremes().min) + 1e-9 * scale
    assert np.all(envelope.reactions_max >= everywhere.reactions - 1e-9 * scale)
    assert np.all(envelope.reactions_min <= everywhere.reactions + 1e-9 * scale)


@settings(max_examples=40)
@given(st.floats(min_value=60.0, max_value=300.0), st.floats(min_value=1.0, max_value=200.0), st.data())
def test_more_load_never_bends_a_simple_beam_less(span: float, w: float, data: st.DataObject) -> None:
    at = data.draw(_places(span))
    line = BeamLine((span,))
    one: Response = analyse(line, [Load.uniform("dead", w, 0, span)])
    more = analyse(line, [Load.uniform("dead", w, 0, span), Load.point("live", 100.0, at)])
    assert float(more.moment_extremes().max) >= float(one.moment_extremes().max)
    assert float(more.deflection_extremes().max) >= float(one.deflection_extremes().max)


def test_a_beam_symmetric_in_itself_answers_symmetrically() -> None:
    line = BeamLine((100.0, 140.0, 100.0), 20.0, 20.0)
    response = analyse(line, [Load.uniform("dead", 10.0, 0.0, line.length)])
    assert np.allclose(response.reactions, response.reactions[::-1], rtol=1e-13)
    assert float(response.slope(line.length / 2)) == pytest.approx(0.0, abs=1e-6)
