"""The largest circle in an opening against packings known in closed form, and against a distance transform.

The figures are worked from the definitions (mpmath, 30 digits); the theorems are named beside them.
"""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.ndimage import distance_transform_edt
from skimage.draw import polygon2mask

from lint.geometry.area import Area, area, disc, union
from lint.geometry.circle import MANY, largest_circle, largest_circles, reach
from lint.geometry.motion import turned_about
from tests.geometry.fair_curves import Floats

LIMIT = 101.6


def polygon(*corners: tuple[float, float]) -> Area:
    return area([np.array(corners, dtype=float)])


def box(left: float, top: float, right: float, bottom: float) -> Area:
    return polygon((left, top), (right, top), (right, bottom), (left, bottom))


def fine_disc(x: float, y: float, radius: float) -> Area:
    t = np.linspace(0, 2 * np.pi, 6001)[:-1]
    return area([np.column_stack([x + radius * np.cos(t), y + radius * np.sin(t)])])


def between_three(r1: float, r2: float, r3: float) -> Area:
    """The gap between three circles that touch one another."""
    a, b, c = r1 + r2, r1 + r3, r2 + r3
    x = (a * a + b * b - c * c) / (2 * a)
    y = float(np.sqrt(b * b - x * x))
    free = polygon((0, 0), (a, 0), (x, y))
    metal = union([fine_disc(0, 0, r1), fine_disc(a, 0, r2), fine_disc(x, y, r3)])
    return free.less(metal).parts[0]


def in_corner(radius: float) -> Area:
    return box(0, 0, radius, radius).less(fine_disc(radius, radius, radius)).parts[0]


def on_a_line(r1: float, r2: float, apart: float) -> Area:
    free = box(0, 0, apart, max(r1, r2)).less(union([fine_disc(0, r1, r1), fine_disc(apart, r2, r2)]))
    return next(part for part in free.parts if part.holds((apart * np.sqrt(r1) / (np.sqrt(r1) + np.sqrt(r2)), 0.5)))


def square_less_disc(side: float, radius: float) -> Area:
    half = side / 2
    return box(-half, -half, half, half).less(fine_disc(0, 0, radius))


PACKINGS = {
    "three equal, touching: r (2 / sqrt 3 - 1)": (between_three(100, 100, 100), 30.940107676),
    "three equal whose gap is the ball": (between_three(*[328.37636205] * 3), LIMIT),
    "Descartes' theorem (1643), 150 120 90": (between_three(150, 120, 90), 35.761957162),
    "Descartes' theorem, curvatures 23 46 69 give 6 of 1 / 6 a unit": (
        between_three(6900 / 23, 6900 / 46, 6900 / 69),
        2 * 6900 / (23 + 46 + 69 + 2 * np.sqrt(23 * 46 + 46 * 69 + 69 * 23)),
    ),
    "circle in a right corner: r (3 - 2 sqrt 2)": (in_corner(100), 34.314575051),
    "circle in a corner that just lets the ball in": (in_corner(296.08409794), LIMIT),
    "two on a line, 1/sqrt x = 1/sqrt r1 + 1/sqrt r2": (on_a_line(100, 50, 2 * np.sqrt(5000)), 2 * 17.157287525),
    "two equal on a line, r / 4": (on_a_line(80, 80, 160), 40.0),
    "four equal on a square: r (sqrt 2 - 1)": (
        box(0, 0, 200, 200).less(union([fine_disc(x, y, 100) for x in (0, 200) for y in (0, 200)])),
        2 * 41.421356237,
    ),
    "square 200 less a disc of 50": (square_less_disc(200, 50), 75.735931288),
    "square 300 less a disc of 75": (square_less_disc(300, 75), 113.60389693),
    "triangle 3-4-5": (polygon((0, 0), (300, 0), (0, 400)), 200.0),
    "triangle 13-14-15, area over half the sides": (polygon((0, 0), (140, 0), (50, 120)), 80.0),
    "equilateral of 200": (polygon((0, 0), (200, 0), (100, 100 * np.sqrt(3))), 115.47005384),
    "stair triangle 10 x 7 3/4 in": (polygon((0, 0), (254, 0), (0, 196.85)), 5.0984190711 * 25.4),
    "rhombus of diagonals 200 and 150": (polygon((100, 0), (0, 75), (-100, 0), (0, -75)), 120.0),
    "quarter disc of 100": (fine_disc(0, 0, 100).overlap(box(0, 0, 100, 100)), 2 * 41.421356237),
    "half disc of 100": (fine_disc(0, 0, 100).overlap(box(-100, 0, 100, 100)), 100.0),
    "lens of 100 and 80 at 90": (fine_disc(0, 0, 100).overlap(fine_disc(90, 0, 80)), 90.0),
    "slot": (box(0, 0, 600, LIMIT), LIMIT),
}


@pytest.mark.parametrize("name", PACKINGS)
def test_the_largest_circle_of_a_packing_is_the_closed_form(name: str) -> None:
    opening, true = PACKINGS[name]
    assert largest_circle(opening).diameter == pytest.approx(true, abs=0.02)


@pytest.mark.parametrize("accuracy", [1.0, 0.1, 0.02])
def test_the_diameter_is_within_the_accuracy_asked(accuracy: float) -> None:
    for opening, true in PACKINGS.values():
        assert largest_circle(opening, accuracy=accuracy).diameter == pytest.approx(true, abs=accuracy + 0.002)


def test_the_circle_lies_in_the_area_and_touches_its_edge() -> None:
    for opening, _ in PACKINGS.values():
        found = largest_circle(opening)
        around = disc(found.x, found.y, found.diameter / 2 - 0.01)
        assert around.less(opening).size < 1e-6


def straight_openings() -> list[tuple[Area, float]]:
    return [PACKINGS[name] for name in PACKINGS if "triangle 3" in name or "rhombus" in name or name == "slot"]


@pytest.mark.parametrize("turn", [0.0, 0.3, 2.0])
def test_between_straight_walls_the_figure_is_exact(turn: float) -> None:
    motion = turned_about(turn, True, np.zeros(2), np.array([1234.5, -77.0]))
    for opening, true in straight_openings():
        moved = area([motion.apply(np.array(ring)) for ring in opening.rings])
        assert largest_circle(moved).diameter == pytest.approx(true, abs=1e-6)


def raster_diameter(opening: Area, pixel: float) -> float:
    """Twice the largest distance from a pixel's middle to a pixel outside, less half a pixel at either end."""
    left, top, right, bottom = opening.extent
    shape = (int((bottom - top) / pixel) + 4, int((right - left) / pixel) + 4)
    mask = np.zeros(shape, dtype=bool)
    for ring in opening.rings:
        points = (np.array(ring)[:, ::-1] - [top, left]) / pixel + 1.5
        mask ^= polygon2mask(shape, points)  # type: ignore[no-untyped-call]
    return float((2 * distance_transform_edt(mask).max() - 1) * pixel)


@settings(max_examples=8, deadline=None)
@given(st.integers(0, 2**31))
def test_random_openings_agree_with_a_distance_transform(seed: int) -> None:
    """scikit-image's raster and scipy's Euclidean distance transform: within two pixels. The corners are never so close
    together that a spike between them slips through the raster."""
    rng = np.random.default_rng(seed)
    t = (np.arange(30) + rng.uniform(0.2, 0.8, 30)) * 2 * np.pi / 30
    r = 100 + rng.uniform(-60, 40, 30)
    field = area([np.column_stack([r * np.cos(t), r * np.sin(t)])])
    holes = union([disc(float(x), float(y), 12) for x, y in rng.uniform(-70, 70, (3, 2))])
    opening = field.less(holes).parts[0]
    assert largest_circle(opening).diameter == pytest.approx(raster_diameter(opening, 0.4), abs=1.2)


def test_many_at_once_are_each_as_alone() -> None:
    openings = [opening for opening, _ in PACKINGS.values()]
    together = largest_circles(openings)
    for one, found in zip(openings, together, strict=True):
        assert found.diameter == pytest.approx(largest_circle(one).diameter, abs=0.02)
    assert largest_circles([]) == ()


def test_a_long_slot_with_jagged_walls_is_measured_and_does_not_hang() -> None:
    x = np.linspace(0, 2000, 4001)
    jag = 2 * (np.arange(4001) % 2)
    walls = np.concatenate([np.column_stack([x, -jag]), np.column_stack([x, 40.0 + jag])[::-1]])
    assert largest_circle(area([walls])).diameter == pytest.approx(40.0, abs=0.2)


def test_of_two_parts_the_roomier_one_holds_the_circle() -> None:
    rooms = union([box(0, 0, 50, 80), box(200, 0, 260, 70), box(0, 200, 1, 201)])
    found = largest_circle(rooms)
    assert found.diameter == pytest.approx(60, abs=1e-6)
    assert rooms.depth() == pytest.approx(60, abs=1e-6)
    assert 200 < found.x < 260


def test_an_empty_area_holds_no_circle() -> None:
    with pytest.raises(ValueError, match="empty"):
        largest_circle(area([]))


@pytest.mark.parametrize("turn", [0.0, 0.3, 1.1])
@pytest.mark.parametrize(("clear", "fits"), [(LIMIT, True), (101.59, False), (101.61, True), (LIMIT - 1e-5, False)])
def test_a_ball_goes_through_a_slot_of_exactly_its_size_and_not_through_less(
    turn: float, clear: float, fits: bool
) -> None:
    """The strictness set of the sphere rules: 4 in is 101.6 mm, a slot of exactly that lets the ball through."""
    motion = turned_about(turn, False, np.zeros(2), np.array([310.0, 45.0]))
    slot = area([motion.apply(np.array([[0, 0], [300, 0], [300, clear], [0, clear]]))])
    assert bool(reach(slot, LIMIT)) == fits


def test_a_square_of_the_balls_size_has_a_pocket_of_one_point() -> None:
    pockets = reach(box(0, 0, LIMIT, LIMIT), LIMIT)
    assert len(pockets) == 1
    assert pockets[0].holds((LIMIT / 2, LIMIT / 2))
    assert pockets[0].size < 0.001


def test_two_pockets_of_one_opening_are_two_places() -> None:
    dumbbell = union([box(0, 0, 150, 150), box(150, 60, 400, 80), box(400, 0, 520, 140)])
    first, second = reach(dumbbell, LIMIT)
    y = np.linspace(0, 10, 1001)  # at the mouth the ball's centre reaches in between the two corners
    mouth = 2 * np.trapezoid(LIMIT / 2 - np.sqrt((LIMIT / 2) ** 2 - y**2), y)
    assert first.size == pytest.approx((150 - LIMIT) ** 2 + mouth, rel=1e-4)
    assert second.size == pytest.approx((120 - LIMIT) * (140 - LIMIT) + mouth, rel=1e-3)
    assert reach(dumbbell, 151.0) == ()


def test_where_the_centre_of_a_ball_can_be_in_a_round_opening() -> None:
    (pocket,) = reach(fine_disc(0, 0, 100), LIMIT)
    assert pocket.size == pytest.approx(np.pi * (100 - LIMIT / 2) ** 2, rel=1e-3)


def annulus_points(count: int) -> Floats:
    t = np.linspace(0, 2 * np.pi, count + 1)[:-1]
    return np.column_stack([np.cos(t), np.sin(t)])


def test_a_ring_between_two_walls_has_their_distance() -> None:
    ring = area([100 * annulus_points(2000), 80 * annulus_points(2000)])
    assert largest_circle(ring).diameter == pytest.approx(20.0, abs=0.02)


def with_points(opening: Area, step: float) -> Area:
    """The same area with a point every `step` mm of its edge, as a tracing has it."""
    return area([ring.resampled(step).points for ring in (*opening.outer, *opening.holes)])


def test_an_opening_of_many_points_has_the_same_pockets() -> None:
    """Two squares of 300 joined by a slot that the circle does not pass: (300 - 100) squared each, within the sagittas
    of 0.005 mm that its steps leave along 800 mm."""
    pair = with_points(union([box(0, 0, 300, 300), box(299, 149, 501, 151), box(500, 0, 800, 300)]), 0.5)
    assert len(pair.corners) > MANY
    pockets = reach(pair, 100)
    assert [pocket.size for pocket in pockets] == pytest.approx([200.0**2] * 2, abs=0.02 * 800)


def test_a_circle_that_just_fits_is_found_in_a_slot_of_many_points() -> None:
    (pocket,) = reach(with_points(box(0, 0, 900, 100), 0.5), 100)
    left, top, right, bottom = pocket.extent
    assert right - left == pytest.approx(800, abs=0.1)
    assert bottom - top < 0.03
    assert reach(with_points(box(0, 0, 900, 99.99), 0.5), 100) == ()


def test_the_jags_of_an_edge_take_no_more_from_a_pocket_than_they_reach() -> None:
    """Every place 150 mm and more from the edge of a jagged disc of 200 to 200.2 mm lies within 50.2 mm of its middle,
    and all within 50 mm of it are such places."""
    t = np.linspace(0, 2 * np.pi, 8000, endpoint=False)
    r = 200 + 0.2 * np.random.default_rng(3).uniform(0, 1, 8000)
    (pocket,) = reach(area([np.column_stack([r * np.cos(t), r * np.sin(t)])]), 300)
    far = np.hypot(*pocket.corners.T)
    assert far.min() > 50 - 0.02
    assert far.max() < 50.2 + 0.02
