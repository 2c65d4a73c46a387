"""What is no bar is refused with its reason and its place, and hostile outlines are answered."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from hypothesis import example, given, settings
from hypothesis import strategies as st
from shapely.geometry.base import BaseGeometry

from lint.geometry.area import Area, area
from lint.geometry.midline import NotABar, midline
from tests.geometry.midline_shapes import archimedean, bar

FRAME = shapely.box(0, 0, 600, 900).difference(shapely.box(12, 12, 588, 888))
ANGLES = np.linspace(0, 2 * math.pi, 2001)
EIGHT = shapely.LineString(np.column_stack([100 * np.sin(ANGLES), 50 * np.sin(2 * ANGLES)])).buffer(5)
STAR = [(r * math.cos(k * math.pi / 5), r * math.sin(k * math.pi / 5)) for k, r in enumerate([100, 30] * 5)]

REFUSED: dict[str, tuple[BaseGeometry, str, tuple[float, float] | None]] = {
    "a disc": (shapely.Point(0, 0).buffer(50), "not slender", (0, 0)),
    "a square": (shapely.box(0, 0, 10, 10), "not slender", (5, 5)),
    "a plate": (shapely.box(0, 0, 20, 10), "not slender", None),
    "a washer": (shapely.Point(0, 0).buffer(50).difference(shapely.Point(0, 0).buffer(20)), "not slender", None),
    "a T": (bar().union(shapely.box(240, 0, 252, 100)), "branching", (246, 0)),
    "two bars crossed": (bar().union(shapely.box(240, -100, 252, 100)), "branching", (246, 0)),
    "a frame with a bar in it": (FRAME.union(shapely.box(300, 0, 312, 900)), "branching", None),
    "a frame with a stub": (FRAME.union(shapely.box(300, 0, 312, 100)), "branching", (306, 6)),
    "an eight": (EIGHT, "branching", (0, 0)),
    "a star": (shapely.Polygon(STAR), "branching", (0, 0)),
    "two parts": (shapely.union(bar(), shapely.box(0, 50, 100, 60)), "several parts", None),
    "nothing": (shapely.Polygon(), "no metal", None),
    "a line gone over twice": (shapely.box(0, 0, 1000, 0.01), "no metal", None),
}


@pytest.mark.parametrize("name", REFUSED)
def test_what_is_no_bar_says_why_and_where(name: str) -> None:
    shape, why, where = REFUSED[name]
    with pytest.raises(NotABar) as refusal:
        midline(Area(shape))
    assert refusal.value.why == why
    if where is not None:
        assert math.dist(refusal.value.at, where) < 20


def test_a_scroll_fused_with_its_own_next_turn_is_refused() -> None:
    """The clear distance between turns is less than nothing: they run into one another and leave holes."""
    line = archimedean(20, 11.5 / (2 * math.pi), 6 * math.pi)
    shape = shapely.LineString(line).buffer(6, cap_style="flat")
    with pytest.raises(NotABar, match=r"branching|not slender"):
        midline(Area(shape))


def _answers(shape: Area) -> None:
    """A figure or a refusal, never anything else."""
    found, at = None, (0.0, 0.0)
    try:
        found = midline(shape)
    except NotABar as refusal:
        at = refusal.at
    assert np.isfinite(at).all()
    assert found is None or (np.isfinite(found.widths).all() and np.isfinite(found.line.points).all())


@pytest.mark.parametrize("depth", [0.02, 0.5, 0.95])
@pytest.mark.parametrize("nodes", [200, 20_000])
def test_noise_of_many_nodes_is_answered(nodes: int, depth: float) -> None:
    radius = 100 * (1 + depth * np.random.default_rng(1).uniform(-1, 1, nodes))
    angle = np.linspace(0, 2 * math.pi, nodes, endpoint=False)
    _answers(Area(shapely.Polygon(np.column_stack([radius * np.cos(angle), radius * np.sin(angle)]))))


def test_a_comb_of_a_hundred_teeth_is_answered() -> None:
    teeth = [shapely.box(10 * k, 0, 10 * k + 5, 200) for k in range(100)]
    with pytest.raises(NotABar, match="branching"):
        midline(Area(shapely.unary_union([shapely.box(0, 0, 1000, 5), *teeth])))


@settings(max_examples=50, deadline=None)
@given(st.lists(st.tuples(st.floats(-500, 500), st.floats(-500, 500)), min_size=3, max_size=30))
@example([(1.15e-40, -1.5), (90.0, -430.0), (0.0, -2.0), (0.0, 1.0)])  # two of its rows fall on one point
def test_any_ring_of_points_is_answered(points: list[tuple[float, float]]) -> None:
    for part in area([np.array(points)]).parts:
        _answers(part)
