"""Ends unrolled and laid on one another. Expected figures are drawn up by hand from the shapes of the ends."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely

from lint.geometry.area import Area
from lint.geometry.end_outline import end_outline, plain, unlike
from lint.geometry.midline import midline
from tests.geometry.midline_shapes import Cap, Floats, archimedean, bar, outline
from tests.geometry.test_midline_ends import ENDS


def _unrolled(shape: Area, near: tuple[float, float]) -> Floats:
    found = midline(shape)
    last = math.dist(found.line.points[-1], near) < math.dist(found.line.points[0], near)
    end = end_outline(shape, found.line, found.width, last=last)
    assert end is not None
    return end.unrolled


def _end(name: str) -> Floats:
    shape, tip = ENDS[name]
    return _unrolled(Area(shape), tip)


def test_a_square_and_a_round_end_differ_by_the_corner_that_the_round_one_lacks() -> None:
    """(sqrt 2 - 1) / 2 of the width: the distance from a square's corner to its inscribed half circle."""
    assert unlike(_end("square"), _end("round")) == pytest.approx((math.sqrt(2) - 1) / 2, abs=0.02)


def test_each_end_is_like_itself_and_unlike_every_other() -> None:
    outlines = {name: _end(name) for name in ENDS}
    for one, first in outlines.items():
        for other, second in outlines.items():
            assert (unlike(first, second) < 0.05) == (one == other), (one, other)


@pytest.mark.parametrize("name", ["ball", "fishtail", "sawn askew"])
def test_a_mirrored_or_scaled_end_is_the_same_end(name: str) -> None:
    """Two ends are different only where name and outline differ (trade notes, 2a: common practice)."""
    shape, (x, y) = ENDS[name]
    mirrored = _unrolled(Area(shapely.transform(shape, lambda points: points * [1, -1])), (x, -y))
    scaled = _unrolled(Area(shapely.transform(shape, lambda points: points * 0.5)), (x / 2, y / 2))
    assert unlike(_end(name), mirrored) < 0.06
    assert unlike(_end(name), scaled) < 0.06


@pytest.mark.parametrize("cap", ["flat", "round"])
@pytest.mark.parametrize("first", [True, False])
def test_the_end_of_a_curled_bar_is_as_that_of_a_straight_one(cap: Cap, first: bool) -> None:
    """Unrolled: in the eye (15 mm, a bar of 12 mm) and on the outside alike."""
    line = archimedean(15, 5, 4 * math.pi)
    straight = bar() if cap == "flat" else shapely.LineString([(0, 0), (500, 0)]).buffer(6, quad_segs=32)
    end = _unrolled(outline(line, 12, cap), tuple(line[0 if first else -1].tolist()))
    assert unlike(end, _unrolled(Area(straight), (500, 0))) < 0.1
    assert plain(end, 0.1)


@pytest.mark.parametrize("name", sorted(set(ENDS) - {"square", "round"}))
def test_a_drawn_end_is_not_plain(name: str) -> None:
    assert not plain(_end(name), 0.1)


def test_the_next_turn_of_the_bar_is_no_part_of_its_end() -> None:
    """Turns 1 mm apart: the next one lies well within two bar widths of the tip in the eye."""
    line = archimedean(20, 13 / (2 * math.pi), 6 * math.pi)
    end = _unrolled(outline(line, 12), tuple(line[0].tolist()))
    assert np.abs(end[:, 1]).max() < 0.6
    assert end[:, 0].min() == pytest.approx(-2, abs=0.1)
