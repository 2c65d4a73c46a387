"""What a bar weighs: section times length times density."""

from __future__ import annotations

import math

from lint.sheet.sheet import Section

POUND = 0.45359237  # kg, exactly (international pound)


def section_area(section: Section) -> float:
    """Area of a section in mm2: width times depth, or a circle's where the depth is None (round bar).

    The rounded corners of rolled squares are not taken off: EN 10059 weighs squares at width squared too.
    """
    if section.depth is None:
        return math.pi * section.width**2 / 4
    return section.width * section.depth


def mass(section: Section, length: float, density: float) -> float:
    """kg of `length` mm of a section (mm) at `density` kg/m3."""
    return section_area(section) * length * density * 1e-9
