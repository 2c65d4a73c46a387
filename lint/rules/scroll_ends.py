"""Different ends, and every end named.

Passes when:
    over panel and samples there are at least the asked number of different ends, and every end has its name.
Why:
    each end is forged in its own way, before the scroll is turned: an end that is not named cannot be made, and its
    stock not reckoned. A matching pair may carry four different ends: matching is of the curve.
Measured:
    each mark (a text, or a shape whose own name is the end's) goes to one end, each end takes one mark, nearest pairs
    first, none beyond the reach; a scroll's own name may give both ("scroll: ribbon / fishtail", in path order). Names
    are sorted by the sheet's vocabulary with its other spellings: one end under two names counts once. Of a scroll
    drawn as an outline the last two bar widths, unrolled, are laid on those of the other ends: one name on two outlines
    (over 0.2 bar widths apart), or two names on one (under 0.05), is looked at. A bar cut square or round shows no end.
Default and its source:
    4 different ends: the class. Reach 40 mm: common practice, no source. The names are the trade's, from memory; they
    differ by region, so a name that the vocabulary has not counts too, and is looked at.
Mend:
    write the end's name beside it on the layer "ends", as live text; add names of your own under
    [scroll_ends.vocabulary] in the sheet.
"""

from __future__ import annotations

from dataclasses import replace

from lint.panel.panel import Panel
from lint.panel.parts import End, Scroll
from lint.result import Place, Result, Sign, Spot
from lint.rules._end_shapes import doubtful
from lint.rules._finding import Figure, Finding, judged
from lint.rules._places import counted, source
from lint.rules._rule import not_applicable, rule
from lint.rules._strays import strays
from lint.sheet.sheet import Sheet


@rule("scroll-ends")
def scroll_ends(panel: Panel, sheet: Sheet) -> Result:
    """Count the different ends and find those without a name."""
    if not panel.scrolls and not panel.samples:
        return not_applicable("scroll-ends", "the drawing has no scroll", because="scroll-count")
    shown = [s for s in (*panel.scrolls, *panel.samples) if not s.bar.line.closed and not s.bar.unread]
    if not shown:
        return not_applicable("scroll-ends", "no scroll can be read as one bar", because="scroll-count")
    ends = [(scroll, end) for scroll in shown for end in scroll.ends]
    different = list(dict.fromkeys(end.name for _, end in ends if end.name))
    least = sheet.scroll_ends.least
    asked = f"at least {least} different, each named"
    count = Figure(measured=float(len(different)), required=float(least), unit="count", asked=asked)
    named = all(end.name for _, end in ends)
    findings = [_end(scroll, end, count) for scroll, end in ends]
    if len(different) < least and named:
        findings.insert(0, _too_few(panel, different, count, least))
    findings += doubtful(panel)
    findings += strays("scroll-ends", panel, "Move the name to its end, keep it as live text, or delete it.")
    how = _how_they_lie([scroll for scroll in shown if not scroll.sample])
    lie = f" On the panel they lie {how}." if how else ""
    stands = f"{counted(len(different), 'different end')}: {', '.join(map(str, different))}.{lie}"
    result = judged("scroll-ends", findings, sheet, stands=stands, figure=count)
    return replace(result, figure=counted(len(different), "different end"))


def _end(scroll: Scroll, end: End, count: Figure) -> Finding:
    x, y = end.at
    where = source(end.origin or scroll.bar.origin)
    if end.name is None:
        note, sign = f"an end of {scroll.bar.id} has no name", Sign.MEND
    elif not end.known:
        note, sign = f'the end "{end.written[:80]}" of {scroll.bar.id} is not in the vocabulary', Sign.LOOK
    else:
        note, sign = end.name, Sign.STANDS
    place = Place(x=x, y=y, note=note, sign=sign, source=where, traces=(Spot(x=x, y=y),))
    add = "Check its spelling, or add the name to [scroll_ends.vocabulary] of the sheet."
    write = "Write the end's name beside it on the layer ends."
    return Finding(place=place, figure=count, remedy=write if end.name is None else add)


def _too_few(panel: Panel, different: list[str], count: Figure, least: int) -> Finding:
    x, y = panel.origin
    note = f"only {counted(len(different), 'different end')} of {least} asked: {', '.join(different)}"
    remedy = f"Show {counted(least - len(different), 'more kind')} of end, on the panel or on a sample beside it."
    return Finding(place=Place(x=x, y=y, note=note, sign=Sign.MEND), figure=count, remedy=remedy)


def _how_they_lie(scrolls: list[Scroll]) -> str:
    """all different, two by two, by scroll, or as the counts are; "" for none."""
    names = [end.name for scroll in scrolls for end in scroll.ends if end.name]
    counts = [names.count(name) for name in dict.fromkeys(names)]
    if not counts:
        return ""
    if max(counts) == 1:
        return "all different"
    if all(scroll.ends[0].name == scroll.ends[1].name for scroll in scrolls):
        return "by scroll, both ends of each alike"
    return "two by two" if set(counts) == {2} else "mixed"
