"""What a curve and its copies have in common, wherever they lie and whichever way over."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from lint.geometry.curve import Curve, vertex_turns

KEPT = 64  # curves whose form is remembered: it is asked for more than once
DECIMALS = 6  # of mm and of degrees: what rounding leaves between copies is a thousand times less


@lru_cache(maxsize=KEPT)
def form(line: Curve) -> bytes:
    """The same for curves that lie on one another point by point within about 1e-6 mm for each chord, once moved,
    turned or mirrored; one that runs the other way differs. Rarely, rounding keeps the forms of two copies apart."""
    turns = vertex_turns(line)
    way = np.copysign(1.0, turns[0]) if len(turns) else 1.0
    figures = np.concatenate([line.stations[1:] - line.stations[:-1], way * turns, [float(line.closed)]])
    return (np.round(figures, DECIMALS) + 0.0).tobytes()  # + 0.0: no negative zeros
