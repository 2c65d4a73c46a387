"""The centreline of an outline, against curves whose length is known in closed form.

The lengths are those of the trade notes' reference curves, each from its formula (Archimedean spiral, logarithmic
spiral, circle involute, circular arcs); the outlines are made of them by an independent buffer (GEOS).
"""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from lint.geometry.area import Area
from lint.geometry.curve import curve
from lint.geometry.midline import midline
from tests.geometry.midline_shapes import (
    Cap,
    Floats,
    archimedean,
    half_turns,
    involute,
    logarithmic,
    outline,
    renoded,
    tapered,
)

ONE_WIDTH = 0.002  # of the length
TAPERED = 0.01


def _archimedean_length(start: float, growth: float, turn: float) -> float:
    def up_to(u: float) -> float:  # r = growth * u
        return growth / 2 * (u * math.sqrt(1 + u * u) + math.asinh(u))

    return up_to(start / growth + turn) - up_to(start / growth)


SPIRALS = {
    # r = 10 + 8 angle over three half turns: 457.85776272 from the closed form
    "archimedean": (archimedean(10, 8, 3 * math.pi), 10.0, 457.85776272),
    # sqrt(1 + b^2) / b (r2 - r1), a = 12, b = 0.15: 251.68108211
    "logarithmic": (logarithmic(12, 0.15, 3 * math.pi), 6.0, 251.68108211),
    # golden spiral, a = 10, b = 2 ln(phi) / pi: 578.47596812
    "golden": (logarithmic(10, 0.30634896253, 3 * math.pi), 12.0, 578.47596812),
    # a t^2 / 2, a = 5, from 1.5 to 3 pi: 222.06609902 less 5.625
    "involute": (involute(5, 1.5, 3 * math.pi), 10.0, 222.06609902 - 5.625),
    # half circles of 20, 40 and 80 mm: 140 pi = 439.82297150, an S with a change of sign at each join
    "half turns": (half_turns(20, 40, 80), 12.0, 439.82297150),
}


@pytest.mark.parametrize("name", SPIRALS)
@pytest.mark.parametrize(("cap", "added"), [("flat", 0.0), ("round", 1.0), ("square", 1.0)])
def test_a_buffered_spiral_gives_its_length_back(name: str, cap: Cap, added: float) -> None:
    """A cap adds half a width of metal at each end, and the centreline runs to the end of the metal."""
    line, width, length = SPIRALS[name]
    found = midline(outline(line, width, cap))
    assert found.line.length == pytest.approx(length + added * width, rel=ONE_WIDTH)
    assert found.width == pytest.approx(width, abs=0.01)


@pytest.mark.parametrize("name", SPIRALS)
def test_it_lies_on_the_true_centreline(name: str) -> None:
    """Every point within 0.05 mm of the curve that the outline was made of; in the last bar width, where the medial
    axis has ended and the line goes on as it bent, within 0.25 mm (the eye here is as tight as the bar is wide)."""
    line, width, _ = SPIRALS[name]
    found = midline(outline(line, width)).line
    off = np.asarray(shapely.distance(shapely.points(found.points), shapely.LineString(line)))
    inner = (found.stations > width) & (found.stations < found.length - width)
    assert off[inner].max() < 0.05
    assert off.max() < 0.25


@pytest.mark.parametrize("gap", [6.0, 2.0, 0.6, 0.25])
def test_turns_that_lie_close_together_are_told_apart(gap: float) -> None:
    """An Archimedean spiral of a 12 mm bar, the clear distance from turn to turn down to a fiftieth of its width."""
    growth = (12 + gap) / (2 * math.pi)
    found = midline(outline(archimedean(20, growth, 7 * math.pi), 12))
    assert found.line.length == pytest.approx(_archimedean_length(20, growth, 7 * math.pi), rel=ONE_WIDTH)


@pytest.mark.parametrize("nodes", [200, 400, 1000, 5000, 20_000])
def test_the_number_of_nodes_does_not_matter(nodes: int) -> None:
    line, width, length = SPIRALS["archimedean"]
    assert midline(renoded(outline(line, width), nodes)).line.length == pytest.approx(length, rel=ONE_WIDTH)


@pytest.mark.parametrize(("first", "last"), [(12, 3), (3, 12), (12, 0), (0, 12)])
def test_a_tapered_bar_gives_its_length_and_its_widths_back(first: float, last: float) -> None:
    line = archimedean(15, 5, 4 * math.pi)
    length = _archimedean_length(15, 5, 4 * math.pi)
    found = midline(tapered(line, np.linspace(first, last, len(line))))
    assert found.line.length == pytest.approx(length, rel=TAPERED)
    assert _widths_in_order(found.widths, found.line.points, line) == pytest.approx((first, last), rel=0.11, abs=0.1)


def _widths_in_order(widths: Floats, points: Floats, line: Floats) -> tuple[float, float]:
    one, other = float(widths[0]), float(widths[-1])
    forth = np.hypot(*(points[0] - line[0])) < np.hypot(*(points[0] - line[-1]))
    return (one, other) if forth else (other, one)


def test_a_bar_thick_in_the_middle_and_thin_at_its_ends() -> None:
    line = logarithmic(10, 0.3, 3 * math.pi)
    widths = np.interp(np.linspace(0, 1, len(line)), [0, 0.5, 1], [2, 8, 2])
    found = midline(tapered(line, widths))
    length = math.sqrt(1 + 0.3**2) / 0.3 * 10 * (math.exp(0.9 * math.pi) - 1)
    assert found.line.length == pytest.approx(length, rel=TAPERED)
    assert found.widths.max() == pytest.approx(8, abs=0.1)


@settings(max_examples=25, deadline=None)
@given(
    angle=st.floats(0, 360),
    flip=st.booleans(),
    scale=st.floats(0.05, 50),
    x=st.floats(-1e4, 1e4),
    y=st.floats(-1e4, 1e4),
)
def test_turned_mirrored_moved_and_scaled_outlines_have_the_same_centreline(
    angle: float, flip: bool, scale: float, x: float, y: float
) -> None:
    line, width, length = SPIRALS["logarithmic"]
    spin = np.array([[math.cos(angle), -math.sin(angle)], [math.sin(angle), math.cos(angle)]])
    matrix = scale * spin @ np.diag([-1.0 if flip else 1.0, 1.0])
    found = midline(outline(line @ matrix.T + [x, y], width * scale))
    assert found.line.length == pytest.approx(length * scale, rel=ONE_WIDTH)
    assert found.width == pytest.approx(width * scale, rel=0.002)


def test_the_start_of_the_ring_and_its_direction_do_not_matter() -> None:
    line, width, length = SPIRALS["golden"]
    ring = shapely.get_coordinates(outline(line, width).shape)[:-1]
    for start in (0, 1000, len(ring) // 2, len(ring) - 3):
        for step in (1, -1):
            turned = np.roll(ring, start, axis=0)[::step]
            assert midline(Area(shapely.Polygon(turned))).line.length == pytest.approx(length, rel=ONE_WIDTH)


def test_an_annulus_is_a_closed_bar() -> None:
    """A ring of 200 mm outside, 12 mm wide: pi times its mean diameter."""
    ring = shapely.Point(0, 0).buffer(100, 256).difference(shapely.Point(0, 0).buffer(88, 256))
    found = midline(Area(ring))
    assert found.line.closed
    assert found.line.length == pytest.approx(math.pi * 188, rel=ONE_WIDTH)
    assert found.widths == pytest.approx(12, abs=0.02)


def test_a_frame_with_a_hole_is_a_closed_bar_with_mitred_corners() -> None:
    """600 x 900 outside of 12 mm bar: the mean line is 588 x 888."""
    found = midline(Area(shapely.box(0, 0, 600, 900).difference(shapely.box(12, 12, 588, 888))))
    assert found.line.closed
    assert found.line.length == pytest.approx(2 * (588 + 888), abs=0.01)
    assert found.line.extent == pytest.approx((6, 6, 594, 894), abs=0.01)


@pytest.mark.parametrize(("missing", "length"), [((12, 12, 588, 900), 2 * 894 + 588), ((12, 12, 600, 900), 894 + 594)])
def test_forged_corners_are_mitred_on_open_bars(missing: tuple[float, float, float, float], length: float) -> None:
    """A U and an L cut from 600 x 900: their mean lines by hand."""
    found = midline(Area(shapely.box(0, 0, 600, 900).difference(shapely.box(*missing))))
    assert found.line.length == pytest.approx(length, abs=0.05)


def test_a_corner_with_a_radius_inside_stays_within_the_limit() -> None:
    """Sharp outside, 6 mm radius inside: between the mitre's mean line and the same with its corner cut off."""
    inner = shapely.box(18, 18, 700, 1000).buffer(6, quad_segs=64)
    found = midline(Area(shapely.box(0, 0, 600, 900).difference(inner)))
    assert found.line.length == pytest.approx(894 + 594, rel=ONE_WIDTH)


def test_widths_and_line_are_in_step() -> None:
    line, width, _ = SPIRALS["golden"]
    found = midline(outline(line, width))
    assert len(found.widths) == len(found.line.points)
    assert curve(found.line.points).length == found.line.length


@pytest.mark.parametrize("degrees", [180.1, *np.linspace(180.36, 180.376, 9), 181.1])
def test_a_straight_sided_u_is_read_however_its_rows_of_points_lie(degrees: float) -> None:
    """Closed form: the middle of a U of 236 by 280 by 236 mm outside, 12 mm wide, is 2 (236 - 6) + 268 long. At some
    of these angles the geometry library finds no triangles among its points as they stand."""
    ring = np.array([[30, 24], [30, 260], [310, 260], [310, 24], [298, 24], [298, 248], [42, 248], [42, 24]])
    a = math.radians(degrees)
    turned = (ring + np.array([3, 4])) @ np.array([[math.cos(a), math.sin(a)], [-math.sin(a), math.cos(a)]])
    assert midline(Area(shapely.Polygon(turned))).line.length == pytest.approx(2 * 230 + 268, abs=0.1)
