"""The median. Truth: numpy's own, and ranks counted by hand."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lint.geometry.median import median, medians


def test_half_of_the_values_lie_on_either_side() -> None:
    assert median(np.array([7.0, 1.0, 3.0])) == 3.0
    assert median(np.array([7.0, 1.0, 3.0, 4.0])) == 3.5


@settings(max_examples=50)
@given(st.lists(st.floats(-1e6, 1e6), min_size=1, max_size=9))
def test_the_median_is_numpys_to_the_last_bit(values: list[float]) -> None:
    assert median(np.array(values)) == np.median(values)


def test_medians_are_taken_along_the_last_axis() -> None:
    rows = np.random.default_rng(0).normal(size=(5, 4))
    assert np.array_equal(medians(rows), np.median(rows, axis=-1))


def test_nothing_has_no_median() -> None:
    with pytest.raises(IndexError):
        median(np.array([]))
