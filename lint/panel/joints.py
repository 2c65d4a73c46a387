"""Joint and radius marks to the corners and meetings of the frame."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from lint.drawing.drawn import Drawn, Words
from lint.geometry.curve import Curve
from lint.geometry.fitting import fit_circle
from lint.lengths import parse
from lint.panel.marks import BoxMark, box_marks, joint_kind, nearest_pairs
from lint.panel.origins import origin_of
from lint.panel.parts import Corner, Joint, Origin, Point, Stray
from lint.panel.placing import Placing
from lint.sheet.sheet import Sheet
from lint.values import dataclass

_OFF_ARC = 0.05  # mm, or a twentieth of the radius: what leaves its circle by more is no arc
_OFF_CORNER = 2.0  # mm, or half the radius: an arc drawn by eye stands this near its true place
_SAME_RADIUS = 0.5  # mm: two marks of one corner that differ by less say the same
_LABEL = 40.0  # mm: a text this near a joint's shape is its label


@dataclass(frozen=True, slots=True, kw_only=True)
class Joined:
    """A joint mark before it is given its place."""

    origin: Origin
    at: Point
    kind: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Rounded:
    """A radius mark before it is given its corner: an arc (`by` "arc") or a text ("text"). mm."""

    origin: Origin
    at: Point
    radius: float
    by: str
    centre: Point | None = None


Placed = tuple[tuple[Corner, ...], tuple[Joint, ...]]


def joints_marked(drawn: Sequence[Drawn], words: Sequence[Words], placing: Placing) -> tuple[Joined, ...]:
    """The joint marks of a drawing. A text beside a shape names that shape's joint, and is no mark of its own."""
    marks = box_marks(drawn, words, placing)
    shapes, texts = [m for m in marks if not m.spoken], [m for m in marks if m.spoken]
    named = nearest_pairs(texts, [s.at for s in shapes], _LABEL)
    kinds = {shape: texts[text].words for text, shape in named.items()}
    found = [
        Joined(origin=s.origin, at=s.at, kind=joint_kind(kinds.get(k, s.words), spoken=k in kinds))
        for k, s in enumerate(shapes)
    ]
    lone = [t for k, t in enumerate(texts) if k not in named]
    return (*found, *(Joined(origin=t.origin, at=t.at, kind=joint_kind(t.words)) for t in lone))


def radii_marked(
    drawn: Sequence[Drawn], words: Sequence[Words], placing: Placing, units: str
) -> tuple[tuple[Rounded, ...], tuple[Stray, ...]]:
    """The radius marks of a drawing, and those that state no radius with the reason."""
    found: list[Rounded] = []
    loose: list[Stray] = []
    for shape, lines in zip(drawn, placing.lines(drawn), strict=True):
        for line in lines:
            arc = _arc(line, origin_of(shape))
            found.append(arc) if isinstance(arc, Rounded) else loose.append(arc)
    for mark in box_marks((), words, placing):
        try:
            found.append(Rounded(origin=mark.origin, at=mark.at, radius=parse(mark.words, units), by="text"))
        except ValueError as why:
            loose.append(_stray(f"a radius mark says no length: {str(why).rstrip('.')}", mark.origin, mark.at))
    return tuple(found), tuple(loose)


def _arc(line: Curve, origin: Origin) -> Rounded | Stray:
    """One subpath of a radius mark: an arc, or something else."""
    x, y = line.at(line.length / 2)
    at = (float(x), float(y))
    try:
        circle = fit_circle(line.points)
    except ValueError:
        return _stray("this radius mark is straight, so it shows no radius", origin, at)
    if circle.off > max(_OFF_ARC, 0.05 * circle.radius):
        return _stray("this radius mark is no arc; if it is text turned into outlines, keep it as text", origin, at)
    return Rounded(origin=origin, at=at, radius=circle.radius, by="arc", centre=(circle.x, circle.y))


def stray_radii(radii: Sequence[Rounded], corners: Sequence[Corner], sheet: Sheet) -> tuple[Stray, ...]:
    """Radius marks that no corner took: too far away, or at odds with another mark of the same corner."""
    found = []
    for mark in radii:
        nearest = min(corners, key=lambda c: math.dist(mark.at, c.inner or c.at), default=None)
        if nearest is None:
            continue
        away = math.dist(mark.at, nearest.inner or nearest.at)
        shown = nearest.inside_radius
        if away > sheet.scroll_ends.reach:
            found.append(_stray(f"a radius mark stands {away:.0f} mm from the nearest corner", mark.origin, mark.at))
        elif (off := _beside_corner(mark, nearest)) > max(_OFF_CORNER, 0.5 * mark.radius):
            found.append(
                _stray(
                    f"this arc does not trace the inside of the corner: it is {off:.1f} mm aside", mark.origin, mark.at
                )
            )
        elif shown is not None and abs(shown - mark.radius) > max(_SAME_RADIUS, 0.1 * shown):
            said = f"a radius mark says {mark.radius:.1f} mm, and the corner beside it shows {shown:.1f} mm"
            found.append(_stray(said, mark.origin, mark.at))
    return tuple(found)


def _beside_corner(mark: Rounded, corner: Corner) -> float:
    """How far an arc's centre is from where a fillet of its radius in this corner has it: on the corner's middle
    line, radius over the sine of half the angle from the corner. mm; 0 for a text."""
    if mark.centre is None or corner.inner is None or math.dist(corner.inner, corner.at) < 1e-9:
        return 0.0
    way = [(i - o) / math.dist(corner.inner, corner.at) for i, o in zip(corner.inner, corner.at, strict=True)]
    from_corner = mark.radius / math.sin(math.radians(corner.angle) / 2)
    return math.dist(mark.centre, [i + w * from_corner for i, w in zip(corner.inner, way, strict=True)])


def _stray(sentence: str, origin: Origin, at: Point) -> Stray:
    return Stray(rule="inside-radius", sentence=sentence, origin=origin, at=at)


def at_corners(
    corners: tuple[Corner, ...],
    joints: Sequence[Joined],
    radii: Sequence[Rounded],
    meetings: Sequence[Point],
    width: float | None,
    sheet: Sheet,
) -> Placed:
    """The corners with their joints and inside radii, and every joint with its place. `meetings` are the places
    where members meet, or an infill bar ends on one."""
    placed = tuple(_joint(mark, corners, meetings, width, sheet) for mark in joints)
    made = [_with_joint(k, corner, placed) for k, corner in enumerate(corners)]
    for by in ("text", "arc"):
        marks = [mark for mark in radii if mark.by == by]
        boxes = [BoxMark(origin=m.origin, words="", spoken=False, box=(*m.at, *m.at)) for m in marks]
        pairs = nearest_pairs(boxes, [c.inner or c.at for c in corners], sheet.scroll_ends.reach)
        for mark, k in pairs.items():
            if made[k].inside_from in ("", "text") or not made[k].inside_radius:  # an edge drawn sharp says nothing
                made[k] = replace(made[k], inside_radius=marks[mark].radius, inside_from=by, origin=marks[mark].origin)
    return tuple(made), placed


def _joint(
    mark: Joined, corners: Sequence[Corner], meetings: Sequence[Point], width: float | None, sheet: Sheet
) -> Joint:
    """A mark stands on a meeting of members, or on a corner; where the members are one piece, the mark itself says
    that they meet there."""
    to_corner = [math.dist(mark.at, _heart(corner)) for corner in corners]
    nearest = min(range(len(corners)), key=lambda k: to_corner[k], default=None)
    off = min([*(math.dist(mark.at, meeting) for meeting in meetings), *to_corner], default=math.inf)
    reach = max(sheet.frame_joints.reach, width or 0.0)
    corner = nearest if nearest is not None and to_corner[nearest] <= reach else None
    return Joint(kind=mark.kind, at=mark.at, origin=mark.origin, corner=corner, off=off)


def _heart(corner: Corner) -> Point:
    """The middle of the metal at a corner."""
    if corner.inner is None:
        return corner.at
    return (corner.at[0] + corner.inner[0]) / 2, (corner.at[1] + corner.inner[1]) / 2


def _with_joint(k: int, corner: Corner, joints: Sequence[Joint]) -> Corner:
    mine = [joint for joint in joints if joint.corner == k]
    if not mine:
        return corner
    best = min(mine, key=lambda joint: joint.off)
    return replace(corner, made="open" if corner.made == "open" else "joined", joint=best)
