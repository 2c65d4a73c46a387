"""A hand-made panel for the marked-up drawing: an SVG, the panel that a reader would make of it, and results.

The frame stands from (36, 36) to (304, 264), bar 12; two C scrolls of 6 stand back to back in it. No rule is run on it.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from lint.geometry.area import area, disc
from lint.geometry.curve import Curve, curve
from lint.panel.panel import Panel
from lint.panel.parts import (
    FRAME,
    Bar,
    Contact,
    Corner,
    Dimension,
    DrawnAs,
    End,
    Fastener,
    Frame,
    Joint,
    Opening,
    Origin,
    Scale,
    Scroll,
    Unread,
)
from lint.result import Ball, Circle, Gap, Kind, Line, Place, Region, Result, Sign, Spot
from lint.sheet import load_default
from lint.verdict import Verdict

Floats = NDArray[np.float64]
LEFT, TOP, RIGHT, BOTTOM = 36.0, 36.0, 304.0, 264.0


def c_scroll(x: float, flip: float) -> Floats:
    """A C scroll whose curls turn a turn and a quarter each: the curvature grows towards both ends."""
    s = np.linspace(-1.0, 1.0, 241)
    heading = np.pi / 2 + 3.6 * s + 5.0 * np.sign(s) * np.abs(s) ** 3
    steps = np.column_stack([np.sin(heading) * flip, -np.cos(heading)])
    points = np.cumsum(steps, axis=0)
    points -= points[120]
    tall = points[:, 1].max() - points[:, 1].min()
    points = points * 200.0 / tall
    points[:, 1] += 150.0 - (points[:, 1].max() + points[:, 1].min()) / 2
    points[:, 0] += x
    turned: Floats = points
    return turned


def bar(name: str, line: Curve, width: float) -> Bar:
    """A bar drawn as a centreline, its metal left out (no mark needs it)."""
    origin = Origin(line=3, id=name, layer="scrolls", name=name)
    return Bar(id=name, origin=origin, line=line, width=width, depth=None, metal=None, drawn_as=DrawnAs.CENTRELINE)


def scroll(name: str, points: Floats, ends: tuple[str, str]) -> Scroll:
    """A C scroll of family 1 with two named ends."""
    named = [
        End(at=(float(points[i][0]), float(points[i][1])), name=end or None, written=end)
        for i, end in zip((0, -1), ends, strict=True)
    ]
    return Scroll(bar=bar(name, curve(points), 6.0), kind="C", turns=(1.3, 1.3), ends=(named[0], named[1]), family=1)


def frame() -> Frame:
    """Two forged corners on top, two joined ones below."""
    ring = np.asarray([(LEFT, TOP), (RIGHT, TOP), (RIGHT, BOTTOM), (LEFT, BOTTOM)])
    middle = ring + np.asarray([(6, 6), (-6, 6), (-6, -6), (6, -6)])
    joints = [
        Joint(kind="mortise and tenon", at=p, origin=Origin(line=9, id=f"joint-{n}", layer="joints"), corner=n, off=0.0)
        for n, p in ((2, (RIGHT, BOTTOM)), (3, (LEFT, BOTTOM)))
    ]
    corners = tuple(
        Corner(
            at=(float(x), float(y)),
            made="forged" if n < 2 else "joined",
            angle=90.0,
            outside_radius=0.0,
            inside_radius=6.0 if n < 2 else None,
            inside_from="arc" if n < 2 else "",
            joint=None if n < 2 else joints[n - 2],
        )
        for n, (x, y) in enumerate(ring)
    )
    return Frame(
        members=(bar("frame-1", curve(middle, closed=True), 12.0),),
        metal=None,
        outer=curve(ring, closed=True),
        inner=None,
        outside=(268.0, 228.0),
        inside=(244.0, 204.0),
        sides=(268.0, 228.0, 268.0, 228.0),
        diagonals=(351.9, 351.9),
        bar_width=12.0,
        corners=corners,
        meetings=(),
        joints=tuple(joints),
        closed=True,
    )


def fastener(kind: str, number: int, at: tuple[float, float], holds: tuple[str, ...]) -> Fastener:
    """A collar or a rivet."""
    origin = Origin(line=20 + number, id=f"{kind}-{number}", layer="fasteners")
    return Fastener(
        id=f"{kind}-{number}", kind=kind, origin=origin, at=at, size=(14.0, 9.0), area=disc(*at, 4.0), holds=holds
    )


def panel(mm_per_unit: float = 1.0, page_zero: tuple[float, float] = (0.0, 0.0), known: bool = True) -> Panel:
    """The panel, as drawn on a page whose unit is `mm_per_unit` mm."""
    left, right = c_scroll(160.0, -1.0), c_scroll(180.0, 1.0)
    hole = area([np.asarray([(50, 50), (90, 50), (90, 90), (50, 90)], dtype=np.float64)])
    return Panel(
        title="Side gate, lower panel",
        scale=Scale(mm_per_unit=mm_per_unit, known=known, by="page", sources=()),
        page_zero=page_zero,
        page_extent=(0.0, 0.0, 340.0, 300.0),
        origin=(LEFT, TOP),
        frame=frame(),
        scrolls=(scroll("scroll-1", left, ("ribbon", "snub")), scroll("scroll-2", right, ("fishtail", ""))),
        samples=(),
        bars=(),
        fasteners=(
            fastener("collar", 1, (170.0, 150.0), ("scroll-1", "scroll-2")),
            fastener("rivet", 1, (43.0, 150.0), ("scroll-1", FRAME)),
            fastener("rivet", 2, (297.0, 150.0), ()),
        ),
        contacts=(Contact(bars=("scroll-1", FRAME), at=(60.0, 250.0), gap=0.1, length=3.0),),
        closeness=(),
        openings=(
            Opening(area=hole, at=(170.0, 80.0), diameter=58.0),
            Opening(area=hole, at=(75.0, 150.0), diameter=41.3),
            Opening(area=hole, at=(265.0, 150.0), diameter=41.3),
            Opening(area=hole, at=(56.0, 56.0), diameter=9.0),
        ),
        dimensions=(
            Dimension(
                origin=Origin(line=30, id="dim-1", layer="dimensions"),
                text="268",
                stated=268.0,
                drawn=268.0,
                between=((36.0, 282.0), (304.0, 282.0)),
                of="width",
            ),
        ),
        unread=(
            Unread(layer="doodles", objects=3, hidden=False, why="", first=Origin(line=40, id="d", layer="doodles")),
        ),
        doubles=(),
        notes=("The page says px, which some editors write for points.",),
        counts={"read": 8},
        elements=11,
        digest="8d1f0c55aa31ff00" * 4,
    )


def results(many: int = 0) -> tuple[Result, ...]:
    """One of each kind of result, with every kind of trace; and `many` more places of one rule."""
    ring = tuple((170 + 9 * np.cos(a), 205 + 9 * np.sin(a)) for a in np.linspace(0, 6.2, 30))
    partner = tuple((float(x) + 3.0, float(y)) for x, y in c_scroll(180.0, 1.0))
    asking = (
        Place(
            x=170.0,
            y=205.0,
            note="a ball of 101.6 mm passes here: largest circle 118.4 mm",
            sign=Sign.MEND,
            traces=(Ball(x=170, y=205, diameter=50.0), Region(rings=(ring,))),
        ),
    )
    match = Place(
        x=183.0, y=150.0, note="3.2 mm from its partner", sign=Sign.MEND,
        traces=(Line(points=partner), Gap(a=(180.0, 150.0), b=(183.2, 150.0), length=3.2)),
    )  # fmt: skip
    more = tuple(
        Place(
            x=60.0 + 220.0 * ((n * 37) % 101) / 101,
            y=60.0 + 180.0 * ((n * 61) % 97) / 97,
            note=f"kink of {5 + n} degrees",
            sign=Sign.LOOK,
            traces=(Spot(x=60.0 + 220.0 * ((n * 37) % 101) / 101, y=60.0 + 180.0 * ((n * 61) % 97) / 97),),
        )
        for n in range(many)
    )
    kink = Place(x=250.0, y=80.0, note="kink of 7.5 degrees", sign=Sign.LOOK, traces=(Spot(x=250.0, y=80.0),))
    stands = Place(x=43.0, y=150.0, note="rivet-1 holds scroll-1 and the frame", sign=Sign.STANDS)
    circle = Place(
        x=75.0, y=150.0, note="largest circle 41.3 mm", sign=Sign.FACT, traces=(Circle(x=75, y=150, diameter=41.3),)
    )
    return (
        Result(rule="scale", kind=Kind.PASS, message="Sized.", figure="1 unit is 1 mm", asked="a real size"),
        Result(rule="frame", kind=Kind.PASS, message="It is.", figure="268 × 228", asked="square, closed"),
        Result(
            rule="scroll-match", kind=Kind.FAIL, message="1 scroll of 2 is 3.2 mm off its partner at the widest.",
            remedy="Redraw scroll-2 as a copy of scroll-1, turned over.", measured=3.2, required=1.5875, unit="mm",
            figure="3.2 mm", asked="at most 1.59 mm", places=(match,),
        ),
        Result(
            rule="fair-curve", kind=Kind.REVIEW, message=f"{1 + many} kinks.", remedy="Look at the curve.",
            figure="7.5 deg", asked="at most 5 deg", places=(kink, *more),
        ),
        Result(
            rule="attachment", kind=Kind.PASS, message="All held.", figure="2", asked="2 at least", places=(stands,)
        ),
        Result(
            rule="pass-through", kind=Kind.FAIL, message="A ball of 101.6 mm passes 1 opening of 4: 118.4 mm.",
            remedy="Close the opening, or set a bar in it.", measured=118.4, required=101.6, unit="mm",
            figure="118.4 mm", asked="under 101.6 mm", places=(*asking, circle),
        ),
        Result(rule="approval", kind=Kind.NOT_APPLICABLE, message="There is no approval record beside the drawing."),
    )  # fmt: skip


def verdict(many: int = 0, **changes: object) -> Verdict:
    """The verdict on the hand-made panel."""
    made = panel(**changes)  # type: ignore[arg-type]
    return Verdict(path="side-gate.svg", sheet=load_default(), panel=made, results=results(many))


def drawing(
    root: str = 'width="340mm" height="300mm" viewBox="0 0 340 300"', inner: str = "", unit: float = 1.0
) -> bytes:
    """The SVG of the hand-made panel, drawn at `unit` page units for a mm; `root` is its root's attributes."""
    both = [(c_scroll(160.0, -1.0) * unit, "scroll-1"), (c_scroll(180.0, 1.0) * unit, "scroll-2")]
    paths = "".join(
        f'<path id="{name}" d="M{"L".join(f"{x:.3f},{y:.3f}" for x, y in points)}" fill="none" stroke="#8d949b"'
        f' stroke-width="{6 * unit}"/>'
        for points, name in both
    )
    size = [f"{v * unit}" for v in (42.0, 42.0, 256.0, 216.0, 12.0)]
    box = f'<rect id="frame" x="{size[0]}" y="{size[1]}" width="{size[2]}" height="{size[3]}" fill="none"'
    return (
        f'<?xml version="1.0" encoding="UTF-8"?>\n<svg xmlns="http://www.w3.org/2000/svg" {root}>\n'
        f'  <title>Side gate, lower panel</title>\n  {box} stroke="#8d949b" stroke-width="{size[4]}"/>\n'
        f"  {paths}\n{inner}</svg>\n"
    ).encode()


def without_results(verdict: Verdict) -> Verdict:
    """The same verdict, with no result at all."""
    return replace(verdict, results=())
