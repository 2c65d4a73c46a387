"""The rules of the frame, its corners and its joints, with their figures. The frame is 360 by 560 outside."""

# ruff: noqa: E501 (path data reads better unbroken)
from __future__ import annotations

import math
from dataclasses import replace

import pytest

from lint.panel.panel import Panel
from lint.result import Circle, Gap, Kind, Line, Sign
from tests.panel.pages import BAR, FILL, HAIR, SHEET, joints, judged, panel_of

U = f'<path id="u" d="M26,20 V574 H374 V20" {BAR}/><path id="top" d="M32,26 H368" {BAR}/>'
MARKS = joints((26, 26), (374, 26))
ARCS = f'<g id="radius"><path d="M32,562 A6,6 0 0 0 38,568" {HAIR}/></g>'


def panel(frame: str, more: str = "", size: str = 'width="500mm" height="700mm" viewBox="0 0 500 700"') -> Panel:
    return panel_of(f'<g id="frame">{frame}</g>{more}', size)


def outline(*corners: tuple[float, float], bar: float = 12) -> str:
    """A frame outline through four outer corners, its inside a like figure smaller by the bar."""
    middle = [sum(c[k] for c in corners) / 4 for k in (0, 1)]
    inner = [tuple(m + (v - m) * (1 - bar / 180) for v, m in zip(c, middle, strict=True)) for c in corners]
    rings = " ".join("M" + " L".join(f"{x},{y}" for x, y in ring) + " Z" for ring in (corners, inner))
    return f'<path d="{rings}" {FILL} fill-rule="evenodd"/>'


def test_a_good_frame_shows_its_figures() -> None:
    good = panel(U, MARKS + ARCS)
    for rule_id, figure in (("frame", 0.0), ("square-corners", 2.0), ("inside-radius", 6.0), ("frame-joints", 2.0)):
        result = judged(good, rule_id)
        assert result.kind is Kind.PASS, result.message
        assert result.measured == pytest.approx(figure, abs=0.01)
        assert result.asked
        assert result.figure
        assert result.remedy == ""


def test_no_frame_fails_once_and_the_others_point_to_it() -> None:
    bare = panel_of('<path id="scroll-1" d="M0,0 C0,90 90,90 90,0" stroke="#000" stroke-width="6" fill="none"/>')
    assert judged(bare, "frame").kind is Kind.FAIL
    for rule_id in ("square-corners", "inside-radius", "frame-joints", "dimensions", "pass-through"):
        assert judged(bare, rule_id).because == "frame", rule_id


@pytest.mark.parametrize(("lean", "kind"), [(1.40, Kind.PASS), (1.80, Kind.PASS), (1.90, Kind.FAIL), (2.50, Kind.FAIL)])
def test_diagonals_are_held_to_a_sixteenth_of_an_inch(lean: float, kind: Kind) -> None:
    """The top pushed aside by dx: the diagonals are sqrt((W +- dx)^2 + H^2), here 2 W dx / D apart to first order."""
    result = judged(panel(outline((20 + lean, 20), (380 + lean, 20), (380, 580), (20, 580))), "frame")
    apart = math.hypot(360 + lean, 560) - math.hypot(360 - lean, 560)
    expected = apart - 1.5875  # 1/16 in
    assert (expected > 0) == (result.kind is Kind.FAIL)
    assert result.measured == pytest.approx(apart, abs=0.01)


def test_the_longer_diagonal_is_named_and_both_are_drawn() -> None:
    result = judged(panel(outline((24, 20), (384, 20), (380, 580), (20, 580))), "frame")
    assert "upper right to lower left is the longer" in result.remedy
    traces = [trace for place in result.places for trace in place.traces]
    assert sum(isinstance(trace, Line) for trace in traces) == 2


def test_a_trapezoid_fails_by_its_sides() -> None:
    result = judged(panel(outline((21, 20), (379, 20), (380, 580), (20, 580))), "frame")
    assert result.kind is Kind.FAIL
    assert "top side is 358 mm and the bottom side 360 mm" in result.message
    assert any(isinstance(trace, Gap) for place in result.places for trace in place.traces)


@pytest.mark.parametrize(("degrees", "ok"), [(0.9, True), (1.1, False)])
def test_an_angle_may_be_off_by_a_degree(degrees: float, ok: bool) -> None:
    loose = replace(SHEET, frame=replace(SHEET.frame, diagonals=99.0, sides=99.0))
    dx = 560 * math.tan(math.radians(degrees))
    result = judged(panel(outline((20 + dx, 20), (380 + dx, 20), (380, 580), (20, 580))), "frame", loose)
    assert (result.kind is Kind.PASS) == ok


def test_without_a_scale_the_shape_is_judged_and_the_sides_are_not() -> None:
    leaning = outline((26, 20), (386, 20), (380, 580), (20, 580))
    result = judged(panel(leaning, size='viewBox="0 0 500 700"'), "frame")
    assert result.kind is Kind.PASS
    assert "without a scale" in result.message


def test_a_bar_of_no_stock_size_is_noted_with_the_nearest() -> None:
    thick = U.replace('stroke-width="12"', 'stroke-width="11"').replace("M32,26 H368", "M31.5,25.5 H368.5")
    both = '<g id="dimensions" stroke="#000"><path d="M20.5,600 H379.5"/><text x="190" y="598" font-size="6">359</text><path d="M400,20 V579.5"/><text x="401" y="300" font-size="6">559.5</text></g>'
    result = judged(panel(thick, both), "frame")
    assert "11 mm is no stock size" in result.message
    assert "10 mm and 11.11 mm" in result.message


# --- square-corners ---


def test_a_rounded_corner_is_not_forged_square() -> None:
    round_one = f'<path d="M26,20 V554 A20,20 0 0 0 46,574 H374 V20" {BAR}/><path d="M32,26 H368" {BAR}/>'
    result = judged(panel(round_one, MARKS), "square-corners")
    assert (result.kind, result.measured) == (Kind.FAIL, 1)
    assert "lower left corner has an outside radius of 26 mm" in result.message
    bad = [place for place in result.places if place.sign is Sign.MEND]
    assert [trace.diameter for place in bad for trace in place.traces if isinstance(trace, Circle)] == [
        pytest.approx(52, abs=0.1)
    ]


def test_the_circle_of_a_rounding_is_drawn_where_it_stands() -> None:
    """A fillet of 6 mm in the corner at (32, 568) has its centre 6 mm from both sides."""
    result = judged(panel(U, MARKS + ARCS), "inside-radius")
    circles = [trace for place in result.places for trace in place.traces if isinstance(trace, Circle)]
    assert [(c.x, c.y, c.diameter) for c in circles] == [pytest.approx((38, 562, 12), abs=0.01)]


def test_half_a_bar_of_outside_radius_is_allowed() -> None:
    """A round join rounds by exactly half the bar's width, which is the limit."""
    assert judged(panel(U.replace("<path", '<path stroke-linejoin="round"'), MARKS), "square-corners").kind is Kind.PASS


def test_corners_out_of_angle_are_the_frames_fault() -> None:
    askew = outline((40, 20), (400, 20), (380, 580), (20, 580))
    assert judged(panel(askew), "frame").kind is Kind.FAIL
    assert judged(panel(askew), "square-corners").because == "frame"


def test_an_open_frame_is_the_frames_fault() -> None:
    open_one = panel(U.replace("M32,26 H368", "M34,26 H366"), MARKS)
    assert judged(open_one, "frame").measured == pytest.approx(2.0)
    for rule_id in ("square-corners", "inside-radius", "frame-joints"):
        assert judged(open_one, rule_id).because == "frame"


# --- inside-radius ---


@pytest.mark.parametrize(
    ("radius", "kind"), [(3.1, Kind.FAIL), (3.175, Kind.PASS), (6, Kind.PASS), (12, Kind.PASS), (12.1, Kind.FAIL)]
)
def test_an_inside_radius_lies_between_an_eighth_of_an_inch_and_one_bar(radius: float, kind: Kind) -> None:
    arc = f'<g id="radius"><path d="M32,{568 - radius} A{radius},{radius} 0 0 0 {32 + radius},568" {HAIR}/></g>'
    result = judged(panel(U, MARKS + arc), "inside-radius")
    assert result.kind is kind
    assert result.measured == pytest.approx(radius, abs=0.01)


def test_an_arc_drawn_by_an_editor_as_a_cubic_holds_its_radius() -> None:
    """The usual cubic for a quarter circle is up to 0.027 % too large (worked in the trade notes)."""
    k = 6 * (1 - 0.5522847498)
    arc = f'<g id="radius"><path d="M32,562 C32,{568 - k} {32 + k},568 38,568" {HAIR}/></g>'
    assert judged(panel(U, MARKS + arc), "inside-radius").measured == pytest.approx(6, rel=3e-4)


def test_no_forged_corner_leaves_nothing_to_measure() -> None:
    every = joints((26, 26), (374, 26), (374, 574), (26, 574))
    assert judged(panel(U, every), "inside-radius").because == "square-corners"


# --- frame-joints ---


def test_a_corner_where_members_meet_needs_its_mark() -> None:
    result = judged(panel(U, joints((26, 26))), "frame-joints")
    assert (result.kind, result.measured) == (Kind.FAIL, 1)
    assert "upper right corner" in result.message


def test_a_mark_away_from_every_meeting_is_named_with_its_distance() -> None:
    result = judged(panel(U, joints((26, 26), (374, 26), (26, 300))), "frame-joints")
    assert result.kind is Kind.FAIL
    assert "274 mm from the nearest meeting" in result.message


@pytest.mark.parametrize(
    ("name", "kind"),
    [
        ("halved", "halved"),
        ("half-lap 2", "halved"),
        ("pierced", "pierced"),
        ("mortice & tenon", "mortise and tenon"),
        ("joint 4", "mortise and tenon"),
        ("joints", "mortise and tenon"),
        ("tenon", "mortise and tenon"),
        ("bridle", "bridle"),
    ],
)
def test_a_marks_name_says_which_joint_it_is(name: str, kind: str) -> None:
    marks = f'<g id="joints"><circle inkscape:label="{name.replace("&", "&amp;")}" cx="26" cy="26" r="3"/></g>'
    frame = panel(U, marks).frame
    assert frame is not None
    assert [joint.kind for joint in frame.joints] == [kind]


def test_a_text_beside_a_mark_names_its_joint() -> None:
    words = '<text x="40" y="60" font-size="6">halved</text>'
    frame = panel(U, joints((26, 26)).replace("</g>", f"{words}</g>")).frame
    assert frame is not None
    assert [joint.kind for joint in frame.joints] == ["halved"]


def test_other_joints_do_not_count_as_mortise_and_tenon() -> None:
    marks = joints((26, 26), (374, 26)).replace("<circle", '<circle inkscape:label="halved"')
    result = judged(panel(U, marks), "frame-joints")
    assert (result.kind, result.measured) == (Kind.FAIL, 0)
    assert "halved" in result.message


def test_a_picket_tenoned_into_the_frame_is_a_joint_too() -> None:
    picket = f'<path id="picket" d="M200,32 V568" {BAR}/>'
    result = judged(panel(U, joints((26, 26), (374, 26), (200, 32), (200, 568)) + picket), "frame-joints")
    assert (result.kind, result.measured) == (Kind.PASS, 4)
