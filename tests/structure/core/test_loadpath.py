"""Every reaction is followed to the soil, and a gap is an error with a name."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest

from structure.core.cases.registry import run_case
from structure.core.clauses import US_DEFAULT
from structure.core.errors import InputError
from structure.core.loadpath import CARRIED_BY, Below, Chain, Duty, Link, LinkKind, State, follow, post_links

K = LinkKind
GOOD = Duty("buckling", 0.7, True)
BAD = Duty("buckling", 1.2, False)
BEAM, BEARING, POST = (
    Link(K.BEAM, "B1", check=GOOD),
    Link(K.BEARING, check=GOOD),
    Link(K.POST, "P1", check=GOOD),
)
PLATE, PAD, SOIL = Link(K.PLATE, provided=True), Link(K.PAD, "F1", check=GOOD), Link(K.SOIL, check=GOOD)
CAVITY = Link(K.FLOOR_CAVITY, provided=True)


def chain(*links: Link) -> Chain:
    reaction = {"dead": 4000.0, "live": 6000.0}
    return follow(mark="B1 left", reaction=reaction, links=links, editions=US_DEFAULT)


def kinds(found: Chain) -> list[LinkKind]:
    return [link.kind for link in found.links]


def test_a_whole_chain_passes_and_blocks_nothing() -> None:
    found = chain(BEAM, BEARING, POST, PLATE, PAD, SOIL)
    assert (found.state, found.complete, found.blocks_package) == (State.PASSES, True, False)
    assert str(found.clause) == "IRC 2021 R301.1"


@pytest.mark.parametrize("gone", [1, 2, 4, 5])
def test_any_link_left_out_is_named_and_blocks(gone: int) -> None:
    whole = [BEAM, BEARING, POST, PLATE, PAD, SOIL]
    found = chain(*whole[:gone], *whole[gone + 1 :])
    assert found.blocks_package
    assert whole[gone].kind in [link.kind for link in found.links if link.state is State.MISSING]


def test_a_post_over_a_post_needs_plate_and_blocked_cavity() -> None:
    found = chain(BEAM, BEARING, POST, Link(K.POST_BELOW, "P2", check=GOOD), PAD, SOIL)
    assert [link.kind for link in found.links if link.state is State.MISSING] == [K.PLATE, K.FLOOR_CAVITY]
    assert "squash blocks" in " ".join(found.missing)


def test_an_unblocked_cavity_is_a_missing_link() -> None:
    below = Link(K.POST_BELOW, check=GOOD)
    assert chain(BEAM, BEARING, POST, PLATE, CAVITY, below, PAD, SOIL).complete
    assert chain(BEAM, BEARING, POST, PLATE, Link(K.FLOOR_CAVITY), below, PAD, SOIL).blocks_package


def test_a_slab_is_no_footing() -> None:
    found = chain(BEAM, BEARING, POST, PLATE, Link(K.SLAB))
    assert found.blocks_package
    assert kinds(found)[-2:] == [K.PAD, K.SOIL]
    assert any("pad of its own" in words for words in found.missing)


def test_an_existing_beam_below_is_a_question_even_with_a_check_that_passes() -> None:
    found = chain(BEAM, BEARING, POST, PLATE, CAVITY, Link(K.BEAM_BELOW, "G1", existing=True, check=GOOD))
    assert (found.state, found.blocks_package) == (State.QUESTION, False)
    assert found.as_data()["passes"] is False
    assert "G1" in found.questions[0]
    assert "10,000 lbf" in found.questions[0]


def test_an_existing_beam_that_fails_its_check_fails() -> None:
    found = chain(BEAM, BEARING, POST, PLATE, CAVITY, Link(K.BEAM_BELOW, existing=True, check=BAD))
    assert found.state is State.FAILS


@pytest.mark.parametrize("kind", [K.PAD, K.FOOTING_BELOW])
def test_an_existing_pad_without_a_check_is_a_question(kind: LinkKind) -> None:
    found = chain(BEAM, BEARING, POST, PLATE, Link(kind, existing=True))
    assert found.state is State.QUESTION
    assert "soil under it" in found.questions[0]


def test_a_foundation_wall_is_followed_to_its_footing() -> None:
    found = chain(BEAM, BEARING, POST, PLATE, CAVITY, Link(K.FOUNDATION_WALL, existing=True))
    assert kinds(found)[-2:] == [K.FOOTING_BELOW, K.SOIL]
    assert found.blocks_package
    assert found.questions  # and the wall itself is still asked about


def test_a_new_member_without_a_check_is_missing_even_when_it_is_said_to_be_there() -> None:
    assert chain(BEAM, BEARING, Link(K.POST, provided=True), PLATE, PAD, SOIL).blocks_package


def test_a_failing_link_is_told_with_its_ratio() -> None:
    found = chain(BEAM, BEARING, Link(K.POST, "P1", check=BAD), PLATE, PAD, SOIL)
    assert found.state is State.FAILS
    assert found.fails == ("B1 left: the post P1 fails in buckling at 1.20.",)


def test_an_order_no_load_can_take_is_an_input_error() -> None:
    with pytest.raises(InputError, match=r"links\[2\].kind"):
        chain(BEAM, PAD, POST)
    with pytest.raises(InputError, match="links"):
        chain()


def test_whatever_is_left_out_the_filled_chain_is_one_that_can_carry() -> None:
    whole = [BEAM, BEARING, POST, PLATE, CAVITY, Link(K.POST_BELOW, check=GOOD), PAD, SOIL]
    for mask in range(2 ** (len(whole) - 1)):
        links = [BEAM, *(link for n, link in enumerate(whole[1:]) if mask >> n & 1)]
        found = chain(*links)
        assert found.links[-1].kind is K.SOIL
        assert all(under.kind in CARRIED_BY[over.kind] for over, under in pairwise(found.links))
        assert all(link in found.links for link in links)


def test_links_of_a_post_name_what_nobody_gave() -> None:
    usual: dict[str, Any] = {"beam": BEAM, "bearing": BEARING, "post": POST, "plate": True}
    whole = chain(*post_links(**usual, pad=PAD, soil=GOOD))
    assert whole.state is State.PASSES
    storey = Below(K.POST_BELOW, blocked=True, existing=False, check=GOOD)
    assert chain(*post_links(**usual, storeys=[storey], pad=PAD, soil=GOOD)).state is State.PASSES
    unknown = chain(*post_links(**usual, storeys=[Below(None)]))
    assert unknown.blocks_package
    bare = chain(*post_links(**usual))
    assert kinds(bare)[-2:] == [K.PAD, K.SOIL]


def test_a_duty_comes_from_a_members_plain_result() -> None:
    pad = run_case(
        {
            "kind": "footing",
            "code": "us",
            "given": {"loads": [{"case": "dead", "value": "6 kip"}], "soil": "2000 psf", "post": "5.5 in"},
        }
    )
    soil, worst = Duty.from_result(pad, "soil"), Duty.from_result(pad)
    assert (soil.name, soil.ratio) == ("soil", pad["checks"]["soil"]["ratio"])
    assert worst.ratio == pad["ratio"]
    assert soil.capacity == pad["checks"]["soil"]["capacity"]


def test_the_kind_answers_in_plain_data() -> None:
    links = [
        {"kind": "beam", "capacity": "12 kip"},
        {"kind": "bearing", "capacity": "9 kip"},
        {"kind": "post", "capacity": "12 kip"},
        {"kind": "plate", "provided": True},
        {"kind": "pad", "capacity": "12 kip"},
        {"kind": "soil", "capacity": "12 kip"},
    ]
    loads = [{"case": "dead", "value": "4 kip"}, {"case": "live", "value": "6 kip"}]
    case = {"kind": "loadpath", "code": "us", "given": {"mark": "B1 left", "loads": loads, "links": links}}
    result = run_case(case)
    assert (result["state"], result["complete"]) == ("fails", True)
    assert result["links"][1]["check"]["ratio"] == pytest.approx(10 / 9)
    assert result["links"][1]["check"]["combination"] == "D+L"


def test_a_reaction_that_lifts_is_refused() -> None:
    loads = [{"case": "dead", "value": "1 kip"}, {"case": "live", "value": "-2 kip"}]
    case = {"kind": "loadpath", "code": "us", "given": {"loads": loads, "links": [{"kind": "beam"}]}}
    assert run_case(case)["status"] == "refused"


@pytest.mark.parametrize(("own", "carried"), [(None, 5000.0), ("7000 lbf", 7000.0), ("1000 lbf", 1000.0)])
def test_what_a_pad_carries_already_goes_into_the_soil_under_it(own: str | None, carried: float) -> None:
    soil: dict[str, Any] = {"kind": "soil", "capacity": "20 kip"}
    if own is not None:
        soil["existing_loads"] = [{"case": "live", "value": own}]
    links = [
        {"kind": "beam", "capacity": "20 kip"},
        {"kind": "bearing", "capacity": "20 kip"},
        {"kind": "post", "capacity": "20 kip"},
        {"kind": "plate", "provided": True},
        {
            "kind": "pad",
            "existing": True,
            "capacity": "20 kip",
            "existing_loads": [{"case": "live", "value": "5000 lbf"}],
        },
        soil,
    ]
    loads = [{"case": "live", "value": "4000 lbf"}]
    result = run_case({"kind": "loadpath", "code": "us", "given": {"loads": loads, "links": links}})
    assert result["links"][-1]["check"]["demand"]["value"] == pytest.approx(4000 + carried)
    assert result["links"][-2]["check"]["demand"]["value"] == pytest.approx(9000)
