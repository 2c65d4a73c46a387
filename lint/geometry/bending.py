"""How a curve bends: curvature on equal steps of arc length, turning, kinks, flats, backward steps."""

from __future__ import annotations

import numpy as np

from lint.geometry.bends import Bending, Kink, Stretch, Turning
from lint.geometry.curls import backward_steps, flats, middle
from lint.geometry.curve import Curve
from lint.geometry.kinks import kinks, straightened
from lint.geometry.smoothed import bending, turning

__all__ = [
    "Bending",
    "Kink",
    "Stretch",
    "Turning",
    "backward_steps",
    "bending",
    "flats",
    "kinks",
    "middle",
    "straightened",
    "tightest",
    "turning",
]


def tightest(curve: Curve, *, window: float) -> tuple[float, float]:
    """(smallest radius of the centreline in mm, arc length where), over `window` mm; infinite for a straight bar."""
    bent = bending(curve, window=window)
    best = int(np.abs(bent.curvature).argmax())
    bend = abs(float(bent.curvature[best]))
    return (1 / bend if bend > 1e-12 else float("inf")), float(bent.s[best])
