"""Overlay distance against known offsets, invariance, and a slow minimiser (scipy) as a twin."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import minimize
from scipy.spatial import cKDTree

from lint.geometry.curve import Curve, curve
from lint.geometry.motion import Motion, turned_about
from lint.geometry.overlay import gap_between, overlay, own_symmetry, signature
from tests.geometry.fair_curves import FAIR, Floats, arcs, by_curvature, c_bend, s_bend, sampled

C = sampled(FAIR["C scroll"], 3.0)
S = sampled(FAIR["S scroll"], 3.0)
ELSEWHERE = turned_about(2.2, True, np.array([10.0, 20.0]), np.array([300.0, -40.0]))


def moved(line: Curve, motion: Motion = ELSEWHERE) -> Curve:
    return curve(motion.apply(line.points), line.closed)


def circle(radius: float, start: float = 0.0, count: int = 400) -> Curve:
    t = np.linspace(0, 2 * np.pi, count + 1)[:-1] + start
    return curve(radius * np.column_stack([np.cos(t), np.sin(t)]), closed=True)


def ellipse(a: float, b: float, start: float) -> Curve:
    t = np.linspace(0, 2 * np.pi, 601)[:-1] + start
    return curve(np.column_stack([a * np.cos(t), b * np.sin(t)]), closed=True)


@settings(max_examples=25, deadline=None)
@given(st.floats(-3.2, 3.2), st.booleans(), st.booleans(), st.sampled_from(["C scroll", "S scroll", "golden"]))
def test_congruent_curves_cover_one_another_turned_turned_over_or_reversed(
    angle: float, over: bool, back: bool, name: str
) -> None:
    line = sampled(FAIR[name], 3.0)
    other = moved(line, turned_about(angle, over, np.zeros(2), np.array([500.0, -300.0])))
    found = overlay(line, other.reversed() if back else other)
    assert found.distance < 1e-6
    assert found.exact
    assert gap_between(moved(line, found.motion), other)[0] < 1e-6


@pytest.mark.parametrize("start", [0.0, 0.4, 2.0])
def test_the_start_point_of_a_closed_curve_does_not_matter(start: float) -> None:
    assert overlay(ellipse(100, 60, 0.0), moved(ellipse(100, 60, start))).distance < 0.02


def test_the_splitting_of_the_path_does_not_matter() -> None:
    fine = sampled(FAIR["C scroll"], 0.5)
    more = curve(np.concatenate([fine.points[:400:3], fine.points[400:]]))
    assert overlay(fine, moved(more)).distance < 0.05  # the sagitta of 1.5 mm chords where the curl has a radius of 21


@pytest.mark.parametrize("offset", [0.5, 2.0, 4.0])
def test_concentric_circles_are_as_far_apart_as_their_radii(offset: float) -> None:
    found = overlay(circle(100), circle(100 + offset, 0.3))
    assert found.distance == pytest.approx(offset, abs=0.02)


@pytest.mark.parametrize("longer", [1.0, 4.0])
def test_a_straight_bar_longer_by_some_is_off_by_half_of_it_at_either_end(longer: float) -> None:
    short, long = (curve(np.array([[0.0, 0.0], [length, 0.0]])) for length in (300.0, 300.0 + longer))
    assert overlay(short, moved(long)).distance == pytest.approx(longer / 2, abs=0.02)


def test_the_distance_is_to_the_curve_and_not_to_its_vertices() -> None:
    few = curve(np.array([[0.0, 0.0], [300.0, 0.0]]))
    many = curve(np.column_stack([np.linspace(0, 300, 61), np.zeros(61)]))
    assert overlay(few, many).distance < 1e-6
    bent = curve(np.array([[0.0, 0.0], [150.0, 3.0], [300.0, 0.0]]))
    assert gap_between(few, bent)[0] == pytest.approx(3.0, abs=1e-6)


def dense(line: Curve) -> Floats:
    return line.resampled(0.2).points


def twin(a: Curve, b: Curve) -> float:
    """The least largest gap by Nelder-Mead from near the answer and from shaken starts, on points 0.2 mm apart."""
    here, there = dense(a), dense(b)
    middle = here.mean(axis=0)
    tree, back = cKDTree(there), cKDTree(here)
    first = overlay(a, b).motion
    over = first.turned_over

    def largest(v: Floats) -> float:
        motion = turned_about(float(v[0]), over, middle, middle + v[1:])
        away = (there - motion.shift) @ motion.matrix
        return max(float(np.max(tree.query(motion.apply(here))[0])), float(np.max(back.query(away)[0])))

    angle = np.arctan2(first.matrix[1, 0], first.matrix[0, 0])
    start = np.array([angle, *(first.apply(middle[None])[0] - middle)])
    rng = np.random.default_rng(0)
    best = np.inf
    for shake in (0.0, 1.0):
        at = start + shake * rng.normal(0, [0.01, 1, 1])
        for size in (1.0, 0.1):
            simplex = at + size * np.array([[0, 0, 0], [0.02, 0, 0], [0, 2, 0], [0, 0, 2]])
            options = {"xatol": 1e-6, "fatol": 1e-5, "maxiter": 150, "initial_simplex": simplex}
            at = minimize(largest, at, method="Nelder-Mead", options=options).x  # type: ignore[call-overload]
        best = min(best, largest(at))
    return best


def stretched(bend: Callable[[Floats], Floats], share: float) -> Curve:
    return sampled(by_curvature(lambda s: bend(s) * (1 + share * np.sin(s / 130)), 900), 3.0)


NEAR = {
    "a C drawn a little otherwise": (C, stretched(c_bend, 0.01)),
    "an S drawn a little otherwise": (S, stretched(s_bend, 0.01)),
    "a C of 101 %": (C, curve(C.points * 1.01)),
    "a C cut short by 4 mm": (C, C.piece(4, C.length)),
    "an arc of another radius": (sampled(arcs((100, 300)), 3.0), sampled(arcs((103, 300)), 3.0)),
}


@pytest.mark.parametrize("name", NEAR)
def test_the_distance_of_a_near_pair_is_that_of_a_slow_minimiser(name: str) -> None:
    a, b = NEAR[name]
    other = moved(b)
    found = overlay(a, other)
    slow = twin(a, other)
    assert found.distance <= max(1.02 * slow, slow + 0.02)
    assert found.distance >= slow - 0.03  # the twin's points, 0.2 mm apart, see up to so much more
    assert gap_between(moved(a, found.motion), other)[0] == pytest.approx(found.distance, abs=0.02)


def test_the_ends_of_the_largest_gap_lie_on_the_two_curves() -> None:
    a, b = NEAR["a C drawn a little otherwise"]
    found = overlay(a, b)
    assert np.hypot(*np.subtract(found.on_moving, found.on_fixed)) == pytest.approx(found.distance)
    assert moved(a, found.motion).nearest(found.on_moving)[1] < 1e-6
    assert b.nearest(found.on_fixed)[1] < 1e-6


@pytest.mark.parametrize("name", ["a C drawn a little otherwise", "an arc of another radius"])
def test_which_curve_is_moved_and_which_way_it_runs_do_not_matter(name: str) -> None:
    a, b = NEAR[name]
    there = overlay(a, b).distance
    for one, other in ((b, a), (a.reversed(), b), (moved(a), b.reversed())):
        assert overlay(one, other).distance == pytest.approx(there, rel=0.02, abs=0.02)


@pytest.mark.parametrize("other", [S, curve(C.points * 1.2), sampled(arcs((60, 300)), 3.0)])
def test_another_scroll_is_over_the_limit_and_said_to_be_an_upper_bound(other: Curve) -> None:
    found = overlay(C, other)
    assert found.distance > 5
    assert not found.exact


def test_an_s_has_its_half_turn_and_a_c_its_axis_and_not_the_other_way() -> None:
    assert own_symmetry(S, half_turn=True) < 0.1
    assert own_symmetry(C, half_turn=False) < 0.1
    assert own_symmetry(C, half_turn=True) > 5
    lame = sampled(by_curvature(lambda s: c_bend(s) * np.where(s > 450, 1.05, 1.0), 900), 3.0)
    assert own_symmetry(lame, half_turn=False) > 1


@settings(max_examples=25, deadline=None)
@given(st.floats(-3.2, 3.2), st.integers(0, 2**31))
def test_a_symmetry_within_rounding_is_the_gap_from_the_mirror_image(angle: float, seed: int) -> None:
    """A C is drawn about the axis x = 0, its points rounded by some thousandths as a file rounds them: what it is laid
    on by least squares or a search is about as near as its image in that axis: within twice the rounding."""
    half = np.column_stack([80 * np.sin(t := np.linspace(0.0, 4.0, 90)), -80 * np.cos(t)])
    drawn = np.concatenate([(half * [-1, 1])[:0:-1], half])
    line = curve(drawn + np.random.default_rng(seed).uniform(-0.002, 0.002, drawn.shape))
    mirrored = gap_between(curve(line.points * [-1, 1]), line)[0]
    found = own_symmetry(moved(line, turned_about(angle, False, np.zeros(2), np.array([40.0, 9.0]))), half_turn=False)
    assert 0.3 * mirrored < found <= mirrored + 0.004


@settings(max_examples=25, deadline=None)
@given(st.floats(-3.2, 3.2), st.booleans(), st.booleans())
def test_no_motion_changes_a_signature(angle: float, over: bool, back: bool) -> None:
    other = moved(C, turned_about(angle, over, np.zeros(2), np.array([77.0, 5.0])))
    assert signature(other.reversed() if back else other) == pytest.approx(signature(C), abs=1e-9)


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 2**31), st.floats(0.01, 5))
def test_curves_within_a_distance_have_signatures_within_it(seed: int, size: float) -> None:
    """The corners of a hull are points of its curve: hulls are as near as those are to the other curve. (A gap sampled
    on equal steps may miss some of so jagged a curve's.)"""
    rng = np.random.default_rng(seed)
    shaken = curve(C.points + rng.uniform(-size, size, C.points.shape))
    distance = max(b.nearest(point)[1] for a, b in ((C, shaken), (shaken, C)) for point in a.points)
    for a, b in zip(signature(C), signature(shaken), strict=True):
        assert abs(a - b) <= distance + 1e-9


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 2**31), st.integers(4, 60))
def test_a_signature_has_the_farthest_points_and_the_narrowest_gauge(seed: int, count: int) -> None:
    """The slow twin: all pairs of points, and the spread of all points across every line through two of them."""
    points = np.random.default_rng(seed).normal(size=(count, 2)) * [90, 40]
    between = (points[:, None] - points).reshape(-1, 2)
    far = np.hypot(*between.T)
    across = points @ (between[far > 0] / far[far > 0, None] @ [[0, 1], [-1, 0]]).T
    half, gauge, _ = signature(curve(points))
    assert half == pytest.approx(far.max() / 2)
    assert gauge == pytest.approx((across.max(axis=0) - across.min(axis=0)).min() / 2)


def test_the_signature_of_a_rectangle_is_half_its_diagonal_and_half_its_side() -> None:
    box = curve(np.array([[0.0, 0.0], [40.0, 0.0], [40.0, 30.0], [0.0, 30.0]]), closed=True)
    for angle in (0.0, 0.3, 1.1, 2.9):
        turned = moved(box, turned_about(angle, False, np.zeros(2), np.zeros(2)))
        assert signature(turned) == pytest.approx((25, 15, 140 / (2 * np.pi)))


def test_the_signature_of_a_circle_is_its_radius_three_times() -> None:
    assert signature(circle(50, count=3600)) == pytest.approx((50, 50, 50), rel=1e-5)
