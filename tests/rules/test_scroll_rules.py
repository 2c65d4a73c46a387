"""Scroll count, match, balance and fair curve."""

from __future__ import annotations

from dataclasses import replace

import pytest

from lint.result import Circle, Gap, Kind, Line, Sign, Spot
from tests.geometry.midline_shapes import outline
from tests.panel.metalwork import drawing
from tests.panel.test_bent import logarithmic, scroll_line
from tests.rules.made import SHEET, fixture, judged, signed


def test_a_pass_says_how_far_each_curl_turns() -> None:
    result = judged("scroll-count", fixture("panel"))
    assert result.figure == "2 scrolls (2 C)"
    # Drawn with 1.3 turns to each curl: 468 degrees.
    assert all("turn 468° and 468°" in place.note for place in signed(result, Sign.STANDS))


def test_more_scrolls_may_be_asked() -> None:
    four = replace(SHEET, scroll_count=replace(SHEET.scroll_count, least=4))
    result = judged("scroll-count", fixture("panel"), four)
    assert (result.kind, result.measured, result.required) == (Kind.FAIL, 2, 4)
    assert result.remedy == "Draw 2 more scrolls on the layer scrolls."


def test_a_spare_scroll_that_is_no_c_and_no_s_is_looked_at() -> None:
    spare = b'<path id="scroll-9" d="M 100,100 l 20,0" fill="none" stroke="#000" stroke-width="6"/>'
    svg = fixture("panel").replace(b'<path id="scroll-1"', spare + b'<path id="scroll-1"')
    result = judged("scroll-count", svg)
    assert result.kind is Kind.REVIEW
    assert "scroll-9" in result.message


def test_straight_bars_among_the_scrolls_have_no_inner_radius() -> None:
    bars = "".join(f'<path d="M 20,{y} l 100,0" fill="none" stroke="#000" stroke-width="6"/>' for y in (40, 80))
    result = judged("fair-curve", drawing(layers=f'<g id="scrolls">{bars}</g>', inside=(200, 200)))
    assert (result.kind, result.measured) == (Kind.PASS, None)
    assert "none of them bends" in result.message


def outlined_scrolls(degrees: float) -> bytes:
    """Two scrolls as outlines of a bar of 10 mm, in eyes of 4 mm inside, each curl turning so far by its making."""
    spiral = scroll_line(logarithmic(7, 120), degrees, s=True)
    (ring,) = outline(spiral, 10).outer
    path = "M " + " L ".join(f"{x:.3f},{y:.3f}" for x, y in ring.points) + " Z"
    both = "".join(f'<path id="s{k}" d="{path}" transform="translate({150 + 160 * k} 200)"/>' for k in (0, 1))
    return drawing(layers=f'<g id="scrolls">{both}</g>', inside=(460, 400))


def test_a_curl_whose_turning_is_in_doubt_is_looked_at_and_not_failed() -> None:
    """Of 270 degrees asked, 269 as made: the eye is so tight that the end of an outline is known to some degrees."""
    result = judged("scroll-count", outlined_scrolls(269))
    assert (result.kind, result.measured) == (Kind.REVIEW, 2)
    assert "s0 is outlined, and its curls turn 267° and 267°, give or take 4°; 270° are asked." in result.message
    assert result.remedy == "Let the curls of s0 turn a little farther, or draw it as a line."
    assert len(signed(result, Sign.LOOK)) == 2


def test_outlines_beyond_doubt_pass_or_fail() -> None:
    assert judged("scroll-count", outlined_scrolls(300)).kind is Kind.PASS
    assert judged("scroll-count", outlined_scrolls(255)).kind is Kind.FAIL


def test_the_nearest_scroll_is_laid_over_one_without_a_partner() -> None:
    places = signed(judged("scroll-match", fixture("scroll-match/eye-three-millimetres-off")), Sign.MEND)
    assert [place.source.id for place in places] == ["scroll-1", "scroll-2"]
    line, gap = places[0].traces
    assert isinstance(line, Line)
    assert len(line.points) > 50
    assert isinstance(gap, Gap)
    assert gap.length == pytest.approx(3.0, abs=0.06)
    assert gap.length == pytest.approx(((gap.a[0] - gap.b[0]) ** 2 + (gap.a[1] - gap.b[1]) ** 2) ** 0.5, abs=1e-6)


def test_a_scaled_copy_is_told_from_a_bad_copy() -> None:
    """Drawn at 0.95 of its partner."""
    message = judged("scroll-match", fixture("scroll-match/partner-is-a-scaled-copy")).message
    assert "of another size: 0.950 of scroll-1" in message
    assert "another size" not in judged("scroll-match", fixture("scroll-match/eye-three-millimetres-off")).message


def test_families_are_listed_with_their_own_symmetry() -> None:
    from tests.conftest import EXAMPLES

    result = judged("scroll-match", (EXAMPLES / "mixed-panel.svg").read_bytes())
    notes = [place.note for place in signed(result, Sign.FACT)]
    assert sum(note.startswith("family") for note in notes) == 2
    assert sum(note.startswith("sample") for note in notes) == 2
    assert "2 families, so 2 jigs" in result.message
    assert all("own symmetry" in note for note in notes if note.startswith("family"))


def test_one_scroll_alone_is_the_matter_of_the_count() -> None:
    svg = fixture("panel").replace(b'id="scroll-2"', b'id="note-2"')
    for rule in ("scroll-match", "collars"):
        assert judged(rule, svg).because == "scroll-count"
    assert judged("scroll-count", svg).measured == 1


def test_balance_gives_all_three_distances_where_none_holds() -> None:
    result = judged("balance", fixture("balance/one-scroll-higher-than-the-other"))
    assert result.kind is Kind.REVIEW
    assert result.measured == pytest.approx(4.0, abs=0.05)  # drawn 6 mm up and 2 mm down: a half turn leaves 4
    assert "half turn 4 mm" in result.message
    assert any(isinstance(trace, Line) for trace in signed(result, Sign.LOOK)[0].traces)


def test_balance_fails_where_the_sheet_says_so() -> None:
    strict = replace(SHEET, balance=replace(SHEET.balance, fails=True))
    assert judged("balance", fixture("balance/one-scroll-higher-than-the-other"), strict).kind is Kind.FAIL


def test_a_kink_is_one_finding_with_its_place_along_the_bar() -> None:
    """Drawn 600 mm along the centreline, by 12 degrees."""
    places = signed(judged("fair-curve", fixture("fair-curve/kink-in-the-curl")), Sign.LOOK)
    assert len(places) == 2
    for place in places:
        assert isinstance(place.traces[0], Spot)
        assert place.measured == pytest.approx(12.0, abs=1.0)
        assert "600 mm along it" in place.note or "599.9" in place.note


def test_a_flat_is_as_long_as_it_was_drawn() -> None:
    """Drawn 16 mm long, from 540 mm along the bar."""
    places = signed(judged("fair-curve", fixture("fair-curve/flat-in-the-curl")), Sign.LOOK)
    assert len(places) == 2
    assert places[0].measured == pytest.approx(16.0, abs=1.5)


def test_an_eye_too_tight_for_the_bar_is_circled() -> None:
    """Wound down to a centreline radius of 5 mm: 2 mm inside a 6 mm bar, smoothed over the bar's width."""
    places = signed(judged("fair-curve", fixture("fair-curve/eye-too-tight")), Sign.LOOK)
    assert len(places) == 2
    assert isinstance(places[0].traces[0], Circle)
    assert places[0].measured == pytest.approx(2.0, abs=1.0)


def test_a_bent_curve_fails_where_the_sheet_says_so() -> None:
    strict = replace(SHEET, fair_curve=replace(SHEET.fair_curve, fails=True))
    assert judged("fair-curve", fixture("fair-curve/curl-opens-again"), strict).kind is Kind.FAIL
