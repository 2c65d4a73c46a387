"""Labels and balloons on the drawing: each in its own place, leaders apart, also where there are forty."""

from __future__ import annotations

import itertools
import re
from dataclasses import replace

import numpy as np
import pytest
from lxml import etree

from lint.report.markup import markup
from lint.report.markup.chart import Chart
from lint.report.markup.desk import Block, flow, lowest
from lint.report.markup.lettering import CAPITAL, fit, width, wrap
from lint.report.markup.marks import draw_marks
from lint.report.markup.numbered import collect
from lint.report.markup.pen import Pen
from lint.report.markup.room import Room, crossing
from lint.report.markup.sketch import Sketch
from lint.result import Kind, Place, Result, Sign, Waiver
from tests.report.marked_panels import drawing, panel, results, verdict

Rect = tuple[float, float, float, float]


def _apart(a: Rect, b: Rect) -> bool:
    return a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]


def _laid(many: int, unit: float = 1.0) -> Room:
    made = panel()
    room = Room((0.0, 0.0, 352.0, 300.0), unit)
    draw_marks(Sketch(Pen.of(unit), Chart.of(made), room, "mm"), made, collect(results(many)))
    return room


@pytest.mark.parametrize(("many", "unit"), [(0, 1.0), (0, 1.4), (8, 1.0), (40, 1.0), (40, 1.4), (200, 2.0)])
def test_no_label_covers_another_or_leaves_the_page(many: int, unit: float) -> None:
    room = _laid(many, unit)
    assert len(room.boxes) > 8
    assert all(_apart(a, b) for a, b in itertools.combinations(room.boxes, 2))
    assert all(b[0] >= 0 and b[1] >= 0 and b[2] <= 352 and b[3] <= 300 for b in room.boxes)


@pytest.mark.parametrize(("many", "unit"), [(0, 1.0), (8, 1.4), (40, 1.0), (200, 2.0)])
def test_no_two_leaders_cross(many: int, unit: float) -> None:
    leaders = _laid(many, unit).leaders
    assert len(leaders) > 5
    assert not [1 for (a, b), (c, d) in itertools.combinations(leaders, 2) if crossing(a, b, c, d)]


def test_the_check_for_crossing_leaders_can_fail() -> None:
    assert crossing((0, 0), (10, 10), (0, 10), (10, 0))
    assert not crossing((0, 0), (10, 10), (0, 0), (10, 0))


def test_labels_keep_off_the_metal_where_there_is_room() -> None:
    room = Room((0.0, 0.0, 200.0, 200.0), 1.0)
    room.metal.take_line(np.asarray([[0.0, 100.0], [200.0, 100.0]]), 30.0)
    middle = room.place((100.0, 100.0), (20.0, 5.0))
    assert middle is not None
    assert abs(middle[1] - 100.0) >= 15.0 + 2.5


def test_a_place_in_the_corner_of_the_page_still_gets_its_balloon() -> None:
    room = Room((0.0, 0.0, 60.0, 60.0), 1.0)
    found = [room.place((1.0, 1.0), (6.0, 6.0)) for _ in range(30)]
    assert None not in found


def test_every_number_on_the_drawing_stands_on_the_sheet_and_the_other_way_round() -> None:
    for many in (0, 5, 40, 300):
        marked = etree.fromstring(markup(drawing(), verdict(many)))
        balloons = {n: _numbers(marked, n) for n in ("lint-numbers", "lint-sheet")}
        asked = [f.number for f in collect(results(many)).asking if f.number is not None]
        assert balloons["lint-numbers"] == asked
        assert [n for n in balloons["lint-sheet"] if n in asked][: len(asked)] == asked


def _numbers(marked: etree._Element, layer: str) -> list[int]:
    group = marked.xpath(f"//*[@id='{layer}']")[0]  # type: ignore[index]
    titles = [t.text or "" for t in group.iter("{http://www.w3.org/2000/svg}title")]  # type: ignore[union-attr]
    return [int(t.split(".")[0]) for t in titles if re.match(r"\d+\. ", t)]


def test_of_forty_findings_of_a_rule_a_dozen_get_numbers_and_the_rest_are_counted() -> None:
    marked = markup(drawing(), verdict(40)).decode()
    assert "and 29 more of the same" in marked


def test_no_more_than_four_dozen_numbers_whatever_is_found() -> None:
    places = tuple(Place(x=float(n), y=1.0, note="a", sign=Sign.MEND) for n in range(30))
    many = tuple(Result(rule=f"rule-{n}", kind=Kind.FAIL, message="A.", places=places) for n in range(17))
    found = collect(many)
    assert sum(f.number is not None for f in found.asking) == 17 * 3
    assert found.undrawn == 17 * 30 - len(found.asking)


def test_a_waived_fail_shows_its_reason_and_asks_for_no_change() -> None:
    waiver = Waiver(drawing="*.svg", rule="scroll-match", reason="The left eye is the smith's own & meant so.")
    waived = tuple(replace(r, waived=waiver) if r.rule == "scroll-match" else r for r in results())
    marked = markup(drawing(), replace(verdict(), results=waived)).decode()
    assert "Waived: The left eye is the smith's own &amp; meant so." in marked
    assert "1 waived" in marked
    found = collect(waived)
    assert {f.place.sign for f in found.asking if f.result.rule == "scroll-match"} == {Sign.LOOK}


def test_what_is_not_judged_says_why_and_what_to_mend_first() -> None:
    reason = Result(rule="collars", kind=Kind.NOT_APPLICABLE, message="No size. Mend scale first.", because="scale")
    marked = markup(drawing(), replace(verdict(), results=(reason,))).decode()
    assert ">No size. Mend scale first.<" in marked


def test_a_drawing_without_scale_or_frame_or_any_part_still_gets_its_sheet() -> None:
    judged = verdict(known=False)
    assert judged.panel is not None
    bare = replace(
        judged.panel, frame=None, scrolls=(), fasteners=(), contacts=(), openings=(), dimensions=(), title="", digest=""
    )
    for svg in (drawing(""), drawing(), b'<svg xmlns="http://www.w3.org/2000/svg" width="1e9mm" height="1mm"/>'):
        marked = markup(svg, replace(judged, panel=bare, results=())).decode()
        assert "check print" in marked
        assert "No frame was found." in marked


def test_a_large_panel_makes_no_monstrous_file() -> None:
    """2,048 findings of each kind: the file stays under 400 kB."""
    places = tuple(
        Place(x=40.0 + n % 250, y=40.0 + n % 217, note=f"spot {n}", sign=s)
        for n in range(2048)
        for s in (Sign.MEND, Sign.STANDS, Sign.FACT)
    )
    full = replace(verdict(), results=(Result(rule="collars", kind=Kind.FAIL, message="A.", places=places),))
    assert len(markup(drawing(), full)) < 400_000


def test_words_break_within_their_room_and_none_is_lost() -> None:
    text = "A ball of 101.6 mm passes 1 opening of 4 and " + "W" * 60
    lines = wrap(text, 40.0, 2.5)
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")
    assert max(width(line, 2.5) for line in lines) <= 40.0
    assert width(fit(text, 40.0, 2.5), 2.5) <= 40.0
    assert fit("short", 40.0, 2.5) == "short"


def test_widths_are_those_of_the_fonts_own_tables() -> None:
    """Arial's widths in 1/1000 em (Adobe font metrics of Helvetica, from memory): a 556, W 944, space 278; ours are
    never smaller, and those of digits are DejaVu Sans's 636."""
    for char, em in (("a", 556), ("W", 944), (" ", 278), ("0", 556), ("@", 1015)):
        assert round(width(char, CAPITAL) * 1000) >= em
    assert width("0", CAPITAL) == pytest.approx(0.636, rel=0.03)


def test_blocks_flow_in_order_and_what_belongs_together_stays() -> None:
    def block(height: float, **flags: bool) -> Block:
        return Block(height, "", lambda desk, x, y: "", **flags)

    blocks = [block(10), block(10), block(10, stays=True), block(10), block(5, last=True)]
    made = lowest(blocks, 2)
    spots = [(column, top) for _, column, top in made.places]
    assert spots[1][0] == spots[2][0]
    assert spots[2][1] == spots[1][1] + 10
    assert spots[-1] == (1, made.height - 5)
    assert spots[:-1] == sorted(spots[:-1])
    assert flow(blocks, 1, 44.0) is None
    assert flow(blocks, 1, 45.0) is not None
