"""The joints of the frame.

Passes when:
    at least the asked number of joints are mortise and tenon, each mark stands where two members meet, and every corner
    of the frame is either forged or joined.
Why:
    where two members meet, the drawing has to say how: without a mark nobody knows whether to forge a tenon, and how
    much longer the bar must be.
Measured:
    a mark's distance from the nearest place where members meet: where their middle lines cross, or a corner of the
    frame, or where an infill bar ends on it. A corner where two members meet needs its mark; a frame drawn in one
    piece has its joints where the marks stand.
Default and its source:
    2 joints, mortise and tenon: the class. A mark stands on a meeting within 1 in: common practice, no source; two
    widths of a 1/2 in bar.
Mend:
    draw a small shape or a text on the layer "joints" where the members meet; its name says which joint ("halved",
    "pierced"), and without one it is mortise and tenon.
"""

from __future__ import annotations

from lint.lengths import say
from lint.panel.panel import Panel
from lint.panel.parts import Corner, Joint
from lint.panel.sides import CORNERS
from lint.result import Place, Result, Sign, Spot
from lint.rules._corners import corner_source, without_corners
from lint.rules._finding import Figure, Finding, judged
from lint.rules._places import counted, source, unscaled
from lint.rules._rule import not_applicable, rule
from lint.rules._strays import strays
from lint.sheet.sheet import Sheet

_MARK = 'Draw a small shape on the layer "joints" where the members meet, and name it for the joint.'


@rule("frame-joints")
def frame_joints(panel: Panel, sheet: Sheet) -> Result:
    """Hold the joint marks against the corners and the meetings of members."""
    unmeasured = unscaled("frame-joints", panel) or without_corners("frame-joints", panel)
    if unmeasured or panel.frame is None:
        return unmeasured or not_applicable("frame-joints", "there is no frame", because="frame")
    if any(corner.made == "open" for corner in panel.frame.corners):
        return not_applicable("frame-joints", "the frame is open at a corner", because="frame")
    standing = [joint for joint in panel.frame.joints if _stands(joint, sheet)]
    good = [joint for joint in standing if joint.kind in sheet.frame_joints.kinds]
    count = _count(len(good), sheet)
    findings = [_corner(n, c, panel, count) for n, c in zip(CORNERS, panel.frame.corners, strict=True)]
    findings += [_mark(joint, sheet) for joint in panel.frame.joints]
    unmarked = sum(corner.made == "joined" and corner.joint is None for corner in panel.frame.corners)
    if len(good) < sheet.frame_joints.least and not unmarked and len(standing) == len(panel.frame.joints):
        findings.insert(0, _too_few(panel, len(good), sheet))
    findings += strays("frame-joints", panel, "Move the mark to where the members meet, or delete it.")
    kinds = ", ".join(dict.fromkeys(joint.kind for joint in standing))
    stands = f"{counted(len(good), 'joint')} of the asked kind ({kinds}); every corner is forged or joined."
    return judged("frame-joints", findings, sheet, stands=stands, figure=count)


def _stands(joint: Joint, sheet: Sheet) -> bool:
    return joint.off <= sheet.frame_joints.reach


def _count(good: int, sheet: Sheet) -> Figure:
    least = sheet.frame_joints.least
    kinds = " or ".join(sheet.frame_joints.kinds)
    return Figure(measured=float(good), required=float(least), unit="count", asked=f"at least {least}, {kinds}")


def _corner(name: str, corner: Corner, panel: Panel, count: Figure) -> Finding:
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


def _mark(joint: Joint, sheet: Sheet) -> Finding:
    x, y = joint.at
    reach = sheet.frame_joints.reach
    off = not _stands(joint, sheet)
    note = (
        f"a joint mark stands {say(joint.off, sheet.units)} from the nearest meeting of members" if off else joint.kind
    )
    place = Place(x=x, y=y, note=note, sign=Sign.MEND if off else Sign.STANDS, source=source(joint.origin),
                  measured=joint.off, traces=(Spot(x=x, y=y),))  # fmt: skip
    figure = Figure(
        measured=joint.off, required=reach, unit="mm", asked=f"within {say(reach, sheet.units)} of a meeting"
    )
    return Finding(place=place, figure=figure, remedy="Move the mark to where the two members meet.")


def _too_few(panel: Panel, good: int, sheet: Sheet) -> Finding:
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
    return Finding(place=Place(x=x, y=y, note=note, sign=Sign.MEND), figure=_count(good, sheet), remedy=remedy)
