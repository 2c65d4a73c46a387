"""Plane geometry in mm, y down: no SVG, no panel, no rule, no report. Shapely lives here and nowhere else."""

from __future__ import annotations

import numpy as np

# The C library hands the memory of a large array back as soon as it is free, and takes it again page by page for the
# next one. To have freed a block of so many numbers teaches it to keep as much (mallopt(3), M_MMAP_THRESHOLD): a
# thirtieth of the time of a drawing.
KEPT = 1 << 18
np.empty(KEPT)
