"""The patterns as a page to print: sheets, their check lengths, the cover."""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np
import pytest

from lint.errors import Refused
from lint.geometry.curve import curve
from lint.panel.panel import Panel
from lint.sheet import load_default
from lint.shop.pattern import Pattern, Pen, Stroke, Words, dense
from lint.shop.pattern_page import as_page
from lint.shop.patterns import patterns_of
from lint.shop.tiling import FOOT, HEAD, OVERLAP, PAPERS, SIDE, paper_for, sheet_name, tiled
from tests.shop.panels import panel_of, two_c_panel


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
