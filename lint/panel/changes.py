"""What moved between two panels, and by how much: rows of figures against rows of figures."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from lint.panel.parts import Point
from lint.sheet.approved import Agreed
from lint.values import dataclass

SLACK = 0.03  # mm: an editor's save in two or three decimals moves a figure by less, a person's hand by more
SLACK_LENGTH = 1e-4  # of a length besides, for a bar's length adds up the noise of its nodes
SLACK_ANGLE = 0.05  # deg
_NAMES = {  # what the figures of each kind of part are called, in order
    "frame": ("outside width", "outside height", "bar width"),
    "corner": ("", "", "angle", "outside radius", "inside radius"),
    "dimension": ("stated length", "drawn length"),
}
_BARS = ("scroll", "sample", "bar")


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One change: a sentence without its full stop, where it is (mm from the frame's corner; None for nowhere),
    and how far the part moved in mm (0 where it did not move)."""

    sentence: str
    at: Point | None
    moved: float


def changes(before: Sequence[Agreed], now: Sequence[Agreed]) -> tuple[Change, ...]:
    """Every difference that is more than a save in another editor makes, part by part."""
    found: list[Change] = []
    for kind in dict.fromkeys(row.kind for row in (*before, *now)):
        old, new = ([row for row in rows if row.kind == kind] for rows in (before, now))
        for a, b in _paired(old, new):
            if b is None:
                found.append(Change(sentence=f"{a.name} is gone" if a else "", at=_place(a), moved=0.0))
            elif a is None:
                found.append(Change(sentence=f"{b.name} is new", at=_place(b), moved=0.0))
            else:
                found += _between(a, b)
    return tuple(found)


def _paired(old: list[Agreed], new: list[Agreed]) -> Iterator[tuple[Agreed | None, Agreed | None]]:
    """Each old part with the new one that is most like it, by name first where the rows are as many, nearest
    pairs first; parts without a partner alone. Exactly one side of a pair can be None."""
    same = [n for n in range(min(len(old), len(new))) if not list(_between(old[n], new[n]))]
    yield from ((old[n], new[n]) for n in same)
    rest_old = [row for n, row in enumerate(old) if n not in set(same)]
    rest_new = [row for n, row in enumerate(new) if n not in set(same)]
    while rest_old and rest_new:
        a = rest_old.pop(0)
        best = min(range(len(rest_new)), key=lambda n: _unlike(a, rest_new[n]))
        yield a, rest_new.pop(best)
    yield from ((a, None) for a in rest_old)
    yield from ((None, b) for b in rest_new)


def _unlike(a: Agreed, b: Agreed) -> float:
    """How unlike two rows are: the distance of their places, and a little more where their words differ."""
    p, q = _place(a), _place(b)
    away = float(np.hypot(p[0] - q[0], p[1] - q[1])) if p and q else 0.0
    if a.kind == "dimension" and a.figures and b.figures:
        away = abs(a.figures[1] - b.figures[1])
    return away + (0.0 if a.what == b.what else 5.0)


def _place(row: Agreed | None) -> Point | None:
    if row is None or row.kind in ("frame", "scale", "dimension") or len(row.figures) < 2:
        return None
    if row.kind in _BARS:
        places = np.array(row.figures[2:]).reshape(-1, 2)
        low, high = places.min(axis=0), places.max(axis=0)
        return (float(low[0] + high[0]) / 2, float(low[1] + high[1]) / 2)
    return (row.figures[0], row.figures[1])


def _between(a: Agreed, b: Agreed) -> Iterator[Change]:
    at = _place(b)
    if a.what != b.what:
        yield Change(sentence=f"{a.name}: {a.what} -> {b.what}", at=at, moved=0.0)
    if len(a.figures) != len(b.figures):
        yield Change(sentence=f"{a.name} is drawn in another way", at=at, moved=0.0)
    elif a.kind in _BARS and a.figures:
        yield from _bar(a, b, at)
    else:
        yield from _plain(a, b, at)


def _bar(a: Agreed, b: Agreed, at: Point | None) -> Iterator[Change]:
    (width_a, length_a), (width_b, length_b) = a.figures[:2], b.figures[:2]
    old, new = (np.array(row.figures[2:]).reshape(-1, 2) for row in (a, b))
    if np.linalg.norm(new[::-1] - old, axis=1).max() < np.linalg.norm(new - old, axis=1).max():
        new = new[::-1]
    shift = new - old
    most = float(np.linalg.norm(shift, axis=1).max())
    if most > SLACK + SLACK_LENGTH * length_a:
        rigid = float(np.linalg.norm(shift - shift.mean(axis=0), axis=1).max()) < max(SLACK, 0.02 * most)
        if rigid:
            yield Change(sentence=f"{a.name} moved {most:.1f} mm", at=at, moved=most)
        else:
            yield Change(sentence=f"{a.name} is bent or turned otherwise, by up to {most:.1f} mm", at=at, moved=most)
    if abs(length_a - length_b) > SLACK + SLACK_LENGTH * length_a:
        yield Change(sentence=f"{a.name}: length {_say(length_a)} -> {_say(length_b)}", at=at, moved=0.0)
    if abs(width_a - width_b) > SLACK:
        yield Change(sentence=f"{a.name}: width {_say(width_a)} -> {_say(width_b)}", at=at, moved=0.0)


def _plain(a: Agreed, b: Agreed, at: Point | None) -> Iterator[Change]:
    names = _NAMES.get(a.kind, ())
    if a.kind not in ("frame", "dimension") and len(a.figures) >= 2:
        most = float(np.hypot(b.figures[0] - a.figures[0], b.figures[1] - a.figures[1]))
        if most > SLACK:
            yield Change(sentence=f"{a.name} moved {most:.1f} mm", at=at, moved=most)
    start = 0 if a.kind in ("frame", "dimension") else 2
    for n in range(start, len(a.figures)):
        name = names[n] if n < len(names) else "size"
        old, new = a.figures[n], b.figures[n]
        slack = SLACK_ANGLE if name == "angle" else SLACK + SLACK_LENGTH * abs(old)
        if "radius" in name:
            slack += 0.1  # a radius is fitted to a short arc, which magnifies the noise of its nodes
        if abs(new - old) > slack:
            yield Change(sentence=f"{a.name}: {name} {_say(old)} -> {_say(new)}", at=at, moved=0.0)


def _say(figure: float) -> str:
    return f"{figure:.2f}".rstrip("0").rstrip(".")
