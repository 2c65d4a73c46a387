"""Who touches whom, who runs into whom, and where metal comes close without touching."""

from __future__ import annotations

from collections.abc import Sequence

from lint.geometry.approach import Approach, approaches, widths
from lint.geometry.area import Area, disc
from lint.geometry.circle import largest_circles
from lint.geometry.form import form
from lint.geometry.turns import CameBack, come_back
from lint.panel.parts import FRAME, Bar, Closeness, Contact, Frame
from lint.sheet.sheet import Sheet

# Of the slenderer bar's width: two bars that share so much lie over one another, rather than running in.
LIES_OVER = 0.9
AROUND = 60.0  # mm about the near points of a place: no bar of a grille is so wide that what it shares goes on beyond

Found = tuple[tuple[Contact, ...], tuple[Closeness, ...], bool]


def contacts_of(frame: Frame | None, bars: Sequence[Bar], sheet: Sheet) -> Found:
    """(contacts, closeness, whether bars lie over one another) of the frame as a whole and the bars.

    A contact is a place where metal comes within the sheet's contact tolerance, or runs in: who runs in touches
    too, so that one cause is one fail. Closeness holds the places that run in deeper than the sheet's overlap, and
    those nearer than its clear gap that do not touch (unless another bar fills the gap); also the turns of one bar
    (both ids equal) that touch, run in or come close. Bars whose width is not known have no metal and are left out.
    """
    ids, metals = named_metal(frame, bars)
    found = approaches(metals, touch=sheet.tolerances.contact, reach=sheet.clearance.clear)
    contacts = tuple(
        Contact(bars=(ids[a.first], ids[a.second]), at=a.at, gap=a.gap, across=a.across, length=a.length)
        for a in found
        if a.touches
    )
    deep = _run_ins([a for a in found if a.touches], ids, metals, sheet)
    beside = _neighbours(found)
    near = [_near_miss(a, ids) for a in found if not a.touches and not _filled(a, beside, metals)]
    turns = _turns(bars, sheet)
    closeness = (*deep, *near, *turns)
    width = dict(zip(ids, widths(metals), strict=True))
    crossings = any(c.depth >= LIES_OVER * min(width[b] for b in c.bars) for c in (*deep, *turns))
    return contacts, closeness, crossings


def named_metal(frame: Frame | None, bars: Sequence[Bar]) -> tuple[list[str], list[Area]]:
    """The ids (FRAME for the frame as a whole) and the metal of all that has any, the frame first."""
    whole = [(FRAME, frame.metal)] if frame and frame.metal and not frame.metal.empty else []
    named = whole + [(bar.id, bar.metal) for bar in bars if bar.metal is not None and not bar.metal.empty]
    return [name for name, _ in named], [metal for _, metal in named]


def _run_ins(found: Sequence[Approach], ids: Sequence[str], metals: Sequence[Area], sheet: Sheet) -> list[Closeness]:
    """The places that run in deeper than the sheet lets a touch be drawn."""
    limit = sheet.clearance.overlap
    # A shared area is at most about twice as thick as its boundary lies inside the other bar.
    deep = [(a, shared) for a in found if a.into > limit / 2 and (shared := _shared(a, metals))]
    circles = largest_circles([shared for _, shared in deep])
    return [
        Closeness(
            bars=(ids[a.first], ids[a.second]),
            at=(circle.x, circle.y),
            gap=0.0,
            depth=max(circle.diameter, a.into),
            between=a.between,
            shared=shared,
        )
        for (a, shared), circle in zip(deep, circles, strict=True)
        if max(circle.diameter, a.into) > limit
    ]


def _shared(a: Approach, metals: Sequence[Area]) -> Area | None:
    """What two bars share at one place, worked only about it: two whole bars would be cut for a square centimetre."""
    window = disc(*a.at, a.spread + AROUND)
    parts = metals[a.first].overlap(window).overlap(metals[a.second].overlap(window)).parts
    return min(parts, key=lambda part: _off(part, a.at), default=None)


def _off(part: Area, point: tuple[float, float]) -> float:
    left, top, right, bottom = part.extent
    return max(left - point[0], point[0] - right, 0.0) + max(top - point[1], point[1] - bottom, 0.0)


def _near_miss(a: Approach, ids: Sequence[str]) -> Closeness:
    bars = (ids[a.first], ids[a.second])
    return Closeness(bars=bars, at=a.at, gap=a.gap, depth=0.0, between=a.between)


def _neighbours(found: Sequence[Approach]) -> dict[int, set[int]]:
    """For each metal those that touch it or come near it."""
    beside: dict[int, set[int]] = {}
    for a in found:
        beside.setdefault(a.first, set()).add(a.second)
        beside.setdefault(a.second, set()).add(a.first)
    return beside


def _filled(near: Approach, beside: dict[int, set[int]], metals: Sequence[Area]) -> bool:
    """Whether a third bar lies in the gap: two scrolls either side of a thin bar do not come close to one another."""
    third = beside[near.first] & beside[near.second]
    return any(metals[other].holds(near.at) for other in third)


def _turns(bars: Sequence[Bar], sheet: Sheet) -> list[Closeness]:
    known = [bar for bar in bars if bar.width is not None and not bar.unread]
    found = _come_back(_distinct(known), sheet) and _come_back(known, sheet)  # in most panels no bar does
    shared = [place.shared for place in found if place.shared and not place.shared.empty]
    depths = {id(area): circle.diameter for area, circle in zip(shared, largest_circles(shared), strict=True)}
    return [_own(place, known[place.index].id, depths.get(id(place.shared), 0.0)) for place in found]


def _come_back(bars: Sequence[Bar], sheet: Sheet) -> tuple[CameBack, ...]:
    widths = [bar.widths if bar.widths is not None else float(bar.width or 0.0) for bar in bars]
    return come_back([bar.line for bar in bars], widths, sheet.clearance.clear)


def _distinct(bars: Sequence[Bar]) -> list[Bar]:
    """One of each that is drawn over and over."""
    first = {(bar.width, form(bar.line)) if bar.widths is None else bar.id: bar for bar in bars}
    return list(first.values())


def _own(place: CameBack, name: str, depth: float) -> Closeness:
    (ax, ay), (bx, by) = place.between
    return Closeness(
        bars=(name, name),
        at=((ax + bx) / 2, (ay + by) / 2),
        gap=place.gap,
        depth=depth,
        between=place.between,
        shared=place.shared if depth else None,
    )
