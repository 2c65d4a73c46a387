"""The ball in every opening: the limit, the band below it, pockets, and what is said."""

from __future__ import annotations

from dataclasses import replace
from math import sqrt

import pytest

from lint.geometry.area import area
from lint.lengths import parse
from lint.panel.parts import Opening
from lint.result import Ball, Circle, Kind, Region, Sign
from lint.rules._ball import tried
from lint.sheet.sheet import Sheet
from tests.panel.metalwork import drawing, ring
from tests.rules.made import SHEET, fixture, judged, signed


def slot(gap: float) -> bytes:
    """Two pickets with a clear gap, in a frame 260 mm wide."""
    left = 130 - gap / 2
    return drawing(f"M {left - 3},0 V 400", f"M {left + gap + 3},0 V 400", inside=(260, 400))


@pytest.mark.parametrize(
    ("gap", "kind"),
    [
        (98.0, Kind.PASS),
        (98.5, Kind.REVIEW),
        (101.5, Kind.REVIEW),
        (101.6, Kind.FAIL),  # strict: International Residential Code R312.1.3, "shall not allow passage"
        (101.61, Kind.FAIL),
        (101.7, Kind.FAIL),
    ],
)
def test_the_limit_is_strict_and_an_eighth_of_an_inch_below_it_is_looked_at(gap: float, kind: Kind) -> None:
    result = judged("pass-through", slot(gap))
    assert result.kind is kind
    assert result.measured == pytest.approx(gap, abs=0.005)
    assert result.required == pytest.approx(parse("4 in"))


def lenient(**changes: object) -> Sheet:
    return replace(SHEET, pass_through=replace(SHEET.pass_through, **changes))  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("sphere", "strict", "gap", "kind"),
    [
        (100.0, False, 100.0, Kind.REVIEW),  # Ontario 3.3.1: stop a sphere of MORE than 100 mm
        (100.0, True, 100.0, Kind.FAIL),  # Approved Document K 3.3(a)
        (120.0, False, 120.0, Kind.REVIEW),  # LBO Schleswig-Holstein 1994 s. 43(6): at most 12 cm
        (125.0, True, 124.0, Kind.REVIEW),  # NCC 2022 11.3.4: 125 mm
    ],
)
def test_other_limits_and_other_words_are_the_sheets(sphere: float, strict: bool, gap: float, kind: Kind) -> None:
    """Sphere limits of the trade facts, section 1a; the band below stays 1/8 in."""
    assert judged("pass-through", slot(gap), lenient(sphere=sphere, strict=strict)).kind is kind


def test_a_fail_shows_the_ball_its_area_and_the_largest_circle() -> None:
    (place,) = signed(judged("pass-through", slot(110.0)), Sign.MEND)
    ball, circle, region = place.traces
    assert isinstance(ball, Ball)
    assert ball.diameter == pytest.approx(101.6)
    assert isinstance(circle, Circle)
    assert circle.diameter == pytest.approx(110.0, abs=0.02)
    assert isinstance(region, Region)
    xs = [x for points in region.rings for x, _ in points]
    assert max(xs) - min(xs) == pytest.approx(110 - 101.6, abs=0.05)  # the ball's centre has so much to go either way


def test_two_pockets_of_one_opening_are_two_findings() -> None:
    """A dumb-bell: two rooms 120 and 110 wide, joined by a neck of 60."""
    metal = [
        (0.0, 0.0), (120.0, 0.0), (120.0, 30.0), (200.0, 30.0), (200.0, 5.0), (310.0, 5.0), (310.0, 115.0),
        (200.0, 115.0), (200.0, 90.0), (120.0, 90.0), (120.0, 120.0), (0.0, 120.0),
    ]  # fmt: skip
    import numpy as np

    room = area([np.array(metal)])
    found = tried(Opening(area=room, at=(60.0, 60.0), diameter=120.0), SHEET)
    assert [round(place.measured or 0, 1) for place in found] == [120.0, 110.0]
    assert {place.sign for place in found} == {Sign.MEND}


def test_the_message_names_the_limit_its_source_and_what_this_check_is_not() -> None:
    for gap in (90.0, 101.0, 110.0):
        said = judged("pass-through", slot(gap)).message
        assert "101.6 mm" in said
        assert "R312.1.3" in said
        assert "not a building inspection" in said
        assert "local code" in said
        assert "safe" not in said


@pytest.mark.parametrize(("gap", "named"), [(88.0, False), (90.0, True)])
def test_the_band_of_playground_rules_is_named_where_an_opening_lies_in_it(gap: float, named: bool) -> None:
    """CPSC Pub. 325, B.2.5.1: openings over 3.5 in and under 9 in are suspect."""
    assert ("playground" in judged("pass-through", slot(gap)).message) == named


def test_a_corner_pocket_is_found_where_the_straight_gaps_are_small() -> None:
    """A ring of radius 300 in a corner leaves a circle of 2 r (3 - 2 sqrt 2) = 102.94 mm, and no gap anywhere."""
    r = 300.0
    result = judged("pass-through", drawing(ring(r, r, r), inside=(2 * r, 2 * r)))
    corners = [place for place in result.places if abs((place.measured or 0) - 2 * r * (3 - 2 * sqrt(2))) < 0.05]
    assert len(corners) == 4
    assert {place.sign for place in corners} == {Sign.MEND}


def test_bars_that_cross_are_said_to_hide_the_true_gap() -> None:
    assert "front view" in judged("pass-through", fixture("clearance/bar-crosses-without-a-joint")).message
    assert "front view" not in judged("pass-through", fixture("panel")).message


def test_without_a_size_or_a_closed_frame_nothing_is_judged() -> None:
    unsized = (
        fixture("panel")
        .replace(b'width="340mm" height="300mm"', b"")
        .replace(b"dimensions", b"notes")
        .replace(b"size-", b"note-")
    )
    result = judged("pass-through", unsized)
    assert result.kind is Kind.NOT_APPLICABLE
    assert result.because == "scale"
    no_frame = slot(90.0).replace(b'id="frame"', b'id="note"').replace(b'id="frame-1"', b'id="note-1"')
    assert judged("pass-through", no_frame).because == "frame"


def test_a_bar_whose_width_nobody_states_leaves_the_openings_unjudged() -> None:
    from lint.drawing import read
    from lint.panel import build
    from lint.rules.pass_through import pass_through

    panel = build(read(slot(90.0)), SHEET)
    bare = replace(panel.bars[0], width=None, metal=None)
    result = pass_through(replace(panel, bars=(bare, *panel.bars[1:])), SHEET)
    assert result.kind is Kind.NOT_APPLICABLE
    assert bare.id in result.message


def test_what_stands_out_of_the_frame_is_said_not_to_be_judged() -> None:
    tall = drawing("M 150,-60 V 300", inside=(180, 300))
    result = judged("pass-through", tall)
    assert "not judged" in result.message
    assert any("out of the frame" in place.note for place in signed(result, Sign.FACT))


def test_every_opening_has_its_circle() -> None:
    result = judged("pass-through", fixture("panel"))
    assert len(signed(result, Sign.STANDS)) == 8
    assert all(isinstance(place.traces[0], Circle) for place in signed(result, Sign.STANDS))
