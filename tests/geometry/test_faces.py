"""What metal leaves free, against shapely's own union and difference."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from lint.geometry.area import Area, area, disc
from lint.geometry.faces import faces


def box(left: float, top: float, right: float, bottom: float) -> Area:
    return area([np.array([(left, top), (right, top), (right, bottom), (left, bottom)])])


def test_a_bar_across_leaves_two_faces() -> None:
    found = faces(box(0, 0, 100, 100), [box(0, 40, 100, 46)])
    assert [face.size for face in found] == pytest.approx([5400, 4000])


def test_an_island_is_a_hole_of_its_face() -> None:
    (found,) = faces(box(0, 0, 100, 100), [box(40, 40, 60, 60)])
    assert found.size == pytest.approx(9600)
    assert len(found.holes) == 1


def test_a_ring_leaves_its_inside_free() -> None:
    ring = disc(50, 50, 30).less(disc(50, 50, 24))
    assert len(faces(box(0, 0, 100, 100), [ring])) == 2


def test_no_metal_leaves_all_and_all_metal_leaves_nothing() -> None:
    assert [face.size for face in faces(box(0, 0, 9, 9), [])] == [81]
    assert faces(box(0, 0, 9, 9), [box(-1, -1, 10, 10)]) == ()


@given(st.lists(st.tuples(st.floats(-10, 110), st.floats(-10, 110), st.floats(1, 40)), max_size=8))
@settings(max_examples=50, deadline=None)
def test_faces_are_the_parts_of_the_difference(discs: list[tuple[float, float, float]]) -> None:
    """Twin: shapely's union of all metal taken from the whole."""
    inside, metals = box(0, 0, 100, 100), [disc(*one) for one in discs]
    found = faces(inside, metals)
    twin = shapely.difference(inside.shape, shapely.union_all([metal.shape for metal in metals]))
    assert sum(face.size for face in found) == pytest.approx(float(twin.area), abs=1e-6)
    parts = [float(part.area) for part in shapely.get_parts(twin) if part.area > 1e-6]
    assert [face.size for face in found if face.size > 1e-6] == pytest.approx(sorted(parts, reverse=True), abs=1e-6)


def test_a_cut_parts_what_it_crosses_and_no_more() -> None:
    """Two bars with a hair between them: a line across it closes one face off, one that ends short of the far bar does
    not."""
    bars = [box(0, 40, 60, 46), box(60.2, 40, 100, 46)]
    across, short = np.array([[(59.95, 43), (60.25, 43)]]), np.array([[(59.95, 43), (60.1, 43)]])
    assert len(faces(box(0, 0, 100, 100), bars, across)) == 2
    assert len(faces(box(0, 0, 100, 100), bars, short)) == 1
