"""Where the outline of a bar goes wrong."""

from __future__ import annotations

import re

import shapely

from lint.geometry.curve import Curve

Point = tuple[float, float]

_PLACE = re.compile(r"\[(-?[\d.eE+-]+) (-?[\d.eE+-]+)\]")


def crosses_itself(ring: Curve) -> Point | None:
    """A place where a closed curve meets itself, mm; None where it does not (or is open, or has no inside)."""
    if not ring.closed or len(ring.points) < 3:
        return None
    reason = str(shapely.is_valid_reason(shapely.Polygon(ring.points)))
    place = _PLACE.search(reason)
    return (float(place[1]), float(place[2])) if place else None
