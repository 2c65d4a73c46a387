"""Outlines to bars, as far as they can be read."""

from __future__ import annotations

from collections.abc import Sequence

from lint.geometry.area import area
from lint.panel.metal import Outline
from lint.panel.origins import id_of, origin_of
from lint.panel.parts import Bar, DrawnAs
from lint.sheet.sheet import Sheet


def outlines_as_bars(outlines: Sequence[Outline], sheet: Sheet) -> list[list[Bar]]:
    """The bars of each outline."""
    return [[_unread(outline)] for outline in outlines]


def _unread(outline: Outline) -> Bar:
    first = outline.line.points[0]
    return Bar(
        id=id_of(outline.drawn),
        origin=origin_of(outline.drawn),
        line=outline.line,
        width=None,
        depth=None,
        metal=area([ring.points for ring in outline.rings]),
        drawn_as=DrawnAs.OUTLINE,
        unread="outlines are not read yet",
        unread_at=(float(first[0]), float(first[1])),
        width_from="outline",
    )
