"""Panels made by hand, so that the shop is tried on known metal."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from lint.geometry.area import Area, area, union
from lint.geometry.band import band
from lint.geometry.curve import Curve, curve
from lint.panel.panel import Panel
from lint.panel.parts import (
    Bar,
    Contact,
    Corner,
    DrawnAs,
    End,
    Fastener,
    Frame,
    Joint,
    Meeting,
    Origin,
    Scale,
    ScaleSource,
    Scroll,
)

Floats = NDArray[np.float64]
Pair = tuple[float, float]
WIDE, TALL, T = 406.4, 609.6, 12.0


def origin(name: str) -> Origin:
    return Origin(line=1, id=name, layer=None, name=name)


def box(left: float, top: float, right: float, bottom: float) -> Area:
    return area([np.array([[left, top], [right, top], [right, bottom], [left, bottom]], dtype=float)])


def bar(
    name: str, points: Floats, width: float | None, depth: float | None = None, *, metal: Area | None = None
) -> Bar:
    line = curve(points)
    return Bar(
        id=name,
        origin=origin(name),
        line=line,
        width=width,
        depth=depth,
        metal=band(line, width) if width else None,
        drawn_as=DrawnAs.CENTRELINE,
    )


def c_points(scale: float, turns: float = 1.25, n: int = 1500) -> Floats:
    """A C: a clothoid-like curl to each side of a slack back, facing right. Its length is 100 * scale mm."""
    u = np.linspace(-1, 1, 2 * n + 1)
    turned = 2 * np.pi * turns * np.sign(u) * (0.15 * np.abs(u) + 0.85 * np.abs(u) ** 3)
    step = 100 * scale / (2 * n)
    way = np.pi / 2 - turned
    mid = (way[1:] + way[:-1]) / 2
    return np.concatenate([[[0.0, 0.0]], np.cumsum(np.column_stack([np.cos(mid), np.sin(mid)]), axis=0) * step])


def s_points(scale: float, turns: float = 1.25, n: int = 1500) -> Floats:
    """An S of 100 * scale mm: the same curl to both sides of a straight middle, turning opposite ways."""
    u = np.linspace(-1, 1, 2 * n + 1)
    turned = 2 * np.pi * turns * np.abs(u) ** 3
    step = 100 * scale / (2 * n)
    way = np.pi / 2 - turned
    mid = (way[1:] + way[:-1]) / 2
    return np.concatenate([[[0.0, 0.0]], np.cumsum(np.column_stack([np.cos(mid), np.sin(mid)]), axis=0) * step])


def placed(points: Floats, left: float, top: float, *, mirror: bool = False) -> Floats:
    """Moved so that its extent begins at (left, top); turned over sideways first where asked."""
    turned = points * np.array([-1.0 if mirror else 1.0, 1.0])
    moved: Floats = turned - turned.min(axis=0) + np.array([left, top])
    return moved


def scroll(
    name: str, points: Floats, ends: tuple[str | None, str | None], *, kind: str = "C", family: int = 1
) -> Scroll:
    made = bar(name, points, 6.0, 12.0)
    first, last = made.line.points[0], made.line.points[-1]
    return Scroll(
        bar=made,
        kind=kind,
        turns=(1.25, 1.25),
        ends=(
            End(at=(float(first[0]), float(first[1])), name=ends[0], written=ends[0] or ""),
            End(at=(float(last[0]), float(last[1])), name=ends[1], written=ends[1] or ""),
        ),
        family=family,
        symmetry=0.01,
    )


def corners(made: tuple[str, str, str, str], radius: float | None = None) -> tuple[Corner, ...]:
    at = ((0.0, 0.0), (WIDE, 0.0), (WIDE, TALL), (0.0, TALL))
    return tuple(
        Corner(
            at=place,
            made=how,
            angle=90.0,
            outside_radius=0.0,
            inside_radius=radius if how == "forged" else None,
            inside_from="text" if radius and how == "forged" else "",
            joint=Joint(kind="mortise and tenon", at=place, origin=origin("joint"), corner=n, off=0.0)
            if how == "joined"
            else None,
        )
        for n, (place, how) in enumerate(zip(at, made, strict=True))
    )


def frame_of(members: tuple[Bar, ...], made: tuple[Corner, ...], meetings: tuple[Meeting, ...]) -> Frame:
    metal = union([one.metal for one in members if one.metal is not None])
    return Frame(
        members=members,
        metal=metal,
        outer=metal.outer[0],
        inner=metal.holes[0],
        outside=(WIDE, TALL),
        inside=(WIDE - 2 * T, TALL - 2 * T),
        sides=(WIDE, TALL, WIDE, TALL),
        diagonals=(float(np.hypot(WIDE, TALL)),) * 2,
        bar_width=T,
        corners=made,
        meetings=meetings,
        joints=tuple(corner.joint for corner in made if corner.joint),
        closed=True,
    )


def u_frame(radius: float | None = None) -> Frame:
    """Two legs and a head in one piece, its upper corners forged; a cross bar tenoned between the legs' feet."""
    half = T / 2
    u = np.array([[half, TALL], [half, half], [WIDE - half, half], [WIDE - half, TALL]])
    foot = np.array([[T, TALL - half], [WIDE - T, TALL - half]])
    members = (bar("u", u, T, 12.0), bar("foot", foot, T, 12.0))
    made = corners(("forged", "forged", "joined", "joined"), radius)
    meetings = (
        Meeting(members=("u", "foot"), at=(WIDE - T, TALL - half), gap=0.0),
        Meeting(members=("foot", "u"), at=(T, TALL - half), gap=0.0),
    )
    return frame_of(members, made, meetings)


def mitred_frame() -> Frame:
    """Four bars whose ends are cut at 45 degrees, joined at every corner."""
    at = np.array([[0.0, 0.0], [WIDE, 0.0], [WIDE, TALL], [0.0, TALL]])
    inner = np.array([[T, T], [WIDE - T, T], [WIDE - T, TALL - T], [T, TALL - T]])
    members = []
    for n, name in enumerate(("top", "right", "bottom", "left")):
        m = (n + 1) % 4
        line = curve(np.array([(at[n] + inner[n]) / 2, (at[m] + inner[m]) / 2]))
        metal = area([np.array([at[n], at[m], inner[m], inner[n]])])
        members.append(
            Bar(id=name, origin=origin(name), line=line, width=T, depth=T, metal=metal, drawn_as=DrawnAs.OUTLINE)
        )
    names = [one.id for one in members]
    meetings = tuple(
        Meeting(members=(names[n - 1], names[n]), at=(float(at[n][0]), float(at[n][1])), gap=0.0) for n in range(4)
    )
    return frame_of(tuple(members), corners(("joined",) * 4), meetings)


def ring_frame(made: tuple[str, str, str, str] = ("forged", "forged", "joined", "joined")) -> Frame:
    """The same metal drawn as one outline with a hole."""
    metal = box(0, 0, WIDE, TALL).less(box(T, T, WIDE - T, TALL - T))
    half = T / 2
    line = curve(
        np.array([[half, half], [WIDE - half, half], [WIDE - half, TALL - half], [half, TALL - half]]), closed=True
    )
    whole = Bar(
        id="frame", origin=origin("frame"), line=line, width=T, depth=12.0, metal=metal, drawn_as=DrawnAs.OUTLINE
    )
    return frame_of((whole,), corners(made), ())


def fastener(
    kind: str, name: str, at: tuple[float, float], size: tuple[float, float], holds: tuple[str, ...]
) -> Fastener:
    x, y = at
    return Fastener(
        id=name,
        kind=kind,
        origin=origin(name),
        at=at,
        size=size,
        area=box(x - size[0] / 2, y - size[1] / 2, x + size[0] / 2, y + size[1] / 2),
        holds=holds,
    )


def panel_of(
    frame: Frame | None,
    scrolls: tuple[Scroll, ...],
    fasteners: tuple[Fastener, ...] = (),
    *,
    contacts: tuple[Contact, ...] = (),
    bars: tuple[Bar, ...] = (),
    known: bool = True,
    title: str = "Two C panel, Quarry Lane Forge evening class",
) -> Panel:
    by = ScaleSource(by="page", says="the page is in mm", mm_per_unit=1.0)
    return Panel(
        title=title,
        scale=Scale(mm_per_unit=1.0, known=known, by="page", sources=(by,)),
        page_zero=(0.0, 0.0),
        page_extent=(0.0, 0.0, 500.0, 700.0),
        origin=(0.0, 0.0),
        frame=frame,
        scrolls=scrolls,
        samples=(),
        bars=bars,
        fasteners=fasteners,
        contacts=contacts,
        closeness=(),
        openings=(),
        dimensions=(),
        unread=(),
        doubles=(),
        notes=(),
        counts={},
        elements=0,
        digest="0" * 64,
    )


def two_c_panel() -> Panel:
    """Two C scrolls back to back in the U frame: collared in the middle, riveted to the frame."""
    points = c_points(9.0)
    wide = float(np.ptp(points[:, 0]))
    top = TALL / 2 - float(np.ptp(points[:, 1])) / 2
    right = scroll("right scroll", placed(points, WIDE / 2 + 3, top), ("ribbon", "snub"))
    left = scroll("left scroll", placed(points, WIDE / 2 - 3 - wide, top, mirror=True), ("fishtail", "halfpenny snub"))
    middle = (WIDE / 2, TALL / 2)
    collar = fastener("collar", "collar", middle, (18.0, 12.0), ("right scroll", "left scroll"))
    side = right.bar.line.points[right.bar.line.points[:, 0].argmax()] + np.array([3.0, 0.0])
    rivet = fastener("rivet", "rivet", (float(side[0]), float(side[1])), (5.0, 5.0), ("right scroll", "frame"))
    touch = Contact(bars=("right scroll", "left scroll"), at=middle, gap=0.0, length=8.0, fasteners=("collar",))
    return panel_of(u_frame(), (right, left), (collar, rivet), contacts=(touch,))


def line_of(points: Floats) -> Curve:
    return curve(points)
