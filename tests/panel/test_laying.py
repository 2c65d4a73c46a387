"""Bars laid on one another: drawn ends are no difference of the curve, a bar's width along it is."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from lint.geometry.area import Area
from lint.geometry.curve import Curve, curve
from lint.geometry.shared_stretch import even_part, shared_stretch
from lint.panel.bent import bent_line
from lint.panel.laying import compared_curve, lay_on, symmetry, widths_apart
from lint.panel.scrolls import shape_of
from tests.panel.metalwork import SHEET, bar
from tests.panel.outlined_scrolls import ENDS, WIDTH, c_line, outlined, with_ends

LINE = c_line()


def _moved(area: Area) -> Area:
    """Turned over, turned and shifted."""
    c, s = np.cos(0.7), np.sin(0.7)
    return Area(shapely.transform(area.shape, lambda p: p @ np.array([[c, s], [s, -c]]) + [300, -40]))


@pytest.mark.parametrize("first", ENDS)
@pytest.mark.parametrize("last", ENDS)
def test_a_pair_with_different_drawn_ends_covers_one_another(first: str, last: str) -> None:
    """A matching pair may carry four different ends: matching is of the curve. The limit is 1.6 mm."""
    one = outlined("a", with_ends(LINE, first, last))
    other = outlined("b", _moved(with_ends(LINE, "plain", "ball")))
    assert lay_on(one, other, SHEET).overlay.distance < 0.3


def test_a_scroll_that_bends_otherwise_does_not_cover() -> None:
    one = outlined("a", with_ends(LINE, "ball", "plain"))
    other = outlined("b", with_ends(c_line(turns=1.46), "plain", "plain"))
    assert lay_on(one, other, SHEET).overlay.distance > SHEET.scroll_match.overlay


def test_a_scroll_cut_short_does_not_cover() -> None:
    """Forty millimetres less at one end is more than any end adds."""
    one = outlined("a", with_ends(LINE, "plain", "plain"))
    other = outlined("b", with_ends(LINE.piece(0, LINE.length - 40), "plain", "plain"))
    assert lay_on(one, other, SHEET).overlay.distance > SHEET.scroll_match.overlay


def test_an_outline_covers_the_centreline_that_it_was_made_of() -> None:
    one = outlined("a", with_ends(LINE, "ball", "fishtail"))
    assert lay_on(bar("b", LINE.points, WIDTH), one, SHEET).overlay.distance < 0.1


def test_centrelines_are_laid_on_one_another_whole() -> None:
    one, other = bar("a", LINE.points, WIDTH), bar("b", LINE.piece(0, LINE.length - 5).points, WIDTH)
    laid = lay_on(one, other, SHEET)
    assert laid.moving is one.line
    assert laid.overlay.distance > 1


def test_a_c_with_two_different_ends_is_as_even_as_its_curve() -> None:
    one = outlined("a", with_ends(LINE, "ball", "plain"))
    assert symmetry(one, SHEET, half_turn=False) < 0.3


def test_two_widths_are_left_out_at_each_end_and_more_of_a_large_one() -> None:
    """Of a ball of 2.2 widths the whole, and the neck."""
    plain, ball = (outlined("a", with_ends(LINE, "plain", end)) for end in ("plain", "ball"))
    assert plain.line.length - compared_curve(plain, SHEET).length == pytest.approx(4 * WIDTH)
    assert 2 * 2.8 * WIDTH < ball.line.length - compared_curve(ball, SHEET).length < 2 * 3.3 * WIDTH


def test_widths_are_compared_along_the_bar() -> None:
    """A bar that swells from 7 to 9 mm in its middle has the width of a plain one of 8 only at two places."""
    u = np.linspace(-1, 1, len(LINE.points))
    plain = outlined("a", with_ends(LINE, "plain", "plain"))
    swelling = outlined("b", with_ends(LINE, "plain", "plain", WIDTH + np.cos(np.pi * u)))
    assert widths_apart(plain, plain) == 0
    assert widths_apart(plain, swelling) == pytest.approx(1, abs=0.1)
    assert widths_apart(plain, bar("c", LINE.points, WIDTH)) == pytest.approx(0, abs=0.02)


def test_a_bar_drawn_down_towards_one_end_only_is_still_of_the_same_bar() -> None:
    """A ribbon end takes some eight widths of bar (trade notes, 2a: 100 mm and more are drawn down)."""
    u = np.linspace(0, 1, len(LINE.points))
    drawn_down = outlined("b", with_ends(LINE, "plain", "plain", WIDTH * np.interp(u, [0, 0.85, 1], [1, 1, 0.3])))
    assert widths_apart(outlined("a", with_ends(LINE, "plain", "plain")), drawn_down) == pytest.approx(0, abs=0.05)


def _asymmetric() -> Curve:
    t = np.linspace(0, 5, 2001)
    return curve(np.column_stack([(20 + 12 * t) * np.cos(t), (20 + 12 * t) * np.sin(t)]))


@pytest.mark.parametrize("back", [False, True])
def test_the_shared_stretch_is_found_wherever_the_longer_curve_goes_on(back: bool) -> None:
    """A curve with 15 mm more at one end: the stretches are the same piece of it, 16 mm left out of the shorter."""
    whole = _asymmetric()
    short = whole.piece(0, whole.length - 15)
    one, other = shared_stretch(short.reversed() if back else short, whole, 16)
    assert one.length == pytest.approx(short.length - 32)
    assert other.length == pytest.approx(one.length)
    assert other.points[0] == pytest.approx(whole.at(16.0), abs=0.05)


def test_curves_of_lengths_too_far_apart_are_cut_each_by_itself() -> None:
    whole = _asymmetric()
    one, other = shared_stretch(whole.piece(0, whole.length - 50), whole, 16)
    assert (one.length, other.length) == pytest.approx((whole.length - 82, whole.length - 32))


def test_the_even_part_of_a_half_circle_with_a_tail() -> None:
    """An arc is even about any of its points; a tail that is straight is not: the arc's middle is found."""
    angle = np.linspace(0, np.pi, 1001)
    tails = [np.column_stack([np.full(200, 60.0), np.linspace(-length, -0.2, 200)]) for length in (200.0, 212.0)]
    arc = np.column_stack([60 * np.cos(angle), 60 * np.sin(angle)])
    line = curve(np.concatenate([tails[0], arc, (tails[1] * [-1, 1])[::-1]]))
    part = even_part(line, 16, half_turn=False)
    assert part.points[[0, -1], 0] == pytest.approx((60, -60), abs=0.01)
    assert part.points[0, 1] == pytest.approx(part.points[-1, 1], abs=0.1)


@pytest.mark.parametrize("first", ENDS)
@pytest.mark.parametrize("last", ENDS)
def test_drawn_ends_do_not_change_a_scrolls_kind_nor_its_turns(first: str, last: str) -> None:
    """The C turns 1.4 times at each curl by its making; an end adds what its arc goes on (at most 40 degrees)."""
    scroll = shape_of(outlined("a", with_ends(LINE, first, last)), SHEET)
    assert scroll.kind == "C", scroll.why_other
    assert scroll.turns == pytest.approx((1.4, 1.4), abs=0.12)


def test_the_bent_line_of_a_plain_outline_is_its_centreline() -> None:
    one = outlined("a", with_ends(LINE, "plain", "plain"))
    bent = bent_line(one).line
    assert bent.length == pytest.approx(one.line.length, abs=0.1)
    assert shapely.hausdorff_distance(shapely.LineString(bent.points), shapely.LineString(one.line.points)) < 0.5
