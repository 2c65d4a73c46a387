"""What the joint marks of a frame come to, one by one."""

from __future__ import annotations

import math

from lint.lengths import say
from lint.panel.panel import Panel
from lint.panel.parts import Corner, Joint
from lint.result import Place, Sign, Spot
from lint.rules._corners import corner_source
from lint.rules._finding import Figure, Finding
from lint.rules._places import counted, source
from lint.sheet.sheet import Sheet

_MARK = 'Draw a small shape on the layer "joints" where the members meet, and name it for the joint.'


def stands_on_a_meeting(joint: Joint, sheet: Sheet) -> bool:
    """Whether a mark is no farther from a meeting than the sheet lets it."""
    return joint.off <= sheet.frame_joints.reach


def one_for_each_place(joints: list[Joint], sheet: Sheet) -> list[Joint]:
    """One joint for each place: two shapes on one meeting (a tenon and its pin) are one joint."""
    apart: list[Joint] = []
    for joint in joints:
        if all(math.dist(joint.at, other.at) > sheet.frame_joints.reach / 2 for other in apart):
            apart.append(joint)
    return apart


def count_of(good: int, sheet: Sheet) -> Figure:
    """How many joints of the asked kind there are, against how many are asked."""
    least = sheet.frame_joints.least
    kinds = " or ".join(sheet.frame_joints.kinds)
    return Figure(measured=float(good), required=float(least), unit="count", asked=f"at least {least}, {kinds}")


def corner_finding(name: str, corner: Corner, panel: Panel, count: Figure) -> Finding:
    """A corner: forged, joined with its mark, or joined and nobody says how."""
    x, y = corner.at
    bare = corner.made == "joined" and corner.joint is None
    said = "forged" if corner.made == "forged" else f"joined, {corner.joint.kind}" if corner.joint else ""
    note = (
        f"at the {name} corner two members meet, and no mark says which joint it is"
        if bare
        else f"{name} corner {said}"
    )
    sign, where = (Sign.MEND if bare else Sign.STANDS), corner_source(panel, corner)
    place = Place(x=x, y=y, note=note, sign=sign, source=where, traces=(Spot(x=x, y=y),))
    return Finding(place=place, figure=count, remedy=_MARK)


def mark_finding(joint: Joint, sheet: Sheet) -> Finding:
    """One mark: on a meeting, or away from every one."""
    x, y = joint.at
    reach = sheet.frame_joints.reach
    off = not stands_on_a_meeting(joint, sheet)
    note = (
        f"a joint mark stands {say(joint.off, sheet.units)} from the nearest meeting of members" if off else joint.kind
    )
    place = Place(x=x, y=y, note=note, sign=Sign.MEND if off else Sign.STANDS, source=source(joint.origin),
                  measured=joint.off, traces=(Spot(x=x, y=y),))  # fmt: skip
    figure = Figure(
        measured=joint.off, required=reach, unit="mm", asked=f"within {say(reach, sheet.units)} of a meeting"
    )
    return Finding(place=place, figure=figure, remedy="Move the mark to where the two members meet.")


def too_few(panel: Panel, good: int, sheet: Sheet) -> Finding:
    """Not enough joints of the asked kind, though every corner has its mark."""
    x, y = panel.origin
    kinds = " or ".join(sheet.frame_joints.kinds)
    others = (
        [joint.kind for joint in panel.frame.joints if joint.kind not in sheet.frame_joints.kinds]
        if panel.frame
        else []
    )
    more = f" ({', '.join(others)})" if others else ""
    note = f"{counted(good, 'joint')} of {sheet.frame_joints.least} asked {'is' if good == 1 else 'are'} {kinds}{more}"
    remedy = f"Draw {counted(sheet.frame_joints.least - good, 'more joint')} of the frame as {kinds}."
    return Finding(place=Place(x=x, y=y, note=note, sign=Sign.MEND), figure=count_of(good, sheet), remedy=remedy)
