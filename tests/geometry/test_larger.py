"""The proof that no circle is larger, against a fine grid of centres and closed forms."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from lint.geometry.climb import Edges, climbed
from lint.geometry.inscribed import inscribed
from lint.geometry.larger import held_within, larger

NOWHERE = np.zeros(1)  # no help from the contacts


def shapes_of(*shapes: shapely.Geometry) -> np.ndarray[tuple[int], np.dtype[np.object_]]:
    every = np.empty(len(shapes), dtype=object)
    every[:] = shapes
    return every


def two_rooms(left: float, right: float, door: float) -> shapely.Geometry:
    """Two squares of given sides, joined by a door: the largest circle is half the larger side (closed form)."""
    rooms = [shapely.box(0, 0, left, left), shapely.box(left + 5, 0, left + 5 + right, right)]
    return shapely.union_all([*rooms, shapely.box(left - 1, 1, left + 6, 1 + door)])


@pytest.mark.parametrize("more", [0.05, 1.0, 30.0])
def test_a_circle_in_the_smaller_room_is_told_of_the_larger(more: float) -> None:
    shapes = shapes_of(two_rooms(40, 40 + more, 6))
    best = climbed(Edges.round(shapes), np.array([[18.0, 21.0]]))
    assert best[0, 2] == pytest.approx(20, abs=1e-6)
    found = larger(shapes, best, NOWHERE, 0.01)
    assert found.which.tolist() == [0]
    assert shapely.distance(shapely.boundary(shapes[0]), shapely.Point(found.centres[0])) > best[0, 2]


def test_a_room_larger_by_less_than_the_accuracy_is_let_be() -> None:
    shapes = shapes_of(two_rooms(40, 40.004, 6))
    best = climbed(Edges.round(shapes), np.array([[18.0, 21.0]]))
    found = larger(shapes, best, NOWHERE, 0.01)
    assert not len(found.undecided)
    assert not len(found.which) or inscribed(list(shapes), 0.01)[0, 2] == pytest.approx(20.002, abs=1e-6)


def test_a_long_slot_is_left_undecided() -> None:
    shapes = shapes_of(shapely.box(0, 0, 900, 20))
    found = larger(shapes, np.array([[450.0, 10.0, 10.0]]), NOWHERE, 0.01)
    assert (found.which.tolist(), found.undecided.tolist()) == ([], [0])


def test_three_contacts_of_an_equilateral_triangle_hold_one_radius_round() -> None:
    # Gaps of 120 degrees: 2 r cos 60 = r.
    ways = np.radians([90.0, 210.0, 330.0])
    assert held_within(np.array([[0.0, 0.0, 7.0]]), ways, np.zeros(3, dtype=np.int64)) == pytest.approx([7.0])


def test_two_facing_contacts_and_one_alone_hold_nothing() -> None:
    best = np.array([[0.0, 0.0, 5.0], [9.0, 9.0, 2.0]])
    held = held_within(best, np.array([0.0, math.pi, 1.0]), np.array([0, 0, 1]))
    assert held == pytest.approx([0.0, 0.0], abs=1e-9)


@settings(max_examples=40, deadline=None)
@given(st.lists(st.floats(0, 2 * math.pi), min_size=3, max_size=7), st.floats(0, 2 * math.pi), st.floats(0.02, 0.98))
def test_within_what_the_contacts_hold_no_centre_has_more_room(ways: list[float], turn: float, share: float) -> None:
    # The edge is taken to be its contact points alone, which leaves a moved circle the most room that it can have.
    towards = np.array(ways)
    held = held_within(np.array([[0.0, 0.0, 1.0]]), towards, np.zeros(len(ways), dtype=np.int64))[0]
    contacts = -np.column_stack([np.cos(towards), np.sin(towards)])
    centre = share * held * np.array([math.cos(turn), math.sin(turn)])
    assert np.hypot(*(contacts - centre).T).min() <= 1 + 1e-12


@pytest.mark.parametrize("seed", range(12))
def test_no_centre_of_a_fine_grid_has_more_room_than_was_proved(seed: int) -> None:
    rng = np.random.default_rng(seed)
    outline = shapely.buffer(shapely.LineString(rng.uniform(0, 100, (5, 2))), 9)
    pegs = shapely.union_all([shapely.Point(p).buffer(rng.uniform(0.5, 6)) for p in rng.uniform(0, 100, (25, 2))])
    parts = [part for part in shapely.get_parts(shapely.difference(outline, pegs)) if part.area > 1]
    best = inscribed(parts, 0.01)
    for part, (_, _, radius) in zip(parts, best, strict=True):
        left, top, right, bottom = part.bounds
        x, y = (axis.ravel() for axis in np.meshgrid(np.linspace(left, right, 150), np.linspace(top, bottom, 150)))
        inside = shapely.contains_xy(part, x, y)
        if inside.any():
            room = shapely.distance(part.boundary, shapely.points(x[inside], y[inside])).max()
            assert room <= radius + 0.01
