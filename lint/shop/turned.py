"""How a scroll is turned on the paper to take the fewest sheets."""

from __future__ import annotations

import numpy as np

from lint.geometry.curve import Curve
from lint.shop.faces import turning_matrix
from lint.shop.tiling import PAPERS, fewest_sheets

STEP = 5.0  # degrees
ROUND = 14.0  # mm beyond the centreline, both sides together: half a bar on each, and a figure beside it


def best_turn(line: Curve, paper: str) -> float:
    """Degrees clockwise, 0 to 175 in steps of 5, at which the curve takes the fewest sheets; as it stands where no
    turn saves one, and on a plotter's sheet. Of turns that save as much, the one with the most room to spare."""
    if paper not in PAPERS:
        return 0.0
    tried = []
    for degrees in np.arange(0.0, 180.0, STEP):
        spun = line.points @ turning_matrix(float(degrees))
        wide, tall = np.ptp(spun, axis=0) + ROUND
        tried.append((fewest_sheets((float(wide), float(tall)), paper), float(wide * tall), float(degrees)))
    best = min(tried)
    return best[2] if best[0] < tried[0][0] else 0.0
