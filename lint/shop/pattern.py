"""A full-size pattern as plain values: what to draw, with which pen, and the words on it. Real mm, y down."""

from __future__ import annotations

from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from lint.values import dataclass

Floats = NDArray[np.float64]
Point = tuple[float, float]
Extent = tuple[float, float, float, float]  # left, top, right, bottom

FIGURES, NAMES = 2.5, 3.5  # mm: lettering heights of ISO 3098


class Pen(StrEnum):
    """What a line is: the page gives each its width and dashes (ISO 128)."""

    FORMER = "former"  # the face the former follows
    FACE = "face"  # the other face of a bar, and its ends
    CENTRE = "centre"  # a bar's centreline
    FRAME = "frame"  # the frame's outer and inner edge
    MARK = "mark"  # distances along the bar
    FASTENER = "fastener"  # collars, rivets, screws
    POINT = "point"  # bend points, contacts, joints
    LEADER = "leader"  # from words to their place


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Stroke:
    """One line of a pattern: points (n, 2) in mm."""

    pen: Pen
    points: Floats
    closed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """Lettering `high` mm tall, its middle at `at`, beside the place `mark` where the metal reaches out `half` mm.
    `strong` for what names a part."""

    at: Point
    words: str
    high: float
    strong: bool = False
    mark: Point | None = None
    half: float = 0.0

    @property
    def size(self) -> tuple[float, float]:
        """Width and height in mm that the lettering takes, a little generous: a sign is about 0.55 of the font's size
        wide, 0.6 in bold, and the font's size is 1.4 of the height of its capitals."""
        return (0.84 if self.strong else 0.76) * self.high * max(len(self.words), 1), self.high * 1.15


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pattern:
    """One pattern. `name` is short and stands on every sheet; `facts` are lines for the head of a sheet, the most
    needed first; `listing` says more, for the cover. `extent` holds every line and word, mm."""

    name: str
    facts: tuple[str, ...]
    listing: tuple[str, ...]
    strokes: tuple[Stroke, ...]
    words: tuple[Words, ...]

    @property
    def extent(self) -> Extent:
        """Left, top, right, bottom of all lines and words, mm."""
        low = np.min([stroke.points.min(axis=0) for stroke in self.strokes], axis=0)
        high = np.max([stroke.points.max(axis=0) for stroke in self.strokes], axis=0)
        boxes = [box_of(words) for words in self.words]
        left, top = min([float(low[0]), *(b[0] for b in boxes)]), min([float(low[1]), *(b[1] for b in boxes)])
        right, bottom = max([float(high[0]), *(b[2] for b in boxes)]), max([float(high[1]), *(b[3] for b in boxes)])
        return left, top, right, bottom


def box_of(words: Words) -> Extent:
    """The box that lettering takes, mm."""
    wide, tall = words.size
    x, y = words.at
    return x - wide / 2, y - tall / 2, x + wide / 2, y + tall / 2


def dense(points: Floats, closed: bool, step: float = 2.0) -> Floats:
    """Points on a line no farther apart than `step` mm, its own among them."""
    run = np.concatenate([points, points[:1]]) if closed else points
    chords = np.diff(run, axis=0)
    pieces = np.maximum(1, np.ceil(np.hypot(chords[:, 0], chords[:, 1]) / step)).astype(int)
    which = np.repeat(np.arange(len(chords)), pieces)
    first = np.cumsum(pieces) - pieces
    share = (np.arange(len(which)) - first[which]) / pieces[which]
    filled: Floats = np.concatenate([run[which] + chords[which] * share[:, None], run[-1:]])
    return filled
