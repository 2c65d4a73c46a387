"""Where areas come near one another, against closed forms of circles and boxes."""

from __future__ import annotations

from math import acos

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from lint.geometry.approach import approaches, widths
from lint.geometry.area import HAIR, Area, area, disc
from lint.geometry.beside import beside, meeting

TOUCH, CLEAR = 0.5, 3.0


def box(left: float, top: float, right: float, bottom: float) -> Area:
    return area([np.array([(left, top), (right, top), (right, bottom), (left, bottom)])])


@pytest.mark.parametrize("gap", [0.0, 0.2, 0.5])
def test_discs_within_the_touch_are_one_contact_with_their_gap(gap: float) -> None:
    (found,) = approaches([disc(0, 0, 50), disc(0, 130 + gap, 80)], touch=TOUCH, reach=CLEAR)
    assert found.touches
    assert found.gap == pytest.approx(gap, abs=0.01)
    assert found.at == pytest.approx((0, 50 + gap / 2), abs=0.2)


@pytest.mark.parametrize(("gap", "places"), [(0.6, 1), (2.9, 1), (3.1, 0)])
def test_discs_farther_off_are_a_near_miss_until_they_are_clear(gap: float, places: int) -> None:
    found = approaches([disc(0, 0, 50), disc(0, 130 + gap, 80)], touch=TOUCH, reach=CLEAR)
    assert len(found) == places
    assert all(not place.touches and place.gap == pytest.approx(gap, abs=0.01) for place in found)


def test_the_length_of_a_tangent_touch_follows_from_the_two_radii() -> None:
    """Two discs of radius R that meet are within g of one another over a half-angle a with R (1 - cos a) = g / 2 on
    either, nearly: gap at a is 2 R (1 - cos a) measured across."""
    (found,) = approaches([disc(0, 0, 200), disc(0, 400, 200)], touch=TOUCH, reach=CLEAR)
    half = acos(1 - TOUCH / 2 / 200) * 200
    assert found.length == pytest.approx(2 * half, abs=2 * 2.0 + 0.1)  # boundary points stand at most 2 mm apart


def test_bars_side_by_side_touch_over_their_common_length_and_in_its_middle() -> None:
    (found,) = approaches([box(0, 0, 6, 100), box(6.2, 20, 12, 70)], touch=TOUCH, reach=CLEAR)
    assert found.gap == pytest.approx(0.2)
    assert found.length == pytest.approx(50, abs=2.5)
    assert found.at == pytest.approx((6.1, 45), abs=1.1)


def test_bars_that_cross_are_one_place_and_lie_deep_in_one_another() -> None:
    (found,) = approaches([box(0, 0, 6, 100), box(-50, 40, 50, 46)], touch=TOUCH, reach=CLEAR)
    assert found.into > 1.9


def test_a_bar_that_touches_twice_has_two_places() -> None:
    frame = box(0, 0, 100, 100).less(box(10, 10, 90, 90))
    found = approaches([frame, disc(50, 50, 40)], touch=TOUCH, reach=CLEAR)
    assert len(found) == 4
    assert {(round(p.at[0] / 10), round(p.at[1] / 10)) for p in found} == {(1, 5), (9, 5), (5, 1), (5, 9)}


def test_a_bar_wholly_inside_another_is_found() -> None:
    (found,) = approaches([box(0, 0, 100, 100), box(40, 40, 46, 60)], touch=TOUCH, reach=CLEAR)
    assert found.touches
    assert found.into == pytest.approx(6, abs=0.05)


@given(
    st.lists(
        st.tuples(st.floats(0, 200), st.floats(0, 200), st.floats(2, 40), st.floats(2, 40)), min_size=2, max_size=6
    )
)
@settings(max_examples=50, deadline=None)
def test_the_least_gap_of_every_pair_is_shapelys_distance(boxes: list[tuple[float, float, float, float]]) -> None:
    """Twin: shapely's own distance, pair by pair."""
    areas = [box(x, y, x + w, y + h) for x, y, w, h in boxes]
    found = approaches(areas, touch=TOUCH, reach=CLEAR)
    for i, a in enumerate(areas):
        for j in range(i + 1, len(areas)):
            gaps = [p.gap for p in found if (p.first, p.second) == (i, j)]
            true = float(shapely.distance(a.shape, areas[j].shape))
            if true < CLEAR - 2 * HAIR:
                assert min(gaps) == pytest.approx(true, abs=1e-6)
            elif true > CLEAR:
                assert not gaps


def test_the_width_of_a_slender_area_is_its_size_over_half_its_outline() -> None:
    assert widths([box(0, 0, 1000, 6)]) == pytest.approx((6.0,), rel=0.01)


def test_points_are_paired_with_the_areas_within_their_reach() -> None:
    places, boxes = [(0.0, 0.0), (50.0, 0.0)], [box(3, -1, 5, 1), box(49, -1, 51, 1)]
    assert beside(places, boxes, [4.0, 1.0]) == ((0, 0), (1, 1))
    assert beside(places, boxes, [2.9, 45.1]) == ((1, 0), (1, 1))
    assert beside([], [box(0, 0, 1, 1)], []) == ()


def test_areas_that_meet_are_paired() -> None:
    assert meeting([disc(0, 0, 2), disc(9, 0, 2)], [box(1, -1, 8, 1)]) == ((0, 0), (1, 0))


@pytest.mark.parametrize("turned", [0.3, 1.1, 2.0, 2.9])
def test_two_discs_touch_on_the_line_between_their_centres(turned: float) -> None:
    """However the chords of their edges lie about it."""
    way = np.array([np.cos(turned), np.sin(turned)])
    (found,) = approaches(
        [disc(0, 0, 50), disc(130.2 * float(way[0]), 130.2 * float(way[1]), 80)], touch=TOUCH, reach=CLEAR
    )
    assert found.at == pytest.approx(tuple(50.1 * way), abs=0.25)


def test_a_touch_far_along_two_long_bars_keeps_its_place() -> None:
    """Only what lies near is worked on; places along the rest still count from where the boundary begins."""
    first = box(0, 0, 4000, 10)
    found = approaches([first, box(1500, 10, 1510, 500), box(3000, 10.3, 3040, 500)], touch=TOUCH, reach=CLEAR)
    assert [(place.first, place.second) for place in found] == [(0, 1), (0, 2)]
    assert [place.at[0] for place in found] == pytest.approx([1505, 3020], abs=0.01)
    assert found[1].gap == pytest.approx(0.3)
    assert [place.length for place in found] == pytest.approx([10, 40], abs=2.5)
