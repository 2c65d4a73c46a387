"""Ends whose drawn outlines say other than their names."""

from __future__ import annotations

from lint.panel.end_shapes import Doubtful, doubtful_ends
from lint.panel.panel import Panel
from lint.result import Line, Place, Sign
from lint.rules._finding import Finding
from lint.rules._places import source


def doubtful(panel: Panel) -> list[Finding]:
    """A finding for each end that shares its name with an end of another outline, or its outline with one of another
    name. A person must look: a flare or a chisel edge shows from the side only, and a hand draws no end twice alike."""
    return [_finding(pair) for pair in doubtful_ends((*panel.scrolls, *panel.samples))]


def _finding(pair: Doubtful) -> Finding:
    one, other = pair.one, pair.other
    mine, theirs = f"{other.scroll.bar.id}", f"{one.scroll.bar.id}"
    if pair.alike:
        note = f'the ends "{other.end.name}" of {mine} and "{one.end.name}" of {theirs} are drawn alike'
        remedy = (
            "Draw the two ends as they differ, or give them one name; leave both if they differ from the side only."
        )
    else:
        of = "another of the same scroll" if mine == theirs else f"that of {theirs}"
        note = f'the end "{other.end.name}" of {mine} is drawn unlike {of}, by {pair.apart:.1f} bar widths'
        remedy = f'Draw every end called "{other.end.name}" alike, or name them apart.'
    x, y = other.end.at
    outline = Line(points=tuple((px, py) for px, py in other.edge.tolist()))
    place = Place(
        x=x,
        y=y,
        note=note,
        sign=Sign.LOOK,
        source=source(other.end.origin or other.scroll.bar.origin),
        traces=(outline,),
    )
    return Finding(place=place, remedy=remedy)
