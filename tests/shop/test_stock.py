"""The stock list of panels whose metal is known."""

from __future__ import annotations

import csv
import io
import json
import math
from dataclasses import replace
from importlib.resources import files

import jsonschema
import numpy as np
import pytest

from lint.errors import Refused
from lint.panel.parts import Bar, DrawnAs, Meeting
from lint.sheet import load_default
from lint.sheet.sheet import Sheet
from lint.shop.as_csv import as_csv
from lint.shop.as_json import as_json
from lint.shop.corners import fillet
from lint.shop.entries import StockList
from lint.shop.frame_bars import member_line, tenon_stock
from lint.shop.members import Member
from lint.shop.stock import stock_list
from lint.shop.stock_page import as_page
from lint.shop.table import as_text
from tests.shop.panels import (
    TALL,
    WIDE,
    T,
    bar,
    fastener,
    mitred_frame,
    origin,
    panel_of,
    ring_frame,
    scroll,
    two_c_panel,
    u_frame,
)


def plain_sheet() -> Sheet:
    """The default sheet with no allowance but for ends, so that a test reckons one thing."""
    sheet = load_default()
    none = replace(sheet.allowances, forged_corner=0.0, tenon=0.0, trim=0.0, scaling=0.0)
    return replace(sheet, allowances=none)


def by_name(stock: StockList) -> dict[str, float]:
    return {line.name: line.net for line in stock.bars}


# ---------------------------------------------------------------- corners


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


# ---------------------------------------------------------------- scrolls and bars


def arc(radius: float, degrees: float) -> np.ndarray[tuple[int, int], np.dtype[np.float64]]:
    angles = np.radians(np.linspace(0, degrees, 2000))
    return radius * np.column_stack([np.cos(angles), np.sin(angles)])


def test_a_scroll_is_as_long_as_its_centreline() -> None:
    made = stock_list(panel_of(None, (scroll("arc", arc(100, 300), (None, None)),)), plain_sheet())
    assert by_name(made)["arc"] == pytest.approx(math.radians(300) * 100, rel=1e-5)


def test_an_end_takes_its_bar_widths_and_says_its_source() -> None:
    made = stock_list(panel_of(None, (scroll("arc", arc(100, 300), ("ball", "ribbon")),)), plain_sheet())
    ball = next(a for a in made.bars[0].allowances if a.what == "end: ball")
    # the sheet: ball of 2 t on square bar, pi (2t)^3 / (6 t^2) = 4.19 t, given as 4.2; t = 6
    assert ball.mm == pytest.approx(math.pi * 8 / 6 * 6, abs=0.1)
    assert "ball of 2 t" in ball.source


def test_an_end_that_nobody_names_is_said() -> None:
    made = stock_list(panel_of(None, (scroll("arc", arc(100, 300), (None, "snub")),)), load_default())
    assert any("not named" in note for note in made.bars[0].notes)


def test_the_cut_is_never_under_the_net_length() -> None:
    for units, step in (("mm", 1.0), ("in", 25.4 / 16)):
        for line in stock_list(two_c_panel(), replace(load_default(), units=units)).bars:
            assert 0 <= line.cut - line.net < step + 1e-6


def test_round_stroke_ends_are_metal() -> None:
    straight = bar("straight", np.array([[0.0, 0.0], [500.0, 0.0]]), 10.0, 10.0)
    from lint.geometry.band import band

    for cap, more in (("butt", 0.0), ("square", 10.0), ("round", math.pi * 10 / 4)):
        capped = replace(straight, metal=band(straight.line, 10.0, cap=cap))
        line = stock_list(panel_of(None, (), bars=(capped,)), plain_sheet()).bars[0]
        assert line.developed == pytest.approx(500 + more, abs=0.02)


def test_a_section_that_the_drawing_does_not_give_is_the_sheets() -> None:
    def section(width: float, depth: float | None) -> tuple[float, float | None]:
        one = replace(bar("one", np.array([[0.0, 0.0], [500.0, 0.0]]), width), depth=depth)
        found = stock_list(panel_of(None, (), bars=(one,)), load_default()).bars[0].section
        assert found is not None
        return found.width, found.depth

    assert section(12.0, None) == (12.0, 12.0)
    assert section(10.0, None) == (10.0, 10.0)  # the sheet's bar is square
    assert section(10.0, 20.0) == (10.0, 20.0)


def test_a_bar_of_no_known_width_has_a_length_and_no_mass() -> None:
    hair = Bar(
        id="hair", origin=origin("hair"), line=bar("x", np.array([[0.0, 0], [100, 0]]), 5.0).line, width=None,
        depth=None, metal=None, drawn_as=DrawnAs.HAIRLINE,
    )  # fmt: skip
    made = stock_list(panel_of(None, (), bars=(hair,)), plain_sheet())
    assert made.bars[0].developed == pytest.approx(100)
    assert made.bars[0].mass is None
    assert "not known" in as_text(made)


def test_the_mass_is_section_times_cut_times_density() -> None:
    line = stock_list(two_c_panel(), load_default()).bars[0]
    assert line.mass == pytest.approx(0.012 * 0.012 * line.cut / 1000 * 7850)


# ---------------------------------------------------------------- fastenings


def test_a_collar_round_two_scrolls_takes_perimeter_and_two_thicknesses() -> None:
    collar = stock_list(two_c_panel(), load_default()).collars[0]
    # two of 6 x 12 side by side: 2 (12 + 12) = 48, strip 3 mm thick, butt: + 2 t
    assert (collar.perimeter, collar.cut) == (48.0, 54.0)
    assert collar.k == pytest.approx(1 / math.pi)


def test_a_rivet_in_the_plane_grips_the_seen_widths() -> None:
    rivet = stock_list(two_c_panel(), load_default()).rivets[0]
    assert rivet.grip == pytest.approx(6 + 12)
    assert "side by side" in rivet.lies


def test_a_rivet_through_lapped_bars_grips_their_depths() -> None:
    across = bar("across", np.array([[0.0, 50.0], [100.0, 50.0]]), 10.0, 4.0)
    down = bar("down", np.array([[50.0, 0.0], [50.0, 100.0]]), 10.0, 5.0)
    rivet = fastener("rivet", "r", (50.0, 50.0), (4.0, 4.0), ("across", "down"))
    made = stock_list(panel_of(None, (), (rivet,), bars=(across, down)), load_default()).rivets[0]
    assert made.grip == pytest.approx(9.0)
    assert "front to back" in made.lies


def test_a_bar_that_passes_a_collar_twice_counts_twice() -> None:
    hairpin = bar("hairpin", np.array([[0.0, 0.0], [100.0, 0.0], [100.0, 6.5], [0.0, 6.5]]), 6.0, 12.0)
    other = bar("other", np.array([[0.0, -6.5], [100.0, -6.5]]), 6.0, 12.0)
    collar = fastener("collar", "c", (50.0, 0.0), (12.0, 26.0), ("hairpin", "other"))
    made = stock_list(panel_of(None, (), (collar,), bars=(hairpin, other)), load_default()).collars[0]
    assert made.perimeter == pytest.approx(2 * (18 + 12))


def test_a_screw_is_tapped_into_the_infill() -> None:
    panel = two_c_panel()
    screw = fastener("screw", "s", (WIDE - T, TALL / 2 - 100), (6.0, 6.0), ("right scroll", "frame"))
    line = stock_list(replace(panel, fasteners=(screw,)), load_default()).screws[0]
    assert (line.thread, line.tap_drill, line.clearance) == ("M6", "5.0 mm", "6.6 mm")
    assert line.least_length == pytest.approx(12 + 6)  # through the frame, and one diameter of thread


# ---------------------------------------------------------------- formers and papers


def test_two_mirrored_s_scrolls_come_from_one_former_turned_over() -> None:
    from tests.shop.panels import placed, s_points

    points = s_points(7)
    one = scroll("one", placed(points, 0, 0), ("ribbon", "snub"), kind="S")
    other = scroll("other", placed(points, 300, 0, mirror=True), ("ribbon", "snub"), kind="S")
    backwards = scroll("backwards", placed(points[::-1], 600, 0), ("ribbon", "snub"), kind="S")
    jig = stock_list(panel_of(None, (one, other, backwards)), load_default()).jigs
    assert len(jig) == 1
    assert jig[0].as_it_stands == ("one", "backwards")
    assert jig[0].turned_over == ("other",)


def test_a_c_that_is_its_own_mirror_has_no_hand() -> None:
    jig = stock_list(two_c_panel(), load_default()).jigs[0]
    assert jig.either
    assert not jig.turned_over


def test_a_scroll_of_no_family_is_said_to_have_no_former() -> None:
    panel = two_c_panel()
    lost = replace(panel.scrolls[0], family=0)
    stock = stock_list(replace(panel, scrolls=(lost, *panel.scrolls[1:])), load_default())
    assert any("No former and no pattern for right scroll" in note for note in stock.notes)
    assert len(stock.bars) == 4  # it is cut all the same


def test_a_bar_that_could_not_be_read_is_said_and_not_listed() -> None:
    panel = two_c_panel()
    first = panel.scrolls[0]
    fused = replace(first, family=0, bar=replace(first.bar, unread="branching"))
    stock = stock_list(replace(panel, scrolls=(fused, *panel.scrolls[1:])), load_default())
    assert "right scroll" not in by_name(stock)
    assert any("right scroll is not listed" in note and "branching" in note for note in stock.notes)


def test_objects_drawn_twice_are_said_to_be_counted_once() -> None:
    panel = two_c_panel()
    twice = replace(panel, doubles=((origin("right scroll"), origin("right scroll copy")),))
    assert any("counted once: right scroll copy." in note for note in stock_list(twice, load_default()).notes)


def test_a_drawing_without_scale_is_refused_with_the_mend() -> None:
    with pytest.raises(Refused, match=r"no scale.*--scale"):
        stock_list(panel_of(None, (), known=False), load_default(), path="x.svg")


def test_a_sheet_with_an_unknown_head_is_refused() -> None:
    sheet = load_default()
    odd = replace(sheet, stock=replace(sheet.stock, rivet_head="mushroom"))
    with pytest.raises(Refused, match=r'rivet_head: "mushroom" is not known \(expected one of: snap'):
        stock_list(two_c_panel(), odd)


def test_a_failing_drawing_gets_its_list_and_the_list_says_so() -> None:
    stock = stock_list(two_c_panel(), load_default(), failing=("pass-through", "collars"))
    said = "Not approved: the drawing fails pass-through, collars."
    assert said in as_text(stock)
    assert said in as_page(stock)
    assert json.loads(as_json(stock))["failing"] == ["pass-through", "collars"]


def test_the_cautions_stand_on_every_paper() -> None:
    stock = stock_list(two_c_panel(), load_default())
    for paper in (as_text(stock), as_page(stock)):
        for word in ("galvanised", "eye protection", "local code", "real ball", "trial piece"):
            assert word in paper
        assert "safe " not in paper


def test_hostile_names_reach_neither_terminal_nor_page() -> None:
    panel = two_c_panel()
    evil = "\x1b[31m<script>alert(1)</script>\u202eevil"
    first = panel.scrolls[0]
    named = replace(first, bar=replace(first.bar, origin=replace(first.bar.origin, name=evil)))
    stock = stock_list(replace(panel, scrolls=(named, *panel.scrolls[1:]), title=evil), load_default(), path=evil)
    text, page = as_text(stock), as_page(stock)
    assert "\x1b" not in text
    assert "\u202e" not in text + page
    assert "<script" not in page
    assert "&lt;script&gt;" in page


def test_csv_has_a_line_for_each_part_and_no_formula() -> None:
    panel = two_c_panel()
    first = panel.scrolls[0]
    named = replace(first, bar=replace(first.bar, origin=replace(first.bar.origin, name='=HYPERLINK("x")')))
    stock = stock_list(replace(panel, scrolls=(named, *panel.scrolls[1:])), load_default())
    rows = list(csv.DictReader(io.StringIO(as_csv(stock))))
    assert len(rows) == len(stock.bars) + len(stock.collars) + len(stock.rivets) + len(stock.screws)
    assert not any(cell.startswith("=") for row in rows for cell in row.values())
    assert float(rows[0]["cut_mm"]) == stock.bars[0].cut


def test_json_says_the_same_as_the_list_in_millimetres() -> None:
    stock = stock_list(two_c_panel(), replace(load_default(), units="in"))
    told = json.loads(as_json(stock))
    assert [line["cut"] for line in told["bars"]] == pytest.approx([line.cut for line in stock.bars], abs=0.001)
    assert told["unit"] == "mm"


def test_json_holds_to_its_schema() -> None:
    schema = json.loads((files("lint.report") / "schemas" / "stock-1.json").read_text("utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    screw = fastener("screw", "s", (WIDE - T, TALL / 2 - 100), (6.0, 6.0), ("right scroll", "frame"))
    panel = two_c_panel()
    for some in (
        panel,
        replace(panel, fasteners=(*panel.fasteners, screw)),
        panel_of(None, ()),
        panel_of(ring_frame(), ()),
    ):
        jsonschema.validate(json.loads(as_json(stock_list(some, load_default()))), schema)


def test_an_inch_sheet_reads_in_fractions() -> None:
    sheet = load_default()
    text = as_text(stock_list(two_c_panel(), replace(sheet, units="in")))
    assert "lengths in inches" in text
    assert "12 mm x 12 mm" in text  # metric bar keeps its name
    assert "35 7/16" in text  # 900 mm


def test_all_bars_are_in_the_cutting_plan_once() -> None:
    stock = stock_list(two_c_panel(), load_default())
    cut = sorted(piece.name for total in stock.totals for b in total.plan.bars for piece in b.pieces)
    assert cut == sorted([line.name for line in stock.bars] + [line.name for line in stock.collars])
    assert sum(total.mass for total in stock.totals) == pytest.approx(
        sum(line.mass or 0 for line in stock.bars) + sum(line.mass for line in stock.collars)
    )
