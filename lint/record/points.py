"""The measures that the forged piece must meet, numbered, each with its place and its limit."""

from __future__ import annotations

from collections.abc import Iterator

from lint.panel.panel import Panel
from lint.panel.parts import Corner, Dimension, Fastener, Frame, Scroll
from lint.panel.parts import Point as At
from lint.panel.sides import CORNERS
from lint.record.limits import limit_for
from lint.sheet.approved import Point
from lint.sheet.sheet import Sheet
from lint.values import dataclass

_OPENINGS = 6  # the largest ones; the rest are smaller than these


@dataclass(frozen=True, slots=True, kw_only=True)
class _Measure:
    """A measure before it has a number. `kind` is the kind of limit; `leg` the shorter leg of an angle, mm."""

    what: str
    of: str
    kind: str
    value: float
    at: At
    unit: str = "mm"
    leg: float = 0.0
    most: float | None = None


def points_of(panel: Panel, sheet: Sheet) -> tuple[Point, ...]:
    """Overall sizes, diagonals, corners, stated sizes, scrolls, fasteners and the largest openings, in the order in
    which a person goes round a panel. Values in mm and degrees; places in mm from the frame's corner."""
    return tuple(_numbered(n, measure, panel, sheet) for n, measure in enumerate(_measures(panel, sheet), 1))


def _numbered(number: int, measure: _Measure, panel: Panel, sheet: Sheet) -> Point:
    limit = limit_for(measure.kind, measure.value, sheet, measure.leg)
    return Point(
        number=number,
        what=measure.what,
        of=measure.of,
        value=measure.value,
        limit=limit.limit,
        unit=measure.unit,
        at=panel.from_origin(measure.at),
        basis=limit.basis,
        most=measure.most,
    )


def _measures(panel: Panel, sheet: Sheet) -> Iterator[_Measure]:
    if panel.frame is not None:
        yield from _of_frame(panel.frame)
    for size in panel.dimensions:
        if size.stated is not None and size.of not in ("width", "height"):
            yield _of_dimension(size)
    for number, scroll in enumerate(panel.scrolls, 1):
        yield from _of_scroll(scroll, number)
    counts: dict[str, int] = {}
    for fastener in panel.fasteners:
        counts[fastener.kind] = counts.get(fastener.kind, 0) + 1
        yield from _of_fastener(fastener, counts[fastener.kind], panel)
    ball = sheet.pass_through.sphere
    for number, hole in enumerate(sorted(panel.openings, key=lambda h: -h.diameter)[:_OPENINGS], 1):
        yield _Measure(
            what="largest ball",
            of=f"opening {number}",
            kind="opening",
            value=hole.diameter,
            at=hole.at,
            most=ball,
        )


def _of_frame(frame: Frame) -> Iterator[_Measure]:
    if frame.outside is None or frame.sides is None or frame.diagonals is None or not frame.corners:
        return
    places = [corner.at for corner in frame.corners]
    top, right = _between(places[0], places[1]), _between(places[1], places[2])
    yield _Measure(what="outside width", of="frame", kind="overall", value=frame.outside[0], at=top)
    yield _Measure(what="outside height", of="frame", kind="overall", value=frame.outside[1], at=right)
    for n, diagonal in enumerate(frame.diagonals, 1):
        yield _Measure(what=f"diagonal {n}", of="frame", kind="overall", value=diagonal, at=places[n - 1])
    leg = min(frame.sides)
    for name, corner in zip(CORNERS, frame.corners, strict=False):
        yield from _of_corner(name, corner, leg)


def _of_corner(name: str, corner: Corner, leg: float) -> Iterator[_Measure]:
    of = f"{name} corner"
    yield _Measure(what="angle", of=of, kind="angle", value=corner.angle, at=corner.at, unit="deg", leg=leg)
    if corner.inside_radius:
        yield _Measure(what="inside radius", of=of, kind="radius", value=corner.inside_radius, at=corner.at)


def _of_dimension(size: Dimension) -> _Measure:
    a, b = size.between
    kind = "overall" if size.of.startswith("inside") else "scroll"
    return _Measure(what=f"stated {size.text}", of="dimension", kind=kind, value=size.stated or 0.0, at=_between(a, b))


def _of_scroll(scroll: Scroll, number: int) -> Iterator[_Measure]:
    of = f"scroll {number}"
    left, top, right, bottom = (scroll.bar.metal or scroll.bar.line).extent
    middle = ((left + right) / 2, (top + bottom) / 2)
    yield _Measure(what="width", of=of, kind="scroll", value=right - left, at=middle)
    yield _Measure(what="height", of=of, kind="scroll", value=bottom - top, at=middle)
    yield _Measure(what="developed length", of=of, kind="scroll", value=scroll.bar.line.length, at=middle)


def _of_fastener(fastener: Fastener, number: int, panel: Panel) -> Iterator[_Measure]:
    x, y = panel.from_origin(fastener.at)
    of = f"{fastener.kind} {number}"
    yield _Measure(what="from the left outside", of=of, kind="fastener", value=x, at=fastener.at)
    yield _Measure(what="from the top outside", of=of, kind="fastener", value=y, at=fastener.at)


def _between(a: At, b: At) -> At:
    return ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
