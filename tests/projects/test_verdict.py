"""The verdict: a wall is treated as bearing until every piece of positive evidence is there."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from projects.evidence import HOWS, KINDS, Evidence, levels_above
from projects.questions import DUTY_QUESTIONS
from projects.verdict import (
    BEARING,
    NOTHING,
    RANK,
    TREAT,
    digest,
    not_bearing_blocks,
    verdict,
)
from tests.projects.walls import clearing, seen

EVERY_NO = {question.name: "no" for question in DUTY_QUESTIONS}


def outcome(evidence, floors_above=0):
    return verdict(evidence, levels_above(floors_above)).outcome


# --- the default ------------------------------------------------------------------------------------


@pytest.mark.parametrize("floors_above", [0, 1, 2, 3])
def test_nothing_looked_at_is_treated_as_bearing(floors_above):
    found = verdict([], levels_above(floors_above))
    assert found.outcome == TREAT
    assert "Nothing has been looked at yet" in found.reasons[0]
    assert found.next_look.name == "basement"


@pytest.mark.parametrize("floors_above", [0, 1, 2, 3])
def test_every_piece_together_finds_nothing(floors_above):
    found = verdict(clearing(floors_above), levels_above(floors_above))
    assert found.outcome == NOTHING
    assert found.gaps == found.conflicts == found.next_looks == ()
    assert "not a permission" in found.reasons[-1]


@pytest.mark.parametrize("floors_above", [0, 1, 2])
def test_each_piece_missing_flips_it_back(floors_above):
    pieces = clearing(floors_above)
    for index in range(len(pieces)):
        left = pieces[:index] + pieces[index + 1 :]
        found = verdict(left, levels_above(floors_above))
        assert found.outcome == TREAT, pieces[index]
        assert len(found.gaps) == 1, pieces[index]
        assert found.next_look is not None


@pytest.mark.parametrize(
    "worse",
    [
        {"how": "inferred"},
        {"how": "instrument"},
        {"how": "drawing"},
        {"full_length": False},
    ],
    ids=str,
)
@pytest.mark.parametrize("floors_above", [0, 1])
def test_each_piece_obtained_less_well_flips_it_back(worse, floors_above):
    pieces = clearing(floors_above)
    for index, piece in enumerate(pieces):
        weaker = [*pieces[:index], replace(piece, **worse), *pieces[index + 1 :]]
        assert outcome(weaker, floors_above) == TREAT, piece


def test_a_drawing_confirmed_on_site_is_as_good_as_sight():
    drawn = [replace(piece, how="drawing", confirmed_on_site=True) for piece in clearing(1)]
    assert outcome(drawn, 1) == NOTHING


def test_a_level_without_evidence_keeps_it_bearing():
    assert outcome(clearing(0), 1) == TREAT
    assert outcome(clearing(1), 2) == TREAT


# --- ways to clear the framing and the support below ---------------------------------------------------


def swapped(kind, *instead, level=None, floors_above=0):
    rest = [e for e in clearing(floors_above) if not (e.kind == kind and level in (None, e.level))]
    return [*rest, *instead]


def test_clear_span_trusses_clear_ceiling_and_roof_at_once():
    roof = seen("roof_framing", "clear_span_trusses", "roof")
    rest = [e for e in clearing() if e.kind not in ("roof_framing", "joist_direction")]
    assert outcome([*rest, roof]) == NOTHING
    assert outcome(rest) == TREAT


def test_rafters_alone_do_not_clear_the_ceiling():
    assert outcome([e for e in clearing() if e.kind != "joist_direction"]) == TREAT


def test_framing_that_crosses_clears_only_unbroken():
    clear = seen("joist_direction", "clear_span", "above_1")
    crossing = swapped("joist_direction", clear, level="above_1", floors_above=1)
    assert outcome(crossing, 1) == TREAT
    assert outcome([*crossing, seen("splice", "none", "above_1")], 1) == NOTHING
    assert outcome([*crossing, seen("splice", "none", "roof")], 1) == TREAT
    assert outcome([*crossing, seen("splice", "lap", "above_1")], 1) == TREAT


def test_an_unbroken_joist_across_the_wall_clears_nothing():
    across = swapped("joist_direction", seen("joist_direction", "across", "roof"))
    assert outcome([*across, seen("splice", "none", "roof")]) == TREAT


def test_a_support_below_has_to_be_explained_in_words():
    said = seen("support_below", "explained", "below", note="A post under the stair, clear of the wall line.")
    assert outcome(swapped("support_below", said)) == NOTHING
    assert outcome(swapped("support_below", replace(said, note=" "))) == TREAT


def test_on_a_slab_the_slab_must_not_be_thickened():
    slab = swapped("support_below", seen("support_below", "on_slab", "below"))
    assert outcome(slab) == TREAT
    assert (
        outcome([*slab, seen("foundation", "none", "below", how="drawing", confirmed_on_site=True)])
        == NOTHING
    )
    assert outcome([*slab, seen("foundation", "none", "below", how="inferred")]) == TREAT
    assert outcome([*slab, seen("foundation", "thickened", "below")]) == TREAT
    # Looking from a basement that is not there settles nothing.
    assert verdict(slab).next_look.name == "plans"


# --- what shows a load -------------------------------------------------------------------------------

BEARS = [
    (kind.name, o.name, level)
    for kind in KINDS
    for o in kind.observations
    if o.role == "bears"
    for level in kind.levels
    if level in ("above_1", "roof")
]
SUGGESTS = [
    (kind.name, o.name, kind.levels[0]) for kind in KINDS for o in kind.observations if o.role == "suggests"
]


@pytest.mark.parametrize(("kind", "observation", "level"), BEARS)
def test_a_load_that_was_seen_is_bearing(kind, observation, level):
    found = verdict([seen(kind, observation, level, full_length=False)], levels_above(1))
    assert found.outcome == BEARING
    assert found.reasons
    inferred = seen(kind, observation, level, how="inferred")
    assert outcome([inferred], 1) == TREAT
    assert outcome([replace(inferred, how="drawing")], 1) == TREAT
    assert outcome([replace(inferred, how="drawing", confirmed_on_site=True)], 1) == BEARING
    assert outcome([replace(inferred, how="instrument")], 1) == BEARING


@pytest.mark.parametrize(("kind", "observation", "level"), SUGGESTS)
@pytest.mark.parametrize("how", list(HOWS))
def test_what_suggests_bearing_keeps_a_cleared_wall_bearing(kind, observation, level, how):
    hint = seen(kind, observation, level, how=how, full_length=False)
    assert outcome([*clearing(1), hint], 1) == TREAT
    assert outcome([hint], 1) == TREAT


def test_joists_across_over_a_support_below_are_bearing():
    across, beam = seen("joist_direction", "across", "above_1"), seen("support_below", "posts", "below")
    assert outcome([across, beam], 1) == BEARING
    assert outcome([across], 1) == TREAT
    assert outcome([beam], 1) == TREAT
    assert outcome([replace(across, how="inferred"), beam], 1) == TREAT


def test_a_wall_along_the_joists_may_still_carry():
    stacked = [e for e in clearing(1) if (e.kind, e.level) != ("stacked", "above_1")]
    found = verdict([*stacked, seen("stacked", "wall", "above_1")], levels_above(1))
    assert found.outcome == BEARING
    assert found.conflicts == ()
    assert any("along the joists may still carry" in caution for caution in found.cautions)


# --- inference, offset, conflicts ---------------------------------------------------------------------


def test_inference_alone_never_clears():
    guessed = [replace(piece, how="inferred") for piece in clearing()]
    found = verdict([*guessed, seen("short_span", "along", "this")])
    assert found.outcome == TREAT
    assert any("never clears a wall" in caution for caution in found.cautions)


def test_an_offset_is_never_evidence_of_not_bearing():
    off = seen("offset", "off_line", "below")
    pieces = [e for e in clearing() if e.kind != "support_below"]
    assert outcome([*pieces, off]) == TREAT
    found = verdict([*clearing(), off])
    assert found.outcome == TREAT, (
        "an offset is measured from a support that another finding says is not there"
    )
    assert found.conflicts
    assert any("defect to report" in caution for caution in found.cautions)
    assert outcome([seen("splice", "lap", "roof"), off]) == BEARING


def test_conflicts_are_listed_and_never_averaged():
    along, lap = seen("joist_direction", "parallel", "roof", ref="1"), seen("splice", "lap", "roof", ref="2")
    found = verdict([*clearing()[:-3], along, lap])
    assert found.outcome == TREAT
    assert [conflict.refs for conflict in found.conflicts] == [("1", "2")]
    assert any("contradict each other" in reason for reason in found.reasons)
    assert found.next_looks[0].name in ("basement", "attic")
    many = [replace(along, note=str(n), ref=f"n{n}") for n in range(20)]
    assert outcome([*many, lap]) == TREAT, "twenty against one is still a conflict"


def test_two_parts_of_a_wall_may_differ_without_conflict():
    along = seen("joist_direction", "parallel", "roof", full_length=False)
    lap = seen("splice", "lap", "roof", full_length=False)
    found = verdict([along, lap])
    assert found.conflicts == ()
    assert found.outcome == BEARING


def test_a_guess_does_not_contest_what_was_seen():
    lap = seen("splice", "lap", "roof")
    guess = seen("joist_direction", "parallel", "roof", how="inferred")
    found = verdict([lap, guess])
    assert found.outcome == BEARING
    assert len(found.conflicts) == 1


def test_a_support_below_framing_that_passes_by_is_a_conflict():
    beam = seen("support_below", "beam", "below")
    found = verdict([e for e in clearing() if e.kind != "support_below"] + [beam])
    assert found.outcome == TREAT
    assert "not understood" in found.conflicts[0].sentence


# --- where to look ----------------------------------------------------------------------------------


def test_the_cheapest_look_that_settles_something():
    def first_without(kind, level):
        left = [e for e in clearing(1) if (e.kind, e.level) != (kind, level)]
        return verdict(left, levels_above(1)).next_look

    assert first_without("support_below", "below").name == "basement"
    assert first_without("stacked", "roof").name == "attic"
    assert first_without("joist_direction", "above_1").name == "plans"
    no_plans = [e for e in clearing(1) if (e.kind, e.level) != ("joist_direction", "above_1")]
    no_plans.append(seen("plans", "not_found", "this"))
    hole = verdict(no_plans, levels_above(1)).next_look
    assert hole.name == "hole"
    assert "asbestos and lead" in hole.caution


def test_a_look_that_showed_nothing_is_not_offered_again():
    left = [e for e in clearing() if e.kind != "support_below"]
    assert verdict(left).next_look.name == "basement"
    tried = [*left, seen("support_below", "unseen", "below")]
    assert verdict(tried).next_look.name == "plans"


# --- properties ---------------------------------------------------------------------------------------

CHOICES = [(k.name, o.name, level) for k in KINDS for o in k.observations for level in k.levels]


@st.composite
def evidence(draw):
    kind, observation, level = draw(st.sampled_from(CHOICES))
    how = draw(st.sampled_from(sorted(HOWS)))
    return Evidence(
        kind,
        observation,
        how,
        level,
        full_length=draw(st.booleans()),
        confirmed_on_site=how == "drawing" and draw(st.booleans()),
        note=draw(st.sampled_from(["", "stair post"])),
    )


#: Around a cleared wall, where one finding more or less decides, and anywhere.
findings = st.one_of(
    st.lists(evidence(), max_size=8),
    st.builds(
        lambda dropped, more: [e for i, e in enumerate(clearing(1)) if i not in dropped] + more,
        st.sets(st.integers(0, 7), max_size=2),
        st.lists(evidence(), max_size=3),
    ),
)
floors = st.integers(0, 3)


@given(findings, evidence().filter(lambda e: e.adverse), floors)
def test_more_evidence_of_bearing_never_moves_towards_cleared(found, more, floors_above):
    assert RANK[outcome([*found, more], floors_above)] >= RANK[outcome(found, floors_above)]


@given(findings, floors, st.randoms())
def test_the_order_makes_no_difference(found, floors_above, random):
    shuffled = list(found)
    random.shuffle(shuffled)
    assert verdict(shuffled, levels_above(floors_above)) == verdict(found, levels_above(floors_above))


@given(findings, floors, st.data())
def test_dropping_what_clears_never_clears(found, floors_above, data):
    helping = [i for i, e in enumerate(found) if not e.adverse]
    if not helping:
        return
    index = data.draw(st.sampled_from(helping))
    if found.count(found[index]) > 1 or outcome(found, floors_above) == NOTHING:
        return
    left = found[:index] + found[index + 1 :]
    if outcome(left, floors_above) == NOTHING:
        # Only the end of a contradiction may do that, and then everything needed was there all along.
        assert verdict(found, levels_above(floors_above)).conflicts
        assert not verdict(found, levels_above(floors_above)).gaps


@given(findings, floors)
def test_cleared_means_that_nothing_at_all_points_the_other_way(found, floors_above):
    answer = verdict(found, levels_above(floors_above))
    assert answer.reasons
    if answer.outcome == NOTHING:
        assert not any(e.adverse for e in found)
        assert not answer.conflicts
        assert not answer.gaps
    assert verdict([e for e in found if not e.can_clear], levels_above(floors_above)).outcome != NOTHING


@given(findings, floors)
def test_a_taller_house_is_never_easier_to_clear(found, floors_above):
    if floors_above and outcome(found, floors_above) == NOTHING:
        assert outcome(found, floors_above - 1) == NOTHING


# --- the person's decision ----------------------------------------------------------------------------


def test_only_nothing_found_lets_not_bearing_be_recorded():
    cleared = verdict(clearing())
    assert not_bearing_blocks(cleared, EVERY_NO) == ()
    assert "treat as bearing" in not_bearing_blocks(verdict([]), EVERY_NO)[0]
    assert "'bearing'" in not_bearing_blocks(verdict([seen("splice", "lap", "roof")]), EVERY_NO)[0]


@pytest.mark.parametrize("question", [question.name for question in DUTY_QUESTIONS])
@pytest.mark.parametrize("answer", ["yes", "unknown", ""])
def test_every_duty_question_can_block(question, answer):
    blocks = not_bearing_blocks(verdict(clearing()), EVERY_NO | {question: answer})
    assert len(blocks) == 1


def test_words_that_are_no_evidence_are_refused():
    with pytest.raises(ValueError, match="accepted is one of"):
        Evidence("smell", "oak", "direct", "roof")
    with pytest.raises(ValueError, match="observation: read 'lap'"):
        Evidence("stacked", "lap", "direct", "roof")
    with pytest.raises(ValueError, match="level: read 'below'"):
        Evidence("stacked", "none", "direct", "below")
    with pytest.raises(ValueError, match="how: read 'dream'"):
        Evidence("stacked", "none", "dream", "roof")
    with pytest.raises(ValueError, match="end with the roof"):
        verdict([], ("above_1",))


def test_the_fingerprint_moves_with_the_evidence_and_not_with_its_order():
    pieces = clearing()
    one = digest(pieces, EVERY_NO, ("roof",))
    assert digest(pieces[::-1], EVERY_NO, ("roof",)) == one
    assert digest(pieces[1:], EVERY_NO, ("roof",)) != one
    assert digest(pieces, EVERY_NO | {"bracing": "yes"}, ("roof",)) != one
    assert digest(pieces, EVERY_NO | {"gas": "yes"}, ("roof",)) == one
    assert digest(pieces, EVERY_NO, ("above_1", "roof")) != one
