"""Copies of a shape are known however they lie, and a point of one is found in the other."""

from __future__ import annotations

import numpy as np
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from lint.geometry.alike import alike
from lint.geometry.area import Area, area
from lint.geometry.circle import largest_circles

Floats = NDArray[np.float64]

ODD = np.array([(0, 0), (70, 4), (93, 41), (60, 80), (31, 52), (8, 61)], dtype=float)
OTHER = np.array([(0, 0), (70, 4), (93, 41), (60, 80), (31, 52), (8, 61.01)], dtype=float)


def moved(points: Floats, turn: float, over: bool, start: int = 0) -> Floats:
    spin = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
    laid: Floats = np.roll(points * ([-1, 1] if over else [1, 1]), start, axis=0) @ spin.T + [350, -120]
    return laid


def shapes(*points: Floats) -> NDArray[np.object_]:
    return np.array([shapely.Polygon(one) for one in points], dtype=object)


@given(turn=st.floats(-4, 4), over=st.booleans(), start=st.integers(0, 5), back=st.booleans())
@settings(max_examples=50, deadline=None)
def test_a_copy_is_known_and_its_points_are_carried_over(turn: float, over: bool, start: int, back: bool) -> None:
    """A rigid motion is the truth: a point near one corner is as near to the same corner of the copy."""
    copy = moved(ODD, turn, over, start)
    found = alike(shapes(ODD, copy[::-1] if back else copy))
    assert found.of.tolist() == [0, 0]
    _, at = found.carried(np.array([20 + 10j, 20 + 10j]))
    ((x, y),) = moved(np.array([[20.0, 10.0]]), turn, over)
    assert abs(at - (x + 1j * y)) < 1e-9


def test_what_differs_by_a_hundredth_has_a_hole_or_two_parts_is_no_copy() -> None:
    ring = shapely.Polygon(ODD, [[(40, 30), (50, 30), (45, 40)]])
    parts = shapely.MultiPolygon([shapely.Polygon(ODD), shapely.Polygon(ODD + 200)])
    everything = np.append(shapes(ODD, OTHER), [ring, ring, parts, parts])
    assert alike(everything).of.tolist() == [0, 1, 2, 3, 4, 5]


def test_a_copy_has_the_circle_of_the_first_in_its_own_place() -> None:
    areas: list[Area] = [
        area([points]) for points in (ODD, 0.9 * ODD, moved(ODD, 1.0, True), moved(ODD, 2.0, False, 3))
    ]
    circles = largest_circles(areas)
    for one, circle in zip(areas, circles, strict=True):
        clear = one.shape.boundary.distance(shapely.Point(circle.x, circle.y))
        assert abs(2 * clear - circle.diameter) < 1e-6
        assert one.shape.contains(shapely.Point(circle.x, circle.y))
    assert len({round(circle.diameter, 6) for circle in circles}) == 2
