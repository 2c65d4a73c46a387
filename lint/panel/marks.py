"""Marks beside the metal: each goes to the nearest place, one to one, within reach."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from lint.drawing.drawn import Drawn, Words
from lint.panel.origins import origin_of
from lint.panel.parts import Origin, Point
from lint.panel.placing import Placing
from lint.panel.roles import plain
from lint.values import dataclass

Floats = NDArray[np.float64]
Whole = NDArray[np.int64]

_NEAREST = 32  # places that one mark may go to: its end is among the nearest, or it is nobody's
_CHUNK = 256  # marks held against all places at once
DEFAULT_JOINT = "mortise and tenon"
_JOINTS: Mapping[str, tuple[str, ...]] = {
    DEFAULT_JOINT: ("mortise and tenon", "mortice and tenon", "mortise", "mortice", "tenon", "m t", "m & t"),
    "halved": ("halved", "halving", "half lap", "halflap", "lap", "lapped", "half lapped"),
    "pierced": ("pierced", "piercing", "punched", "drifted", "threaded"),
    "butt": ("butt", "butted"),
    "riveted": ("rivet", "riveted"),
    "welded": ("weld", "welded", "forge weld", "fire weld"),
    "mitred": ("mitre", "mitred", "miter", "mitered"),
    "scarfed": ("scarf", "scarfed"),
    "bridle": ("bridle", "bridled", "open mortise"),
    "dovetail": ("dovetail", "dovetailed"),
    "screwed": ("screw", "screwed", "bolt", "bolted"),
}


def joint_kind(words: str, spoken: bool = True) -> str:
    """The kind of joint that a mark's words name; a mark that names none is a mortise and tenon.

    Live text is taken at its word. A shape's own name (`spoken` False) counts only where it is a kind that is
    known, for editors make up names ("Oval-Copy-2") that nobody meant to say anything.
    """
    said = plain(" ".join(word for word in plain(words).split() if word not in ("joint", "joints")))
    if not said:
        return DEFAULT_JOINT
    for kind, spellings in _JOINTS.items():
        if said in spellings or any(said.startswith(f"{spelling} ") for spelling in spellings):
            return kind
    return said if spoken else DEFAULT_JOINT


@dataclass(frozen=True, slots=True, kw_only=True)
class BoxMark:
    """A mark with the box of its words or shape, mm."""

    origin: Origin
    words: str
    spoken: bool
    box: tuple[float, float, float, float]

    @property
    def at(self) -> Point:
        """The middle of the box."""
        return (self.box[0] + self.box[2]) / 2, (self.box[1] + self.box[3]) / 2

    def off(self, point: Point) -> float:
        """How far a point is outside the box, mm."""
        left, top, right, bottom = self.box
        return math.hypot(max(left - point[0], point[0] - right, 0), max(top - point[1], point[1] - bottom, 0))


def box_marks(drawn: Sequence[Drawn], words: Sequence[Words], placing: Placing) -> list[BoxMark]:
    """Drawn shapes and live texts of one role with their boxes."""
    found = []
    for shape, lines in zip(drawn, placing.lines(drawn), strict=True):
        if lines:
            lefts, tops, rights, bottoms = zip(*(line.extent for line in lines), strict=True)
            box = (min(lefts), min(tops), max(rights), max(bottoms))
            origin = origin_of(shape)
            found.append(BoxMark(origin=origin, words=origin.name, spoken=False, box=box))
    for word in words:
        found.append(BoxMark(origin=origin_of(word), words=word.text, spoken=True, box=placing.extent(word.extent)))
    return found


def nearest_pairs(marks: Sequence[BoxMark], places: Sequence[Point], reach: float) -> dict[int, int]:
    """{mark: place}, each mark to one place and each place to one mark, nearest pairs first.

    None where the box of the mark is farther than `reach` mm from the place. Near is the mean of the distances
    from the box and from its middle: a word may stand beside its end or run away from it.
    """
    if not marks or not places:
        return {}
    boxes, spots = np.array([mark.box for mark in marks]), np.array(places)
    found = [_near(boxes[k : k + _CHUNK], spots, reach, k) for k in range(0, len(boxes), _CHUNK)]
    rows, columns, cost = (np.concatenate(part) for part in zip(*found, strict=True))
    taken: dict[int, int] = {}
    used: set[int] = set()
    order = np.lexsort((columns, rows, np.round(cost, 9)))
    for mark, place in zip(rows[order].tolist(), columns[order].tolist(), strict=True):
        if mark not in taken and place not in used:
            taken[mark] = place
            used.add(place)
    return taken


def _near(boxes: Floats, spots: Floats, reach: float, first: int) -> tuple[Whole, Whole, Floats]:
    low, high = boxes[:, None, :2], boxes[:, None, 2:]
    wide = reach + 1.0
    about = (spots >= low.min(axis=0) - wide) & (spots <= high.max(axis=0) + wide)
    within = np.flatnonzero(about.all(axis=1))  # the others are out of reach of all these marks
    spots = spots[within]
    outside = np.maximum(np.maximum(low - spots, spots - high), 0)
    off = np.hypot(outside[..., 0], outside[..., 1])
    if len(spots) > _NEAREST:  # a page with thousands of names on one spot must not fill the memory
        kth = np.partition(off, _NEAREST - 1, axis=1)[:, _NEAREST - 1 : _NEAREST]
        off = np.where(off <= kth, off, np.inf)
    rows, columns = np.nonzero(off <= reach)
    middle = (boxes[rows, :2] + boxes[rows, 2:]) / 2 - spots[columns]
    return rows + first, within[columns], (off[rows, columns] + np.hypot(middle[:, 0], middle[:, 1])) / 2
