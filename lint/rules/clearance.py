"""No bar runs into another, and no gap is so small that it is neither a touch nor clear.

Passes when:
    no two bars, and no two turns of one bar, share more metal than a touch, and every gap is a touch or clear.
Why:
    two bars cannot be in one place. A gap of a millimetre or two cannot be painted, and most often was meant to touch.
Measured:
    how deep the metal of each pair runs in, and the distance where it does not; for the turns of one bar, where it has
    come back beside itself. A gap that another bar fills is none, and one under a fastener is that rule's matter. Where
    a rivet, a screw or a joint holds two bars that lie over one another, that is a lap: a front view cannot show the
    true gap. Objects drawn twice on one another are named here.
Default and its source:
    0.5 mm may overlap, gaps under 3 mm are looked at (common practice, no source: what a pencil line hides, and
    too narrow to paint). A narrow gap is for a person to judge, unless the sheet says that it fails.
Mend:
    move the bars apart, or together until they touch; draw the joint or the rivet of a lap; delete the second copy.
"""

from __future__ import annotations

from lint.lengths import say
from lint.panel.panel import Panel
from lint.panel.parts import Closeness
from lint.result import Gap, Place, Region, Result, Sign, Trace
from lint.rules._doubles import doubles
from lint.rules._finding import Figure, Finding, judged
from lint.rules._laps import Index, by_bar, fastened_there, lapped
from lint.rules._places import all_bars, counted, named, source_of, unknown_widths, unscaled
from lint.rules._rule import not_applicable, rule
from lint.sheet.sheet import Sheet


@rule("clearance")
def clearance(panel: Panel, sheet: Sheet) -> Result:
    """Judge every place where metal shares a place or comes close."""
    if unmeasured := unscaled("clearance", panel):
        return unmeasured
    if not all_bars(panel):
        return not_applicable("clearance", "there is no bar or scroll to judge", because="scroll-count")
    index = by_bar(panel)
    findings = [_close(place, panel, sheet, index) for place in panel.closeness]
    kept = [finding for finding in findings if finding is not None]
    if not any(finding.place.sign is Sign.MEND for finding in kept):
        unknown = unknown_widths("clearance", all_bars(panel))
        if unknown:
            return unknown
    limit = sheet.clearance.overlap
    stands = (
        f"No run-in over {say(limit, sheet.units)} and no gap under {say(sheet.clearance.clear, sheet.units)} "
        f"at {counted(len(panel.contacts), 'contact')} of {counted(len(all_bars(panel)), 'bar')}."
    )
    view = "Bars lie over one another: a front view cannot show the true gap between them." if panel.crossings else ""
    figure = Figure(measured=0.0, required=0.0, unit="count", asked="no run-in and no narrow gap", said="none found")
    return judged("clearance", [*kept, *doubles(panel)], sheet, stands=stands, figure=figure, also=view)


def _close(close: Closeness, panel: Panel, sheet: Sheet, index: Index) -> Finding | None:
    if close.depth > sheet.clearance.overlap:
        return _run_in(close, panel, sheet, index)
    return None if fastened_there(close, index) else _narrow(close, panel, sheet)


def _run_in(close: Closeness, panel: Panel, sheet: Sheet, index: Index) -> Finding:
    depth, limit = say(close.depth, sheet.units), sheet.clearance.overlap
    traces: tuple[Trace, ...] = (Region(rings=close.shared.rings),) if close.shared else ()
    if by := lapped(close, panel, index):
        note = f"{named(close.bars)} lie over one another, held by {by}: the true gap does not show"
        return Finding(place=_place(close, panel, note, Sign.FACT, traces=traces))
    turn = close.bars[0] == close.bars[1]
    who = f"two turns of {close.bars[0]} run" if turn else f"{named(close.bars)} run"
    size = f", sharing {close.shared.size:.0f} mm²" if close.shared else ""
    place = _place(
        close, panel, f"{who} {depth} into one another{size}", Sign.MEND, traces=traces, measured=close.depth
    )
    figure = Figure(measured=close.depth, required=limit, unit="mm", asked=f"at most {say(limit, sheet.units)}")
    remedy = (
        "Open the curl until its turns are clear."
        if turn
        else "Move the bars apart until they only touch, or mark the joint."
    )
    return Finding(place=place, figure=figure, remedy=remedy)


def _narrow(close: Closeness, panel: Panel, sheet: Sheet) -> Finding:
    clear, gap = sheet.clearance.clear, close.gap
    turn = close.bars[0] == close.bars[1]
    who = f"two turns of {close.bars[0]}" if turn else named(close.bars)
    note = f"{who} touch" if gap <= sheet.tolerances.contact else f"{who} are only {say(gap, sheet.units)} apart"
    traces = (Gap(a=close.between[0], b=close.between[1], length=gap),)
    asked = f"at least {say(clear, sheet.units)}" if turn else f"a touch, or at least {say(clear, sheet.units)}"
    sign = Sign.MEND if sheet.clearance.fails else Sign.LOOK
    place = _place(close, panel, note, sign, traces=traces, measured=gap)
    figure = Figure(measured=gap, required=clear, unit="mm", asked=asked)
    remedy = (
        "Open the curl, or be sure that its turns are meant to meet."
        if turn
        else "Let the bars touch, or move them apart."
    )
    return Finding(place=place, figure=figure, remedy=remedy)


def _place(
    close: Closeness, panel: Panel, note: str, sign: Sign, *, traces: tuple[Trace, ...], measured: float | None = None
) -> Place:
    x, y = close.at
    where = source_of(panel, close.bars[1])
    return Place(x=x, y=y, note=note, sign=sign, source=where, measured=measured, traces=traces)
