"""The plane of a photograph, against scikit-image's ProjectiveTransform (a general-purpose library)."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from lint.geometry.homography import homography, project

SQUARE = np.array([[0.0, 0.0], [400.0, 0.0], [400.0, 600.0], [0.0, 600.0]])
_nudge = st.floats(-90, 90, allow_nan=False)


@settings(max_examples=40, deadline=None)
@given(st.lists(_nudge, min_size=8, max_size=8))
def test_it_agrees_with_a_general_library_on_any_quadrilateral(nudges: list[float]) -> None:
    transform = pytest.importorskip("skimage.transform")
    seen = SQUARE + np.array(nudges).reshape(4, 2)
    matrix = homography(seen, SQUARE)
    theirs = transform.ProjectiveTransform.from_estimate(seen, SQUARE)
    assume(bool(theirs))
    inside = np.array([[200.0, 300.0], [150.0, 410.0], [260.0, 205.0]])
    assert project(matrix, inside) == pytest.approx(theirs(inside), abs=1e-6)


def test_corners_come_back_where_they_belong() -> None:
    seen = np.array([[12.0, 31.0], [918.0, 77.0], [873.0, 1210.0], [44.0, 1333.0]])
    assert project(homography(seen, SQUARE), seen) == pytest.approx(SQUARE, abs=1e-8)


def test_three_corners_on_a_line_are_refused() -> None:
    seen = np.array([[0.0, 0.0], [10.0, 0.0], [20.0, 0.0], [0.0, 10.0]])
    with pytest.raises(ValueError, match="line"):
        homography(seen, SQUARE)
