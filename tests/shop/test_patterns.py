"""Full-size patterns: the curves on them, the marks, and how they lie on sheets."""

from __future__ import annotations

import math
import re
from dataclasses import replace

import numpy as np
import pytest
from numpy.typing import NDArray

from lint.errors import Refused
from lint.geometry.curve import curve
from lint.panel.panel import Panel
from lint.sheet import load_default
from lint.sheet.sheet import Sheet
from lint.shop.faces import former_strokes, lobes_of
from lint.shop.lettering import Ground
from lint.shop.pattern import Pattern, Pen, Stroke, Words, box_of, dense
from lint.shop.pattern_page import as_page
from lint.shop.patterns import patterns_of
from lint.shop.scroll_pattern import curl_starts
from lint.shop.tiling import FOOT, HEAD, OVERLAP, PAPERS, SIDE, paper_for, sheet_name, tiled
from tests.shop.panels import c_points, panel_of, placed, s_points, scroll, two_c_panel

Floats = NDArray[np.float64]


def inches() -> Sheet:
    return replace(load_default(), units="in")


def one_scroll(points: Floats, kind: str = "C") -> Panel:
    return panel_of(None, (scroll("one", points, ("ribbon", "snub"), kind=kind),))


def by_pen(pattern: Pattern, pen: Pen) -> list[Stroke]:
    return [stroke for stroke in pattern.strokes if stroke.pen is pen]


def length(points: Floats) -> float:
    return float(np.hypot(*np.diff(points, axis=0).T).sum())


def log_spiral(a: float = 12, b: float = 0.15, turns: float = 1.5) -> Floats:
    """r = a e^(b th), 0 to 3 pi: 251.68108211 mm long (closed form; trade facts, section 6)."""
    th = np.linspace(0, 2 * np.pi * turns, 6001)
    points: Floats = a * np.exp(b * th)[:, None] * np.column_stack([np.cos(th), np.sin(th)])
    return points


# ---------------------------------------------------------------- the curve


def test_the_formers_face_is_the_parallel_curve_on_the_inside() -> None:
    # a parallel curve at distance d on the inside of a curve that turns by th is shorter by d th, exactly
    # (Steiner's formula for curves). The spiral turns by 3 pi; the bar is 6 mm wide.
    made = scroll("log", log_spiral(), (None, None))
    face = former_strokes(made.bar, 6.0)
    assert len(face) == 1
    assert length(face[0].points) == pytest.approx(251.68108211 - 3.0 * 3 * math.pi, abs=0.02)


def test_the_formers_face_of_an_s_changes_sides_where_the_bend_does() -> None:
    made = scroll("s", s_points(7), (None, None), kind="S")
    faces = former_strokes(made.bar, 6.0)
    assert len(faces) == 2
    # each half of 350 mm turns 1.25 times
    for face in faces:
        assert length(face.points) == pytest.approx(350 - 3 * 2.5 * math.pi, abs=0.1)
    assert lobes_of(made.bar.line)[0][1] == pytest.approx(350, abs=1.0)


def test_the_inside_face_is_nearer_the_curls_centre() -> None:
    # a circle of 100: the inside face has 97 whichever way it is drawn
    angles = np.linspace(0, 1.5 * np.pi, 3000)
    for way in (1, -1):
        points = 100 * np.column_stack([np.cos(angles), way * np.sin(angles)])
        face = former_strokes(scroll("c", points, (None, None)).bar, 6.0)[0].points
        assert np.hypot(*face.T) == pytest.approx(97.0, abs=0.01)


def test_a_curl_begins_where_it_still_turns_three_quarters() -> None:
    # log spiral: heading turns as the angle; 270 degrees from the inner end is th = 3 pi / 2
    line = curve(log_spiral())
    at = float(np.sqrt(1 + 0.15**2) / 0.15 * 12 * (np.exp(0.15 * 1.5 * np.pi) - 1))
    starts = curl_starts(line, 270.0)
    assert starts[0] == pytest.approx(at, abs=1.0)


def test_a_turned_panel_gives_the_same_bend_points() -> None:
    points = s_points(7)
    spin = np.array([[math.cos(1), -math.sin(1)], [math.sin(1), math.cos(1)]])
    assert curl_starts(curve(points @ spin), 270.0) == pytest.approx(curl_starts(curve(points), 270.0), abs=0.5)


# ---------------------------------------------------------------- marks and words


def test_marks_stand_every_50_mm_or_2_in_along_the_bar() -> None:
    for sheet, step in ((load_default(), 50.0), (inches(), 50.8)):
        pattern = patterns_of(one_scroll(c_points(9)), sheet)[0]
        marks = by_pen(pattern, Pen.MARK)
        assert len(marks) == math.floor(900 / step + 1e-9)
        line = one_scroll(c_points(9)).scrolls[0].bar.line
        for n, mark in enumerate(marks, start=1):
            s, off = line.nearest(mark.points.mean(axis=0))
            assert (s, off) == pytest.approx((n * step, 0.0), abs=0.01)


def test_the_words_name_ends_bend_points_and_fasteners() -> None:
    patterns = patterns_of(two_c_panel(), load_default())
    said = " | ".join(words.words for words in patterns[0].words)
    for expected in ("start: ribbon", "end: snub", "curl begins", "collar", "rivet"):
        assert expected in said
    assert patterns[-1].name == "The whole panel"


def test_a_collar_stands_where_it_holds_the_scroll() -> None:
    pattern = patterns_of(two_c_panel(), load_default())[0]
    middle = np.mean([stroke.points.mean(axis=0) for stroke in by_pen(pattern, Pen.FASTENER)], axis=0)
    line = two_c_panel().scrolls[0].bar.line
    assert line.nearest(middle)[0] == pytest.approx(450, abs=1.0)  # the back of a C of 900 mm


def test_an_s_of_one_hand_notes_the_mirror_hand_of_its_partner() -> None:
    points = s_points(7)
    one = scroll("one", placed(points, 0, 0), ("ribbon", "snub"), kind="S")
    other = scroll("other", placed(points, 300, 0, mirror=True), ("ribbon", "snub"), kind="S")
    pattern = patterns_of(panel_of(None, (one, other)), load_default())[0]
    assert "Mirror hand: turn it over" in pattern.facts[1]
    assert any("Turned over: other" in line for line in pattern.listing)


def test_no_words_lie_on_metal_or_on_one_another() -> None:
    for pattern in patterns_of(two_c_panel(), load_default()):
        boxes = [box_of(words) for words in pattern.words]
        for n, a in enumerate(boxes):
            for b in boxes[n + 1 :]:
                assert a[0] >= b[2] or b[0] >= a[2] or a[1] >= b[3] or b[1] >= a[3]
        metal = np.concatenate([dense(s.points, s.closed, 1.0) for s in by_pen(pattern, Pen.FACE)])
        for left, top, right, bottom in boxes:
            on = (metal > [left, top]).all(axis=1) & (metal < [right, bottom]).all(axis=1)
            assert not on.any()


def test_words_that_find_no_room_are_left_out() -> None:
    grid = np.stack(np.meshgrid(np.arange(-60, 60, 3.0), np.arange(-60, 60, 3.0)), axis=-1).reshape(-1, 2)
    ground = Ground([(grid, 2.0)])
    assert ground.set_down((0.0, 0.0), (1.0, 0.0), "no room", 3.5) is None


def test_a_word_far_from_its_place_gets_a_leader() -> None:
    wall = np.column_stack([np.full(200, 0.0), np.linspace(-50, 50, 200)])
    block = np.concatenate([wall + np.array([x, 0.0]) for x in np.arange(-14.0, 14.0, 2.0)])
    found = Ground([(block, 1.5)]).set_down((0.0, 0.0), (1.0, 0.0), "far", 2.5, half=0.0)
    assert found is not None
    assert found[1] is not None


# ---------------------------------------------------------------- sheets


def test_the_papers_are_the_standard_ones() -> None:
    # ISO 216; ASME Y14.1 A and B sizes, 8.5 x 11 and 11 x 17 in
    assert PAPERS["a4"] == (210, 297)
    assert PAPERS["a3"] == (297, 420)
    assert PAPERS["letter"] == pytest.approx((215.9, 279.4))
    assert PAPERS["tabloid"] == pytest.approx((279.4, 431.8))


@pytest.mark.parametrize("paper", ["a4", "a3", "letter", "tabloid", "sheet"])
def test_sheets_cover_every_line_and_neighbours_overlap(paper: str) -> None:
    for pattern in patterns_of(two_c_panel(), load_default(), paper=paper):
        leaf = paper_for(pattern, paper)
        tiles = tiled(pattern, leaf)
        ink = np.concatenate([dense(stroke.points, stroke.closed) for stroke in pattern.strokes])
        covered = np.zeros(len(ink), dtype=bool)
        for tile in tiles.printed:
            left, top, right, bottom = tile.shows
            assert (right - left, bottom - top) == pytest.approx((leaf.wide - 2 * SIDE, leaf.tall - HEAD - FOOT))
            covered |= (ink >= [left, top]).all(axis=1) & (ink <= [right, bottom]).all(axis=1)
        assert covered.all()
        if paper == "sheet":
            assert len(tiles.tiles) == 1
        for a in tiles.tiles:
            for b in tiles.tiles:
                if (a.row, a.column + 1) == (b.row, b.column):
                    assert a.shows[2] - b.shows[0] == pytest.approx(OVERLAP)


def test_sheets_are_named_by_row_letter_and_column_number() -> None:
    assert [sheet_name(*at) for at in ((0, 0), (1, 2), (25, 0), (26, 11))] == ["A1", "B3", "Z1", "AA12"]


def test_a_blank_sheet_is_not_printed() -> None:
    ring = 700 * np.column_stack([np.cos(t := np.linspace(0, 2 * np.pi, 2000)), np.sin(t)])
    pattern = Pattern(name="ring", facts=(), listing=(), strokes=(Stroke(pen=Pen.FACE, points=ring),), words=())
    tiles = tiled(pattern, paper_for(pattern, "a4"))
    assert 0 < len(tiles.printed) < len(tiles.tiles)


def test_a_scroll_is_turned_only_where_that_saves_paper() -> None:
    # a 400 mm line standing at 45 degrees needs 2 x 2 sheets of A4, upright 2
    slant = np.array([[0.0, 0.0], [200.0, 200.0]]) + np.linspace(0, 1, 2)[:, None] * 83
    from lint.shop.turned import best_turn

    assert best_turn(curve(slant), "a4") != 0.0
    assert best_turn(curve(slant), "sheet") == 0.0
    assert best_turn(curve(np.array([[0.0, 0.0], [0.0, 150.0]])), "a4") == 0.0


def test_too_many_sheets_are_refused_with_the_mend() -> None:
    long = np.array([[0.0, 0.0], [20_000.0, 0.0], [20_000.0, 20_000.0]])
    pattern = Pattern(name="vast", facts=(), listing=(), strokes=(Stroke(pen=Pen.FACE, points=long),), words=())
    with pytest.raises(Refused, match="larger --paper"):
        tiled(pattern, paper_for(pattern, "a4"))


# ---------------------------------------------------------------- the page


def page(panel: Panel, paper: str = "a4", **more: object) -> str:
    sheet = load_default()
    return as_page(
        patterns_of(panel, sheet, paper=paper), paper=paper, title=panel.title, path="x.svg", units=sheet.units
    )


def test_every_sheet_has_both_check_lengths_and_the_warning() -> None:
    html = page(two_c_panel())
    sheets = html.split('<svg class="sheet"')[1:]
    assert sheets
    for sheet in sheets:
        assert ">100 mm</text>" in sheet
        assert ">4 in</text>" in sheet
        assert "fit to page" in sheet.replace("&quot;", '"').replace("to\npage", "to page")
        lengths = [float(b) - float(a) for a, b in re.findall(r'class="length" d="M([\d.]+),[\d.]+H([\d.]+)"', sheet)]
        assert lengths == pytest.approx([100.0, 101.6])


def test_register_crosses_of_neighbours_fall_on_one_another() -> None:
    pattern = patterns_of(two_c_panel(), load_default(), paper="a4")[-1]
    leaf = paper_for(pattern, "a4")
    tiles = tiled(pattern, leaf)
    html = as_page([pattern], paper="a4", title="t", path="x", units="mm")
    on_panel = []
    for tile, sheet in zip(tiles.printed, html.split('<svg class="sheet"')[1:], strict=True):
        crosses = re.search(r'<g class="register".*?</g>', sheet)
        assert crosses is not None
        at = np.array(re.findall(r'cx="([\d.]+)" cy="([\d.]+)"', crosses[0]), dtype=float)
        on_panel.append({(round(x - SIDE + tile.shows[0], 2), round(y - HEAD + tile.shows[1], 2)) for x, y in at})
    for a, one in zip(tiles.printed, on_panel, strict=True):
        for b, other in zip(tiles.printed, on_panel, strict=True):
            if abs(a.row - b.row) + abs(a.column - b.column) == 1:
                assert len(one & other) == 2


def test_the_page_is_self_contained_and_the_same_every_time() -> None:
    html = page(two_c_panel())
    assert html == page(two_c_panel())
    assert "<script" not in html
    assert not re.search(r'(src|href)="(?!#)', html)
    assert "url(" not in html


def test_hostile_names_are_escaped_on_the_page() -> None:
    panel = two_c_panel()
    evil = "</text><script>alert(1)</script>\u202e"
    first = panel.scrolls[0]
    ends = (replace(first.ends[0], name=None, written=evil), first.ends[1])
    named = replace(first, ends=ends, bar=replace(first.bar, origin=replace(first.bar.origin, name=evil)))
    html = page(replace(panel, scrolls=(named, *panel.scrolls[1:]), title=evil))
    assert "<script" not in html
    assert "\u202e" not in html


def test_a_failing_drawing_is_named_on_the_cover() -> None:
    sheet = load_default()
    patterns = patterns_of(two_c_panel(), sheet)
    html = as_page(patterns, paper="a3", title="t", path="x", units="mm", failing=("pass-through",))
    assert "Not approved: the drawing fails pass-through." in html
    for word in ("galvanised", "eye protection", "local code", "trial piece"):
        assert word in html


def test_a_drawing_without_scale_or_metal_is_refused() -> None:
    with pytest.raises(Refused, match="no scale"):
        patterns_of(panel_of(None, (), known=False), load_default())
    with pytest.raises(Refused, match="nothing to make a pattern of"):
        patterns_of(panel_of(None, ()), load_default())


def test_words_are_never_smaller_than_can_be_read() -> None:
    # ISO 3098 heights: 2.5 mm is the smallest that is readable on a printed sheet (common practice, no source)
    for pattern in patterns_of(two_c_panel(), load_default()):
        assert all(isinstance(words, Words) and words.high >= 2.5 for words in pattern.words)
