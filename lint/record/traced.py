"""The forged piece by photograph: each traced scroll laid on its approved partner."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from lint.errors import Refused
from lint.geometry.curve import Curve, curve
from lint.geometry.homography import project
from lint.geometry.overlay import gap_between, overlay
from lint.lengths import say
from lint.panel.panel import Panel
from lint.panel.parts import Scroll
from lint.record.plane import best_plane, straightness
from lint.record.tracing import Tracing
from lint.result import Gap, Kind, Line, Place, Point, Result, Sign, Source
from lint.sheet.sheet import Sheet
from lint.values import dataclass

Floats = NDArray[np.float64]
CANNOT_SHOW = (
    "A tracing shows one plane: it cannot show depth, twist, or how the bars lie over one another, and a lens that "
    "bends straight lines bends the figures too. Take it square on, from well back, and measure what matters."
)
_KNOWN_WITHIN = 0.01  # a known length may differ by this ratio before the tracing is doubted


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Laid:
    """A traced scroll in the panel's millimetres beside the approved one, and the two distances between them:
    as it lies, and as nearly as it can be laid on it."""

    scroll: Scroll
    number: int
    traced: Curve
    lies: float
    overlay: float
    fitted: Curve
    gap: tuple[Point, Point]


def traced_results(tracing: Tracing, panel: Panel, sheet: Sheet) -> tuple[Result, ...]:
    """Results `traced-frame`, `traced-scrolls` and `traced-pairs`. Raises Refused where the approved drawing has no
    closed frame or the traced corners give no plane."""
    if panel.frame is None or len(panel.frame.corners) != 4:
        raise Refused("The approved drawing has no four corners to lay the photograph on.")
    true = np.array([corner.at for corner in panel.frame.corners])
    matrix = best_plane(tracing, true, panel)
    try:
        curves = tuple(curve(project(matrix, line.points), line.closed) for line in tracing.scrolls)
        error = straightness(tracing, matrix)
    except ValueError as trouble:
        raise Refused(f"The traced corners give no plane for the photograph: {trouble}.") from trouble
    laid, left = _pairs(curves, panel)
    return (
        _frame_result(tracing, matrix, error, sheet, panel),
        _scroll_result(laid, left, panel, sheet, error),
        _pair_result(laid, panel, sheet),
    )


def _pairs(curves: Sequence[Curve], panel: Panel) -> tuple[list[_Laid], int]:
    """Traced scrolls with their approved ones, nearest pairs first; and how many traced ones are left over."""
    ways = sorted(
        (float(np.hypot(*(_middle(traced) - _middle(scroll.bar.line)))), n, k)
        for n, traced in enumerate(curves)
        for k, scroll in enumerate(panel.scrolls)
    )
    taken: dict[int, int] = {}
    for _, n, k in ways:
        if n not in taken and k not in taken.values():
            taken[n] = k
    laid = [_lay(curves[n], panel.scrolls[k], k + 1) for n, k in sorted(taken.items(), key=lambda pair: pair[1])]
    return laid, len(curves) - len(taken)


def _middle(line: Curve) -> Floats:
    left, top, right, bottom = line.extent
    return np.array([(left + right) / 2, (top + bottom) / 2])


def _lay(traced: Curve, scroll: Scroll, number: int) -> _Laid:
    lies, _, _ = gap_between(traced, scroll.bar.line)
    best = overlay(traced, scroll.bar.line, enough=50.0)
    fitted = curve(best.motion.apply(traced.points), traced.closed)
    return _Laid(
        scroll=scroll,
        number=number,
        traced=traced,
        lies=lies,
        overlay=best.distance,
        fitted=fitted,
        gap=(best.on_moving, best.on_fixed),
    )


def _frame_result(tracing: Tracing, matrix: Floats, error: float | None, sheet: Sheet, panel: Panel) -> Result:
    notes, worst = [], 0.0
    for known in tracing.known:
        a, b = project(matrix, np.array(known.ends))
        length = float(np.hypot(*(b - a)))
        worst = max(worst, abs(length / known.length - 1))
        notes.append(f"{known.text} measures {say(length, sheet.units)}")
    checked = f"known lengths: {'; '.join(notes)}" if notes else "no known length was traced to check the plane by"
    remedy = _trace_again(worst > _KNOWN_WITHIN, bool(notes), error)
    return Result(
        rule="traced-frame",
        kind=Kind.REVIEW if remedy else Kind.PASS,
        message=f"{_how_good(error, sheet.units)}; {checked}. {CANNOT_SHOW}",
        remedy=remedy,
        measured=error,
        unit="mm",
        figure="not known" if error is None else say(error, sheet.units),
        places=(Place(x=panel.origin[0], y=panel.origin[1], note=checked, sign=Sign.FACT),),
    )


def _trace_again(doubted: bool, known: bool, error: float | None) -> str:
    """What to trace, or trace again, before the tracing can be trusted; "" where nothing is missing."""
    if doubted:
        return "Trace the frame's outside edge again, from a photograph taken square on."
    if not known:
        return "Trace one length that you know, on a layer called dimension, with its figure beside it."
    return "Trace each side of the frame with several points along its edge." if error is None else ""


def _how_good(error: float | None, units: str) -> str:
    if error is None:
        return "The sides were traced as straight lines, so how far lens and hand are off is not known"
    return f"The traced sides are straight within {say(error, units)}, which every figure of the tracing may be off by"


def _good_to(error: float | None, units: str) -> str:
    return (
        "how good the figures are is not known"
        if error is None
        else f"the figures are good to about {say(error, units)}"
    )


def _scroll_result(laid: Sequence[_Laid], left: int, panel: Panel, sheet: Sheet, error: float | None) -> Result:
    limit, units = sheet.tolerances.scroll, sheet.units
    places = tuple(_place(one, limit, units) for one in laid)
    missing = len(panel.scrolls) - len(laid)
    worst = max((one.overlay for one in laid), default=0.0)
    outside = sum(place.sign is Sign.MEND for place in places)
    said = f"{len(laid) - outside} of {len(panel.scrolls)} scrolls cover their approved ones within {say(limit, units)}"
    said += f"; {missing} not traced" if missing else ""
    said += f"; {left} traced lines have no scroll of their own" if left else ""
    return Result(
        rule="traced-scrolls",
        kind=Kind.FAIL if outside or missing or left else Kind.PASS,
        message=f"{said}; {_good_to(error, units)}.",
        remedy="Mend the scrolls that are outside, or trace again what is missing."
        if outside or missing or left
        else "",
        measured=worst,
        required=limit,
        unit="mm",
        figure=say(worst, units),
        asked=f"at most {say(limit, units)}",
        places=places,
    )


def _place(one: _Laid, limit: float, units: str) -> Place:
    inside = one.overlay <= limit
    (ax, ay), (bx, by) = one.gap
    note = (
        f"scroll {one.number}: {say(one.overlay, units)} at its widest when laid on, "
        f"{say(one.lies, units)} as it lies, {'within' if inside else 'outside'}"
    )
    origin = one.scroll.bar.origin
    line = Line(
        points=tuple((float(x), float(y)) for x, y in one.fitted.points[:: max(1, len(one.fitted.points) // 400)])
    )
    return Place(
        x=bx,
        y=by,
        note=note,
        sign=Sign.STANDS if inside else Sign.MEND,
        source=Source(line=origin.line, id=origin.id, layer=origin.layer),
        measured=one.overlay,
        traces=(line, Gap(a=(ax, ay), b=(bx, by), length=one.overlay)),
    )


def _pair_result(laid: Sequence[_Laid], panel: Panel, sheet: Sheet) -> Result:
    """Whether the forged scrolls of a family still match one another."""
    limit, units = sheet.scroll_match.overlay, sheet.units
    places = tuple(_pair_places(laid, limit, units))
    if not places:
        return Result(
            rule="traced-pairs",
            kind=Kind.NOT_APPLICABLE,
            message="No two scrolls of one family were traced, so none can be laid on another.",
        )
    worst = max(place.measured or 0.0 for place in places)
    fails = any(place.sign is Sign.MEND for place in places)
    return Result(
        rule="traced-pairs",
        kind=Kind.FAIL if fails else Kind.PASS,
        message=f"Laid on one another, the forged scrolls of a family part by at most {say(worst, units)}.",
        remedy="Bring the scrolls that part to one another over the same former." if fails else "",
        measured=worst,
        required=limit,
        unit="mm",
        figure=say(worst, units),
        asked=f"at most {say(limit, units)}",
        places=places,
    )


def _pair_places(laid: Sequence[_Laid], limit: float, units: str) -> Iterator[Place]:
    """Each traced scroll of a family laid on the first one of it."""
    families: dict[int, list[_Laid]] = {}
    for one in laid:
        if one.scroll.family:
            families.setdefault(one.scroll.family, []).append(one)
    for family, members in families.items():
        for other in members[1:]:
            found = overlay(other.traced, members[0].traced, enough=50.0)
            note = (
                f"family {family}: scroll {other.number} laid on scroll {members[0].number}: "
                f"{say(found.distance, units)} at its widest"
            )
            sign = Sign.STANDS if found.distance <= limit else Sign.MEND
            yield Place(x=found.on_fixed[0], y=found.on_fixed[1], note=note, sign=sign, measured=found.distance)
