"""C, S or other: what a scroll's two curls do, from the signed turning of its centreline."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from lint.geometry.bending import bending, middle, turning
from lint.geometry.curve import Curve
from lint.geometry.form import form
from lint.panel.bent import bent_line
from lint.panel.parts import Bar, DrawnAs, End, Scroll
from lint.sheet.sheet import Sheet
from lint.values import dataclass

# A curl is read to a degree. Where a C is parted into two, in its slackest place, is known to so many degrees more.
READ_WITHIN, PARTED = 1.0, 2.0  # deg


@dataclass(frozen=True, slots=True, kw_only=True)
class _Shape:
    """Kind, full turns of each curl in path order, their doubt in degrees, and why it is no scroll or ""."""

    kind: str
    turns: tuple[float, ...]
    doubt: tuple[float, ...]
    why: str


def shapes_of(bars: Sequence[Bar], sheet: Sheet, *, sample: bool = False) -> tuple[Scroll, ...]:
    """The bars as scrolls: the kind of each and how far each curl turns (full turns); their ends are not named yet.

    C: the turning keeps one sign; S: it changes sign once; "other" for the rest, with the reason: a closed path,
    an outline that is no bar, or a curl that surely turns less than the sheet asks. What is drawn over and over, moved,
    turned or mirrored, is followed once.
    """
    known: dict[object, _Shape] = {}
    scrolls = []
    for bar in bars:
        key = (bar.width, form(bar.line)) if bar.drawn_as is not DrawnAs.OUTLINE else bar.id
        shape = known[key] = known.get(key) or _shape(bar, sheet)
        first, last = bar.line.points[[0, -1]].tolist()
        ends = (End(at=(first[0], first[1]), name=None), End(at=(last[0], last[1]), name=None))
        scrolls.append(Scroll(bar=bar, kind=shape.kind, turns=shape.turns, ends=ends, sample=sample,
                              why_other=shape.why, doubt=shape.doubt))  # fmt: skip
    return tuple(scrolls)


def shape_of(bar: Bar, sheet: Sheet, *, sample: bool = False) -> Scroll:
    """`shapes_of` one bar."""
    return shapes_of([bar], sheet, sample=sample)[0]


def _shape(bar: Bar, sheet: Sheet) -> _Shape:
    bent = bent_line(bar)
    kind, turns, why = _followed(bar, bent.line)
    asked = sheet.scroll_count.turn
    doubt = tuple(off if off > READ_WITHIN else 0.0 for off in bent.doubt) if len(turns) == 2 else ()
    least = asked - (READ_WITHIN + PARTED if kind == "C" else READ_WITHIN)
    short = [turn * 360 for turn, off in zip(turns, doubt, strict=False) if turn * 360 < min(least, asked - off)]
    if short and not why:
        which = "one curl turns" if len(short) == 1 else "its curls turn"
        kind, why = "other", f"{which} only {min(short):.0f}° of the {asked:g}° asked"
    return _Shape(kind=kind, turns=turns, doubt=doubt, why=why)


def _followed(bar: Bar, line: Curve) -> tuple[str, tuple[float, ...], str]:
    """(kind, full turns of each curl in path order, why it is no scroll or "")."""
    if bar.unread:
        return "other", (), bar.unread
    if line.closed:
        return "other", (), "its path is closed, so it has no ends"
    lobes = turning(line).lobes
    turns = tuple(abs(degrees) / 360 for _, _, degrees in lobes)
    if not lobes:
        return "other", (), "it does not bend"
    if len(lobes) > 2:
        return "other", turns, f"it bends {len(lobes)} ways in turn, where a C bends one way and an S two"
    return ("S", turns, "") if len(lobes) == 2 else ("C", _curls_of_c(line, bar.width, turns[0]), "")


def _curls_of_c(line: Curve, width: float | None, whole: float) -> tuple[float, float]:
    """The turning of a C's two curls, either side of its middle; `whole` is both together, in full turns."""
    window = width or line.length / 100
    bend = bending(line, window=window)
    before = bend.s <= middle(line, window=window)
    turned = np.abs(bend.curvature)
    share = float(turned[before].sum() / turned.sum())
    return whole * share, whole * (1 - share)
