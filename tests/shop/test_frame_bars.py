"""The frame's members on the stock list: corners, tenons, and where the bar is marked."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from lint.panel.parts import Meeting
from lint.sheet import load_default
from lint.shop.corners import fillet
from lint.shop.frame_bars import member_line, tenon_stock
from lint.shop.members import Member
from lint.shop.stock import stock_list
from tests.shop.panels import (
    TALL,
    WIDE,
    T,
    bar,
    mitred_frame,
    panel_of,
    ring_frame,
    u_frame,
)
from tests.shop.plain import by_name, plain_sheet


@pytest.mark.parametrize(
    ("radius", "taken_off"), [(0.0, 1.0), (0.25, 0.9866), (0.5, 0.9463), (1.0, 0.7854), (1.5, 0.5171)]
)
def test_a_corner_takes_what_the_volume_rule_says(radius: float, taken_off: float) -> None:
    # deduction from A + B in thicknesses, by inside radius in thicknesses (trade facts, section 3, computed there)
    t = 12.0
    assert 1 - fillet(radius * t, t) / t == pytest.approx(taken_off, abs=0.00006)  # A + B - t and the fillet


def test_the_published_bar_with_two_bends_is_marked_as_published() -> None:
    # FAO Agricultural Services Bulletin 88/2 (Stokes, 1992), figs 57-60: flat 25 x 12, two bends, outside 120: a
    # quarter of the thickness is added to an outside dimension for each bend on it, so the marks stand 126 apart. In
    # the sheet's terms that is 1 1/2 bar widths for a corner beyond the mean line.
    flat = bar("flat", np.array([[0.0, 0.0], [224.0, 0.0]]), 12.0)
    member = Member(bar=flat, name="flat", line=flat.line, body=224.0, corners=(), seats=(), runs=(49.0, 120.0, 49.0))
    sheet = plain_sheet()
    sheet = replace(sheet, allowances=replace(sheet.allowances, forged_corner=1.5))
    first, second = member_line(member, sheet).marks
    assert second - first == pytest.approx(126.0)


def test_a_u_is_as_long_as_its_three_sides_less_two_widths() -> None:
    # by volume, inside corners sharp: A + B - t for each corner
    u = by_name(stock_list(panel_of(u_frame(), ()), plain_sheet()))["u"]
    assert u == pytest.approx(2 * TALL + WIDE - 2 * T, abs=0.01)


def test_a_marked_inside_radius_adds_its_fillet() -> None:
    sharp = by_name(stock_list(panel_of(u_frame(), ()), plain_sheet()))["u"]
    round_inside = by_name(stock_list(panel_of(u_frame(6.0), ()), plain_sheet()))["u"]
    # two corners, (1 - pi/4) r^2 / t each
    assert round_inside - sharp == pytest.approx(2 * (1 - math.pi / 4) * 36 / 12, abs=1e-6)
    assert fillet(6.0, 12.0) == pytest.approx(0.6438, abs=0.0001)


def test_a_frame_in_one_piece_is_cut_as_the_same_frame_in_two() -> None:
    apart = sorted(by_name(stock_list(panel_of(u_frame(), ()), load_default())).values())
    ring = sorted(by_name(stock_list(panel_of(ring_frame(), ()), load_default())).values())
    assert ring == pytest.approx(apart, abs=0.05)


@pytest.mark.parametrize(
    ("made", "pieces"),
    [
        (("forged", "forged", "joined", "joined"), 2),
        (("joined", "joined", "joined", "joined"), 4),
        (("joined", "forged", "joined", "forged"), 2),
        (("forged", "forged", "forged", "joined"), 1),
        (("forged", "forged", "forged", "forged"), 1),
    ],
)
def test_all_pieces_of_a_ring_have_the_rings_metal(made: tuple[str, str, str, str], pieces: int) -> None:
    lines = stock_list(panel_of(ring_frame(made), ()), plain_sheet()).bars
    assert len(lines) == pieces
    # the ring's area over its width, whatever the way it is cut
    area = WIDE * TALL - (WIDE - 2 * T) * (TALL - 2 * T)
    assert sum(line.developed for line in lines) == pytest.approx(area / T)


def test_each_joint_has_one_tenon() -> None:
    four = stock_list(panel_of(ring_frame(("joined",) * 4), ()), load_default()).bars
    tenons = [[a.what for a in line.allowances if a.what.startswith("tenon")] for line in four]
    assert sum(len(some) for some in tenons) == 4
    assert [len(some) for some in tenons] == [2, 0, 2, 0]  # the level bars carry them


def test_a_tenon_takes_its_share_of_the_section() -> None:
    # L x (tenon area / bar area): 12 mm bar, tenon half as thick, through a 12 mm bar, head 1 1/2 tenon thicknesses:
    # (12 + 1.5 x 6) x 1/2 = 10.5; through a 20 mm bar (20 + 9) x 1/2 = 14.5 (trade facts, section 3)
    assert tenon_stock(12, 12, 0.875) == pytest.approx((12 + 1.5 * 6) / 2)
    assert tenon_stock(20, 12, 0.875) == pytest.approx((20 + 1.5 * 6) / 2)


def test_the_foot_of_a_u_carries_both_tenons() -> None:
    lines = {line.name: line for line in stock_list(panel_of(u_frame(), ()), load_default()).bars}
    assert [a.what for a in lines["foot"].allowances[:2]] == ["tenon into u"] * 2
    assert not any("tenon" in a.what for a in lines["u"].allowances)


def test_corner_marks_leave_the_outside_sizes() -> None:
    # no allowances: the marks stand on the mean line's corners, half a bar in from the outside
    lines = {line.name: line for line in stock_list(panel_of(u_frame(), ()), plain_sheet()).bars}
    assert lines["u"].marks == pytest.approx((TALL - T / 2, TALL - T / 2 + WIDE - T), abs=0.01)
    assert lines["foot"].marks == ()


def test_a_joint_without_a_mark_is_said_and_takes_nothing() -> None:
    frame = u_frame()
    bare = replace(frame, joints=(), corners=tuple(replace(corner, joint=None) for corner in frame.corners))
    lines = {line.name: line for line in stock_list(panel_of(bare, ()), load_default()).bars}
    assert not any("tenon" in a.what for a in lines["foot"].allowances)
    assert any("has no mark" in note for note in lines["foot"].notes)


def test_a_member_that_meets_itself_across_a_gap_keeps_its_length() -> None:
    frame = u_frame()
    alone = replace(
        frame,
        members=frame.members[:1],
        meetings=(Meeting(members=("u", "u"), at=(WIDE / 2, TALL), gap=300.0),),
        corners=(),
        joints=(),
        closed=False,
    )
    assert by_name(stock_list(panel_of(alone, ()), plain_sheet()))["u"] == pytest.approx(
        2 * TALL + WIDE - 2 * T, abs=0.01
    )


def test_a_mitred_frame_loses_no_metal_and_tenons_the_level_bars() -> None:
    """Four bars drawn corner to corner, their ends cut at 45 degrees: each joint has one tenon."""
    frame = mitred_frame()
    lines = stock_list(panel_of(frame, ()), plain_sheet()).bars
    assert sum(line.developed for line in lines) == pytest.approx(2 * (WIDE + TALL) - 4 * T, abs=0.05)
    tenons = [sum(a.what.startswith("tenon") for a in line.allowances) for line in lines]
    assert tenons == [2, 0, 2, 0]
