"""Enough scrolls, each a C or an S.

Passes when:
    the panel has at least the asked number of scrolls that are a C or an S.
Why:
    the scroll is what the panel teaches: a bar drawn out and coiled at both ends, so that both curls can be judged.
Measured:
    the signed turning along the centreline. One sign all along is a C, one change of sign an S; a run of under 20
    degrees is the unsteadiness of a hand. A C is parted into its two curls at its slackest place, an S where
    the sign changes. A curl must turn the asked angle, or the scroll is "other"; an S's is read to a degree, a C's
    to three, for its middle is known no better. The end of an outline is gone on as the bar bent before it: where a
    tight eye, a wide end or rough points leave the asked angle in doubt, the scroll counts and is to be looked at.
    Direction, mirroring and the side that the panel is drawn from change nothing. Samples do not count.
Default and its source:
    2 scrolls, as the class asks. 270 degrees for each curl: common practice, no source; three quarters of a turn is
    the least that reads as a curl, and 300 would refuse many an open scroll.
Mend:
    draw the missing scrolls on the layer "scrolls", or let a curl that is too short turn on. A scroll that is met by
    another shape (closed path, branches) must be one open line or the outline of one bar.
"""

from __future__ import annotations

from lint.panel.panel import Panel
from lint.panel.parts import Scroll
from lint.result import Kind, Place, Result, Sign
from lint.rules._places import counted, middle, source
from lint.rules._rule import not_applicable, rule
from lint.sheet.sheet import Sheet


@rule("scroll-count")
def scroll_count(panel: Panel, sheet: Sheet) -> Result:
    """Count the scrolls that are a C or an S."""
    if not panel.scrolls and not panel.bars and panel.frame is None:
        return not_applicable("scroll-count", "no part of a grille was found on the drawing", because="layers")
    least = sheet.scroll_count.least
    good = [scroll for scroll in panel.scrolls if scroll.kind in ("C", "S")]
    other = [scroll for scroll in panel.scrolls if scroll.kind not in ("C", "S")]
    unsure = [scroll for scroll in good if _unsure(scroll, sheet)]
    enough = len(good) >= least
    kind = Kind.FAIL if not enough else Kind.REVIEW if other or unsure else Kind.PASS
    places = [_stands(scroll, Sign.LOOK if scroll in unsure else Sign.STANDS) for scroll in good]
    places += [_other(scroll, Sign.LOOK if enough else Sign.MEND) for scroll in other]
    return Result(
        rule="scroll-count",
        kind=kind,
        message=_message(good, other, least) + "".join(_in_doubt(one, sheet) for one in unsure[:3]),
        remedy=_remedy(good, other, unsure, least),
        measured=float(len(good)),
        required=float(least),
        unit="count",
        figure=_figure(good),
        asked=f"at least {counted(least, 'scroll')}, C or S",
        places=tuple(places),
    )


def _figure(good: list[Scroll]) -> str:
    kinds = [f"{n} {kind}" for kind in ("C", "S") if (n := sum(scroll.kind == kind for scroll in good))]
    return counted(len(good), "scroll") + (f" ({', '.join(kinds)})" if kinds else "")


def _message(good: list[Scroll], other: list[Scroll], least: int) -> str:
    text = f"The panel has {_figure(good)}; at least {least} are asked."
    if other:
        text += " " + " ".join(f"{scroll.bar.id} is neither a C nor an S: {scroll.why_other}." for scroll in other[:3])
    return text


def _remedy(good: list[Scroll], other: list[Scroll], unsure: list[Scroll], least: int) -> str:
    if other:
        return f"Draw {other[0].bar.id} as one bar with a curl at each end that turns far enough."
    if len(good) < least:
        return f"Draw {counted(least - len(good), 'more scroll')} on the layer scrolls."
    return f"Let the curls of {unsure[0].bar.id} turn a little farther, or draw it as a line." if unsure else ""


def _unsure(scroll: Scroll, sheet: Sheet) -> bool:
    """Whether the asked turning lies within the doubt about one of its curls."""
    off = (abs(turn * 360 - sheet.scroll_count.turn) for turn in scroll.turns)
    return any(doubt > 0 and short <= doubt for short, doubt in zip(off, scroll.doubt, strict=False))


def _in_doubt(scroll: Scroll, sheet: Sheet) -> str:
    return f" {scroll.bar.id} is outlined, and its curls turn {_curls(scroll)}; {sheet.scroll_count.turn:g}° are asked."


def _curls(scroll: Scroll) -> str:
    """ "412° and 268°, give or take 4°"."""
    off = f", give or take {max(scroll.doubt):.0f}°" if any(scroll.doubt) else ""
    return " and ".join(f"{turn * 360:.0f}°" for turn in scroll.turns) + off


def _stands(scroll: Scroll, sign: Sign) -> Place:
    x, y = middle(scroll)
    note = f"{scroll.kind} scroll, its curls turn {_curls(scroll)}"
    return Place(x=x, y=y, note=note, sign=sign, source=source(scroll.bar.origin))


def _other(scroll: Scroll, sign: Sign) -> Place:
    x, y = middle(scroll)
    return Place(x=x, y=y, note=f"no C and no S: {scroll.why_other}", sign=sign, source=source(scroll.bar.origin))
