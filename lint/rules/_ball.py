"""The ball of the sheet in one opening: where it passes, or the largest circle."""

from __future__ import annotations

from lint.geometry.circle import largest_circle, reach
from lint.lengths import say
from lint.panel.parts import Opening
from lint.result import Ball, Circle, Place, Point, Region, Sign, Trace
from lint.sheet.sheet import Sheet

Rings = tuple[tuple[Point, ...], ...]

AT_LIMIT = 0.005  # mm: circles are found from below, so one so near the limit is taken to be at it


def at_limit(diameter: float, sheet: Sheet) -> bool:
    """Whether a circle is just the size of the limit, as nearly as it can be measured."""
    return abs(diameter - sheet.pass_through.sphere) <= 2 * AT_LIMIT


def tried(hole: Opening, sheet: Sheet) -> list[Place]:
    """What is found in one opening: each pocket where the ball passes, or the largest circle."""
    asked = sheet.pass_through
    if hole.diameter >= asked.sphere + (-AT_LIMIT if asked.strict else AT_LIMIT):
        return _pockets(hole, sheet)
    near = hole.diameter >= asked.sphere - asked.band
    note = f"largest circle {say(hole.diameter, sheet.units, asked.sphere)}"
    note += f", only {say(asked.sphere - hole.diameter, sheet.units)} below the limit" if near else ""
    circle = Circle(x=hole.at[0], y=hole.at[1], diameter=hole.diameter)
    sign = Sign.LOOK if near else Sign.STANDS
    return [Place(x=hole.at[0], y=hole.at[1], note=note, sign=sign, measured=hole.diameter, traces=(circle,))]


def _pockets(hole: Opening, sheet: Sheet) -> list[Place]:
    """A place for each part of the opening that the ball can pass: two pockets of one opening are two findings."""
    limit = sheet.pass_through.sphere
    pockets = reach(hole.area, limit)
    if len(pockets) < 2:
        rings = pockets[0].rings if pockets else ()
        return [_passes(hole.at, hole.diameter, rings, sheet)]
    places = []
    for pocket in pockets:
        # The ball swept over its pocket holds the largest circle of this part of the opening.
        circle = largest_circle(pocket.grown(limit / 2).overlap(hole.area))
        places.append(_passes((circle.x, circle.y), max(circle.diameter, limit), pocket.rings, sheet))
    return sorted(places, key=lambda place: -(place.measured or 0.0))


def _regions(rings: Rings) -> tuple[Region, ...]:
    return (Region(rings=rings),) if rings else ()


def _passes(at: Point, diameter: float, rings: Rings, sheet: Sheet) -> Place:
    limit, (x, y) = sheet.pass_through.sphere, at
    exactly = ", at the limit" if at_limit(diameter, sheet) else ""
    note = f"largest circle {say(diameter, sheet.units, limit)}{exactly}"
    traces: tuple[Trace, ...] = (Ball(x=x, y=y, diameter=limit), Circle(x=x, y=y, diameter=diameter), *_regions(rings))
    return Place(x=x, y=y, note=note, sign=Sign.MEND, measured=diameter, traces=traces)
