"""Objects drawn as outlines to bars: nested outlines of the frame are one piece of metal and its inside."""

from __future__ import annotations

from collections.abc import Sequence

from lint.geometry.area import Area, area
from lint.panel.metal import Outline
from lint.panel.origins import id_of, origin_of
from lint.panel.outline_copies import bars_of_each
from lint.panel.outlines import WHY, OutlineBar, bars_of, nested, without_curls
from lint.panel.parts import Bar, DrawnAs, Role
from lint.panel.sections import depth_for, section_named
from lint.sheet.sheet import Sheet


def outlines_as_bars(outlines: Sequence[Outline], sheet: Sheet) -> list[list[Bar]]:
    """The bars of each outline, in order; the inner of two nested frame outlines has none of its own."""
    shapes = [_shape(outline) for outline in outlines]
    made: list[list[Bar]] = [[] for _ in outlines]
    frames = [k for k, outline in enumerate(outlines) if outline.role is Role.FRAME]
    for nest in nested([shapes[k] for k in frames]) if frames else ():
        owner = frames[nest.of[0]]
        rings = [ring for n in nest.of for ring in outlines[frames[n]].rings]
        members = [without_curls(found) for found in bars_of(nest.metal, rings)]
        made[owner] = [_bar(outlines[owner], found, sheet) for found in members] or [_nothing(outlines[owner])]
    others = [k for k, outline in enumerate(outlines) if outline.role is not Role.FRAME]
    read = bars_of_each([shapes[k] for k in others], [outlines[k].rings for k in others])
    for k, found in zip(others, read, strict=True):
        made[k] = [_bar(outlines[k], one, sheet) for one in found] or [_nothing(outlines[k])]
    return made


def _nothing(outline: Outline) -> Bar:
    """What a shape without metal stands for (a line that is filled): unread, for nothing is dropped in silence."""
    first = outline.line.points[0]
    return Bar(
        id=id_of(outline.drawn),
        origin=origin_of(outline.drawn),
        line=outline.line,
        width=None,
        depth=None,
        metal=None,
        drawn_as=DrawnAs.OUTLINE,
        unread=WHY["no metal"],
        unread_at=(float(first[0]), float(first[1])),
        width_from="outline",
    )


def _shape(outline: Outline) -> Area:
    """The metal within the rings: by the fill rule where it is filled, inside and outside in turn where it is not."""
    evenodd = outline.drawn.paint.evenodd or outline.drawn.paint.fill is None
    return area([ring.points for ring in outline.rings], evenodd)


def _bar(outline: Outline, found: OutlineBar, sheet: Sheet) -> Bar:
    named = section_named(outline.drawn, sheet.units)
    return Bar(
        id=id_of(outline.drawn),
        origin=origin_of(outline.drawn),
        line=found.line,
        width=found.width,
        depth=depth_for(found.width, named, outline.role, sheet),
        metal=found.metal,
        drawn_as=DrawnAs.OUTLINE,
        widths=found.widths,
        unread=found.unread,
        unread_at=found.unread_at,
        width_from="outline",
    )
