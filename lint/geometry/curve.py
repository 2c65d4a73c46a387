"""A curve in the plane as points at a stated accuracy, with its arc length."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Curve:
    """`points` has shape (n, 2), mm, n >= 2, no two neighbours equal; a closed curve does not repeat its first.

    Built by `curve(points, closed)`, which drops repeats. Arc length is measured along the chords.
    """

    points: Floats
    closed: bool
    stations: Floats  # arc length at each point, mm, from 0; closed: one more entry, the whole length

    @property
    def length(self) -> float:
        """Length in mm, the closing chord included."""
        return float(self.stations[-1])

    @property
    def extent(self) -> tuple[float, float, float, float]:
        """Left, top, right, bottom in mm."""
        raise NotImplementedError

    def at(self, s: Floats | float) -> Floats:
        """Points at arc lengths `s` (mm): shape (m, 2), or (2,) for one number. Closed curves wrap."""
        raise NotImplementedError

    def tangent(self, s: Floats | float) -> Floats:
        """Unit tangents at arc lengths `s` (mm), same shape as `at`."""
        raise NotImplementedError

    def nearest(self, point: Floats | tuple[float, float]) -> tuple[float, float]:
        """(arc length, distance) of the curve's nearest place to `point`, mm."""
        raise NotImplementedError

    def piece(self, start: float, end: float) -> Curve:
        """The stretch from arc length `start` to `end` (mm) as an open curve."""
        raise NotImplementedError

    def reversed(self) -> Curve:
        """The same curve run the other way."""
        raise NotImplementedError

    def resampled(self, step: float) -> Curve:
        """Points on equal steps of arc length, the step at most `step` mm, both ends kept."""
        raise NotImplementedError


def curve(points: Floats, closed: bool = False) -> Curve:
    """A curve through `points` (n, 2), repeated neighbours dropped.

    Raises ValueError where fewer than two distinct points remain or a number is not finite.
    """
    raise NotImplementedError
