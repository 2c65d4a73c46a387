"""The midline against a slow twin: scikit-image's medial axis of the outline as pixels."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely

from lint.geometry.area import Area
from lint.geometry.midline import midline
from tests.geometry.midline_shapes import Floats, archimedean, half_turns, logarithmic, outline, tapered

morphology = pytest.importorskip("skimage.morphology")

PIXEL = 0.4  # mm


def _raster(shape: Area) -> tuple[np.ndarray[tuple[int, ...], np.dtype[np.bool_]], Floats]:
    left, top, right, bottom = shape.shape.bounds
    xs, ys = np.arange(left - 1, right + 1, PIXEL), np.arange(top - 1, bottom + 1, PIXEL)
    grid = np.stack(np.meshgrid(xs, ys), axis=-1)
    shapely.prepare(shape.shape)
    return shapely.contains_xy(shape.shape, grid.reshape(-1, 2)).reshape(len(ys), len(xs)), grid


LINE = archimedean(15, 5, 4 * math.pi)
SHAPES = {
    "spiral": outline(LINE, 12),
    "tight spiral": outline(archimedean(20, 2.1, 6 * math.pi), 12),
    "s": outline(half_turns(30, 50), 10),
    "tapered": tapered(LINE, np.linspace(12, 5, len(LINE))),
    "round ends": outline(logarithmic(12, 0.2, 3 * math.pi), 6, "round"),
}


@pytest.mark.parametrize("name", SHAPES)
def test_the_medial_axis_of_the_pixels_lies_on_the_midline(name: str) -> None:
    """Spurs into corners left out (the last width at each end): every skeleton pixel within 1.5 pixels of the line,
    and its distance to the edge half the width there within 1.5 pixels."""
    shape = SHAPES[name]
    found = midline(shape)
    inside, grid = _raster(shape)
    skeleton, depth = morphology.medial_axis(inside, return_distance=True)
    places, depths = grid[skeleton], depth[skeleton] * PIXEL
    line = shapely.LineString(found.line.points)
    s = shapely.line_locate_point(line, shapely.points(places))
    clear = 1.5 * found.width
    away_from_ends = (s > clear) & (s < line.length - clear)
    off = shapely.distance(shapely.points(places), line)
    on_axis = away_from_ends & (depths > found.widths.min() / 3)
    assert on_axis.sum() > 0.5 * line.length / PIXEL / math.sqrt(2)
    assert off[on_axis].max() < 1.5 * PIXEL
    widths = np.interp(s[on_axis], found.line.stations, found.widths)
    assert np.abs(2 * depths[on_axis] - widths).max() < 3 * PIXEL
