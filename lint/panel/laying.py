"""Two bars laid on one another: whole where they are centrelines, without their ends where they are outlines."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from lint.geometry.curve import Curve
from lint.geometry.gaps import inverse
from lint.geometry.overlay import Overlay, overlay, own_symmetry
from lint.geometry.shared_stretch import even_part, shared_stretch
from lint.panel.bent import swollen
from lint.panel.parts import Bar, DrawnAs
from lint.sheet.sheet import Sheet
from lint.values import dataclass

Floats = NDArray[np.float64]

# Places along two bars at which their widths are compared.
PLACES = 64


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Laid:
    """What was laid on what (the parts of the two centrelines that are compared), and how nearly it covers it."""

    moving: Curve
    fixed: Curve
    overlay: Overlay


def compared_curve(bar: Bar, sheet: Sheet) -> Curve:
    """The part of a bar's centreline that is laid over another: the whole of a centreline, an outline without its
    ends, which are meant to differ."""
    left_out = min(_left_out(bar, sheet), 0.25 * bar.line.length)
    return bar.line.piece(left_out, bar.line.length - left_out) if left_out else bar.line


def facing(one: Bar, other: Bar, sheet: Sheet) -> tuple[Curve, Curve]:
    """The parts of two bars' centrelines that are compared, as they lie.

    Where one of them is an outline, what its drawn end adds to the centreline (a ball half its diameter, a point its
    length) is no difference of the curve: the parts are those that both have, up to the length left out.
    """
    left_out = max(_left_out(one, sheet), _left_out(other, sheet))
    if not left_out or one.line.closed or other.line.closed:
        return one.line, other.line
    return shared_stretch(one.line, other.line, left_out)


def lay_on(moving: Bar, fixed: Bar, sheet: Sheet, *, enough: float = 5.0) -> Laid:
    """One bar laid on another, by the parts that face one another (`lint.geometry.overlay.overlay`)."""
    one, other = facing(moving, fixed, sheet)
    return Laid(moving=one, fixed=other, overlay=overlay(one, other, enough=enough))


def turned_back(laid: Laid) -> Laid:
    """The other bar laid on the one: the same, seen the other way round."""
    back = inverse(laid.overlay.motion)
    (x, y), (u, v) = back.apply(np.array([laid.overlay.on_fixed, laid.overlay.on_moving])).tolist()
    return Laid(
        moving=laid.fixed,
        fixed=laid.moving,
        overlay=replace(laid.overlay, motion=back, on_moving=(x, y), on_fixed=(u, v)),
    )


def symmetry(bar: Bar, sheet: Sheet, *, half_turn: bool) -> float:
    """How far a bar is from its own symmetry, mm; an outline by the part that both its halves have."""
    left_out = _left_out(bar, sheet)
    return own_symmetry(even_part(bar.line, left_out, half_turn=half_turn) if left_out else bar.line, half_turn)


def widths_apart(one: Bar, other: Bar) -> float | None:
    """The largest difference of two bars' widths at like places along them, mm, run either way; None where a width is
    not known.

    Along outlines the middle half is compared, place by place: towards its ends a bar is drawn down for the end it
    carries, and a matching pair may carry four different ones. A centreline has one width all along.
    """
    if one.width is None or other.width is None:
        return None
    mine, theirs = _widths(one), _widths(other)
    return float(min(np.abs(mine - theirs).max(), np.abs(mine - theirs[::-1]).max()))


def _widths(bar: Bar) -> Floats:
    if bar.widths is None:
        return np.full(PLACES, bar.width or 0.0)
    places = np.linspace(0.25, 0.75, PLACES) * bar.line.length
    return np.interp(places, bar.line.stations[: len(bar.widths)], bar.widths)


def _left_out(bar: Bar, sheet: Sheet) -> float:
    """mm at each end of an outline, and up to the neck of an end that is wider than the bar; none of a centreline."""
    if bar.drawn_as is not DrawnAs.OUTLINE or bar.width is None:
        return 0.0
    return max(sheet.scroll_match.ends_left_out * bar.width, *swollen(bar))
