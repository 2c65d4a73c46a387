"""Areas and bands against closed forms, SVG's fill and stroke rules, and slow twins."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lint.geometry.area import area, disc, union
from lint.geometry.band import band, bands
from lint.geometry.curve import Curve, curve
from tests.geometry.fair_curves import FAIR, Floats, sampled

SQUARE = np.array([[0, 0], [100, 0], [100, 100], [0, 100]], dtype=float)
HOLE = np.array([[20, 20], [80, 20], [80, 80], [20, 80]], dtype=float)


def line(*points: tuple[float, float], closed: bool = False) -> Curve:
    return curve(np.array(points, dtype=float), closed)


def test_nested_rings_are_a_hole_by_evenodd_and_metal_by_nonzero() -> None:
    assert area([SQUARE, HOLE]).size == pytest.approx(6400)
    assert area([SQUARE, HOLE], evenodd=False).size == pytest.approx(10000)
    assert area([SQUARE, HOLE[::-1]], evenodd=False).size == pytest.approx(6400)


def test_a_ring_that_crosses_itself_is_mended_by_the_fill_rule() -> None:
    """A five-pointed star drawn in one line: its middle is empty by evenodd, full by nonzero (SVG 1.1, 11.3). The
    middle pentagon of a star of radius 1 has the area of a pentagon of radius 1 / phi^2."""
    t = np.arange(5) * 4 * np.pi / 5
    star = [np.column_stack([np.cos(t), np.sin(t)])]
    phi = (1 + np.sqrt(5)) / 2
    pentagon = 2.5 * np.sin(np.radians(72)) / phi**4
    evenodd, nonzero = area(star), area(star, evenodd=False)
    assert nonzero.size - evenodd.size == pytest.approx(pentagon)
    assert len(evenodd.parts) == 5


@pytest.mark.parametrize(
    "ring", [np.zeros((5, 2)), np.array([[0.0, 0], [10, 0]]), np.array([[0.0, 0], [10, 0], [20, 0]])]
)
def test_a_ring_that_encloses_nothing_is_an_empty_area(ring: Floats) -> None:
    assert area([ring]).empty


@pytest.mark.parametrize("wrong", [np.nan, np.inf, -np.inf])
def test_numbers_that_are_not_finite_are_refused_and_not_handed_on(wrong: float) -> None:
    with pytest.raises(ValueError, match="finite"):
        area([np.array([[0, 0], [1, 0], [wrong, 1]])])
    with pytest.raises(ValueError):
        disc(wrong, 0, 10)
    with pytest.raises(ValueError):
        area([SQUARE]).grown(wrong)
    with pytest.raises(ValueError):
        band(line((0, 0), (10, 0)), wrong)
    with pytest.raises(ValueError):
        band(line((0, 0), (10, 0)), np.array([5, wrong]))


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 2**31), st.booleans())
def test_a_scribbled_ring_is_filled_as_counting_the_crossings_of_a_ray_says(seed: int, evenodd: bool) -> None:
    """Slow twin: for each of 200 points, each edge by itself."""
    rng = np.random.default_rng(seed)
    ring = rng.uniform(0, 100, (9, 2))
    filled = area([ring], evenodd)
    for x, y in rng.uniform(0, 100, (200, 2)):
        turns = 0
        for (ax, ay), (bx, by) in zip(ring, np.roll(ring, -1, axis=0), strict=True):
            if (ay <= y) != (by <= y) and ax + (y - ay) / (by - ay) * (bx - ax) > x:
                turns += 1 if by > ay else -1
        assert filled.holds((x, y)) == (turns % 2 != 0 if evenodd else turns != 0)


@pytest.mark.parametrize("radius", [0.5, 5.0, 50.0, 500.0])
def test_a_disc_has_the_area_of_its_circle_and_its_edge_within_five_thousandths(radius: float) -> None:
    made = disc(7, -3, radius)
    assert made.size == pytest.approx(np.pi * radius**2, rel=1e-9)
    ring = np.array(made.rings[0]) - [7, -3]
    middles = (ring + np.roll(ring, 1, axis=0)) / 2
    assert np.abs(np.hypot(*ring.T) - radius).max() < 0.005
    assert np.abs(np.hypot(*middles.T) - radius).max() < 0.005


def test_growing_a_square_rounds_its_corners() -> None:
    grown = area([SQUARE]).grown(10)
    assert grown.size == pytest.approx(100 * 100 + 4 * 100 * 10 + np.pi * 100, rel=2e-4)
    assert area([SQUARE]).grown(-10).size == pytest.approx(80 * 80)
    assert area([SQUARE]).grown(-50.1).empty


def test_two_discs_share_a_lens() -> None:
    """Lens of radii 100 and 80 at 90: width R1 + R2 - d = 90; area by the two circular segments."""
    d, r1, r2 = 90.0, 100.0, 80.0
    a1, a2 = (np.arccos((d * d + r * r - s * s) / (2 * d * r)) for r, s in ((r1, r2), (r2, r1)))
    segment = r1**2 * (a1 - np.sin(2 * a1) / 2) + r2**2 * (a2 - np.sin(2 * a2) / 2)
    lens = disc(0, 0, r1).overlap(disc(d, 0, r2))
    assert lens.size == pytest.approx(segment, rel=1e-4)
    assert lens.depth() == pytest.approx(90, abs=0.03)
    assert disc(0, 0, 10).distance(disc(25, 0, 10)) == pytest.approx(5, abs=0.01)


def test_an_empty_area_answers_with_an_error_where_there_is_no_answer() -> None:
    nothing = area([])
    assert nothing.size == 0
    assert [*nothing.parts, *nothing.outer, *nothing.holes, *nothing.rings] == []
    assert nothing.depth() == 0
    for question in (lambda: nothing.extent, lambda: nothing.inside_point, lambda: nothing.distance(disc(0, 0, 1))):
        with pytest.raises(ValueError, match="empty"):
            question()


def test_the_inside_point_of_a_thin_ring_is_in_its_metal() -> None:
    ring = area([SQUARE, np.array([[1, 1], [99, 1], [99, 99], [1, 99]], dtype=float)])
    assert ring.holds(ring.inside_point)


@pytest.mark.parametrize("width", [3.0, 12.0])
def test_the_metal_of_a_spiral_is_its_length_times_its_width(width: float) -> None:
    """Pappus: the band about a curve, its ends square, has length times width where no two turns meet."""
    for name in ("golden", "three arcs", "S scroll"):
        spiral = sampled(FAIR[name], 1.0)
        assert band(spiral, width).size == pytest.approx(spiral.length * width, rel=1e-9)


def test_a_butt_cap_adds_no_metal_a_square_one_half_a_width_and_a_round_one_half_a_disc() -> None:
    bar = line((0, 0), (100, 0))
    assert band(bar, 10).size == pytest.approx(1000)
    assert band(bar, 10, cap="square").size == pytest.approx(1100)
    assert band(bar, 10, cap="round").size == pytest.approx(1000 + np.pi * 25, rel=1e-3)
    with pytest.raises(ValueError, match="cap"):
        band(bar, 10, cap="pointed")


def test_the_corner_of_a_frame_is_mitred_and_without_square_corners_rounded() -> None:
    frame = line((0, 0), (100, 0), (100, 50), (0, 50), closed=True)
    assert band(frame, 10).size == pytest.approx(110 * 60 - 90 * 40)
    assert band(frame, 10, square_corners=False).size == pytest.approx(
        110 * 60 - 90 * 40 - 4 * (25 - np.pi * 25 / 4), rel=1e-4
    )
    assert len(band(frame, 10).holes) == 1


def test_turns_that_overlap_are_one_area_without_holes() -> None:
    tight = sampled(FAIR["Archimedes"], 1.0)  # its turns lie 50 mm apart
    wide = band(tight, 60)
    assert len(wide.parts) == 1
    assert wide.size < 60 * tight.length


@pytest.mark.parametrize("cap", ["butt", "round", "square"])
def test_a_tapered_bar_of_even_widths_is_the_plain_band(cap: str) -> None:
    for spiral in (sampled(FAIR["golden"], 1.0), sampled(FAIR["Archimedes"], 2.0)):
        for width in (8.0, 60.0):
            plain = band(spiral, width, cap=cap)
            tapered = band(spiral, np.full(len(spiral.points), width), cap=cap)
            assert plain.less(tapered).size + tapered.less(plain).size < 5e-3 * plain.size


def test_a_taper_to_a_point_is_a_triangle_and_a_trapezoid() -> None:
    assert band(line((0, 0), (100, 0)), np.array([12.0, 0.0])).size == pytest.approx(600)
    assert band(line((0, 0), (100, 0)), np.array([12.0, 4.0])).size == pytest.approx(800)
    with pytest.raises(ValueError, match="widths"):
        band(line((0, 0), (100, 0)), np.array([12.0]))


@pytest.mark.parametrize("times", [3, 2001])
def test_a_bar_drawn_to_and_fro_is_the_bar_and_does_not_hang(times: int) -> None:
    to_and_fro = line(*[((0.0, 0.0), (100.0, 0.0))[k % 2] for k in range(times)])
    assert band(to_and_fro, 5).size == pytest.approx(500, rel=1e-6)


@pytest.mark.filterwarnings("error")
@pytest.mark.parametrize("off", [0.0, 1e-16])
def test_a_closed_line_that_runs_back_on_itself_is_the_bar_and_no_warning(off: float) -> None:
    to_and_fro = curve(np.array([(0, 0), (100, 0), (50, off)]), closed=True)
    assert band(to_and_fro, 3).size == pytest.approx(300, abs=0.1)


def test_a_scribble_is_widened_as_its_chords_one_by_one() -> None:
    """Slow twin: the union of the chords' own bands; they differ by the mitres at most, which are small here."""
    rng = np.random.default_rng(2)
    points = rng.uniform(0, 300, (150, 2))
    whole = band(curve(points), 6)
    chords = union([band(curve(points[k : k + 2]), 6) for k in range(149)])
    assert chords.less(whole).size < 1e-6
    assert whole.size == pytest.approx(chords.size, rel=0.03)


def test_bands_are_each_as_alone() -> None:
    lines = [sampled(FAIR[name], 2.0) for name in ("golden", "arc", "S scroll")]
    caps = ["butt", "round", "butt"]
    for made, one, width, cap in zip(bands(lines, [6, 8, 10], caps), lines, (6, 8, 10), caps, strict=True):
        assert made.size == pytest.approx(band(one, width, cap=cap).size, rel=1e-6)
    assert bands([], [], []) == ()


def test_the_depth_of_several_parts_is_that_of_the_deepest() -> None:
    """A bar laid across a ring shares two pieces with it, one as wide as the ring, one cut short."""
    ring = area([SQUARE, np.array([[10, 10], [80, 10], [80, 90], [10, 90]], dtype=float)])
    across = area([np.array([[-5, 30], [92, 30], [92, 70], [-5, 70]], dtype=float)])
    shared = ring.overlap(across)
    assert len(shared.parts) == 2
    assert shared.depth() == pytest.approx(12, abs=0.02)
    assert shared.holds(shared.inside_point)
