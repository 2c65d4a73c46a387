"""Every scroll has a partner that it covers.

Passes when:
    every scroll, laid on another, turned or turned over, covers it within the limit, and both are of one bar.
Why:
    scrolls of a panel are bent on one jig, the scroll former: those that match prove it. Each family is one jig.
Measured:
    the overlay distance: the smallest, over all rigid motions with and without turning over, of the largest distance
    from either centreline to the other. A scroll drawn as an outline is laid on without its last two bar widths at
    each end, for ends are meant to differ, and its widths along the middle half are compared. Direction, start and
    splitting of the path, and the hand, change nothing. Each scroll's own symmetry (a C about its axis, an S by its
    half turn) stands beside it. A scaled copy is no match.
Default and its source:
    1/16 in (common practice, no source: two scrolls of one jig laid on one another and held to the light). Bar
    widths within 0.5 mm: the size tolerance of rolled bar, EN 10059 in a summary.
Mend:
    draw one scroll of each family and copy it, turned or turned over; do not scale the copy.
"""

from __future__ import annotations

from lint.lengths import say
from lint.panel.panel import Panel
from lint.panel.parts import Scroll
from lint.result import Place, Result, Sign
from lint.rules._finding import Figure, Finding, judged
from lint.rules._partners import farthest, lone_scrolls, no_partner
from lint.rules._places import counted, middle, named, source, unscaled, without_scrolls
from lint.rules._rule import not_applicable, rule
from lint.sheet.sheet import Sheet


@rule("scroll-match")
def scroll_match(panel: Panel, sheet: Sheet) -> Result:
    """Find every scroll's partner, or the nearest that is none."""
    unmeasured = unscaled("scroll-match", panel) or without_scrolls("scroll-match", panel)
    if unmeasured:
        return unmeasured
    if len(panel.scrolls) < 2:
        return not_applicable("scroll-match", "there is no second scroll to match", because="scroll-count")
    limit = sheet.scroll_match.overlay
    gaps = [farthest(family, sheet) for family in panel.families]
    largest = max((gap for gap in gaps if gap is not None), default=None)
    figure = Figure(measured=largest, required=limit, unit="mm", asked=f"at most {say(limit, sheet.units)}")
    findings = no_partner(lone_scrolls(panel, sheet), panel, sheet)
    findings += [_not_compared(scroll) for scroll in panel.scrolls if not scroll.family]
    findings += [_family(family, gap, sheet) for family, gap in zip(panel.families, gaps, strict=True)]
    findings += [_sample(sample, panel) for sample in panel.samples if sample.family]
    families = counted(len(panel.families), "family", "families")
    stands = (
        f"Every scroll covers its partner within {say(largest or 0.0, sheet.units)}: {families}, "
        f"so {counted(len(panel.families), 'jig')}."
    )
    return judged("scroll-match", findings, sheet, stands=stands, figure=figure)


def _not_compared(scroll: Scroll) -> Finding:
    x, y = middle(scroll)
    note = f"{scroll.bar.id} cannot be laid on another: {scroll.why_other}"
    place = Place(x=x, y=y, note=note, sign=Sign.LOOK, source=source(scroll.bar.origin))
    return Finding(place=place, remedy=f"Draw {scroll.bar.id} as one bar with two ends.")


def _family(family: tuple[Scroll, ...], gap: float | None, sheet: Sheet) -> Finding:
    first = family[0]
    x, y = middle(first)
    within = "" if gap is None else f", within {say(gap, sheet.units)}"
    own = "" if first.symmetry is None else f"; own symmetry within {say(first.symmetry, sheet.units)}"
    note = f"family {first.family}: {named(scroll.bar.id for scroll in family)}{within}{own}"
    place = Place(x=x, y=y, note=note, sign=Sign.FACT, source=source(first.bar.origin), measured=gap)
    return Finding(place=place)


def _sample(sample: Scroll, panel: Panel) -> Finding:
    x, y = middle(sample)
    shared = any(scroll.family == sample.family for scroll in panel.scrolls)
    which = f"is of family {sample.family}" if shared else "matches no scroll of the panel"
    note = f"sample {sample.bar.id} {which}"
    return Finding(place=Place(x=x, y=y, note=note, sign=Sign.FACT, source=source(sample.bar.origin)))
