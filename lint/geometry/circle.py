"""The largest circle in an area, and where a circle's centre can be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from lint.geometry.area import Area


@dataclass(frozen=True, slots=True, kw_only=True)
class Inscribed:
    """The largest circle that an area holds: centre and diameter in mm."""

    x: float
    y: float
    diameter: float


def largest_circle(area: Area, *, accuracy: float = 0.02) -> Inscribed:
    """The largest circle in the area; its diameter is within `accuracy` mm of the true one. Raises ValueError for
    an empty area."""
    raise NotImplementedError


def largest_circles(areas: Sequence[Area], *, accuracy: float = 0.02) -> tuple[Inscribed, ...]:
    """`largest_circle` for many areas."""
    raise NotImplementedError


def reach(area: Area, diameter: float) -> tuple[Area, ...]:
    """Where the centre of a circle of `diameter` mm can be: one area for each pocket, largest first; () where it
    does not fit. A pocket of a single point or a line (a circle that fits exactly) is grown by 0.01 mm, so
    that a circle which just fits is found (the limit of a strict rule lets it through)."""
    raise NotImplementedError
