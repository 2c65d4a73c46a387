"""Lines, circles and motions by least squares against constructions and a general minimiser."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import least_squares
from scipy.spatial import procrustes

from lint.geometry.fitting import crossing, fit_circle, fit_line
from lint.geometry.motion import best_motion, turned_about
from tests.geometry.fair_curves import Floats


@pytest.mark.parametrize(("radius", "span"), [(6.0, 90.0), (100.0, 20.0), (40.0, 350.0)])
def test_points_on_a_circle_give_back_the_circle(radius: float, span: float) -> None:
    t = np.radians(np.linspace(0, span, 40))
    found = fit_circle(np.column_stack([500 + radius * np.cos(t), -70 + radius * np.sin(t)]))
    assert (found.x, found.y, found.radius) == pytest.approx((500, -70, radius), abs=1e-8)
    assert found.off < 1e-8


@pytest.mark.parametrize("noise", [0.01, 0.1])
def test_a_noisy_arc_gives_the_circle_of_the_least_true_distances(noise: float) -> None:
    """scipy's general least squares on the distances is the second witness."""
    rng = np.random.default_rng(4)
    t = np.radians(np.linspace(0, 90, 60))
    points = np.column_stack([6 * np.cos(t), 6 * np.sin(t)]) + rng.normal(0, noise, (60, 2))
    found = fit_circle(points)

    def off(v: Floats) -> Floats:
        gaps: Floats = np.hypot(points[:, 0] - v[0], points[:, 1] - v[1]) - v[2]
        return gaps

    twin = least_squares(off, [0.0, 0.0, 6.0]).x
    assert (found.x, found.y, found.radius) == pytest.approx(tuple(twin), abs=0.15 * noise)


def test_points_on_a_line_are_no_circle_and_two_are_too_few() -> None:
    with pytest.raises(ValueError, match="line"):
        fit_circle(np.column_stack([np.arange(9.0), 2 * np.arange(9.0)]))
    with pytest.raises(ValueError, match="three"):
        fit_circle(np.array([[0.0, 0.0], [1.0, 1.0]]))
    with pytest.raises(ValueError, match="apart"):
        fit_circle(np.zeros((5, 2)))


@given(st.floats(-1.5, 1.5), st.floats(-300, 300))
@settings(max_examples=40, deadline=None)
def test_points_on_a_line_give_back_the_line(angle: float, shift: float) -> None:
    way = np.array([np.cos(angle), np.sin(angle)])
    points = np.linspace(-50, 80, 30)[:, None] * way + [shift, -shift]
    found = fit_line(points)
    assert abs(found.along[0] * way[1] - found.along[1] * way[0]) < 1e-9
    assert found.off < 1e-9


def test_two_sides_of_a_frame_cross_in_its_corner() -> None:
    level = fit_line(np.array([[10.0, 5.0], [400.0, 5.0]]))
    leaning = fit_line(np.array([[20.0, 40.0], [20.0 + 300 * np.tan(np.radians(0.5)), 340.0]]))
    at = crossing(level, leaning)
    assert at is not None
    assert at == pytest.approx((20 - 35 * np.tan(np.radians(0.5)), 5))
    assert crossing(level, fit_line(np.array([[0.0, 9.0], [50.0, 9.0]]))) is None


@given(st.floats(-3.1, 3.1), st.booleans(), st.integers(0, 2**31))
@settings(max_examples=40, deadline=None)
def test_a_moved_copy_is_laid_on_exactly(angle: float, over: bool, seed: int) -> None:
    points = np.random.default_rng(seed).normal(0, 100, (20, 2))
    motion = turned_about(angle, over, np.array([3.0, 4.0]), np.array([300.0, -20.0]))
    assert motion.turned_over == over
    found = best_motion(points, motion.apply(points), over)
    assert np.abs(found.apply(points) - motion.apply(points)).max() < 1e-9


def test_the_residual_is_that_of_scipys_procrustes() -> None:
    """scipy.spatial.procrustes (both faces, scaled to unit size) as second witness: for sets of equal size the best of
    our two motions leaves the same share. disparity = 1 - scale^2 there; without scaling the residual is
    2 (1 - scale)."""
    rng = np.random.default_rng(1)
    a = rng.normal(0, 1, (30, 2))
    b = a @ np.array([[0.0, 1.0], [1.0, 0.0]]) + rng.normal(0, 0.1, (30, 2))
    a, b = ((x - x.mean(axis=0)) / np.linalg.norm(x - x.mean(axis=0)) for x in (a, b))
    _, _, disparity = procrustes(a, b)
    residual = min(((best_motion(a, b, over).apply(a) - b) ** 2).sum() for over in (False, True))
    assert residual == pytest.approx(2 * (1 - np.sqrt(1 - disparity)), rel=1e-9)
