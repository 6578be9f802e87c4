"""The end of the beam on its post, for wood, steel and flitch beams."""

from __future__ import annotations

import pytest

from structure.core.clauses import US_DEFAULT
from structure.core.errors import OutOfScope
from structure.core.materials import LvlSection, SawnSection
from structure.core.materials.steel import SteelSection
from structure.core.wall_seat import Seat, seat_bearing, seat_of

POST = SawnSection("SPF", "Stud", 3, 1.5, 5.5)
LOADS = {"dead": 2000.0, "live": 6000.0}


def test_a_beam_wider_than_the_post_is_deep_turns_it() -> None:
    assert seat_of(POST, LvlSection("2.0E-2900F", 3, 1.75, 14.0), 4.5) == Seat(4.5, 5.5, turned=False)
    narrow = SawnSection("SPF", "Stud", 5, 1.5, 3.5)
    assert seat_of(narrow, LvlSection("2.0E-2900F", 3, 1.75, 14.0), 4.5) == Seat(3.5, 7.5, turned=True)
    assert seat_of(SawnSection("SPF", "Stud", 2, 1.5, 3.5), SteelSection("W8x18", "A992"), 4.5) is None


def test_wood_is_crushed_across_its_grain() -> None:
    beam = LvlSection("2.0E-2900F", 3, 1.75, 14.0)
    held = seat_bearing(beam, Seat(4.5, 5.5, turned=False), LOADS, US_DEFAULT)
    # 8,000 lbf on 5.25 x 4.5 in of 750 psi, at the end of the beam: no C_b.
    assert held.check.ratio == pytest.approx(8000 / (5.25 * 4.5 * 750))
    assert held.required_length == pytest.approx(8000 / (5.25 * 750))


def test_steel_bears_by_its_web() -> None:
    beam = SteelSection("W12x26", "A992")
    held = seat_bearing(beam, Seat(4.5, 5.5, turned=False), LOADS, US_DEFAULT)
    # At the end of the beam crippling governs: 0.40 t_w^2 (1 + (4 l_b/d - 0.2)(t_w/t_f)^1.5) (E F_y t_f/t_w)^0.5 / 2,
    # with t_w 0.23, t_f 0.38, d 12.2 in and l_b over 0.2 d.
    by_hand = 0.40 * 0.23**2 * (1 + (4 * 4.5 / 12.2 - 0.2) * (0.23 / 0.38) ** 1.5)
    by_hand *= (29e6 * 50e3 * 0.38 / 0.23) ** 0.5 / 2
    assert held.check.name == "web_crippling"
    assert held.check.ratio == pytest.approx(8000 / by_hand, rel=1e-3)
    assert held.as_data()["governing"] == "web_crippling"


def test_a_round_tube_is_refused_on_a_post() -> None:
    with pytest.raises(OutOfScope, match="saddle"):
        seat_bearing(SteelSection("Pipe4STD", "A53"), Seat(4.5, 5.5, turned=False), LOADS, US_DEFAULT)


def test_a_steel_post_takes_any_beam_on_its_cap_plate() -> None:
    pipe = SteelSection("Pipe3-1/2STD", "A53 Gr B")
    assert seat_of(pipe, LvlSection("2.0E-2900F", 3, 1.75, 14.0), 4.5) == Seat(
        4.5, 5.25, turned=False, capped=True
    )
