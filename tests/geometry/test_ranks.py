"""Medians and quantiles. Truth: numpy's own, and ranks counted by hand."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lint.geometry.ranks import median, medians, quantile

SOME = st.lists(st.floats(-1e6, 1e6), min_size=1, max_size=9)


def test_half_of_the_values_lie_on_either_side() -> None:
    assert median(np.array([7.0, 1.0, 3.0])) == 3.0
    assert median(np.array([7.0, 1.0, 3.0, 4.0])) == 3.5


def test_three_quarters_of_five_values_do_not_exceed_the_fourth() -> None:
    assert quantile(np.array([50.0, 10.0, 20.0, 40.0, 30.0]), 0.75) == 40.0


@settings(max_examples=50)
@given(SOME, st.floats(0, 1))
def test_medians_and_quantiles_are_numpys_to_the_last_bit(values: list[float], share: float) -> None:
    assert median(np.array(values)) == np.median(values)
    assert quantile(np.array(values), share) == np.quantile(values, share)


def test_medians_are_taken_along_the_last_axis() -> None:
    rows = np.random.default_rng(0).normal(size=(5, 4))
    assert np.array_equal(medians(rows), np.median(rows, axis=-1))


def test_nothing_has_no_median_and_no_quantile() -> None:
    for question in (median, lambda values: quantile(values, 0.5)):
        with pytest.raises(IndexError):
            question(np.array([]))
