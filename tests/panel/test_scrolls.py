"""C, S or other, on curves whose turning is known in closed form."""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from lint.panel.scrolls import shape_of
from tests.panel.metalwork import SHEET, arc, bar

Floats = NDArray[np.float64]


def spiral(turns: float, start: float = 12.0, growth: float = 0.15) -> Floats:
    """A logarithmic spiral r = a e^(b angle) from its eye outwards: its tangent turns as its angle does."""
    angle = np.linspace(0, 2 * np.pi * turns, int(240 * turns))
    r = start * np.exp(growth * angle)
    return np.column_stack([r * np.cos(angle), r * np.sin(angle)])


def c_scroll(first: float, second: float) -> Floats:
    """Two spirals that meet outer end to outer end and turn one way: a C of `first` and `second` turns."""
    one, two = spiral(first), spiral(second) * [1, -1]
    return _joined(one, two)


def s_scroll(first: float, second: float) -> Floats:
    return _joined(spiral(first), spiral(second))


def _joined(one: Floats, two: Floats) -> Floats:
    """`two` turned and moved so that it leaves the outer end of `one` without a break."""
    out, back = one[-1] - one[-2], two[-1] - two[-2]
    turn = np.arctan2(out[1], out[0]) - np.arctan2(-back[1], -back[0])
    spin = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
    moved = two[::-1] @ spin.T
    return np.concatenate([one, moved[1:] - moved[0] + one[-1]])


@pytest.mark.parametrize(("first", "second"), [(1.0, 1.0), (1.5, 0.9), (2.25, 1.1)])
def test_two_spirals_that_turn_one_way_are_a_c(first: float, second: float) -> None:
    """Definition: a C's ends turn the same way (architecture dictionary, "C-scroll")."""
    made = shape_of(bar("s", c_scroll(first, second)), SHEET)
    assert made.kind == "C"
    assert sum(made.turns) == pytest.approx(first + second, abs=0.03)
    assert made.turns == pytest.approx((first, second), abs=0.15)


@pytest.mark.parametrize(("first", "second"), [(1.0, 1.0), (1.5, 0.9), (2.25, 1.1)])
def test_two_spirals_that_turn_opposite_ways_are_an_s(first: float, second: float) -> None:
    """Definition: an S has one change of sign of its curvature (computed)."""
    made = shape_of(bar("s", s_scroll(first, second)), SHEET)
    assert made.kind == "S"
    assert made.turns == pytest.approx((first, second), abs=0.05)


def test_mirroring_and_direction_change_no_kind() -> None:
    for points, kind in ((c_scroll(1.2, 1.0), "C"), (s_scroll(1.2, 1.0), "S")):
        for run in (points, points[::-1], points * [-1, 1], points[::-1] * [1, -1]):
            assert shape_of(bar("s", run), SHEET).kind == kind


@given(st.floats(0, 360), st.booleans(), st.booleans(), st.sampled_from(["C", "S"]))
@settings(max_examples=30, deadline=None)
def test_any_rigid_motion_keeps_kind_and_turns(angle: float, over: bool, back: bool, kind: str) -> None:
    points = c_scroll(1.3, 1.0) if kind == "C" else s_scroll(1.3, 1.0)
    turn = np.radians(angle)
    moved = points @ np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]]) * [-1 if over else 1, 1]
    made = shape_of(bar("s", moved[::-1] if back else moved), SHEET)
    turns = made.turns[::-1] if back else made.turns
    assert made.kind == kind
    assert turns == pytest.approx(shape_of(bar("s", points), SHEET).turns, abs=0.02)


def test_a_curl_under_the_asked_turning_makes_it_other_and_says_so() -> None:
    made = shape_of(bar("s", s_scroll(1.0, 200 / 360)), SHEET)
    assert made.kind == "other"
    said = re.search(r"only (\d+)° of the 270° asked", made.why_other)
    assert said
    assert int(said[1]) == pytest.approx(200, abs=3)


@pytest.mark.parametrize(("degrees", "kind"), [(271.0, "S"), (264.0, "other")])
def test_270_degrees_is_the_limit(degrees: float, kind: str) -> None:
    assert shape_of(bar("s", s_scroll(degrees / 360, 1.0)), SHEET).kind == kind


def test_the_sheet_sets_the_turning() -> None:
    lax = replace(SHEET, scroll_count=replace(SHEET.scroll_count, turn=180.0))
    assert shape_of(bar("s", s_scroll(0.6, 0.6)), lax).kind == "S"


def test_a_single_spiral_is_no_c_for_its_outer_end_has_no_curl() -> None:
    assert shape_of(bar("s", spiral(2.5)), SHEET).kind == "other"


def test_a_closed_ring_a_straight_bar_and_a_wave_are_other() -> None:
    ring = shape_of(bar("ring", arc(0, 0, 50)[:-1], closed=True), SHEET)
    straight = shape_of(bar("straight", [(0, 0), (300, 0)]), SHEET)
    wave = shape_of(bar("wave", [(x, 30 * np.sin(x / 20)) for x in np.linspace(0, 400, 400)]), SHEET)
    assert {ring.kind, straight.kind, wave.kind} == {"other"}
    assert "closed" in ring.why_other
    assert "bend" in straight.why_other
    assert "ways" in wave.why_other


def test_an_outline_that_is_no_bar_says_why() -> None:
    odd = replace(bar("odd", c_scroll(1, 1)), unread="branching")
    made = shape_of(odd, SHEET)
    assert made.kind == "other"
    assert "branching" in made.why_other


def test_ends_stand_where_the_path_begins_and_ends() -> None:
    points = c_scroll(1.2, 1.0)
    made = shape_of(bar("s", points), SHEET, sample=True)
    assert made.sample
    assert made.ends[0].at == pytest.approx(tuple(points[0]))
    assert made.ends[1].at == pytest.approx(tuple(points[-1]))
