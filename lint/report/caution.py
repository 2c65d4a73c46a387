"""What every report says last."""

from __future__ import annotations

from collections.abc import Sequence

from lint.lengths import say
from lint.verdict import Verdict

CAUTION = (
    "This is a check of a drawing, not an inspection of a building. The figures are those of the drawing, measured "
    "from the front; local code and licensed practice decide on loads, climbing, stairs, pools, escape windows and "
    "fixings. Try every opening of the forged piece, and the gaps around it, with a real ball under a push."
)

# CPSC handbook for public playground safety (Pub. 325), B.2.5.1: more than 3.5 in and less than 9 in.
ENTRAPMENT = (88.9, 228.6)  # mm


def limit_used(verdict: Verdict) -> str:
    """The sphere that openings were held to, and who says so."""
    asked = verdict.sheet.pass_through
    exact = "is stopped too" if asked.strict else "may pass"
    sphere = say(asked.sphere, verdict.sheet.units)
    return f"Openings are held to a ball of {sphere} (one of exactly that size {exact}): {asked.source}."


def entrapment(verdicts: Sequence[Verdict]) -> str:
    """A sentence where a drawing has openings in the band of the playground rules on head entrapment, else ""."""
    low, high = ENTRAPMENT
    holes = [hole for verdict in verdicts if verdict.panel is not None for hole in verdict.panel.openings]
    if not any(low < hole.diameter < high for hole in holes):
        return ""
    units = verdicts[0].sheet.units
    return (
        f"There are openings between {say(low, units)} and {say(high, units)}: playground rules hold such an opening "
        "able to trap a head (CPSC Pub. 325, B.2.5.1), whatever the limit above."
    )
