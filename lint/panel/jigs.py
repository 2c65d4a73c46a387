"""One jig for each family of scrolls, and how nearly its scrolls cover one another."""

from __future__ import annotations

import numpy as np

from lint.geometry.curve import Curve
from lint.geometry.motion import best_motion
from lint.panel.laying import compared_curve, lay_on
from lint.panel.panel import Panel
from lint.panel.parts import Scroll
from lint.sheet.sheet import Sheet
from lint.values import dataclass

_POINTS = 64  # along a copy: many more than a curl has bends


@dataclass(frozen=True, slots=True, kw_only=True)
class Jig:
    """A family by number, the ids of its scrolls, the largest overlay distance of any of them from the first, mm
    (None for a single scroll), and whether one of them is the first turned over."""

    family: int
    scrolls: tuple[str, ...]
    overlay: float | None
    turned_over: bool


def jigs(panel: Panel, sheet: Sheet) -> tuple[Jig, ...]:
    """The jigs that the panel asks for, by number of family."""
    return tuple(_jig(family, sheet) for family in panel.families)


def _jig(family: tuple[Scroll, ...], sheet: Sheet) -> Jig:
    """Exact copies are not laid on the first again: only which way up they lie is looked at."""
    first = compared_curve(family[0].bar, sheet)
    copied = {scroll.bar.id for scroll in family if scroll.copy_of == family[0].bar.id}
    others = [scroll for scroll in family[1:] if scroll.bar.id not in copied]
    laid = [lay_on(scroll.bar, family[0].bar, sheet).overlay for scroll in others]
    turned = any(result.motion.turned_over for result in laid) or any(
        copied_over(compared_curve(scroll.bar, sheet), first) for scroll in family if scroll.bar.id in copied
    )
    return Jig(
        family=family[0].family,
        scrolls=tuple(scroll.bar.id for scroll in family),
        overlay=max((result.distance for result in laid), default=0.0 if copied else None),
        turned_over=turned,
    )


def copied_over(copy: Curve, first: Curve) -> bool:
    """Whether a curve that is the same as `first` covers it only when it is turned over. A curve that is its own
    mirror image needs no turning over."""
    fixed = first.at(np.linspace(0.0, first.length, _POINTS))
    moving = copy.at(np.linspace(0.0, copy.length, _POINTS))

    def apart(turned_over: bool) -> float:
        """The least distance, over both directions of the path, mm."""
        return min(
            float(np.abs(best_motion(way, fixed, turned_over).apply(way) - fixed).max())
            for way in (moving, moving[::-1])
        )

    return apart(True) < apart(False) - 0.05  # mm: copies agree within 0.01
