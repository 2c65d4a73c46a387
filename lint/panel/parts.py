"""The parts of a panel, as a smith would name them. Real millimetres, degrees, y down, frozen.

Parts refer to one another by `id`: the id (or `tag@line`) of the object they were drawn as, unique in the
panel. The frame's members are bars too; `FRAME` stands for the frame as a whole in contacts and holds.
"""

from __future__ import annotations

from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from lint.geometry.area import Area
from lint.geometry.curve import Curve
from lint.panel.stated import Dimension, Origin, Point, Scale, ScaleSource, Stray, Unread
from lint.values import dataclass

Floats = NDArray[np.float64]
FRAME = "frame"

__all__ = [
    "FRAME", "Bar", "Closeness", "Contact", "Corner", "Dimension", "DrawnAs", "End", "Fastener", "Floats", "Frame",
    "Joint", "Meeting", "Opening", "Origin", "Point", "Role", "Scale", "ScaleSource", "Scroll", "Stray", "Unread",
]  # fmt: skip


class Role(StrEnum):
    """What an object's name says it is (drawing convention, section 1)."""

    FRAME = "frame"
    SCROLL = "scroll"
    BAR = "bar"
    SAMPLE = "sample"
    COLLAR = "collar"
    RIVET = "rivet"
    SCREW = "screw"
    WELD = "weld"
    JOINT = "joint"
    END = "end"
    RADIUS = "radius"
    DIMENSION = "dimension"
    SCALE = "scale"
    NOTE = "note"


class DrawnAs(StrEnum):
    """How a bar's metal was drawn (drawing convention, section 4)."""

    CENTRELINE = "centreline"
    HAIRLINE = "hairline"
    OUTLINE = "outline"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Bar:
    """One bar of metal.

    `line` is the centreline; `width` the width as seen (mm), None where a hairline has none stated; `depth`
    the section's other side where known. `widths` has a figure for each point of `line` on an outline, else
    None. `metal` is None where the width is not known. `unread` says why an outline could not be read as a
    bar (then `line` is its outer edge and `metal` its area), with its place in `unread_at`.
    """

    id: str
    origin: Origin
    line: Curve
    width: float | None
    depth: float | None
    metal: Area | None
    drawn_as: DrawnAs
    widths: Floats | None = None
    unread: str = ""
    unread_at: Point | None = None
    width_from: str = "stroke"  # stroke, name, sheet, outline


@dataclass(frozen=True, slots=True, kw_only=True)
class End:
    """One end of a scroll: its point, its name in the sheet's vocabulary (None where nobody names it), the words
    as written, and whether the vocabulary knows them."""

    at: Point
    name: str | None
    written: str = ""
    known: bool = True
    origin: Origin | None = None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Scroll:
    """A scroll: its bar, C, S or other, and what its two curls do.

    `turns` holds how far each curl turns, in full turns, in path order (signs dropped); `why_other` the reason
    where `kind` is "other". `family` counts from 1; 0 for a scroll that could not be compared. `symmetry` is
    the overlay distance to itself, mm (a C about its axis, an S by its half turn), or None. `copy_of` is the id of
    the scroll that this one copies within 0.01 mm, moved, turned or turned over; "" where it copies none before it.
    `doubt` says for each of two curls by how many degrees its turning may be out, 0 where it is read to a degree.
    """

    bar: Bar
    kind: str  # "C", "S" or "other"
    turns: tuple[float, ...]
    ends: tuple[End, End]
    sample: bool = False
    why_other: str = ""
    family: int = 0
    symmetry: float | None = None
    copy_of: str = ""
    doubt: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """A joint mark: `kind` as the vocabulary names it ("mortise and tenon", "halved", ...). `corner` is the
    number of the corner it stands on (0..3) or None; `off` its distance from the nearest meeting of members."""

    kind: str
    at: Point
    origin: Origin
    corner: int | None
    off: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Corner:
    """A corner of the frame's outer boundary.

    `made` is "forged" (one piece of bar turns), "joined" (members meet, or a joint mark stands on it) or
    "open". `angle` in degrees between the straight runs; radii in mm, None where not measured; `inside_from`
    says what the inside radius was read from: "outline", "arc", "text" or "". `cut` is true where the outer
    corner is bevelled or notched rather than sharp or round; `inner` is where the inner sides cross.
    """

    at: Point
    made: str
    angle: float
    outside_radius: float | None
    inside_radius: float | None
    inside_from: str = ""
    joint: Joint | None = None
    origin: Origin | None = None
    cut: bool = False
    inner: Point | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Meeting:
    """Where two members of the frame meet, by their ids, with the gap left between them in mm."""

    members: tuple[str, str]
    at: Point
    gap: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Frame:
    """The frame. `outer` and `inner` are the boundaries of its metal (None where it does not close); `outside`
    and `inside` are (width, height) in mm, each the mean of opposite sides; `sides` top, right, bottom, left
    and `diagonals` of the outer boundary. `gap` is the widest gap left between members, mm (0 when closed).
    `corners` go clockwise from the upper left; there are four, or the frame is not a rectangle (`trouble`).
    """

    members: tuple[Bar, ...]
    metal: Area | None
    outer: Curve | None
    inner: Curve | None
    outside: tuple[float, float] | None
    inside: tuple[float, float] | None
    sides: tuple[float, float, float, float] | None
    diagonals: tuple[float, float] | None
    bar_width: float | None
    corners: tuple[Corner, ...]
    meetings: tuple[Meeting, ...]
    joints: tuple[Joint, ...]
    closed: bool
    gap: float = 0.0
    trouble: str = ""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Fastener:
    """A collar, rivet, screw or weld. `holds` are ids of bars (FRAME for the frame); `size` is the collar's
    length over width or the rivet's diameter, mm; `to_contact` its distance from the nearest contact, mm
    (None where there is none); `short` how far a collar falls short of embracing a bar that it meets, mm."""

    id: str
    kind: str  # "collar", "rivet", "screw", "weld"
    origin: Origin
    at: Point
    size: tuple[float, float]
    area: Area
    holds: tuple[str, ...]
    to_contact: float | None = None
    gap: float | None = None  # widest gap among the bars it holds, within it, mm
    short: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Contact:
    """Two bars that touch: ids (FRAME for the frame), place, gap in mm (0 where they meet), the way `across` it (a
    unit vector; nothing where it is not known), how long the touch is along the bars, and the ids of the fasteners that
    hold both there."""

    bars: tuple[str, str]
    at: Point
    gap: float
    length: float
    across: Point = (0.0, 0.0)
    fasteners: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Closeness:
    """Two bars (or two turns of one: both ids equal) that come close or run into each other at one place.

    `gap` is the clear distance in mm (0 where they overlap), `depth` how deep they run into each other, mm,
    `shared` the area they share. `between` holds the two nearest points.
    """

    bars: tuple[str, str]
    at: Point
    gap: float
    depth: float
    between: tuple[Point, Point]
    shared: Area | None = None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Opening:
    """One opening inside the frame: its area, and the largest circle in it (mm)."""

    area: Area
    at: Point
    diameter: float
