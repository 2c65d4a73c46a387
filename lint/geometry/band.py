"""The metal of a bar: a centreline with a width."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from lint.geometry.area import Area
from lint.geometry.curve import Curve

Floats = NDArray[np.float64]


def band(line: Curve, width: float | Floats, *, cap: str = "butt", square_corners: bool = True) -> Area:
    """The area within half the width of `line`, mm; sagitta under 0.005 mm.

    `width` is one figure or one for each point of the line (a tapered bar). `cap` is "butt", "round" or
    "square" (SVG 1.1, 11.4). `square_corners` mitres true corners of the line, as SVG's default join does;
    without it they are rounded. Turns that touch or overlap are one area.
    """
    raise NotImplementedError


def bands(lines: Sequence[Curve], widths: Sequence[float], caps: Sequence[str]) -> tuple[Area, ...]:
    """`band` for many bars at once (one call into the geometry library for each kind of cap)."""
    raise NotImplementedError
