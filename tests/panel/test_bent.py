"""How far the curls of a scroll turn, drawn as a line and as an outline, against closed forms.

The truth is the integral of the curvature that a curve was made by; an outline is what lies within half the bar's width
of it (shapely's buffer), or two rows of points square to it where the bar is drawn down.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
import shapely

from lint.geometry.area import Area
from lint.panel.bent import bent_line
from lint.panel.parts import Scroll
from lint.panel.scrolls import shape_of
from tests.geometry.fair_curves import Floats, by_curvature
from tests.geometry.midline_shapes import Cap, outline, tapered
from tests.panel.metalwork import SHEET, bar
from tests.panel.outlined_scrolls import outlined

# The bend (1/mm) at a share (0 to 1) of the way from a scroll's middle to its end.
Bend = Callable[[Floats], Floats]


def power(eye: float, power: float) -> tuple[Bend, float]:
    """A curl whose bend grows with a power of the way to a radius of `eye` mm, and its mean bend."""
    return lambda u: (0.05 + 0.95 * u**power) / eye, (0.05 + 0.95 / (power + 1)) / eye


def logarithmic(eye: float, back: float) -> tuple[Bend, float]:
    """A logarithmic spiral, whose radius shrinks evenly along it, from `back` to `eye` mm, and its mean bend."""
    return lambda u: 1 / (back + (eye - back) * u), float(np.log(back / eye) / (back - eye))


def scroll_line(curl: tuple[Bend, float], degrees: float, *, s: bool = False) -> Floats:
    """Points of a scroll of two such curls that each turn so far."""
    bend, mean = curl
    half = np.radians(degrees) / mean

    def both(at: Floats) -> Floats:
        u = at / half - 1
        turned: Floats = bend(np.abs(u)) * (np.sign(u) if s else 1.0)
        return turned

    return by_curvature(both, 2 * half, 8001).points


def drawn_down(points: Floats, width: float, tip: float) -> Area:
    """The bar of a line drawn down to a share of its width over six widths at either end."""
    s = np.linspace(0.0, shapely.length(shapely.linestrings(points)), len(points))
    to_tip = np.minimum(s, s[-1] - s) / (6 * width)
    return tapered(points, width * (tip + (1 - tip) * np.clip(to_tip, 0, 1)))


def read_outlined(shape: Area) -> Scroll:
    return shape_of(outlined("a", shape), SHEET)


def degrees_of(scroll: Scroll) -> list[float]:
    return [turn * 360 for turn in scroll.turns]


CURLS = {"even": 1.0, "as drawn": 1.5, "late": 4.0}


@pytest.mark.parametrize("width", [6.0, 8.0, 12.0])
@pytest.mark.parametrize("name", CURLS)
@pytest.mark.parametrize("kind", ["C", "S"])
def test_an_outlined_scroll_turns_as_it_was_bent_and_as_its_centreline_is_read(
    width: float, name: str, kind: str
) -> None:
    """Eyes as wide inside as the bar, butt, capped and drawn down; within half a degree of the closed form."""
    points = scroll_line(power(1.5 * width, CURLS[name]), 340, s=kind == "S")
    shapes = [outline(points, width), outline(points, width, "round"), drawn_down(points, width, 0.3)]
    for scroll in (shape_of(bar("c", points, width), SHEET), *map(read_outlined, shapes)):
        assert scroll.kind == kind, scroll.why_other
        assert degrees_of(scroll) == pytest.approx([340, 340], abs=0.5)
        assert not any(scroll.doubt)


@pytest.mark.parametrize(("share", "degrees"), [(1.5, 500.0), (0.7, 720.0), (0.55, 800.0)])
def test_the_turning_of_a_logarithmic_spiral_is_known_within_its_doubt(share: float, degrees: float) -> None:
    """Inside, the eyes are as wide as the bar, 0.4 and 0.1 of it: down to a few degrees."""
    shape = outline(scroll_line(logarithmic(share * 8, 240), degrees), 8)
    scroll = read_outlined(shape)
    for turned, doubt in zip(degrees_of(scroll), scroll.doubt, strict=True):
        assert turned == pytest.approx(degrees, abs=max(doubt, 0.5))
        assert doubt < 6


@pytest.mark.parametrize("cap", ["flat", "round"])
@pytest.mark.parametrize("degrees", [270.0, 271.0, 272.0])
def test_a_curl_of_270_degrees_is_long_enough_however_it_was_drawn(cap: Cap, degrees: float) -> None:
    points = scroll_line(power(15, 1.5), degrees, s=True)
    assert read_outlined(outline(points, 10, cap)).kind == "S"
    assert shape_of(bar("c", points, 10), SHEET).kind == "S"


@pytest.mark.parametrize("cap", ["flat", "round"])
def test_a_curl_of_268_degrees_is_too_short_however_it_was_drawn(cap: Cap) -> None:
    points = scroll_line(power(15, 1.5), 268, s=True)
    assert "only 268° of the 270° asked" in read_outlined(outline(points, 10, cap)).why_other
    assert "only 268° of the 270° asked" in shape_of(bar("c", points, 10), SHEET).why_other


def test_a_curl_in_doubt_is_a_scroll_until_it_is_surely_too_short() -> None:
    """An eye of 0.4 of the bar inside, known to three degrees."""
    kinds = {}
    for degrees in (269.0, 262.0):
        spiral = scroll_line(logarithmic(0.7 * 10, 120), degrees, s=True)
        made = read_outlined(outline(spiral, 10))
        kinds[degrees] = made.kind
        assert all(1 < doubt < 6 for doubt in made.doubt)
    assert kinds == {269.0: "S", 262.0: "other"}


def test_a_point_that_goes_on_straight_adds_what_the_bar_would_have_bent_over_its_length() -> None:
    """A point of one and a half widths on an eye of 30 mm: 18 mm more of a bend that grows a little."""
    points = scroll_line(power(30, 1.0), 340)
    metal = outline(points, 12).shape
    for at, before in ((points[-1], points[-2]), (points[0], points[1])):
        along = (at - before) / np.hypot(*(at - before))
        across = np.array([-along[1], along[0]])
        metal = metal.union(shapely.Polygon([at + 6 * across - 0.1 * along, at + 18 * along, at - 6 * across]))
    turned = degrees_of(read_outlined(Area(metal.buffer(0.01).buffer(-0.01))))
    assert turned == pytest.approx([340 + np.degrees(18 / 30)] * 2, abs=3)


def test_one_sided_points_do_not_pull_the_turning_aside() -> None:
    """A bar cut off at 45 degrees to its inside and to its outside, an end as long: the middle of the metal turns to
    either hand, the bar does not."""
    points = scroll_line(power(30, 1.0), 340)
    way = (points[-1] - points[-2]) / np.hypot(*(points[-1] - points[-2]))
    square = np.array([-way[1], way[0]])
    for hand in (1, -1):
        at = points[-1] - 0.1 * way
        wedge = shapely.Polygon([at + 6 * hand * square, at + 12.1 * way + 6 * hand * square, at - 6 * hand * square])
        metal = outline(points, 12).shape.union(wedge).buffer(0.01).buffer(-0.01)
        one, other = sorted(degrees_of(read_outlined(Area(metal))))
        assert one == pytest.approx(340, abs=1)
        assert 340 < other < 340 + np.degrees(18 / 30)


def test_the_bent_line_ends_where_a_round_cap_begins() -> None:
    points = scroll_line(power(18, 1.5), 340)
    bent = bent_line(outlined("a", outline(points, 12, "round")))
    ends = sorted(np.hypot(*(bent.line.points[[0, -1]] - end).T).min() for end in points[[0, -1]])
    assert max(ends) < 0.2
    assert bent.line.length == pytest.approx(shapely.length(shapely.linestrings(points)), rel=0.001)
