"""Bars drawn as outlines: one object's area to one bar or several, and nested outlines to a frame."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from lint.geometry.area import Area, area, union
from lint.geometry.bending import turning
from lint.geometry.curve import Curve
from lint.geometry.midline import NotABar, midline
from lint.geometry.midline_faults import crosses_itself
from lint.panel.parts import Point
from lint.values import dataclass

Floats = NDArray[np.float64]

# A part so small a share of its object is what an editor's union left over, and no bar.
LEFT_OVER = 1e-3

# mm2: an object of less encloses nothing, such as a line that is filled.
NO_METAL = 1e-6

# An outline within another is the inside of the frame when it takes in so much of it; a smaller one is something else.
INSIDE = 0.3

# Degrees that a member of a frame turns at most: a frame in one piece, its ends overlapping, turns 360.
MOST_TURN = 450.0

WHY = {
    "not slender": "its outline is no bar: it is not at least two and a half times as long as it is wide",
    "branching": "its outline forks here: bars fused into one shape, or a bar run into itself; "
    "draw each bar as an outline of its own",
    "several parts": "its outline is in several parts",
    "no metal": "its outline encloses no metal",
    "curled": "this part of it curls as a scroll does: bars united into one shape; draw each bar as an outline of its "
    "own, on its own layer",
    "self-crossing": "its outline crosses itself here; draw it so that it runs once round the metal",
}


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class OutlineBar:
    """One bar of an outline. `line` is its centreline, true end to true end (closed for a ring), `widths` a
    figure for each point of it, `width` the ordinary width, mm. `metal` is the outline's own area.

    Where it cannot be read as a bar, `unread` is a phrase that says why and what to do (no capital, no full
    stop), `unread_at` the place, `line` the outer edge and `width` None.
    """

    line: Curve
    widths: Floats | None
    width: float | None
    metal: Area
    unread: str = ""
    unread_at: Point | None = None


def bars_of(shape: Area, rings: Sequence[Curve] = ()) -> tuple[OutlineBar, ...]:
    """The bars that one drawn object's area holds: one for each part, the largest first.

    Rings within rings are holes already (`lint.geometry.area.area` and its fill rule); rings apart are bars of
    their own; a part round one hole is a closed bar. `rings`, the outlines as drawn (mm), let the reason say
    where an outline crosses itself. An area of nothing gives ().
    """
    parts = shape.parts
    kept = [part for part in parts if part.size > max(LEFT_OVER * parts[0].size, NO_METAL)]
    torn = len(kept) > len(rings) > 0  # an outline that crosses itself falls apart there
    crossings = [at for ring in rings if (at := crosses_itself(ring)) is not None] if torn else []
    return tuple(_bar(part, rings, crossings) for part in kept)


def _bar(part: Area, rings: Sequence[Curve], torn_at: Sequence[Point]) -> OutlineBar:
    torn = _within(part, torn_at)
    if torn is not None:
        return _unread(part, "self-crossing", torn)
    try:
        found = midline(part)
    except NotABar as refusal:
        return _unread(part, *_reason(refusal, part, rings))
    return OutlineBar(line=found.line, widths=found.widths, width=found.width, metal=part)


def _unread(part: Area, why: str, at: Point) -> OutlineBar:
    return OutlineBar(line=part.outer[0], widths=None, width=None, metal=part, unread=WHY.get(why, why), unread_at=at)


def without_curls(bar: OutlineBar) -> OutlineBar:
    """A bar of the frame; where it curls, a scroll united with the frame's outline, and so unread. (Where two bars only
    touch, an editor's union leaves them as two rings of one shape.)"""
    if bar.unread or bar.line.closed or sum(abs(turn) for _, _, turn in turning(bar.line).lobes) <= MOST_TURN:
        return bar
    at = bar.line.at(bar.line.length / 2)
    return replace(
        bar,
        line=bar.metal.outer[0],
        widths=None,
        width=None,
        unread=WHY["curled"],
        unread_at=(float(at[0]), float(at[1])),
    )


def _reason(refusal: NotABar, part: Area, rings: Sequence[Curve]) -> tuple[str, Point]:
    """Why and where: an outline that crosses itself within this part is the cause of a fork in it."""
    if refusal.why == "branching":
        crossing = _within(part, [at for ring in rings if (at := crosses_itself(ring)) is not None])
        if crossing is not None:
            return "self-crossing", crossing
    return refusal.why, refusal.at


def _within(part: Area, places: Sequence[Point]) -> Point | None:
    """The first of the places that lies in the part or on its edge."""
    near = part.grown(0.01) if places else part
    return next((at for at in places if near.holds(at)), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Nest:
    """Outlines that make one piece of metal: their numbers in the order given, and the metal."""

    of: tuple[int, ...]
    metal: Area


def nested(shapes: Sequence[Area]) -> tuple[Nest, ...]:
    """Outlines drawn one within the other taken as a piece of metal and its inside; every other one by itself.

    A frame may be drawn as two rectangles, each of them filled or neither: the inner is then the hole of the
    outer. An outline counts as an inside when it lies wholly within the other and takes in a third of it
    (`INSIDE`); where three or more are nested, metal and holes take turns from the outside in.
    """
    whole = [union([area([ring.points]) for ring in shape.outer]) for shape in shapes]
    order = sorted(range(len(shapes)), key=lambda n: -whole[n].size)
    nests: list[list[int]] = []
    for number in order:
        home = next((nest for nest in nests if _is_inside(whole[number], whole[nest[-1]])), None)
        if home is not None and not shapes[home[-1]].holes:
            home.append(number)
        else:
            nests.append([number])
    made = [Nest(of=tuple(nest), metal=_turn_about([shapes[n] for n in nest])) for nest in nests]
    return tuple(sorted(made, key=lambda nest: min(nest.of)))


def _is_inside(inner: Area, outer: Area) -> bool:
    if not INSIDE * outer.size <= inner.size < outer.size:
        return False
    a, b = inner.extent, outer.extent
    around = b[0] <= a[0] and b[1] <= a[1] and b[2] >= a[2] and b[3] >= a[3]
    return around and inner.less(outer).size < 1e-6 * inner.size


def _turn_about(shapes: Sequence[Area]) -> Area:
    metal = shapes[-1]
    for shape in reversed(shapes[:-1]):
        metal = shape.less(metal)
    return metal
