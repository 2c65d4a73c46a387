"""Members to one frame: its boundary, its sides and corners, and whether it closes."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from lint.geometry.area import Area, areas, disc, union
from lint.geometry.curve import Curve
from lint.panel.corners import Rounding, rounding
from lint.panel.joints import Joined, Rounded, at_corners
from lint.panel.meetings import meetings_of
from lint.panel.parts import Bar, Corner, DrawnAs, Frame, Meeting, Point
from lint.panel.sides import NotFourSided, Sides, four_sides
from lint.sheet.sheet import Sheet
from lint.values import dataclass

HOLE = 0.3  # of the area within the outer boundary: a hole so large is what a frame goes round
MOST = 100  # members: more is no frame, and every end of it would be held against every bar
MERGE = 0.55  # bar widths: openings apart by one member are one inside


@dataclass(frozen=True, slots=True, kw_only=True)
class _Boundary:
    """The metal of the frame, its outer ring, the ring of its inside (None where it is open), and what is wrong."""

    metal: Area
    outer: Curve
    inner: Curve | None
    trouble: str


def frame_of(
    members: Sequence[Bar], infill: Sequence[Bar], joints: Sequence[Joined], radii: Sequence[Rounded], sheet: Sheet
) -> Frame | None:
    """The frame that the members make, with its joint and radius marks; None where there is no member. The ends of
    infill bars on the frame are places where a joint may stand."""
    if not members:
        return None
    if len(members) > MOST:
        return _bare(tuple(members), (), None, f"{len(members)} bars are named as its members, and a frame has a few")
    meetings = meetings_of(members)
    width = bar_width(members)
    bound = _boundary(members, width, sheet)
    if bound is None:
        return _bare(tuple(members), meetings, width, "the width of its bar is not known")
    try:
        shape = _shaped(members, meetings, width, bound)
    except NotFourSided as why:
        return _shapeless(tuple(members), meetings, width, bound, str(why))
    places = [*(meeting.at for meeting in meetings), *_ends_on(bound.metal, infill, sheet)]
    corners, marks = at_corners(shape.corners, joints, radii, places, shape.width, sheet)
    return Frame(
        members=tuple(members), metal=bound.metal, outer=bound.outer, inner=bound.inner, outside=shape.outer.size,
        inside=shape.inner.size, sides=shape.outer.lengths, diagonals=shape.outer.diagonals, bar_width=shape.width,
        corners=corners, meetings=meetings, joints=marks, closed=True, gap=_gap(meetings), trouble=bound.trouble,
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class _Shape:
    """The sides of a closed frame outside and inside, its bar's width, and its corners before any mark."""

    outer: Sides
    inner: Sides
    width: float
    corners: tuple[Corner, ...]


def _shaped(members: Sequence[Bar], meetings: Sequence[Meeting], width: float | None, bound: _Boundary) -> _Shape:
    if bound.inner is None:
        raise NotFourSided("it is open")
    outer, inner = four_sides(bound.outer), four_sides(bound.inner)
    width = width or _between(outer, inner)
    corners = []
    for k in range(4):
        sharp, within = rounding(bound.outer, outer, k), rounding(bound.inner, inner, k)
        radius = _drawn_inside(members, within)
        corners.append(
            Corner(
                at=outer.corners[k],
                made=_made(meetings, outer.corners[k], width),
                angle=outer.angle(k),
                outside_radius=sharp.radius,
                inside_radius=radius,
                inside_from="" if radius is None else "outline",
                cut=sharp.cut,
                inner=inner.corners[k],
            )
        )
    return _Shape(outer=outer, inner=inner, width=width, corners=tuple(corners))


def _ends_on(metal: Area, infill: Sequence[Bar], sheet: Sheet) -> Iterator[Point]:
    """The ends of infill bars that stand on the frame or in it."""
    for bar in infill:
        if bar.unread or bar.line.closed:
            continue
        for x, y in (bar.line.points[0], bar.line.points[-1]):
            if metal.distance(disc(float(x), float(y), sheet.tolerances.contact)) == 0.0:
                yield float(x), float(y)


def bar_width(members: Sequence[Bar]) -> float | None:
    """The width of most of the frame's length, mm; None where no member has one."""
    lengths: dict[float, float] = {}
    for bar in members:
        if bar.width:
            lengths[bar.width] = lengths.get(bar.width, 0.0) + bar.line.length
    return max(lengths, key=lambda width: lengths[width], default=None)


def _boundary(members: Sequence[Bar], width: float | None, sheet: Sheet) -> _Boundary | None:
    """The union of the members' metal, gaps that the sheet takes as closed filled in."""
    metals = [bar.metal for bar in members if bar.metal is not None and not bar.metal.empty]
    if not metals:
        return None
    metal = union(metals, grid=True)
    parts = _pieces(metal, width) if len(metals) == 1 else []
    if not parts or parts[0].inner is None:  # a slit left between two members would be one more side of the boundary
        metal = metal.shut(sheet.frame.gap + 2e-6)
        parts = _pieces(metal, width)
    if not parts:
        return None
    frames = sum(part.inner is not None for part in parts)
    trouble = f"{frames} frames are drawn" if frames > 1 else ""
    if len(parts) > 1 and not trouble:
        trouble = f"its members lie in {len(parts)} pieces that do not meet"
    main = parts[0]
    whole = main.metal if main.inner or len(parts) == 1 else metal
    return _Boundary(metal=whole, outer=main.outer, inner=main.inner, trouble=trouble)


def _pieces(metal: Area, width: float | None) -> list[_Boundary]:
    """The connected parts of the metal, each with its rings; the one that goes round most first."""
    rings = ((part, part.outer[0]) for part in metal.parts if part.outer)
    found = sorted(rings, key=lambda one: one[1].enclosed, reverse=True)
    return [_Boundary(metal=part, outer=o, inner=_inside(part, o, width), trouble="") for part, o in found]


def _inside(part: Area, outer: Curve, width: float | None) -> Curve | None:
    """The ring of what a part of the metal goes round; openings on both sides of a cross member are one."""
    holes = sorted(part.holes, key=_enclosed, reverse=True)
    if len(holes) > 1 and width:
        merged = union(areas([hole.points for hole in holes])).grown(MERGE * width).grown(-MERGE * width)
        holes = sorted((ring for part in merged.parts for ring in part.outer), key=_enclosed, reverse=True)
    # Slits thinner than rounding are gone once they are merged.
    return holes[0] if holes and holes[0].enclosed >= HOLE * outer.enclosed else None


def _enclosed(ring: Curve) -> float:
    return ring.enclosed


def _gap(meetings: Sequence[Meeting]) -> float:
    """The widest gap left between members, mm; of a closed frame, one so narrow that the sheet takes it as closed."""
    return max((meeting.gap for meeting in meetings), default=0.0)


def _between(outer: Sides, inner: Sides) -> float:
    """The bar's width as the mean distance between the outer and the inner sides."""
    return ((outer.size[0] - inner.size[0]) + (outer.size[1] - inner.size[1])) / 4


def _drawn_inside(members: Sequence[Bar], found: Rounding) -> float | None:
    """The inside radius as the metal shows it: always on an outline, on a centreline only where it is rounded (a
    sharp centreline says nothing of the fillet inside)."""
    outlined = all(bar.drawn_as is DrawnAs.OUTLINE for bar in members)
    return found.radius if not found.cut and (outlined or found.radius > 0) else None


def _made(meetings: Sequence[Meeting], at: Point, width: float | None) -> str:
    """Joined where members meet at a corner of the closed frame, forged where one of them turns."""
    reach = 2.0 * (width or 0.0)
    return "joined" if any(math.dist(m.at, at) <= reach for m in meetings) else "forged"


def _bare(members: tuple[Bar, ...], meetings: tuple[Meeting, ...], width: float | None, trouble: str) -> Frame:
    return Frame(
        members=members, metal=None, outer=None, inner=None, outside=None, inside=None, sides=None, diagonals=None,
        bar_width=width, corners=(), meetings=meetings, joints=(), closed=False, trouble=trouble,
    )  # fmt: skip


def _shapeless(
    members: tuple[Bar, ...], meetings: tuple[Meeting, ...], width: float | None, bound: _Boundary, trouble: str
) -> Frame:
    return Frame(
        members=members, metal=bound.metal, outer=bound.outer, inner=bound.inner, outside=None, inside=None,
        sides=None, diagonals=None, bar_width=width, corners=(), meetings=meetings, joints=(),
        closed=bound.inner is not None, gap=_gap(meetings), trouble=bound.trouble or trouble,
    )  # fmt: skip
