"""Fair curves raise no alarm however they are drawn, and seeded faults are found where they are."""

from __future__ import annotations

import numpy as np
import pytest

from lint.geometry.bending import backward_steps, bending, flats, kinks, middle, tightest, turning
from lint.geometry.curve import Curve, curve
from tests.geometry.fair_curves import (
    FAIR,
    Fair,
    Floats,
    arcs,
    as_editors_write_it,
    by_curvature,
    c_bend,
    s_bend,
    sampled,
)

BARS = (6.0, 12.0, 20.0)


def alarms(line: Curve, bar: float) -> list[str]:
    found = [f"kink at {one.s:.0f}: {one.angle:.1f}" for one in kinks(line, window=bar)]
    found += [f"flat {one.start:.0f} to {one.end:.0f}" for one in flats(line, window=bar)]
    return found + [f"back {one.start:.0f} to {one.end:.0f}" for one in backward_steps(line, window=bar)]


@pytest.mark.parametrize("name", FAIR)
def test_a_curve_fair_by_definition_raises_no_alarm_however_an_editor_writes_it(name: str) -> None:
    for drawn, line in as_editors_write_it(FAIR[name]):
        for bar in BARS:
            assert not alarms(line, bar), (drawn, bar)


def with_kink(bend: object, at: float, angle: float) -> Fair:
    def kinked(s: Floats) -> Floats:
        here = (s > at) & (s < at + 0.05)
        made: Floats = bend(s) + np.where(here, np.radians(angle) / 0.05, 0.0)  # type: ignore[operator]
        return made

    return by_curvature(kinked, 900, 360_001)


@pytest.mark.parametrize("at", [60.0, 300.0, 700.0])
@pytest.mark.parametrize("bar", [12.0, 20.0])
def test_a_kink_of_eight_degrees_is_found_where_it_is(at: float, bar: float) -> None:
    for unit in (0.0, 1.0):
        found = kinks(sampled(with_kink(c_bend, at, 8.0), 1.0, unit), window=bar)
        assert len(found) == 1
        assert found[0].s == pytest.approx(at, abs=1.5)
        assert found[0].angle == pytest.approx(8.0, abs=1.0)


def test_a_kink_under_the_limit_is_none() -> None:
    assert not kinks(sampled(with_kink(c_bend, 300.0, 3.0), 1.0), window=12)


def test_a_drawn_corner_is_a_kink_of_its_own_angle() -> None:
    line = curve(np.array([[0, 0], [100, 0], [100, 80], [200, 80]], dtype=float))
    found = kinks(line, window=12)
    assert [one.s for one in found] == pytest.approx([100, 180])
    assert [one.angle for one in found] == pytest.approx([90, 90])


@pytest.mark.parametrize(("bend", "at"), [(c_bend, 60.0), (c_bend, 120.0), (s_bend, 700.0), (s_bend, 180.0)])
@pytest.mark.parametrize("bar", [12.0, 20.0])
def test_a_flat_of_one_and_a_half_bar_widths_in_a_curl_is_found(bend: object, at: float, bar: float) -> None:
    def flattened(s: Floats) -> Floats:
        made: Floats = np.where((s > at) & (s < at + 1.5 * bar), 0.0, bend(s))  # type: ignore[operator]
        return made

    found = flats(sampled(by_curvature(flattened, 900), 1.0, 1.0), window=bar)
    assert len(found) == 1
    assert found[0].start == pytest.approx(at, abs=bar / 3)
    assert found[0].end == pytest.approx(at + 1.5 * bar, abs=bar / 3)


def test_the_straight_middle_of_a_scroll_is_no_flat() -> None:
    for way in (20.0, -20.0):  # a C and an S
        line = sampled(arcs((20, 30 * np.pi), (0, 200), (way, 30 * np.pi)), 1.0)
        assert not flats(line, window=12)


@pytest.mark.parametrize("share", [0.15, 0.3])
def test_a_curl_that_opens_again_is_found_with_its_share(share: float) -> None:
    """Arcs of R 80, 40, then a half turn opened by the share, then 40 and 25: truth by construction."""
    open_radius = 40 / (1 - share)
    fair = arcs((80, 120), (40, 90), (open_radius, 100), (40, 90), (25, 60))
    for unit in (0.0, 1.0):
        found = backward_steps(sampled(fair, 1.0, unit), window=12)
        assert len(found) == 1
        assert found[0].figure == pytest.approx(share, abs=0.03)
        assert found[0].start == pytest.approx(210, abs=12)
        assert found[0].end == pytest.approx(310, abs=12)


@pytest.mark.parametrize("radius", [12.0, 40.0, 300.0])
@pytest.mark.parametrize("window", [6.0, 12.0])
def test_the_curvature_of_an_arc_is_one_over_its_radius_up_to_its_very_ends(radius: float, window: float) -> None:
    line = sampled(arcs((radius, 1.5 * np.pi * radius)), 0.5)
    bent = bending(line, window=window)
    assert np.abs(bent.curvature * radius - 1).max() < 6e-3
    assert tightest(line, window=window)[0] == pytest.approx(radius, rel=2e-3)


def test_the_curvature_of_an_archimedean_spiral_is_the_handbook_formula() -> None:
    """(r^2 + 2 b^2) / (r^2 + b^2)^1.5 with r = 10 + 8 t: from 0.10855981009 to 0.011760224242 over t = 0..3 pi."""
    fair = FAIR["Archimedes"]
    t = np.linspace(0, 3 * np.pi, len(fair.s))
    r = 10 + 8 * t
    true = (r * r + 2 * 64) / (r * r + 64) ** 1.5
    assert true[0] == pytest.approx(0.10855981009, abs=1e-9)
    assert true[-1] == pytest.approx(0.011760224242, abs=1e-9)
    bent = bending(sampled(fair, 0.5), window=6)
    inner = (bent.s > 6) & (bent.s < 450)
    assert np.abs(bent.curvature[inner] / np.interp(bent.s[inner], fair.s, true) - 1).max() < 0.02


def test_curvature_is_positive_where_the_line_turns_clockwise_on_the_page() -> None:
    right_then_down = np.array([[0, 0], [10, 0], [17, 3], [20, 10], [20, 20]], dtype=float)  # y runs down
    assert bending(curve(right_then_down), window=5).curvature.mean() > 0


def test_a_closed_circle_bends_evenly_all_round() -> None:
    t = np.linspace(0, 2 * np.pi, 201)[:-1]
    ring = curve(50 * np.column_stack([np.cos(t), np.sin(t)]), closed=True)
    assert np.abs(bending(ring, window=10).curvature * 50 - 1).max() < 2e-3
    assert not alarms(ring, 10)


def lobes(line: Curve) -> list[float]:
    return [degrees for _, _, degrees in turning(line).lobes]


def test_a_c_is_one_lobe_and_an_s_is_two_that_meet_where_the_bend_changes_sign() -> None:
    assert lobes(sampled(FAIR["three arcs"], 1.0)) == pytest.approx([540.0], abs=3)
    line = sampled(FAIR["S with a straight middle"], 1.0)
    assert lobes(line) == pytest.approx([270.0, -270.0], abs=4)
    assert turning(line).lobes[0][1] == pytest.approx(30 * np.pi + 75, abs=3)
    assert middle(line, window=12) == pytest.approx(30 * np.pi + 75, abs=3)


def test_mirroring_turns_the_signs_over_and_reversing_the_order_too() -> None:
    line = sampled(FAIR["S scroll"], 1.0)
    mirrored = curve(line.points * [-1.0, 1.0])
    assert lobes(mirrored) == pytest.approx([-one for one in lobes(line)])
    assert lobes(line.reversed()) == pytest.approx([-one for one in lobes(line)][::-1])


@pytest.mark.parametrize("seed", range(5))
def test_the_waviness_of_a_hand_changes_no_class(seed: int) -> None:
    """Waves of 1 mm over 60 to 100 mm swing the heading by up to 12 degrees (common practice, no source: a steady
    hand)."""
    rng = np.random.default_rng(seed)
    for name, count in (("C scroll", 1), ("S scroll", 2), ("S with a straight middle", 2)):
        line = sampled(FAIR[name], 2.0)
        s = line.stations
        wave = np.sin(2 * np.pi * s / rng.uniform(60, 100) + rng.uniform(0, 6)) * 1.0
        across = line.tangent(s)[:, ::-1] * [-1.0, 1.0]
        assert len(lobes(curve(line.points + across * wave[:, None]))) == count


def test_a_straight_bar_has_no_lobe_and_no_tightest_bend() -> None:
    bar = curve(np.array([[0.0, 0.0], [300.0, 0.0]]))
    assert turning(bar).lobes == ()
    assert tightest(bar, window=12)[0] == np.inf
    assert not alarms(bar, 12)


def test_the_middle_of_a_c_is_its_slackest_place() -> None:
    assert middle(sampled(FAIR["C scroll"], 1.0), window=12) == pytest.approx(450, abs=10)
    assert middle(sampled(arcs((60, 300)), 1.0), window=12) == pytest.approx(150, abs=6)


def test_a_wrong_window_is_refused() -> None:
    with pytest.raises(ValueError, match="window"):
        bending(sampled(FAIR["arc"], 1.0), window=0)


def test_a_window_far_wider_than_the_curve_is_answered_at_once() -> None:
    speck = curve(np.array([[0, 0], [0.001, 0], [0.001, 0.001]]))
    assert not flats(speck, window=300) + backward_steps(speck, window=300)
    assert np.isfinite(bending(speck, window=300).curvature).all()
