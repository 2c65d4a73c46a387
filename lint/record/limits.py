"""How far a forged piece may be from its drawing: the sheet's own limits, or a standard's class by name.

No published tolerance for hand-forged grilles is known; the ISO classes were made for other work (machined parts,
welded structures) and are analogues.
"""

from __future__ import annotations

import math
from bisect import bisect_left

from lint.sheet.sheet import Sheet
from lint.values import dataclass

_NONE = float("nan")
# ISO 2768-1:1989 table 1, linear sizes: up to and including this nominal size, mm; limit either side, mm.
_ISO_2768_SIZES = (3.0, 6.0, 30.0, 120.0, 400.0, 1000.0, 2000.0, 4000.0)
_ISO_2768 = {
    "f": (0.05, 0.05, 0.1, 0.15, 0.2, 0.3, 0.5, _NONE),
    "m": (0.1, 0.1, 0.2, 0.3, 0.5, 0.8, 1.2, 2.0),
    "c": (0.2, 0.3, 0.5, 0.8, 1.2, 2.0, 3.0, 4.0),
    "v": (_NONE, 0.5, 1.0, 1.5, 2.5, 4.0, 6.0, 8.0),
}
# ISO 2768-1:1989 table 2, radii; table 3, angles by the shorter leg, degrees.
_ISO_2768_RADII_SIZES = (3.0, 6.0)
_ISO_2768_RADII = {"f": (0.2, 0.5, 1.0), "m": (0.2, 0.5, 1.0), "c": (0.4, 1.0, 2.0), "v": (0.4, 1.0, 2.0)}
_ISO_2768_LEGS = (10.0, 50.0, 120.0, 400.0)
_ISO_2768_ANGLES = {
    "f": (1.0, 30 / 60, 20 / 60, 10 / 60, 5 / 60),
    "m": (1.0, 30 / 60, 20 / 60, 10 / 60, 5 / 60),
    "c": (1.5, 1.0, 30 / 60, 15 / 60, 10 / 60),
    "v": (3.0, 2.0, 1.0, 30 / 60, 20 / 60),
}
# ISO 13920:1996 table 1, linear sizes, and table 2, angles by the shorter leg.
_ISO_13920_SIZES = (30.0, 120.0, 400.0, 1000.0, 2000.0, 4000.0)
_ISO_13920 = {
    "A": (1.0, 1.0, 1.0, 2.0, 3.0, 4.0),
    "B": (1.0, 2.0, 2.0, 3.0, 4.0, 6.0),
    "C": (1.0, 3.0, 4.0, 6.0, 8.0, 11.0),
    "D": (1.0, 4.0, 7.0, 9.0, 12.0, 16.0),
}
_ISO_13920_LEGS = (400.0, 1000.0)
_ISO_13920_ANGLES = {
    "A": (20 / 60, 15 / 60, 10 / 60),
    "B": (45 / 60, 30 / 60, 20 / 60),
    "C": (1.0, 45 / 60, 30 / 60),
    "D": (1.5, 1.25, 1.0),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """Either side of the drawn value, in mm or degrees, and where it comes from."""

    limit: float
    basis: str


def limit_for(kind: str, size: float, sheet: Sheet, leg: float = 0.0) -> Limit:
    """The limit for a measure. `kind` is "overall", "scroll", "fastener", "opening", "radius" or "angle"; `size`
    its drawn value (mm or deg); `leg` the shorter leg of an angle, mm. A standard that says nothing of a size
    leaves the sheet's own limit in force."""
    own = Limit(limit=getattr(sheet.tolerances, kind), basis=f"the sheet: {sheet.tolerances.standard}")
    if sheet.tolerances.standard == "common practice":
        return Limit(limit=own.limit, basis="common practice")
    found = _by_class(sheet.tolerances.standard, kind, size, leg)
    if found is None or math.isnan(found):  # the table has no figure there
        return Limit(limit=own.limit, basis="common practice")
    return Limit(limit=found, basis=f"{sheet.tolerances.standard}, an analogue")


def _by_class(standard: str, kind: str, size: float, leg: float) -> float | None:
    name, _, letter = standard.rpartition("-")
    if name == "ISO 2768" and letter in _ISO_2768:
        if kind == "angle":
            return _ISO_2768_ANGLES[letter][bisect_left(_ISO_2768_LEGS, leg)]
        if kind == "radius":
            return _ISO_2768_RADII[letter][bisect_left(_ISO_2768_RADII_SIZES, size)]
        return _row(_ISO_2768_SIZES, _ISO_2768[letter], size) if size >= 0.5 else None
    if name == "ISO 13920" and letter in _ISO_13920:
        if kind == "angle":
            return _ISO_13920_ANGLES[letter][bisect_left(_ISO_13920_LEGS, leg)]
        return None if kind == "radius" or size < 2 else _row(_ISO_13920_SIZES, _ISO_13920[letter], size)
    return None


def _row(sizes: tuple[float, ...], limits: tuple[float, ...], size: float) -> float | None:
    at = bisect_left(sizes, size)
    return limits[at] if at < len(limits) else None
