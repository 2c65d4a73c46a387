"""Scrolls laid on their partners, and for a scroll that has none the one that comes nearest."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from lint.geometry.bound import at_most
from lint.geometry.curve import Curve, curve
from lint.geometry.overlay import Overlay, overlay, signature
from lint.lengths import say
from lint.panel.laying import Laid, compared_curve, facing, lay_on, turned_back, widths_apart
from lint.panel.panel import Panel
from lint.panel.parts import Bar, Scroll
from lint.result import Gap, Line, Place, Sign, Trace
from lint.rules._finding import Figure, Finding
from lint.rules._places import middle, source
from lint.sheet.sheet import Sheet

Floats = NDArray[np.float64]

# Scrolls without a partner beyond these are named, but not laid on their nearest one: one jig that is wrong makes
# hundreds, and the first few show it.
SHOWN = 40
ENOUGH = 20.0  # mm: farther off than this, how far exactly says nothing more
TRIED = 8  # scrolls of a family that one is laid on until it covers one of them
SURE = 0.1  # mm: more than an overlay is off
CANDIDATES = 3  # scrolls nearest by their figures that a scroll without a partner is laid on


def same_bar(a: Scroll, b: Scroll, sheet: Sheet) -> bool:
    """Whether two scrolls are of one bar, as far as their widths are known (outlines: along their middle half)."""
    apart = widths_apart(a.bar, b.bar)
    return apart is None or apart <= sheet.scroll_match.width + 1e-6


def lone_scrolls(panel: Panel, sheet: Sheet) -> list[Scroll]:
    """Scrolls that cover no other scroll of the same bar."""
    lone = []
    for family in panel.families:
        widths = {scroll.bar.width for scroll in family if scroll.bar.widths is None}
        if len(family) > 1 and len(widths) == 1 and all(scroll.bar.widths is None for scroll in family):
            continue
        lone += [s for s in family if not any(o is not s and same_bar(s, o, sheet) for o in family)]
    return lone


def farthest(family: Sequence[Scroll], sheet: Sheet) -> float | None:
    """The largest distance, over the family, of a scroll from a partner, mm; None for a scroll alone.

    The partner is the scroll nearest by its figures, or the next one that is near enough (a family may be a chain).
    A quick bound comes first, so that only the pairs which may be the farthest are laid on one another in full.
    """
    if len(family) < 2:
        return None
    bars = [scroll.bar for scroll in family if not scroll.copy_of]
    if len(bars) < 2:
        return 0.0
    marks = np.array([signature(compared_curve(bar, sheet)) for bar in bars])
    nearest = [_by_figures(marks, k) for k in range(len(bars))]
    bounds = [at_most(*facing(bars[k], bars[near[0]], sheet)) for k, near in enumerate(nearest)]
    worst, done = 0.0, set()
    for k in np.argsort(-np.array(bounds), kind="stable").tolist():
        if bounds[k] <= worst:
            break
        if frozenset((k, nearest[k][0])) not in done:
            worst = max(worst, _to_partner(bars, k, nearest[k], sheet))
        done.add(frozenset((k, nearest[k][0])))
    return worst


def _by_figures(marks: Floats, k: int) -> list[int]:
    """The others, nearest by their figures first, as many as may be tried."""
    order = np.argsort(np.abs(marks - marks[k]).max(axis=1), kind="stable")[: TRIED + 1]
    return [j for j in order.tolist() if j != k]


def _to_partner(bars: Sequence[Bar], k: int, near: Sequence[int], sheet: Sheet) -> float:
    least = float("inf")
    for j in near:
        least = min(least, lay_on(bars[k], bars[j], sheet).overlay.distance)
        if least <= sheet.scroll_match.overlay:
            break
    return least


def no_partner(lone: Sequence[Scroll], panel: Panel, sheet: Sheet) -> list[Finding]:
    """A finding for each scroll without a partner: the nearest one, laid over it, with the largest gap."""
    able = [scroll for scroll in panel.scrolls if scroll.family]
    if not lone or len(able) < 2:
        return [_alone(scroll) for scroll in lone]
    marks = np.array([signature(compared_curve(scroll.bar, sheet)) for scroll in able])
    number_of = {id(scroll): k for k, scroll in enumerate(able)}
    found: list[Finding] = []
    known: dict[tuple[int, int], Laid] = {}
    for number, scroll in enumerate(lone):
        k = number_of[id(scroll)]
        if number < SHOWN:
            j, laid = _nearest(k, _by_figures(marks, k)[:CANDIDATES], able, known, sheet)
            found.append(_beside(able[k], able[j], laid, sheet))
        else:
            found.append(_alone(scroll))
    return found


def _alone(scroll: Scroll) -> Finding:
    x, y = middle(scroll)
    note = f"{scroll.bar.id} has no partner"
    place = Place(x=x, y=y, note=note, sign=Sign.MEND, source=source(scroll.bar.origin))
    return Finding(place=place, remedy=f"Draw {scroll.bar.id} as a copy of another scroll, turned or turned over.")


def _nearest(
    k: int, near: Sequence[int], able: Sequence[Scroll], known: dict[tuple[int, int], Laid], sheet: Sheet
) -> tuple[int, Laid]:
    """Which of the scrolls `near` comes nearest to scroll `k` when laid on it, and how it lies. `known` keeps what was
    laid on what: the other way round, it is the same."""
    least, best = ENOUGH, near[0]
    for j in near:
        back = known.get((k, j))
        known[j, k] = (
            turned_back(back) if back and back.overlay.exact else lay_on(able[j].bar, able[k].bar, sheet, enough=least)
        )
        if known[j, k].overlay.distance < known[best, k].overlay.distance:
            best = j
        least = min(least, known[best, k].overlay.distance)
    return best, known[best, k]


def _beside(scroll: Scroll, partner: Scroll, laid: Laid, sheet: Sheet) -> Finding:
    best, moving = laid.overlay, laid.moving
    limit = sheet.scroll_match.overlay
    if best.distance <= limit and not same_bar(scroll, partner, sheet):
        return _other_bar(scroll, partner, sheet)
    about = "" if best.exact else "over "
    words = f"{about}{say(best.distance, sheet.units)} off {partner.bar.id} at the widest"
    ratio = laid.fixed.length / moving.length
    other_size = _of_other_size(laid, ratio, limit)
    if other_size:
        words = f"of another size: {ratio:.3f} of {partner.bar.id}, {words}"
    x, y = middle(scroll)
    place = Place(
        x=x,
        y=y,
        note=f"{scroll.bar.id} has no partner; it is {words}",
        sign=Sign.MEND,
        source=source(scroll.bar.origin),
        measured=best.distance,
        traces=_laid_over(best, moving),
    )
    figure = Figure(measured=best.distance, required=limit, unit="mm", asked=f"at most {say(limit, sheet.units)}")
    how = "at the same size" if other_size else "turned or turned over"
    return Finding(place=place, figure=figure, remedy=f"Replace {scroll.bar.id} by a copy of {partner.bar.id}, {how}.")


def _of_other_size(laid: Laid, ratio: float, limit: float) -> bool:
    """Whether the one, scaled by `ratio`, covers the other: quick bounds first, for few need the search."""
    left, top, right, bottom = laid.moving.extent
    gained = abs(ratio - 1) * np.hypot(right - left, bottom - top) / 2  # at most, scaled about the middle
    if laid.overlay.exact and laid.overlay.distance - gained > limit + SURE:
        return False
    scaled = curve(laid.moving.points * ratio, laid.moving.closed)
    return at_most(scaled, laid.fixed) <= limit or overlay(scaled, laid.fixed, enough=limit).distance <= limit


def _laid_over(best: Overlay, line: Curve) -> tuple[Trace, ...]:
    points = tuple((x, y) for x, y in best.motion.apply(line.points).tolist())
    gap = Gap(a=best.on_moving, b=best.on_fixed, length=best.distance)
    return Line(points=points, closed=line.closed), gap


def _other_bar(scroll: Scroll, partner: Scroll, sheet: Sheet) -> Finding:
    mine, theirs = scroll.bar.width or 0.0, partner.bar.width or 0.0
    apart = widths_apart(scroll.bar, partner.bar) or 0.0
    x, y = middle(scroll)
    sizes = f"{say(mine, sheet.units)} against {say(theirs, sheet.units)}"
    if apart > abs(mine - theirs) + sheet.scroll_match.width / 2:
        sizes = f"their widths differ by up to {say(apart, sheet.units)} along them"
    note = f"{scroll.bar.id} covers {partner.bar.id} but is of another bar: {sizes}"
    asked = f"widths within {say(sheet.scroll_match.width, sheet.units)}"
    figure = Figure(measured=apart, required=sheet.scroll_match.width, unit="mm", asked=asked)
    place = Place(x=x, y=y, note=note, sign=Sign.MEND, source=source(scroll.bar.origin), measured=apart)
    return Finding(place=place, figure=figure, remedy=f"Draw {scroll.bar.id} and {partner.bar.id} with one width.")
