"""No ball of the limit passes any opening.

Passes when:
    the largest circle in every opening inside the frame is smaller than the sphere of the sheet.
Why:
    a child's body that goes through an opening can leave the head behind. The sphere is the usual measure of that.
Measured:
    the area inside the frame less all metal, and in every opening the largest circle, within 0.02 mm. Where
    the ball passes, each place that its centre can reach is a finding of its own. A front view stands for
    the ball only where the bars share one mid-plane. Collars and rivets count as metal only where the sheet says so.
Default and its source:
    4 in, that is 101.6 mm and never the printed 102: International Building Code 1015.4 and International Residential
    Code R312.1.3, read in reproductions. Strict: a ball of exactly the limit must be stopped, so a circle of 101.6 mm
    fails; one within 1/8 in below it is looked at, for a forged bar wanders (common practice, no source). Other places
    have other limits: the sheet names its source.
Mend:
    bring the bars nearer together where the ball is drawn, let a scroll reach farther into the corner, or set a bar.
"""

from __future__ import annotations

from lint.lengths import say
from lint.panel.panel import Panel
from lint.panel.parts import Opening
from lint.result import Kind, Place, Result, Sign
from lint.rules._ball import at_limit, tried
from lint.rules._outside import outside_frame
from lint.rules._places import all_bars, counted, unknown_widths, unscaled, without_frame
from lint.rules._rule import not_applicable, rule, worst
from lint.sheet.sheet import Sheet

# Published: CPSC public playground handbook (Pub. 325), B.2.5.1: suspect over 3.5 in and under 9 in.
ENTRAPMENT = 88.9


@rule("pass-through")
def pass_through(panel: Panel, sheet: Sheet) -> Result:
    """Try the sheet's ball in every opening."""
    frame = panel.frame
    metal = (*(frame.members if frame else ()), *all_bars(panel))
    unmeasured = (
        unscaled("pass-through", panel)
        or without_frame("pass-through", panel, closed=True)
        or unknown_widths("pass-through", metal)
    )
    if unmeasured:
        return unmeasured
    if not panel.openings:
        return not_applicable("pass-through", "the frame holds no opening: it is all metal")
    found = [place for hole in panel.openings for place in tried(hole, sheet)]
    outside = outside_frame(panel)
    places = (*found, *outside)
    kind, widest, limit = worst(places), panel.openings[0], sheet.pass_through.sphere
    return Result(
        rule="pass-through",
        kind=kind,
        message=" ".join([_said(found, widest, sheet), *_cautions(panel, sheet, len(outside))]),
        remedy="" if kind is Kind.PASS else _remedy(kind),
        measured=widest.diameter,
        required=limit,
        unit="mm",
        figure=say(widest.diameter, sheet.units, limit),
        asked=_asked(sheet),
        places=places,
    )


def _asked(sheet: Sheet) -> str:
    return f"{'under' if sheet.pass_through.strict else 'at most'} {say(sheet.pass_through.sphere, sheet.units)}"


def _said(found: list[Place], widest: Opening, sheet: Sheet) -> str:
    bad = sum(place.sign is Sign.MEND for place in found)
    near = sum(place.sign is Sign.LOOK for place in found)
    size = say(widest.diameter, sheet.units, sheet.pass_through.sphere)
    if bad:
        exactly = ", at the limit, and a ball of just this size must be stopped"
        exactly = exactly if at_limit(widest.diameter, sheet) else ""
        return f"The ball passes in {counted(bad, 'place')}; the largest circle is {size}{exactly}."
    if near:
        return (
            f"The largest circle is {size}: {counted(near, 'opening')} within "
            f"{say(sheet.pass_through.band, sheet.units)} below the limit, which a forged bar can wander."
        )
    return f"The largest circle of {counted(len(found), 'opening')} is {size}."


def _cautions(panel: Panel, sheet: Sheet, outside: int) -> list[str]:
    """The limit and its source, what the view cannot show, and what this check is not."""
    asked = sheet.pass_through
    said = [f"Limit: {_asked(sheet)}, after {asked.source.rstrip('.')}."]
    if panel.crossings:
        said.append("Bars lie over one another: a front view cannot show the true gap between them.")
    if outside:
        said.append(f"{counted(outside, 'part')} out of the frame: openings there are not judged.")
    band = sum(ENTRAPMENT < hole.diameter < asked.sphere for hole in panel.openings)
    if band:
        said.append(
            f"{counted(band, 'opening')} over 89 mm: the band of playground head-entrapment rules, where those apply."
        )
    said.append("This is a check of a drawing, not a building inspection; local code and licensed practice decide.")
    return said


def _remedy(kind: Kind) -> str:
    if kind is Kind.REVIEW:
        return "Close the opening a little, or be sure that the forged piece keeps to the drawing."
    return "Bring the bars nearer together where the ball is drawn, or set another bar in the opening."
