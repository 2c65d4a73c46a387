"""Curves drawn on from where their end cannot be read: closed forms of circle and clothoid."""

from __future__ import annotations

import numpy as np
import pytest

from lint.geometry.bending import turning
from lint.geometry.curve import curve
from lint.geometry.onward import onward
from tests.geometry.fair_curves import arcs, by_curvature, sampled


def test_a_circle_is_gone_on_as_a_circle() -> None:
    line = sampled(arcs((40, 200)), 1.0)
    made = onward(line, 10, left_out=12.0)
    assert made.line.length == pytest.approx(200, abs=0.05)
    assert np.abs(np.hypot(*(made.line.points - [0, 40]).T) - 40).max() < 0.02
    assert made.turned == pytest.approx(np.degrees(12 / 40), abs=1.5)
    assert made.doubt < 0.2


def test_a_clothoid_goes_on_growing_as_it_grew() -> None:
    """Curvature s / A^2 (definition): over the last x mm of l it turns (l^2 - (l - x)^2) / 2 A^2."""
    fair = by_curvature(lambda s: s / 80**2, 300)
    made = onward(sampled(fair, 1.0), 10, left_out=5.5)  # from the point 6 mm before the end
    assert np.hypot(*(made.line.points[-1] - fair.points[-1])) < 0.02
    assert made.turned == pytest.approx(np.degrees((300**2 - 294**2) / 2 / 80**2), abs=0.3)
    assert made.doubt == pytest.approx(np.degrees(6**2 / 2 / 80**2), rel=0.5)


def test_what_is_short_of_the_end_is_left_off() -> None:
    made = onward(sampled(arcs((40, 200)), 1.0), 10, left_out=9.0, short=5.0)
    assert made.line.length == pytest.approx(195, abs=0.05)


def test_a_hook_that_runs_out_into_a_straight_goes_on_nearly_straight() -> None:
    """What is left out is longer than the hook: the spiral through it has its pole among the points."""
    s = np.arange(0, 200, 1.0)
    heading = np.cumsum(0.001 + np.where(s > 100, 0.1 * np.exp(-(s - 100) / 20), 0))
    hook = curve(np.cumsum(np.column_stack([np.cos(heading), np.sin(heading)]), axis=0))
    for left_out in (30.0, 40.0):
        assert onward(hook, 10, left_out=left_out).turned < 10


def test_a_straight_bar_goes_on_straight() -> None:
    made = onward(curve(np.array([[0.0, 0.0], [60.0, 0.0], [100.0, 0.0]])), 10, left_out=4.0)
    assert made.line.points[-1] == pytest.approx([100, 0])
    assert made.turned == made.doubt == 0


def test_rough_points_widen_the_doubt_and_not_the_error() -> None:
    """A circle of 40 mm whose points stray by a twentieth of a millimetre: what it turns is 12 mm over 40."""
    line = sampled(arcs((40, 200)), 1.0)
    off = []
    for seed in range(20):
        rough = curve(line.points + np.random.default_rng(seed).normal(0, 0.05, line.points.shape))
        made = onward(rough, 10, left_out=4.0)
        end = made.line.points[-1] - made.line.points[-2]
        out = (np.degrees(np.arctan2(end[1], end[0]) - 200 / 40) + 180) % 360 - 180
        off.append(abs(out + np.degrees(made.line.length - line.stations[-1]) / 80) / made.doubt)
        assert 1 < made.doubt < 20
    assert np.mean(np.array(off) < 1) >= 0.9


@pytest.mark.parametrize("chords", [9, 20, 300])
def test_an_arc_turns_all_its_angle_in_however_many_chords_it_is_drawn(chords: int) -> None:
    """240 degrees of a circle, half a chord at either end included."""
    angle = np.radians(np.linspace(0, 240, chords + 1))
    (lobe,) = turning(curve(50 * np.column_stack([np.cos(angle), np.sin(angle)]))).lobes
    assert lobe[2] == pytest.approx(240)


def test_a_bend_between_straights_turns_its_angle_and_no_more() -> None:
    bend = np.column_stack([np.sin(a := np.radians(np.linspace(0, 90, 10))), 1 - np.cos(a)]) * 30
    line = curve(np.concatenate([[[-100.0, 0.0]], bend, [[30.0, 130.0]]]))
    (lobe,) = turning(line).lobes
    assert lobe[2] == pytest.approx(90)
