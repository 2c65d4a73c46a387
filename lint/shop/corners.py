"""What the fillet inside a forged square corner takes, by volume."""

from __future__ import annotations

import math


def fillet(radius: float, width: float) -> float:
    """Stock in mm that the fillet inside a square corner takes: (1 - pi/4) r^2 / t, by volume."""
    return (1 - math.pi / 4) * radius**2 / width
