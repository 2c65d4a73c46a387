"""What is said of how a curve bends: the values."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from lint.values import dataclass

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Bending:
    """`s` (mm) and signed `curvature` (1/mm, positive where it turns clockwise on the page, y down)."""

    s: Floats
    curvature: Floats


@dataclass(frozen=True, slots=True, kw_only=True)
class Kink:
    """A break of the tangent: where along the curve (mm), where in the plane, by how many degrees."""

    s: float
    at: tuple[float, float]
    angle: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A stretch of the curve from arc length `start` to `end` (mm) with the figure that makes it one."""

    start: float
    end: float
    figure: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Turning:
    """Signed turning split at changes of sign. `lobes` are (start s, end s, degrees signed) of each run of one
    sign, runs under the noise limit merged away: one lobe is a C, two are an S, none is a straight bar."""

    lobes: tuple[tuple[float, float, float], ...]
