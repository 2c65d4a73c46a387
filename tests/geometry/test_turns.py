"""Where a bar comes back beside itself, on curves whose spacing is known."""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray

from lint.geometry.curve import Curve, curve
from lint.geometry.turns import come_back


def archimedean(spacing: float, turns: float, inner: float = 0.0) -> Curve:
    """r = inner + spacing * turns: its turns lie `spacing` mm apart along each ray."""
    angle = np.linspace(0, 2 * np.pi * turns, int(400 * turns))
    r = inner + spacing * angle / (2 * np.pi)
    return curve(np.column_stack([r * np.cos(angle), r * np.sin(angle)])[1:])


def arc(radius: float, degrees: float) -> NDArray[np.float64]:
    angle = np.radians(np.linspace(0, degrees, 200))
    return np.column_stack([radius * np.cos(angle), radius * np.sin(angle)])


@pytest.mark.parametrize(("spacing", "near"), [(10.5, False), (8.0, True), (6.3, True)])
def test_turns_of_a_spiral_are_as_far_apart_as_its_pitch_less_the_bar(spacing: float, near: bool) -> None:
    """Archimedes' spiral keeps its spacing: 2 pi b along a ray, a little less square to the curve."""
    found = come_back([archimedean(spacing, 3.0, inner=20.0)], [6.0], 3.0)
    assert bool(found) == near
    for place in found:
        assert place.gap == pytest.approx(spacing - 6.0, abs=0.1)


def test_turns_that_run_into_each_other_share_metal() -> None:
    found = come_back([archimedean(4.0, 3.0, inner=20.0)], [6.0], 3.0)
    assert found
    assert found[0].shared is not None
    assert found[0].shared.depth() == pytest.approx(2.0, abs=0.1)


def test_one_bend_is_no_turn_beside_itself_however_small_its_eye() -> None:
    assert come_back([curve(arc(4.0, 200))], [6.0], 3.0) == ()


def test_a_straight_bar_and_a_wide_ring_are_clear() -> None:
    straight = curve(np.array([(0.0, 0.0), (500.0, 0.0)]))
    ring = curve(arc(50.0, 359.0)[:-1], True)
    assert come_back([straight, ring], [6.0, 6.0], 3.0) == ()


def test_a_hairpin_lies_beside_itself_along_its_legs() -> None:
    bend = arc(4.0, 180) @ np.array([[0.0, 1.0], [-1.0, 0.0]])
    legs = np.concatenate([[(-60.0, bend[0, 1])], bend, [(-60.0, bend[-1, 1])]])
    found = come_back([curve(legs)], [6.0], 3.0)
    assert found
    assert min(place.gap for place in found) == pytest.approx(2.0, abs=0.1)


def test_an_end_that_points_at_its_own_bar_is_measured_to_its_square_cut() -> None:
    """A bar down, along, up and back towards its own first stretch, whose face lies 2 mm beyond the cut."""
    line = curve(np.array([(0.0, 0.0), (0.0, 100.0), (60.0, 100.0), (60.0, 50.0), (5.0, 50.0)]))
    (place,) = come_back([line], [6.0], 3.0)
    assert place.gap == pytest.approx(2.0, abs=1e-6)


def test_direction_changes_nothing() -> None:
    line = archimedean(8.0, 3.0, inner=20.0)
    there = come_back([line], [6.0], 3.0)
    back = come_back([line.reversed()], [6.0], 3.0)
    assert min(p.gap for p in there) == pytest.approx(min(p.gap for p in back), abs=1e-6)


def test_a_bar_that_tapers_is_measured_with_its_own_width() -> None:
    line = archimedean(8.0, 3.0, inner=20.0)
    taper = np.linspace(6.0, 2.0, len(line.points))
    assert min(p.gap for p in come_back([line], [taper], 6.5)) > 2.0
