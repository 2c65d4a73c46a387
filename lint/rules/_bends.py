"""What one scroll's curvature shows: kinks, flats, backward steps, and its tightest bend."""

from __future__ import annotations

from collections.abc import Sequence
from math import isfinite

from lint.geometry.bending import Kink, Stretch, backward_steps, flats, kinks, straightened, tightest
from lint.geometry.curve import Curve
from lint.lengths import say
from lint.panel.laying import compared_curve
from lint.panel.parts import DrawnAs, Scroll
from lint.result import Circle, Line, Place, Sign, Spot, Trace
from lint.rules._finding import Figure, Finding
from lint.rules._places import source
from lint.sheet.sheet import Sheet
from lint.values import dataclass

SLIP = 1.0  # degrees: a break of the tangent that can be seen (common practice, no source); the sheet says what counts


@dataclass(frozen=True, slots=True, kw_only=True)
class Tightest:
    """The inner radius of a scroll's tightest bend: mm, and as a share of the bar's width (mm)."""

    radius: float
    share: float
    width: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Followed:
    """One scroll with the part of its centreline that is judged; `skipped` mm of it lie before."""

    scroll: Scroll
    line: Curve
    skipped: float
    window: float
    sheet: Sheet
    scaled: bool


def bends_of(scroll: Scroll, sheet: Sheet, *, scaled: bool = True) -> tuple[list[Finding], Tightest | None]:
    """(all that is not fair about the scroll, its tightest bend or None where it has none or the bar's width is not
    known).

    An outline is judged without its ends, whose shapes are not the bar's bending. Where the width is not known a
    hundredth of the length stands for it. Where the drawing is not `scaled`, lengths are told as shares.
    """
    bar, line = scroll.bar, compared_curve(scroll.bar, sheet)
    skipped = (bar.line.length - line.length) / 2 if bar.drawn_as is DrawnAs.OUTLINE else 0.0
    window = bar.width or line.length / 100
    it = _Followed(scroll=scroll, line=line, skipped=skipped, window=window, sheet=sheet, scaled=scaled)
    broken = kinks(line, limit=sheet.fair_curve.kink, window=window)
    found = [_kink(it, kink) for kink in broken]
    level = _apart(flats(line, window=window), [kink.s for kink in broken], window)
    found += [_flat(it, stretch) for stretch in level]
    known = [*(kink.s for kink in broken), *((flat.start + flat.end) / 2 for flat in level)]
    found += [_backward(it, stretch) for stretch in _apart(_steps(line, window), known, window)]
    if bar.width is None:
        return found, None
    radius, s = tightest(line, window=window)
    if not isfinite(radius):
        return found, None
    tight = Tightest(radius=radius - bar.width / 2, share=radius / bar.width - 0.5, width=bar.width)
    if tight.share < sheet.fair_curve.inner_radius - 1e-6:
        found.append(_tight(it, tight, s))
    return found, tight


def _steps(line: Curve, window: float) -> tuple[Stretch, ...]:
    """The backward steps of a curl, those left out that only a kink makes: after it, the same bend seems to open."""
    steps = backward_steps(line, window=window)
    slips = kinks(line, limit=SLIP, window=window) if steps and not line.closed else ()
    return backward_steps(straightened(line, slips), window=window) if slips else steps


def _apart(stretches: Sequence[Stretch], known: Sequence[float], window: float) -> list[Stretch]:
    """The stretches that nothing named already explains (at `known` mm): a kink upsets the curvature either side of
    it, and after a flat the curl has to open."""
    return [one for one in stretches if not any(one.start - window <= s <= one.end + window for s in known)]


def _finding(it: _Followed, s: float, words: str, trace: Trace, *, figure: Figure, remedy: str) -> Finding:
    x, y = it.line.at(s)
    whole = it.line.length + 2 * it.skipped
    along = (
        f"{say(s + it.skipped, it.sheet.units)} along it" if it.scaled else f"{(s + it.skipped) / whole:.0%} along it"
    )
    place = Place(
        x=float(x),
        y=float(y),
        note=f"{it.scroll.bar.id} {words}, {along}",
        sign=Sign.MEND if it.sheet.fair_curve.fails else Sign.LOOK,
        source=source(it.scroll.bar.origin),
        measured=figure.measured,
        traces=(trace,),
    )
    return Finding(place=place, figure=figure, remedy=remedy)


def _kink(it: _Followed, kink: Kink) -> Finding:
    limit = it.sheet.fair_curve.kink
    figure = Figure(measured=kink.angle, required=limit, unit="deg", asked=f"kinks under {limit:g}°")
    trace = Spot(x=kink.at[0], y=kink.at[1])
    return _finding(
        it, kink.s, f"has a kink of {kink.angle:.1f}°", trace, figure=figure, remedy="Make the node at the kink smooth."
    )


def _stretch(it: _Followed, stretch: Stretch) -> Line:
    piece = it.line.piece(stretch.start, stretch.end)
    return Line(points=tuple((x, y) for x, y in piece.points.tolist()))


def _flat(it: _Followed, stretch: Stretch) -> Finding:
    share = stretch.figure / it.line.length
    words = f"has a flat of {say(stretch.figure, it.sheet.units) if it.scaled else f'{share:.1%} of its length'}"
    figure = Figure(measured=stretch.figure, required=0.0, unit="mm", asked="no flat")
    if not it.scaled:
        figure = Figure(measured=100 * share, required=0.0, unit="", asked="no flat", said=f"{share:.1%} of its length")
    s = (stretch.start + stretch.end) / 2
    return _finding(it, s, words, _stretch(it, stretch), figure=figure, remedy="Pull the flat into the curl.")


def _backward(it: _Followed, stretch: Stretch) -> Finding:
    figure = Figure(measured=stretch.figure * 100, required=0.0, unit="", asked="curls that tighten all the way",
                    said=f"opens again by {stretch.figure:.0%}")  # fmt: skip
    words = f"opens again by {stretch.figure:.0%} where its curl should tighten"
    s = (stretch.start + stretch.end) / 2
    remedy = "Let the curl tighten steadily from the middle to its end."
    return _finding(it, s, words, _stretch(it, stretch), figure=figure, remedy=remedy)


def _tight(it: _Followed, tight: Tightest, s: float) -> Finding:
    least = it.sheet.fair_curve.inner_radius
    asked = f"at least {least:g} bar widths"
    figure = Figure(measured=tight.radius, required=least * tight.width, unit="mm", asked=asked)
    x, y = it.line.at(s)
    trace = Circle(x=float(x), y=float(y), diameter=2 * tight.width)
    widths = f"{tight.share:.2f} bar widths"
    words = f"bends to an inner radius of {say(tight.radius, it.sheet.units)} ({widths})"
    if not it.scaled:
        figure = Figure(measured=tight.share, required=least, unit="", asked=asked, said=widths)
        words = f"bends to an inner radius of {widths}"
    return _finding(it, s, words, trace, figure=figure, remedy="Open the bend, or draw a thinner bar there.")
