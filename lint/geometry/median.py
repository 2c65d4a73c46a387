"""The middle one of some values."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def median(values: Floats) -> float:
    """The median of all the values, in their unit: the middle one, or the mean of the middle two.

    The same figure as `numpy.median` to the last bit; that one loads numpy's masked arrays, at a sixth of what it
    costs to start. Raises IndexError where there is no value.
    """
    return float(medians(np.ravel(values)))


def medians(values: Floats) -> Floats:
    """The median along the last axis."""
    ranked = np.sort(values, axis=-1)
    half = ranked.shape[-1] // 2
    middle: Floats = ranked[..., half] if ranked.shape[-1] % 2 else (ranked[..., half - 1] + ranked[..., half]) / 2
    return middle
