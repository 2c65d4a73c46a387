"""What is wrong with one rivet, screw or weld."""

from __future__ import annotations

from lint.lengths import say
from lint.panel.parts import Fastener
from lint.result import Place, Sign, Spot
from lint.rules._finding import Figure, Finding
from lint.rules._places import named, source
from lint.sheet.sheet import Sheet


def tried(fastener: Fastener, sheet: Sheet) -> Finding:
    """What is wrong with one fastener, or that it stands."""
    held, name, touch = fastener.holds, fastener.id, sheet.tolerances.contact
    if fastener.kind not in sheet.attachment.allowed:
        allowed = ", ".join(sheet.attachment.allowed)
        figure = Figure(measured=None, required=None, unit="", asked=allowed)
        words = f"{name} is a {fastener.kind}, and only {allowed} are allowed"
        return _mend(fastener, words, figure, f"Hold the bars at {name} with one of: {allowed}.")
    if len(held) < 2:
        only = " only" if held else ""
        off = f"; the nearest contact is {say(fastener.to_contact, sheet.units)} away" if fastener.to_contact else ""
        count = Figure(measured=float(len(held)), required=2.0, unit="count", asked="at least 2 bars")
        return _mend(fastener, f"{name} holds {named(held)}{only}{off}", count, "Move it to where two bars touch.")
    if (fastener.gap or 0.0) > touch + 1e-6:
        gap = fastener.gap or 0.0
        figure = Figure(measured=gap, required=touch, unit="mm", asked=f"bars within {say(touch, sheet.units)}")
        words = f"{name} stands between {named(held)}, which are {say(gap, sheet.units)} apart"
        return _mend(fastener, words, figure, "Move the bars together until they touch at the fastener.")
    away = fastener.to_contact or 0.0
    if fastener.kind == "screw" and away > max(fastener.size) / 2 + touch:
        words = f"{name} is drawn {say(away, sheet.units)} off the contact, on a face: a hidden screw shows no head"
        return _mend(fastener, words, None, "Mark the screw's axis on the contact.", Sign.LOOK)
    return _mend(fastener, f"holds {named(held)}", None, "", Sign.STANDS)


def _mend(fastener: Fastener, note: str, figure: Figure | None, remedy: str, sign: Sign = Sign.MEND) -> Finding:
    x, y = fastener.at
    place = Place(x=x, y=y, note=note, sign=sign, source=source(fastener.origin), traces=(Spot(x=x, y=y),))
    return Finding(place=place, figure=figure, remedy=remedy)
