"""Which drawn object is which metal: centreline, hairline or outline (drawing convention, section 4)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from lint.drawing.drawn import Drawn
from lint.geometry.area import area
from lint.geometry.curve import Curve, curve
from lint.panel.limit import refuse_tangle
from lint.panel.parts import Role
from lint.panel.placing import Placing
from lint.panel.roles import folded
from lint.panel.sections import Stated, section_named, section_of_sheet
from lint.sheet.sheet import Sheet
from lint.values import dataclass

HAIRLINE = 1.0  # mm at real scale: a thinner stroke is no bar (drawing convention, section 4)
INSIDE = 0.3  # share of a ring that its inside takes up, at least; a smaller ring in it is something else
SMALL = 4.0  # bar widths: a hairline ring no larger than this is no bar bent round, but the edge of some small thing
SLENDER = 8.0  # length over width from which a closed shape is a bar and no plate


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Stroke:
    """One subpath as a bar's centreline; `width` in mm, `by` says who states it: stroke, name or sheet; `named` is
    the section that its name states."""

    role: Role
    drawn: Drawn
    line: Curve
    width: float | None
    by: str
    hair: bool
    named: Stated


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Outline:
    """The closed subpaths of one object as the edge of its metal."""

    role: Role
    drawn: Drawn
    rings: tuple[Curve, ...]
    line: Curve  # its longest ring, as it was drawn: an open one that only its fill closes stays open here


Part = Stroke | Outline


def parts_of(items: Sequence[tuple[Role, Drawn]], placing: Placing, sheet: Sheet) -> list[Part]:
    """Every object of role frame, scroll, bar or sample as strokes and outlines, in drawing order."""
    lines_of = placing.lines([drawn for _, drawn in items])
    shapes = [(role, drawn, lines) for (role, drawn), lines in zip(items, lines_of, strict=True)]
    filled = {
        (r, d.layer) for r, d, lines in shapes if d.paint.fill and _thin(d, placing) and any(c.closed for c in lines)
    }
    nested = _nested([line for role, drawn, lines in shapes if role is Role.FRAME for line in lines if line.closed])
    return [
        part for role, drawn, lines in shapes for part in _split(role, drawn, lines, placing, sheet, filled, nested)
    ]


def _shut(line: Curve) -> Curve:
    """A line as SVG closes it where a fill alone paints it."""
    return line if line.closed or len(line.points) < 3 else curve(line.points, closed=True)


def _split(
    role: Role,
    drawn: Drawn,
    lines: list[Curve],
    placing: Placing,
    sheet: Sheet,
    filled: set[tuple[Role, str | None]],
    nested: bool,
) -> Iterator[Part]:
    fill_only = drawn.paint.stroke is None
    rings = tuple(_shut(line) if fill_only else line for line in lines if line.closed or fill_only)
    longest = max(lines, key=lambda line: line.length, default=None)
    beside = (role, drawn.layer) in filled or (role is Role.FRAME and nested)
    small = all(_across(ring) < SMALL * section_of_sheet(role, sheet).width for ring in rings)
    outlined = bool(rings) and _is_outline(role, drawn, rings, _thin(drawn, placing), beside or small)
    if outlined and drawn.paint.fill and role is not Role.FRAME:
        yield Outline(role=role, drawn=drawn, rings=rings, line=longest or rings[0])
    elif outlined:  # edges of several bars may share one path; of a frame's members, even where they meet
        refuse_tangle(drawn, rings)
        yield from (Outline(role=role, drawn=drawn, rings=group, line=group[0]) for group in together(rings))
    strokes = () if fill_only else (line for line in lines if not (outlined and line.closed))
    yield from (_stroke(role, drawn, line, placing, sheet) for line in strokes)


def _is_outline(role: Role, drawn: Drawn, rings: tuple[Curve, ...], thin: bool, beside: bool) -> bool:
    """Whether closed subpaths are the edge of metal, and not the middle of it."""
    if drawn.paint.stroke is None:
        return True
    slender = _slender(rings)
    if not thin:  # a broad stroke is the bar, unless it only edges a shape that is itself a bar
        plain_frame = role is Role.FRAME and len(rings) == 1
        return bool(drawn.paint.fill) and slender and not plain_frame
    said = any("outline" in folded(name).split() for name in drawn.own.names)
    return (bool(drawn.paint.fill) and (slender or role is not Role.FRAME)) or said or beside or slender


def _slender(rings: tuple[Curve, ...]) -> bool:
    """Whether the rings, holes taken out, bound something at least eight times as long as it is wide."""
    areas = sorted((ring.enclosed for ring in rings), reverse=True)
    size = abs(areas[0] - sum(areas[1:])) if _inside_first(rings) else sum(areas)
    around = sum(ring.length for ring in rings)
    return around**2 / max(4 * size, 1e-9) >= SLENDER


def _inside_first(rings: tuple[Curve, ...]) -> bool:
    first = max(rings, key=_enclosed)
    return all(_holds(first, ring) for ring in rings if ring is not first)


def _holds(outer: Curve, inner: Curve) -> bool:
    a, b = outer.extent, inner.extent
    return a[0] <= b[0] and a[1] <= b[1] and a[2] >= b[2] and a[3] >= b[3]


def together(rings: tuple[Curve, ...]) -> list[tuple[Curve, ...]]:
    """Rings sorted to the largest ring that holds them."""
    if len(rings) == 1:
        return [rings]
    groups: list[list[Curve]] = []
    for ring in sorted(rings, key=_enclosed, reverse=True):
        home = next((group for group in groups if _holds(group[0], ring) and _lies_in(ring, group[0])), None)
        home.append(ring) if home else groups.append([ring])
    return [tuple(group) for group in groups]


def _lies_in(inner: Curve, outer: Curve) -> bool:
    within = area([inner.points])
    return not within.empty and area([outer.points]).holds(within.inside_point)


def _nested(rings: list[Curve]) -> bool:
    """Whether one of a few rings takes in most of another: the outside and the inside of one frame."""
    if not 1 < len(rings) < 50:
        return False
    return any(_holds(a, b) and b.enclosed >= INSIDE * a.enclosed for a in rings for b in rings if a is not b)


def _enclosed(ring: Curve) -> float:
    return ring.enclosed


def _across(ring: Curve) -> float:
    left, top, right, bottom = ring.extent
    return max(right - left, bottom - top)


def _thin(drawn: Drawn, placing: Placing) -> bool:
    paint = drawn.paint
    return paint.stroke is None or paint.width is None or paint.width * placing.mm < HAIRLINE


def _stroke(role: Role, drawn: Drawn, line: Curve, placing: Placing, sheet: Sheet) -> Stroke:
    named, hair = section_named(drawn, sheet.units), _thin(drawn, placing)
    width, by = (drawn.paint.width or 0.0) * placing.mm, "stroke"
    if hair:
        width, by = named.width or section_of_sheet(role, sheet).width, named.by or "sheet"
    return Stroke(role=role, drawn=drawn, line=line, width=width or None, by=by, hair=hair, named=named)
