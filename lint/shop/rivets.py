"""How long a rivet's shank must be: grip + head + what the hole takes up.

Head allowances are head volume over shank area, no hole fill; `d` is the shank.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from types import MappingProxyType

from lint.values import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """A rivet head. `allowance` is the shank beyond the plate, `across`, `high` (above the plate) and `deep` (in
    the plate) its size, all in shank diameters; `source` where the figures come from."""

    name: str
    allowance: float
    across: float
    high: float = 0.0
    deep: float = 0.0
    source: str

    @property
    def volume(self) -> float:
        """The head's volume beyond the shank that the grip counts, as a length of shank in shank diameters."""
        return cap_volume(self.across, self.high) + countersunk_volume(self.across, self.deep)


def cap_volume(across: float, high: float) -> float:
    """Volume of a spherical cap over the area of a unit shank, in shank diameters.

    Cap: pi h (3 a^2 + h^2) / 6 with a half the base (solid geometry). BS 275's snap head: 1.12467.
    """
    radius = across / 2
    return math.pi * high * (3 * radius**2 + high**2) / 6 / (math.pi / 4)


def countersunk_volume(across: float, deep: float) -> float:
    """Volume that a cone frustum, `across` at the face and 1 at the shank, adds to the shank beyond the root, as
    a length of shank. The countersink lies within the plate, so the part the shank fills is taken off by the grip.

    Frustum: h (D^2 + D + 1) / 3 for a shank of 1. BS 4620's head 2d by 0.5d: 1.16667 - 0.5 = 0.66667.
    """
    return deep * (across**2 + across + 1) / 3 - deep


def _heads(*heads: Head) -> Mapping[str, Head]:
    return MappingProxyType({head.name: head for head in heads})


_BS275 = "BS 275:1927 plate 2"
HEADS = _heads(
    Head(name="snap", allowance=1.125, across=1.6, high=0.7, source=f"{_BS275} fig. 3: 1.125 d"),
    Head(name="countersunk", allowance=2 / 3, across=2.0, deep=0.5, source="BS 4620:1970 table 6 (90 deg): 0.667 d"),
    Head(
        name="raised countersunk 60",
        allowance=0.484,
        across=1.5,
        high=0.201,
        deep=0.433,
        source=f"{_BS275} fig. 6: 0.484 d",
    ),
    Head(
        name="raised countersunk 45",
        allowance=0.584,
        across=1.5,
        high=0.201,
        deep=0.604,
        source=f"{_BS275} fig. 8: 0.584 d",
    ),
    Head(name="round", allowance=1.0628, across=1.75, high=0.6, source="DIN 660 sizes, by volume: 1.0628 d"),
    Head(name="workshop snap", allowance=1.5, across=1.6, high=0.7, source="fastener makers' guides: 1.5 d"),
    Head(name="workshop flush", allowance=0.75, across=2.0, deep=0.5, source="common practice, no source: 0.75 d"),
)


def head_allowance(name: str, shank: float) -> float:
    """Shank in mm that the head `name` uses up beyond the plate, for a shank of `shank` mm. KeyError for a head
    that `HEADS` does not have."""
    return HEADS[name].allowance * shank


def hole_fill(grip: float, shank: float, hole: float) -> float:
    """Shank in mm that swells to fill a hole of `hole` mm over `grip` mm: grip ((hole/d)^2 - 1), by volume."""
    return grip * ((hole / shank) ** 2 - 1)


def shank_length(*, grip: float, shank: float, hole: float, head: str) -> float:
    """Length in mm of shank to set one rivet: grip, head and hole fill. The workshop rules hold their own hole
    fill, so none is added to them."""
    fill = 0.0 if head.startswith("workshop") else hole_fill(grip, shank, hole)
    return grip + head_allowance(head, shank) + fill
