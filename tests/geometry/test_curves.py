"""Chains and curves against closed forms."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.special import fresnel

from lint.geometry.chain import Chain
from lint.geometry.curve import Curve, curve
from tests.geometry.fair_curves import FAIR, by_curvature, by_radius, involute

QUARTER = 4 * (np.sqrt(2) - 1) / 3


def quarter_circle(radius: float) -> Chain:
    points = radius * np.array([[1, 0], [1, QUARTER], [QUARTER, 1], [0, 1]])
    return Chain(points[None], False)


@pytest.mark.parametrize("accuracy", [0.1, 0.01, 0.001])
def test_a_cubic_quarter_circle_has_the_length_worked_from_its_definition(accuracy: float) -> None:
    """1.5710166981 R against the circle's 1.5707963268 R: worked with mpmath from the cubic's definition."""
    line = quarter_circle(100).flattened(accuracy)
    assert line.length == pytest.approx(157.10166981, rel=3 * accuracy / 100)
    assert line.length < 157.10166981


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.tuples(st.floats(-500, 500), st.floats(-500, 500)), min_size=4, max_size=4, unique=True),
    st.sampled_from([1.0, 0.1, 0.01]),
)
def test_no_chord_leaves_the_cubic_by_more_than_the_accuracy(
    points: list[tuple[float, float]], accuracy: float
) -> None:
    cubic = np.array([points])
    line = Chain(cubic, False).flattened(accuracy)
    t = np.linspace(0, 1, 400)[:, None]
    u = 1 - t
    true = u**3 * cubic[0, 0] + 3 * u * u * t * cubic[0, 1] + 3 * u * t * t * cubic[0, 2] + t**3 * cubic[0, 3]
    assert max(line.nearest(point)[1] for point in true) <= accuracy * (1 + 1e-9)


def test_a_straight_piece_is_one_chord() -> None:
    straight = np.array([[0, 0], [100, 30], [200, 60], [300, 90]], dtype=float)
    assert len(Chain(straight[None], False).flattened(0.001).points) == 2


def test_a_chain_under_an_affine_matrix_is_the_curve_of_its_moved_points() -> None:
    matrix = np.array([[0.5, -0.2, 10], [0.3, 2.0, -5]])
    moved = quarter_circle(10).transformed(matrix).flattened(0.001)
    assert moved.points[0] == pytest.approx(matrix[:, :2] @ [10, 0] + matrix[:, 2])
    assert moved.points[-1] == pytest.approx(matrix[:, :2] @ [0, 10] + matrix[:, 2])


@pytest.mark.parametrize("wrong", [np.nan, np.inf])
def test_numbers_that_are_not_finite_are_refused(wrong: float) -> None:
    cubic = quarter_circle(10).cubics.copy()
    cubic[0, 1, 0] = wrong
    with pytest.raises(ValueError, match="finite"):
        Chain(cubic, False).flattened(0.01)
    with pytest.raises(ValueError, match="finite"):
        curve(np.array([[0, 0], [wrong, 1]]))


def test_a_chain_beyond_all_measure_keeps_to_its_bound_of_chords() -> None:
    ends_and_tips = 3
    assert len((Chain(quarter_circle(1e12).cubics, False).flattened(0.001)).points) == (1 << 14) + ends_and_tips


def test_a_butt_end_stands_across_the_curve_and_not_across_its_last_chord() -> None:
    radius, width = 11.0, 10.0
    line = Chain(quarter_circle(radius).cubics, False).flattened(0.01)
    start, end = line.points[0], line.points[-1]
    for at, to in ((start, line.points[1]), (end, line.points[-2])):
        chord = (to - at) / np.hypot(*(to - at))
        across = at / np.hypot(*at)  # of a circle about (0, 0), the tangent is square to the radius
        assert width / 2 * abs(float(chord @ across)) < 0.005


def test_one_point_alone_is_no_curve() -> None:
    with pytest.raises(ValueError, match="two points"):
        curve(np.array([[1.0, 1.0], [1.0, 1.0], [1.0, 1.0]]))
    with pytest.raises(ValueError, match="two points"):
        curve(np.array([[1.0, 1.0], [1.0, 1.0]]), closed=True)


LENGTHS = {  # closed forms, worked with mpmath at 30 digits and by quadrature
    "Archimedes b=5, 0..4 pi": (by_radius(lambda t: 5 * t + 1e-12, 0, 4 * np.pi, 60_001), 404.09658042),
    "Archimedes 10 + 8 t": (by_radius(lambda t: 10 + 8 * t, 0, 3 * np.pi), 457.85776272),
    "logarithmic": (by_radius(lambda t: 12 * np.exp(0.15 * t), 0, 3 * np.pi), 251.68108211),
    "golden": (by_radius(lambda t: 10 * np.exp(0.30634896253 * t), 0, 3 * np.pi), 578.47596812),
    "involute": (involute(5, 3 * np.pi, start=0.0), 222.06609902),
    "three half turns": (FAIR["three arcs"], 439.82297150),
}


@pytest.mark.parametrize("name", LENGTHS)
def test_the_length_of_a_spiral_is_the_closed_form(name: str) -> None:
    fair, true = LENGTHS[name]
    assert curve(fair.points).length == pytest.approx(true, rel=2e-6)


@pytest.mark.parametrize(
    ("a", "s", "x", "y"),
    [
        (100, 100, 97.528768820, 16.371404738),
        (100, 200, 133.51936963, 99.762371133),
        (80, 300, 84.172510015, 54.498234882),
    ],
)
def test_the_clothoid_ends_where_the_fresnel_integrals_say(a: float, s: float, x: float, y: float) -> None:
    """Table values worked with mpmath; scipy.special.fresnel as second witness; our own integration as third."""
    u = s / (a * np.sqrt(np.pi))
    sine, cosine = fresnel(u)
    assert (a * np.sqrt(np.pi) * cosine, a * np.sqrt(np.pi) * sine) == pytest.approx((x, y), rel=1e-9)
    line = curve(by_curvature(lambda along: along / a**2, s).points)
    assert line.at(line.length) == pytest.approx([x, y], abs=1e-4)


def ring(count: int = 72, radius: float = 50.0) -> Curve:
    t = np.linspace(0, 2 * np.pi, count + 1)[:-1]
    return curve(radius * np.column_stack([np.cos(t), np.sin(t)]), closed=True)


def test_the_tangents_of_a_polygon_on_a_circle_are_those_of_the_circle() -> None:
    line = ring()
    s = np.linspace(0, line.length, 500)
    angle = s / line.length * 2 * np.pi
    true = np.column_stack([-np.sin(angle), np.cos(angle)])
    assert np.abs(line.tangent(s) - true).max() < 1e-6


def test_the_tangent_jumps_at_a_corner() -> None:
    line = curve(np.array([[0, 0], [10, 0], [10, 10]], dtype=float))
    assert line.tangent(9.99) == pytest.approx([1, 0])
    assert line.tangent(10.01) == pytest.approx([0, 1])


def test_a_piece_of_a_closed_curve_may_run_over_its_first_point() -> None:
    line = ring()
    assert line.piece(300, 20).length == pytest.approx(line.length - 280)
    assert line.piece(10, 110).length == pytest.approx(100)
    assert line.piece(-20, 20).length == pytest.approx(40)


def test_the_nearest_place_is_on_a_chord_and_not_on_a_vertex() -> None:
    line = curve(np.array([[0, 0], [100, 0]], dtype=float))
    assert line.nearest((30, 4)) == pytest.approx((30, 4))
    assert line.nearest((-3, 4)) == pytest.approx((0, 5))


@settings(max_examples=30, deadline=None)
@given(st.integers(0, 2**31), st.booleans())
def test_reversing_twice_changes_nothing_and_once_changes_no_length(seed: int, closed: bool) -> None:
    points = np.random.default_rng(seed).uniform(-100, 100, (12, 2))
    line = curve(points, closed)
    back = line.reversed()
    assert back.length == pytest.approx(line.length)
    assert back.reversed().points == pytest.approx(line.points)
    assert back.at(back.length - 7.0) == pytest.approx(line.at(7.0))


def test_resampling_keeps_both_ends_and_steps_evenly() -> None:
    line = curve(FAIR["golden"].points)
    even = line.resampled(2.0)
    assert even.points[[0, -1]] == pytest.approx(line.points[[0, -1]])
    assert np.diff(even.stations).max() <= 2.0 + 1e-9
    assert even.length == pytest.approx(line.length, rel=1e-3)
    assert len(ring().resampled(5.0).points) == 63
