"""Every visible object says what it is.

Passes when:
    every visible object has a role by its own name, its group's or its layer's, and every word that was needed is live
    text.
Why:
    what is not named is not read: a collar on a layer called "Layer 7" holds nothing, and a figure in outlines has no
    words. Nothing is dropped in silence, so that what was not judged is known.
Measured:
    each object's own name, then its groups' and layers' from the inside out; the first that begins with a role word
    decides (frame, scroll, bar, sample, collar, rivet, screw, weld, joint, end, radius, dimension, scale, note).
    What has no role is listed by layer, with what is hidden and what is broken. A drawing in which no name says what
    is metal fails: there is nothing to judge.
Default and its source:
    unread objects ask for a look: common practice, no source. Hidden objects are counted, and no fault.
Mend:
    name the layer or the object (frame, scrolls, collars, rivets, ends, dimensions, notes and so on), map the name
    with --layer "Ebene 2=scrolls" or in [layers] of the sheet, or delete what is not meant.
"""

from __future__ import annotations

from lint.panel.panel import Panel
from lint.panel.parts import Unread
from lint.result import Kind, Place, Result, Sign, Spot
from lint.rules._places import counted, source
from lint.rules._rule import rule, worst
from lint.rules._strays import strays
from lint.sheet.sheet import Sheet

_MOST_NAMES = 8


@rule("layers")
def layers(panel: Panel, sheet: Sheet) -> Result:
    """List what was not read."""
    odd = strays("layers", panel, "")
    places = (*(_unread(unread, panel) for unread in panel.unread), *(finding.place for finding in odd))
    left_out = panel.counts["unread"]
    kind = Kind.FAIL if panel.blank else worst(places)
    return Result(
        rule="layers",
        kind=kind,
        message=_nothing_read(panel) if panel.blank else _message(panel, left_out),
        remedy="" if kind is Kind.PASS else _remedy(panel),
        measured=float(left_out),
        required=0.0,
        unit="count",
        figure=counted(left_out, "object unread", "objects unread"),
        asked="every object read",
        places=places,
    )


def _message(panel: Panel, left_out: int) -> str:
    counts = panel.counts
    read = counts["read"] + counts["words"]
    hidden = f", {counts['hidden']} hidden" if counts["hidden"] else ""
    said = f"{read} of {panel.elements} objects were read, {counts['passed over']} passed over as notes{hidden}"
    said += f", and {counted(left_out, 'object has', 'objects have')} no role" if left_out else ""
    odd = [stray.sentence for stray in panel.strays if stray.rule == "layers"]
    return ". ".join((said, *(f"{text[0].upper()}{text[1:]}" for text in odd[:3]))) + "."


def _nothing_read(panel: Panel) -> str:
    if not panel.elements:
        return "There is nothing on the drawing."
    named = ", ".join(f'"{name}"' for name in _names(panel)[:_MOST_NAMES])
    has = f"the names that it has are {named}" if named else "its objects have no names at all"
    return f"No object is named as a part of a grille, so nothing can be judged; {has}."


def _remedy(panel: Panel) -> str:
    name = next(iter(_names(panel)), "Layer 1")
    maps = f'or map the names that it has: --layer "{name}=scrolls"'
    if panel.blank:
        return (
            f"Name the layers for what lies in them (frame, scrolls, collars, rivets, ends, dimensions, notes), {maps}."
        )
    if {unread.why for unread in panel.unread if not unread.hidden} == {"broken"}:
        return "Draw again what cannot be read, or delete it."
    return f"Name the objects that were not read, or put them on a layer called notes, {maps}."


def _names(panel: Panel) -> list[str]:
    """The names of layers without a role, and of the first object of each, as they are written."""
    found = [name for unread in panel.unread for name in (unread.layer, unread.first.name, unread.first.id)]
    return list(dict.fromkeys(name[:80] for name in found if name and name != "(no layer)"))


def _unread(unread: Unread, panel: Panel) -> Place:
    what = {"hidden": "hidden", "broken": "that cannot be read"}.get(unread.why, "without a role")
    reason = f": {unread.reason}" if unread.reason else ""
    note = f"{counted(unread.objects, 'object')} {what}, layer {unread.layer[:80]}{reason}"
    x, y = unread.at or panel.origin
    sign = Sign.FACT if unread.hidden else Sign.LOOK
    return Place(x=x, y=y, note=note, sign=sign, source=source(unread.first), traces=(Spot(x=x, y=y),))
