"""The centreline of a bar drawn as an outline, with its width along it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from lint.geometry.area import Area
from lint.geometry.curve import Curve

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Midline:
    """`line` runs from true end to true end (closed for a ring). `widths` (mm) has one entry for each point of
    the line; `width` is the bar's ordinary width (the median away from the ends), mm."""

    line: Curve
    widths: Floats
    width: float


class NotABar(Exception):
    """Why an outline cannot be read as one bar ("not slender", "branching", "self-crossing"), and where, mm."""

    def __init__(self, why: str, at: tuple[float, float]) -> None:
        super().__init__(why)
        self.why = why
        self.at = at


def midline(outline: Area, *, accuracy: float = 0.05) -> Midline:
    """The centreline of a slender area: length within 0.2 % for a bar of one width, 1 % for a tapered one.

    Raises NotABar.
    """
    raise NotImplementedError
