"""The stock list on paper: what is said beside it, and its text, page, CSV and JSON."""

from __future__ import annotations

import csv
import io
import json
from dataclasses import replace
from importlib.resources import files

import jsonschema
import pytest

from lint.errors import Refused
from lint.sheet import load_default
from lint.shop.as_csv import as_csv
from lint.shop.as_json import as_json
from lint.shop.stock import stock_list
from lint.shop.stock_page import as_page
from lint.shop.table import as_text
from tests.shop.panels import (
    TALL,
    WIDE,
    T,
    fastener,
    origin,
    panel_of,
    ring_frame,
    scroll,
    two_c_panel,
)
from tests.shop.plain import by_name


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
