"""One jig for each family of scrolls, and how nearly its scrolls cover one another."""

from __future__ import annotations

from dataclasses import dataclass

from lint.geometry.overlay import overlay
from lint.panel.families import compared_curve
from lint.panel.panel import Panel
from lint.panel.parts import Scroll
from lint.sheet.sheet import Sheet


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
    first = compared_curve(family[0].bar, sheet)
    laid = [overlay(compared_curve(scroll.bar, sheet), first) for scroll in family[1:]]
    return Jig(
        family=family[0].family,
        scrolls=tuple(scroll.bar.id for scroll in family),
        overlay=max((result.distance for result in laid), default=None),
        turned_over=any(result.motion.turned_over for result in laid),
    )
