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

from dataclasses import replace

from lint.panel.panel import Panel
from lint.panel.sides import CORNERS
from lint.result import Result
from lint.rules._corners import without_corners
from lint.rules._finding import judged
from lint.rules._joints import corner_finding, count_of, mark_finding, one_for_each_place, stands_on_a_meeting, too_few
from lint.rules._places import counted, unscaled
from lint.rules._rule import not_applicable, rule
from lint.rules._strays import strays
from lint.sheet.sheet import Sheet


@rule("frame-joints")
def frame_joints(panel: Panel, sheet: Sheet) -> Result:
    """Hold the joint marks against the corners and the meetings of members."""
    unmeasured = unscaled("frame-joints", panel) or without_corners("frame-joints", panel)
    if unmeasured or panel.frame is None:
        return unmeasured or not_applicable("frame-joints", "there is no frame", because="frame")
    standing = [joint for joint in panel.frame.joints if stands_on_a_meeting(joint, sheet)]
    good = one_for_each_place([joint for joint in standing if joint.kind in sheet.frame_joints.kinds], sheet)
    count = count_of(len(good), sheet)
    findings = [corner_finding(n, c, panel, count) for n, c in zip(CORNERS, panel.frame.corners, strict=True)]
    findings += [mark_finding(joint, sheet) for joint in panel.frame.joints]
    unmarked = sum(corner.made == "joined" and corner.joint is None for corner in panel.frame.corners)
    if len(good) < sheet.frame_joints.least and not unmarked and len(standing) == len(panel.frame.joints):
        findings.insert(0, too_few(panel, len(good), sheet))
    findings += strays("frame-joints", panel, "Move the mark to where the members meet, or delete it.")
    kinds = ", ".join(dict.fromkeys(joint.kind for joint in standing))
    stands = f"{counted(len(good), 'joint')} of the asked kind ({kinds}); every corner is forged or joined."
    result = judged("frame-joints", findings, sheet, stands=stands, figure=count)
    return replace(result, figure=counted(len(good), "joint")) if result.unit == "count" else result
