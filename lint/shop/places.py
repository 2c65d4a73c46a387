"""Where a family's scrolls are held and touched, as distances along the pattern."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from lint.geometry.curve import Curve
from lint.geometry.overlay import overlay
from lint.panel.panel import Panel
from lint.panel.parts import Scroll
from lint.sheet.sheet import Sheet
from lint.shop.bars import shown_name
from lint.shop.pattern import Floats, Point
from lint.shown import shown
from lint.values import dataclass

LAID = 12  # scrolls of a family that are laid on the pattern, so that a large panel's pattern stays readable
APART = 2.0  # mm: places of one kind nearer than this are one place


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A place along the pattern: distance from its start in mm, what is there ("collar", "rivet", "screw", "weld",
    "touch"), `words` short enough for the pattern, and `told` with the names of the scrolls that have it there."""

    s: float
    kinds: tuple[str, ...]
    words: str
    told: str


def places_on(panel: Panel, family: tuple[Scroll, ...], sheet: Sheet) -> tuple[Place, ...]:
    """All places of the family's first scrolls, in order along the pattern; those that fall together are one.

    `sheet.scroll_match.ends_left_out` plays no part: whole curves are laid on one another.
    """
    first = family[0]
    found: list[tuple[float, str, str]] = []
    for scroll in family[:LAID]:
        onto = _same if scroll is first else _laid_on(scroll.bar.line, first.bar.line)
        for at, kind in _holds(panel, scroll):
            s, off = first.bar.line.nearest(onto(at))
            if off <= (first.bar.width or 0) + 6.0:
                found.append((s, kind, shown(shown_name(scroll.bar), 40)))
    return _together(found, len(family))


def _holds(panel: Panel, scroll: Scroll) -> list[tuple[Point, str]]:
    """Fasteners that hold the scroll, and touches that no fastener holds."""
    name = scroll.bar.id
    held = [(fastener.at, fastener.kind) for fastener in panel.fasteners if name in fastener.holds]
    bare = [(contact.at, "touch") for contact in panel.contacts if name in contact.bars and not contact.fasteners]
    return held + bare


def _same(at: Point) -> Point:
    return at


def _laid_on(moving: Curve, fixed: Curve) -> Callable[[Point], Point]:
    """Lays a point of one scroll on another scroll of its family."""
    motion = overlay(moving, fixed, accuracy=0.1).motion

    def laid(at: Point) -> Point:
        moved: Floats = motion.apply(np.array([at]))
        return float(moved[0, 0]), float(moved[0, 1])

    return laid


def _together(found: list[tuple[float, str, str]], scrolls: int) -> tuple[Place, ...]:
    """Places nearer to one another than `APART` are one, each kind with the scrolls that have it there."""
    places: list[tuple[float, dict[str, list[str]]]] = []
    for s, kind, name in sorted(found):
        if not places or s - places[-1][0] > APART:
            places.append((s, {}))
        names = places[-1][1].setdefault(kind, [])
        if name not in names:
            names.append(name)
    return tuple(
        Place(
            s=s,
            kinds=tuple(kinds),
            words=", ".join(_words(kind, names, scrolls) for kind, names in kinds.items()),
            told=", ".join(_told(kind, names, scrolls) for kind, names in kinds.items()),
        )
        for s, kinds in places
    )


def _words(kind: str, names: list[str], scrolls: int) -> str:
    """The kind alone where every scroll of the family has it there, else the one that has, or how many."""
    if len(names) == scrolls:
        return kind
    return f"{kind} ({shown(names[0], 20)})" if len(names) == 1 else f"{kind} on {len(names)}"


def _told(kind: str, names: list[str], scrolls: int) -> str:
    return kind if len(names) == scrolls else f"{kind} ({', '.join(names)})"
