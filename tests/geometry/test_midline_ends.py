"""A centreline reaches the true ends, whatever their shape: no half width lost, no fork into a corner.

Expected lengths are drawn up by hand from the end's outline: the middle of a square or sloping cut, the tip of a
point, the far side of a ball, the bottom of a swallow tail's notch.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from shapely.geometry.base import BaseGeometry

from lint.geometry.area import Area
from lint.geometry.midline import midline
from tests.geometry.midline_shapes import archimedean, bar, bounded, half_turns, outline

POINT = 6 * math.sqrt(3)  # how far a point of 60 degrees stands before a 12 mm bar

ENDS = {
    "square": (bar(), (500.0, 0.0)),
    "round": (bar().union(shapely.Point(500, 0).buffer(6, 64)), (506.0, 0.0)),
    "pointed": (bar().union(bounded((500, -6), (500 + POINT, 0), (500, 6))), (500 + POINT, 0.0)),
    "drawn out": (bar().union(bounded((500, -6), (545, 0), (500, 6))), (545.0, 0.0)),
    "fishtail": (bar().union(bounded((460, -6), (500, -18), (500, 18), (460, 6))), (500.0, 0.0)),
    "swallow tail": (
        bar(480).union(bounded((460, -6), (500, -18), (485, 0), (500, 18), (460, 6))),
        (485.0, 0.0),
    ),
    "ball": (bar().union(shapely.Point(500, 0).buffer(12.5, 64)), (512.5, 0.0)),
    "sawn askew": (bounded((0, -6), (506, -6), (494, 6), (0, 6)), (500.0, 0.0)),
    "hammer": (bar().union(shapely.box(490, -20, 500, 20)), (500.0, 0.0)),
}


@pytest.mark.parametrize("name", ENDS)
@pytest.mark.parametrize("angle", [0.0, 37.0, 180.0])
def test_the_centreline_reaches_the_end(name: str, angle: float) -> None:
    shape, end = ENDS[name]
    found = midline(Area(shapely.transform(shape, lambda points: points @ _turn(angle)))).line
    ends = found.points[[0, -1]] @ _turn(angle).T
    far = ends[ends[:, 0].argmax()]
    assert np.hypot(*(far - end)) < 0.3
    assert found.length == pytest.approx(end[0], rel=0.002)


def _turn(angle: float) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    return np.array([[c, s], [-s, c]])


@pytest.mark.parametrize("angle", range(0, 360, 15))
def test_a_ball_on_a_bent_bar_is_reached_on_its_far_side_whichever_way_it_lies(angle: int) -> None:
    """Half a turn of 50 mm in a bar of 12 mm, a ball of 25 mm about its end: the bar goes on by the ball's radius."""
    arc = half_turns(50)
    ball = shapely.Point(arc[-1]).buffer(12.5, 64)
    shape = outline(arc, 12).shape.union(ball)
    found = midline(Area(shapely.transform(shape, lambda points: points @ _turn(angle)))).line
    ends = found.points[[0, -1]] @ _turn(angle).T
    off = np.hypot(*(ends - (arc[-1] + [0.0, -12.5])).T).min()
    assert off < 3
    assert found.length == pytest.approx(50 * math.pi + 12.5, abs=0.5)


def test_a_pin_rolled_into_the_end_is_reached_on_its_far_side() -> None:
    """A disc tangent to the bar's lower edge: somewhere on its far half, within the disc's own radius in length."""
    found = midline(Area(bar().union(shapely.Point(500, 6).buffer(12, 64)))).line
    assert max(found.points[0, 0], found.points[-1, 0]) > 508
    assert found.length == pytest.approx(512, rel=0.01)


def test_the_end_within_the_eye_of_a_scroll_is_not_drawn_out_into_the_next_turn() -> None:
    line = archimedean(14, 2.2, 5 * math.pi)
    found = midline(outline(line, 12)).line
    ends = found.points[[0, -1]]
    for true in (line[0], line[-1]):
        assert np.hypot(*(ends - true).T).min() < 0.15


@pytest.mark.parametrize("thing", ["rivet hole", "burr", "collar"])
def test_small_things_on_a_bar_do_not_turn_its_centreline(thing: str) -> None:
    shapes: dict[str, BaseGeometry] = {
        "rivet hole": bar().difference(shapely.Point(250, 0).buffer(2)),
        "burr": bar().union(shapely.box(240, 0, 246, 12)),
        "collar": bar().union(shapely.box(240, -10, 260, 10)),
    }
    found = midline(Area(shapes[thing])).line
    assert found.length == pytest.approx(500, abs=0.01)
    assert np.abs(found.points[:, 1]).max() < 0.01
