"""Full-size patterns: the curves on them, the marks, and how they lie on sheets."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from numpy.typing import NDArray

from lint.geometry.curve import curve
from lint.panel.panel import Panel
from lint.sheet import load_default
from lint.sheet.sheet import Sheet
from lint.shop.faces import former_strokes, lobes_of
from lint.shop.lettering import Ground
from lint.shop.pattern import Pattern, Pen, Stroke, box_of, dense
from lint.shop.patterns import patterns_of
from lint.shop.scroll_pattern import curl_starts
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
