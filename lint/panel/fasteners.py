"""What each fastener holds, and which contacts are held."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from functools import cache
from math import hypot

import numpy as np
from numpy.typing import NDArray

from lint.geometry.area import Area, disc
from lint.geometry.beside import beside, meeting, outside
from lint.panel.contacts import named_metal
from lint.panel.limit import refuse_crowd
from lint.panel.parts import Bar, Contact, Fastener, Frame, Origin, Point
from lint.sheet.sheet import Sheet
from lint.values import dataclass

Floats = NDArray[np.float64]
Held = tuple[tuple[Fastener, ...], tuple[Contact, ...]]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FastenerMark:
    """A fastener as drawn: `kind` "collar", "rivet", "screw" or "weld"; its axis, its size (length over width, or
    the diameter twice, mm) and its area."""

    kind: str
    id: str
    origin: Origin
    at: Point
    size: tuple[float, float]
    area: Area


def fasten(
    marks: Sequence[FastenerMark], frame: Frame | None, bars: Sequence[Bar], contacts: Sequence[Contact], sheet: Sheet
) -> Held:
    """(fasteners with what they hold, contacts with what holds them). mm.

    A collar embraces every bar whose metal its area meets (by more than the contact tolerance: a bar that its edge
    only grazes lies outside); rivets, screws and welds hold the bars within their radius plus the tolerance of the
    axis. A contact is held by the fastener that holds both its bars and stands on it. Raises UnreadableDrawing where
    fasteners lie on bars in a heap.
    """
    ids, metals = named_metal(frame, bars)
    lines = {bar.id: bar for bar in bars}
    touch = sheet.tolerances.contact
    index = _by_pair(contacts)
    held_by: dict[int, list[str]] = {}
    places = np.array([contact.at for contact in contacts]).reshape(-1, 2)
    fasteners = []
    all_held = _holds(marks, metals, touch)
    refuse_crowd([(mark.origin, len(holds)) for mark, holds in zip(marks, all_held, strict=True)])
    shorts = _short(marks, [[lines[ids[k]] for k in holds if ids[k] in lines] for holds in all_held])
    for mark, holds, short in zip(marks, all_held, shorts, strict=True):
        names = tuple(ids[k] for k in holds)
        on = _contacts_there(mark, names, index, contacts, touch)
        for k in on:
            held_by.setdefault(k, []).append(mark.id)
        there = [contacts[k] for k in on]
        gap = _widest_gap(mark, names, [metals[k] for k in holds], there, touch)
        to_contact = _to_contact(mark, there, places)
        fasteners.append(_fastener(mark, names, gap=gap, to_contact=to_contact, short=short))
    held = tuple(replace(c, fasteners=tuple(held_by.get(k, ()))) for k, c in enumerate(contacts))
    return tuple(fasteners), held


def _holds(marks: Sequence[FastenerMark], metals: Sequence[Area], touch: float) -> list[list[int]]:
    """For each mark the metals that it holds, by index."""
    holds: list[list[int]] = [[] for _ in marks]
    collars = [k for k, mark in enumerate(marks) if mark.kind == "collar"]
    for k, metal in meeting([marks[k].area for k in collars], metals, rim=touch):
        holds[collars[k]].append(metal)
    pins = [k for k, mark in enumerate(marks) if mark.kind != "collar"]
    reach = [max(marks[k].size) / 2 + touch for k in pins]
    for k, metal in beside([marks[k].at for k in pins], metals, reach):
        holds[pins[k]].append(metal)
    return holds


def _by_pair(contacts: Sequence[Contact]) -> dict[frozenset[str], list[int]]:
    index: dict[frozenset[str], list[int]] = {}
    for k, contact in enumerate(contacts):
        index.setdefault(frozenset(contact.bars), []).append(k)
    return index


def _contacts_there(
    mark: FastenerMark,
    names: Sequence[str],
    index: dict[frozenset[str], list[int]],
    contacts: Sequence[Contact],
    touch: float,
) -> list[int]:
    """The contacts between bars it holds that it stands on: for each pair the nearest, within the mark's own reach."""
    on = []
    reach = hypot(*mark.size) / 2 if mark.kind == "collar" else max(mark.size) / 2
    for pair in _pairs(names):
        near = [(_apart(mark.at, contacts[k].at), k) for k in index.get(frozenset(pair), ())]
        if near:
            off, nearest = min(near)
            if off <= reach + touch + contacts[nearest].length / 2:
                on.append(nearest)
    return on


def _pairs(names: Sequence[str]) -> Iterable[tuple[str, str]]:
    return ((a, b) for i, a in enumerate(names) for b in names[i + 1 :])


def _apart(a: Point, b: Point) -> float:
    return hypot(a[0] - b[0], a[1] - b[1])


def _widest_gap(
    mark: FastenerMark, names: Sequence[str], metals: Sequence[Area], on: Sequence[Contact], touch: float
) -> float | None:
    """The widest gap left among the bars it holds, going from each to its nearest neighbour; None for under two."""
    if len(names) < 2:
        return None
    if len(names) == 2 and on:
        return on[0].gap
    touching = {frozenset(contact.bars): contact.gap for contact in on}

    @cache
    def inside(k: int) -> Area:
        reach = mark.area if mark.kind == "collar" else disc(*mark.at, max(mark.size) / 2 + touch)
        within = metals[k].overlap(reach)
        return metals[k] if within.empty else within

    def between(i: int, j: int) -> float:
        known = touching.get(frozenset((names[i], names[j])))
        return inside(i).distance(inside(j)) if known is None else known

    joined, left, widest = [0], set(range(1, len(names))), 0.0
    while left:
        gap, nearest = min((between(i, j), j) for i in joined for j in left)
        widest = max(widest, gap)
        joined.append(nearest)
        left.remove(nearest)
    return widest


def _to_contact(mark: FastenerMark, on: Sequence[Contact], places: Floats) -> float | None:
    """The distance from the nearest of the contacts that it stands on; where there is none, from the nearest of all."""
    if on:
        return min(_apart(mark.at, contact.at) for contact in on)
    return float(np.hypot(places[:, 0] - mark.at[0], places[:, 1] - mark.at[1]).min()) if len(places) else None


def _fastener(
    mark: FastenerMark, holds: tuple[str, ...], *, gap: float | None, to_contact: float | None, short: float
) -> Fastener:
    return Fastener(
        id=mark.id,
        kind=mark.kind,
        origin=mark.origin,
        at=mark.at,
        size=mark.size,
        area=mark.area,
        holds=holds,
        to_contact=to_contact,
        gap=gap,
        short=short,
    )


def _short(marks: Sequence[FastenerMark], held: Sequence[Sequence[Bar]]) -> list[float]:
    """For each collar how far a face of the bars that it meets lies outside it, mm: 0 where it wraps them all."""
    collars = [k for k, mark in enumerate(marks) if mark.kind == "collar"]
    faces = [(k, face) for k in collars for bar in held[k] for face in _faces(marks[k], bar)]
    gaps = outside([face for _, face in faces], [marks[k].area for k, _ in faces])
    short = [0.0] * len(marks)
    for (k, _), gap in zip(faces, gaps, strict=True):
        short[k] = max(short[k], gap)
    return short


def _faces(mark: FastenerMark, bar: Bar) -> tuple[Point, ...]:
    """A point on each of the bar's two faces, where it passes nearest the collar's middle."""
    if bar.width is None or bar.unread:
        return ()
    s, _ = bar.line.nearest(mark.at)
    run, stations = bar.line.run, bar.line.stations
    k = min(max(int(np.searchsorted(stations, s, side="right")) - 1, 0), len(run) - 2)
    (x, y), (to_x, to_y) = run[k : k + 2].tolist()
    start, end = stations[k : k + 2].tolist()
    along_x, along_y, half = (to_x - x) / (end - start), (to_y - y) / (end - start), bar.width / 2
    x, y = x + along_x * (s - start), y + along_y * (s - start)
    return (x + along_y * half, y - along_x * half), (x - along_y * half, y + along_x * half)
