"""Every scroll collared to another, and every collar tight round its bars.

Passes when:
    every scroll is collared to another scroll, and every collar embraces two or more bars, which touch within it.
Why:
    a collar holds by shrinking tight on bars that touch. Over a gap it holds nothing, and a panel whose scrolls
    are not collared to one another is not rigid.
Measured:
    a collar embraces every bar whose metal its area meets. The gap is the widest that is left within the collar, going
    from each bar to its nearest neighbour. A collar falls short where a face of a bar that it meets lies outside it.
Default and its source:
    bars within 0.5 mm of one another touch (common practice, no source: what a pencil line hides). Each scroll to
    another scroll: the class. Collars proper, not how the collar is made: laps and butts show from behind.
Mend:
    move the bars together under the collar, move the collar to where they touch, make it long enough to wrap them all,
    or draw a collar where two scrolls touch.
"""

from __future__ import annotations

from lint.lengths import say
from lint.panel.panel import Panel
from lint.panel.parts import Fastener, Scroll
from lint.result import Place, Result, Sign
from lint.rules._finding import Figure, Finding, judged
from lint.rules._places import all_bars, counted, middle, named, source, unknown_widths, unscaled, without_scrolls
from lint.rules._rule import not_applicable, rule
from lint.sheet.sheet import Sheet


@rule("collars")
def collars(panel: Panel, sheet: Sheet) -> Result:
    """Judge each collar, and whether each scroll has one that holds another scroll too."""
    unmeasured = (
        unscaled("collars", panel)
        or without_scrolls("collars", panel)
        or unknown_widths("collars", all_bars(panel))
        or _only_one(panel, sheet)
    )
    if unmeasured:
        return unmeasured
    drawn = [fastener for fastener in panel.fasteners if fastener.kind == "collar"]
    scrolls, collared = len(panel.scrolls), _collared(panel, drawn)
    left = [scroll for scroll in panel.scrolls if scroll.bar.id not in collared] if sheet.collars.each_scroll else []
    count = Figure(
        measured=float(scrolls - len(left)),
        required=float(scrolls),
        unit="count",
        asked=f"all {scrolls}",
        said=f"{scrolls - len(left)} of {scrolls} scrolls collared",
    )
    findings = [*(_judged(collar, sheet) for collar in drawn), *(_left(scroll, count) for scroll in left)]
    stands = f"{len(collared)} of {scrolls} scrolls collared; {counted(len(drawn), 'collar')}, each tight."
    return judged("collars", findings, sheet, stands=stands, figure=count)


def _only_one(panel: Panel, sheet: Sheet) -> Result | None:
    if len(panel.scrolls) > 1 or not sheet.collars.each_scroll:
        return None
    return not_applicable("collars", "there is no second scroll to be collared to", because="scroll-count")


def _collared(panel: Panel, drawn: list[Fastener]) -> set[str]:
    """The scrolls that share a collar with another scroll; a gap within the collar is named there, not here."""
    scrolls = {scroll.bar.id for scroll in panel.scrolls}
    shared = [scrolls.intersection(collar.holds) for collar in drawn]
    return {name for names in shared if len(names) > 1 for name in names}


def _left(scroll: Scroll, count: Figure) -> Finding:
    x, y = middle(scroll)
    note = f"{scroll.bar.id} is collared to no other scroll"
    place = Place(x=x, y=y, note=note, sign=Sign.MEND, source=source(scroll.bar.origin))
    return Finding(place=place, figure=count, remedy="Draw a collar where the scroll touches another scroll.")


def _judged(collar: Fastener, sheet: Sheet) -> Finding:
    """Whether one collar holds two bars or more, tight, and wraps them all."""
    touch, gap = sheet.tolerances.contact + 1e-6, collar.gap or 0.0
    apart = f"bars that touch within {say(sheet.tolerances.contact, sheet.units)}"
    if len(collar.holds) < 2:
        off = (
            "" if collar.to_contact is None else f"; the nearest contact is {say(collar.to_contact, sheet.units)} away"
        )
        only = " only" if collar.holds else ""
        figure = Figure(measured=float(len(collar.holds)), required=2.0, unit="count", asked="at least 2 bars")
        return _mend(collar, f"holds {named(collar.holds)}{only}{off}", figure, "Move it to where two bars touch.")
    if gap > touch:
        figure = Figure(measured=gap, required=sheet.tolerances.contact, unit="mm", asked=apart)
        words = f"is drawn over {named(collar.holds)}, which stand {say(gap, sheet.units)} apart"
        return _mend(collar, words, figure, "Move the bars together until they touch within the collar.")
    if collar.short > touch:
        figure = Figure(measured=collar.short, required=sheet.tolerances.contact, unit="mm", asked="all bars wrapped")
        words = f"is {say(collar.short, sheet.units)} short of wrapping {named(collar.holds)}"
        return _mend(
            collar, words, figure, "Draw it long enough to wrap every bar that it meets, or let it meet fewer."
        )
    note = f"holds {named(collar.holds)}, gap {say(gap, sheet.units)}"
    return Finding(place=_place(collar, note, Sign.STANDS))


def _mend(collar: Fastener, words: str, figure: Figure, remedy: str) -> Finding:
    measured = figure.measured if figure.unit == "mm" else None
    place = _place(collar, f"{collar.id} {words}", Sign.MEND, measured)
    return Finding(place=place, figure=figure, remedy=remedy)


def _place(collar: Fastener, note: str, sign: Sign, measured: float | None = None) -> Place:
    x, y = collar.at
    return Place(x=x, y=y, note=note, sign=sign, source=source(collar.origin), measured=measured)
