"""The largest circles of openings, against packings whose answer is known in closed form.

Formulas: three and four equal circles, circle and corner, two circles and a line, square less a disc, triangles and
the rhombus are plane geometry worked from their definitions; Descartes' circle theorem (1643; Soddy, Nature 137,
1936). Every packing is drawn with bars of known width: the opening lies between metal, not between centrelines.
"""

from __future__ import annotations

from dataclasses import replace
from math import hypot, sqrt

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy import ndimage
from scipy.spatial import cKDTree

from lint.panel.openings import openings_of
from lint.panel.panel import Panel
from lint.panel.parts import Opening
from tests.panel.metalwork import FRAME_BAR, SHEET, drawing, panel, ring

CLOSE = 0.05  # mm, the accuracy asked of a packing


def at(found: Panel, x: float, y: float) -> Opening:
    """The opening that holds a point given from the inner corner of the frame."""
    return next(hole for hole in found.openings if hole.area.holds((x + FRAME_BAR, y + FRAME_BAR)))


def test_three_equal_rings_that_touch_leave_a_circle_of_their_radius_times_two_over_root_three_less_one() -> None:
    r = 100.0
    rings = [ring(r, 300, r), ring(3 * r, 300, r), ring(2 * r, 300 - r * sqrt(3), r)]
    hole = at(panel(drawing(*rings, inside=(400, 420))), 200, 300 - r / sqrt(3))
    assert hole.diameter == pytest.approx(2 * r * (2 / sqrt(3) - 1), abs=CLOSE)  # 30.940


def test_descartes_circle_lies_between_rings_of_150_120_and_90() -> None:
    a, b, c = 150.0, 120.0, 90.0
    x = ((a + c) ** 2 - (b + c) ** 2 + (a + b) ** 2) / (2 * (a + b))
    y = sqrt((a + c) ** 2 - x**2)
    rings = [ring(160, 450, a), ring(160 + a + b, 450, b), ring(160 + x, 450 - y, c)]
    found = panel(drawing(*rings, inside=(600, 620)))
    k = 1 / a + 1 / b + 1 / c + 2 * sqrt(1 / (a * b) + 1 / (b * c) + 1 / (c * a))
    sizes = [hole.diameter for hole in found.openings]
    assert min(abs(size - 2 / k) for size in sizes) < CLOSE  # 35.762


def test_four_rings_on_a_square_leave_root_two_less_one_of_their_radius() -> None:
    r = 60.0
    rings = [ring(x, y, r) for x in (r, 3 * r) for y in (r, 3 * r)]
    hole = at(panel(drawing(*rings, inside=(4 * r, 4 * r))), 2 * r, 2 * r)
    assert hole.diameter == pytest.approx(2 * r * (sqrt(2) - 1), abs=CLOSE)


def test_a_ring_in_a_corner_leaves_three_less_two_root_two() -> None:
    r = 100.0
    hole = at(panel(drawing(ring(r, r, r), inside=(2 * r, 2 * r))), 10, 10)
    assert hole.diameter == pytest.approx(2 * r * (3 - 2 * sqrt(2)), abs=CLOSE)  # 34.315


def test_two_rings_on_the_bottom_bar() -> None:
    big, small, h = 100.0, 50.0, 220.0
    apart = 2 * sqrt(big * small)  # they touch
    rings = [ring(big, h - big, big), ring(big + apart, h - small, small)]
    found = panel(drawing(*rings, inside=(2 * big + apart + small, h)))
    root = 1 / (1 / sqrt(big) + 1 / sqrt(small))
    middle = big + 2 * sqrt(big * root**2)
    assert at(found, middle, h - root**2).diameter == pytest.approx(2 * 17.157287525, abs=CLOSE)


def test_a_square_with_a_ring_in_its_middle_leaves_four_corners() -> None:
    found = panel(drawing(ring(100, 100, 50), inside=(200, 200)))
    # Trade fact, computed: square a less a centre disc R has corner circles of radius (a/sqrt 2 - R)/(1 + sqrt 2).
    assert at(found, 20, 20).diameter == pytest.approx(2 * (200 / sqrt(2) - 50) / (1 + sqrt(2)), abs=CLOSE)  # 75.736


@pytest.mark.parametrize(
    ("sides", "diameter"),
    [((200.0, 200.0, 200.0), 115.47005384), ((300.0, 400.0, 500.0), 200.0), ((130.0, 140.0, 150.0), 80.0)],
)
def test_a_triangle_of_bars_holds_twice_its_area_over_its_half_circumference(
    sides: tuple[float, float, float], diameter: float
) -> None:
    a, b, c = sides
    x = (b * b + c * c - a * a) / (2 * c)
    y = sqrt(b * b - x * x)
    inner = np.array([(60, 460), (60 + c, 460), (60 + x, 460 - y)])
    middle = np.array([a, b, c]) @ inner / (a + b + c)
    r = diameter / 2
    centreline = middle + (inner - middle) * (r + 3) / r  # a bar 6 mm wide all round
    data = "M" + "L".join(f"{x:.6f},{y:.6f}" for x, y in centreline) + "Z"
    hole = at(panel(drawing(data, inside=(620, 540))), float(middle[0]), float(middle[1]))
    assert hole.diameter == pytest.approx(diameter, abs=CLOSE)


def test_a_rhombus_with_diagonals_of_200_and_150_holds_a_circle_of_120() -> None:
    grown = (60 + 3) / 60
    data = f"M {150 - 100 * grown},150 L 150,{150 - 75 * grown} L {150 + 100 * grown},150 L 150,{150 + 75 * grown} Z"
    assert at(panel(drawing(data)), 150, 150).diameter == pytest.approx(120.0, abs=CLOSE)


@pytest.mark.parametrize("gap", [101.59, 101.6, 101.61])
def test_a_slot_between_two_pickets_is_as_wide_as_it_is_drawn(gap: float) -> None:
    left = 80.0
    found = panel(drawing(f"M {left - 3},0 V 400", f"M {left + gap + 3},0 V 400", inside=(260, 400)))
    assert at(found, left + gap / 2, 200).diameter == pytest.approx(gap, abs=0.002)


def test_collars_and_rivets_close_nothing_unless_the_sheet_says_so() -> None:
    block = '<g id="collars"><rect id="collar-1" x="0" y="150" width="300" height="50"/></g>'
    found = panel(drawing("M 0,50 H 300", layers=block))
    allowed = replace(SHEET, pass_through=replace(SHEET.pass_through, fasteners_are_metal=True))
    assert found.openings[0].diameter == pytest.approx(247.0, abs=CLOSE)  # 300 less 50 less half a bar
    filled = openings_of(found.frame, found.bars, found.fasteners, found.contacts, allowed)
    assert [hole.diameter for hole in filled] == pytest.approx([100.0, 97.0, 47.0], abs=CLOSE)


def test_an_open_frame_has_no_openings() -> None:
    found = panel(drawing("M 0,50 H 300"))
    assert found.frame is not None
    assert openings_of(replace(found.frame, closed=False), found.bars, (), (), SHEET) == ()
    assert openings_of(None, found.bars, (), (), SHEET) == ()


def _free(centrelines: list[NDArray[np.float64]], width: float, inside: tuple[float, float], step: float) -> object:
    """The free area inside a frame as a picture, `step` mm to the pixel: nothing of the geometry under test in it."""
    xs = np.arange(step / 2, inside[0], step)
    ys = np.arange(step / 2, inside[1], step)
    grid = np.column_stack([axis.ravel() for axis in np.meshgrid(xs, ys)])
    metal = np.zeros(len(grid), dtype=bool)
    for line in centrelines:
        dense = np.column_stack(
            [np.interp(np.linspace(0, len(line) - 1, 40_000), np.arange(len(line)), c) for c in line.T]
        )
        tree = cKDTree(dense)
        off, k = (np.asarray(found) for found in tree.query(grid, distance_upper_bound=width / 2))
        hit = np.flatnonzero(off <= width / 2)
        # A butt end adds nothing beyond its own square cut.
        first = (k[hit] == 0) & (((grid[hit] - dense[0]) @ (dense[1] - dense[0])) < 0)
        last = (k[hit] == len(dense) - 1) & (((grid[hit] - dense[-1]) @ (dense[-1] - dense[-2])) > 0)
        metal[hit[~(first | last)]] = True
    return ~metal.reshape(len(ys), len(xs))


@pytest.mark.parametrize("name", ["two_c_panel", "s_pair_panel"])
def test_a_slow_distance_transform_finds_the_same_circles_in_the_examples(name: str) -> None:
    """Twin: scipy's exact Euclidean distance transform on a 0.2 mm grid over the examples' own spirals."""
    import sys

    from tests.conftest import EXAMPLES

    sys.path.insert(0, str(EXAMPLES))
    import draw  # type: ignore[import-not-found]

    paper = getattr(draw, name)()
    found = panel(paper.svg())
    b, step = paper.frame_bar, 0.2
    inside = (paper.width - 2 * b, paper.height - 2 * b)
    scrolls = [(s.bar.line.points - found.origin) - b for s in found.scrolls]
    bars = [(one.line.points - found.origin) - b for one in found.bars]
    free = np.asarray(_free([*scrolls, *bars], paper.bar, inside, step))
    room = ndimage.distance_transform_edt(np.pad(free, 1)) * step
    for hole in found.openings:
        if hole.diameter < 10:
            continue
        x, y = hole.at[0] - found.origin[0] - b, hole.at[1] - found.origin[1] - b
        there = room[int(y / step) + 1, int(x / step) + 1]
        assert 2 * there == pytest.approx(hole.diameter, abs=3 * step)
    assert 2 * room.max() == pytest.approx(found.openings[0].diameter, abs=3 * step)


def test_the_openings_of_a_panel_turned_and_mirrored_are_the_same() -> None:
    """Rigid motions change no opening."""
    rings = [ring(80, 80, 70), ring(210, 110, 50)]
    sizes = [hole.diameter for hole in panel(drawing(*rings)).openings]
    plain = drawing(*rings).decode()
    for motion in ("translate(400 0) scale(-1 1)", "rotate(90 150 150)", "translate(300 300) rotate(180)"):
        turned = plain.replace('<g id="frame"', f'<g transform="{motion}"><g id="frame"').replace(
            "</svg>", "</g></svg>"
        )
        moved = [hole.diameter for hole in panel(turned.encode()).openings]
        assert moved == pytest.approx(sizes, abs=1e-3)


def test_every_circle_lies_in_its_opening() -> None:
    for hole in panel(drawing(ring(100, 100, 50), "M 0,220 H 300", "M 150,223 V 300")).openings:
        edge = [hole.at[0] + np.cos(a) * (hole.diameter / 2 - 0.02) for a in (0, 1, 2)]
        assert all(hole.area.holds((x, hole.at[1])) for x in edge if hypot(x - hole.at[0], 0) <= hole.diameter / 2)
