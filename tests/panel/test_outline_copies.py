"""Copies of an outline have its midline, moved; what is no copy is read by itself."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely

from lint.geometry.area import Area, area
from lint.geometry.curve import Curve, curve
from lint.panel.outline_copies import bars_of_each
from lint.panel.outlines import bars_of
from tests.geometry.midline_shapes import Floats, archimedean, bar, outline

SPIRAL = shapely.get_coordinates(outline(archimedean(15, 5, 4 * math.pi), 12).shape)[:-1:8]


def _ring(points: Floats) -> tuple[Curve, ...]:
    return (curve(points, closed=True),)


def _turned(points: Floats, degrees: float, *, over: bool = False) -> Floats:
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    moved: Floats = points * [-1 if over else 1, 1] @ np.array([[c, s], [-s, c]]) + [120, -40]
    return moved


@pytest.mark.parametrize("over", [False, True])
@pytest.mark.parametrize("degrees", [0.0, 90.0, 211.0])
def test_a_copy_has_the_midline_that_it_would_have_by_itself(degrees: float, over: bool) -> None:
    """Written with three decimals, as an editor does."""
    copy = np.round(_turned(SPIRAL, degrees, over=over), 3)
    rings = [_ring(SPIRAL), _ring(copy)]
    (_, (moved,)) = bars_of_each([area([ring.points]) for (ring,) in rings], rings)
    (alone,) = bars_of(area([copy]))
    assert moved.line.length == pytest.approx(alone.line.length, abs=0.02)
    assert moved.width == pytest.approx(alone.width, abs=0.01)
    apart = shapely.hausdorff_distance(shapely.LineString(moved.line.points), shapely.LineString(alone.line.points))
    assert apart < 0.1
    assert moved.metal.size == pytest.approx(alone.metal.size)


def test_an_outline_with_one_point_moved_is_no_copy() -> None:
    other = SPIRAL.copy()
    other[40] += 0.5
    rings = [_ring(SPIRAL), _ring(other)]
    first, second = bars_of_each([area([ring.points]) for (ring,) in rings], rings)
    assert second[0].line is not first[0].line
    assert second[0].line.points.tobytes() != first[0].line.points.tobytes()


def test_a_copy_of_what_is_no_bar_is_unread_at_its_own_place() -> None:
    points = shapely.get_coordinates(bar().union(shapely.box(240, 0, 252, 100)))[:-1]
    rings = [_ring(points), _ring(np.add(points, [0, 300]))]
    (first,), (second,) = bars_of_each([area([ring.points]) for (ring,) in rings], rings)
    assert second.unread == first.unread != ""
    assert first.unread_at is not None
    assert second.unread_at == pytest.approx((first.unread_at[0], first.unread_at[1] + 300))


def test_an_object_without_metal_has_no_bar_beside_others() -> None:
    rings = [_ring(SPIRAL), _ring(np.array([[0.0, 0.0], [10.0, 0.0], [20.0, 0.0]]))]
    found = bars_of_each([area([SPIRAL]), Area(shapely.Polygon())], rings)
    assert [len(bars) for bars in found] == [1, 0]
