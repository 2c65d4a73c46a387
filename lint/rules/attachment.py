"""Every scroll held to the frame through bars that touch and are fastened.

Passes when:
    every scroll reaches the frame through touching, fastened bars; the frame has the asked number of fastened places;
    every fastener holds two or more bars, and is of a kind that the sheet allows.
Why:
    a scroll that only touches is held by nothing. Traditional work is riveted, collared, screwed or tenoned; a weld
    is refused by name where the sheet does not allow it.
Measured:
    contacts (metal within the contact tolerance) and what holds each. A rivet or screw holds the bars within
    its radius plus that tolerance of its axis. From the frame every fastened contact is followed; what is not reached
    is an island, and named. Contacts that nothing holds are a note, and so is a scroll held at one place only, which
    can turn. A collar that holds too little is the matter of the rule collars.
Default and its source:
    2 fastened places on the frame, the class. Rivet, collar or screw: the class, traditional fastenings.
Mend:
    put a rivet where the scroll touches the frame, move a fastener to the contact, or fasten the island to its
    neighbour. A hidden screw shows no head in front: mark its axis on the contact.
"""

from __future__ import annotations

from lint.panel.panel import Panel
from lint.panel.parts import FRAME, Contact
from lint.result import Place, Result, Sign, Spot
from lint.rules._fastener import tried
from lint.rules._finding import Figure, Finding, judged
from lint.rules._islands import islands, places_of
from lint.rules._places import (
    all_bars,
    counted,
    named,
    unknown_widths,
    unscaled,
    without_frame,
    without_scrolls,
)
from lint.rules._rule import rule
from lint.sheet.sheet import Sheet


@rule("attachment")
def attachment(panel: Panel, sheet: Sheet) -> Result:
    """Follow the fastened contacts from the frame."""
    unmeasured = (
        unscaled("attachment", panel)
        or without_frame("attachment", panel)
        or without_scrolls("attachment", panel)
        or unknown_widths("attachment", all_bars(panel))
    )
    if unmeasured:
        return unmeasured
    asked = sheet.attachment
    on_frame = sum(FRAME in contact.bars and bool(contact.fasteners) for contact in panel.contacts)
    count = Figure(
        measured=float(on_frame),
        required=float(asked.least),
        unit="count",
        asked=f"at least {asked.least} on the frame",
        said=counted(on_frame, "fastened place"),
    )
    drawn = [f for f in panel.fasteners if f.kind != "collar" or "collar" not in asked.allowed]
    findings = [tried(fastener, sheet) for fastener in drawn]
    findings += islands(panel, count)
    if on_frame < asked.least:
        findings.append(_too_few(panel, count))
    findings += [Finding(place=place) for place in (*places_of(panel), *map(_loose, _unheld(panel)))]
    stands = (
        f"{counted(on_frame, 'fastened place')} on the frame, at least {asked.least} asked; "
        f"{counted(len(panel.scrolls), 'scroll')}, each held to it."
    )
    return judged("attachment", findings, sheet, stands=stands, figure=count)


def _unheld(panel: Panel) -> list[Contact]:
    return [contact for contact in panel.contacts if not contact.fasteners]


def _loose(contact: Contact) -> Place:
    x, y = contact.at
    return Place(x=x, y=y, note=f"{named(contact.bars)} touch unfastened", sign=Sign.FACT, traces=(Spot(x=x, y=y),))


def _too_few(panel: Panel, count: Figure) -> Finding:
    note = f"{counted(int(count.measured or 0), 'fastened place')} on the frame, {count.asked.split(' on ')[0]} asked"
    place = Place(x=panel.origin[0], y=panel.origin[1], note=note, sign=Sign.MEND)
    return Finding(place=place, figure=count, remedy="Draw rivets or screws where the scrolls touch the frame.")
