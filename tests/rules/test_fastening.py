"""Collars, attachment and clearance: what each fixture leaves out of its one announced figure."""

from __future__ import annotations

from dataclasses import replace

import pytest

from lint.result import Gap, Kind, Region, Sign, Spot
from lint.sheet.sheet import Sheet
from tests.panel.metalwork import drawing
from tests.rules.made import SHEET, fixture, judged, signed

UNSIZED = (
    fixture("panel")
    .replace(b'width="340mm" height="300mm"', b"")
    .replace(b"dimensions", b"notes")
    .replace(b"size-", b"note-")
)


@pytest.mark.parametrize("rule", ["collars", "attachment", "clearance", "scroll-match", "balance", "pass-through"])
def test_rules_that_need_a_length_send_the_reader_to_the_scale_first(rule: str) -> None:
    result = judged(rule, UNSIZED)
    assert result.kind is Kind.NOT_APPLICABLE
    assert result.because == "scale"


@pytest.mark.parametrize("rule", ["scroll-count", "fair-curve"])
def test_rules_of_shape_alone_are_judged_without_a_size(rule: str) -> None:
    assert judged(rule, UNSIZED).kind is Kind.PASS


@pytest.mark.parametrize("rule", ["collars", "attachment", "scroll-match", "balance", "fair-curve"])
def test_without_scrolls_the_count_is_the_one_fail(rule: str) -> None:
    bare = drawing("M 150,0 V 300")
    assert judged(rule, bare).because == "scroll-count"
    assert judged("scroll-count", bare).kind is Kind.FAIL


def test_without_any_part_the_layers_are_to_be_mended_first() -> None:
    empty = b'<svg xmlns="http://www.w3.org/2000/svg" width="10mm" height="10mm" viewBox="0 0 10 10"/>'
    assert judged("scroll-count", empty).because == "layers"


def test_a_pass_shows_each_collar_with_what_it_holds() -> None:
    (place,) = signed(judged("collars", fixture("panel")), Sign.STANDS)
    assert place.note == "holds scroll-1 and scroll-2, gap 0 mm"
    assert place.source.id == "collar-1"


def test_a_collar_that_holds_nothing_says_how_far_the_nearest_contact_is() -> None:
    result = judged("collars", fixture("collars/collar-holds-nothing"))
    assert "collar-1 holds nothing; the nearest contact is 78 mm away" in result.message
    assert result.remedy


def test_a_sheet_may_leave_scrolls_uncollared() -> None:
    lax = replace(SHEET, collars=replace(SHEET.collars, each_scroll=False))
    assert judged("collars", fixture("collars/no-collar"), lax).kind is Kind.PASS


def test_the_remedy_fits_the_fault() -> None:
    remedies = {
        name: judged("collars", fixture(f"collars/{name}")).remedy
        for name in ("collar-too-short", "no-collar", "scrolls-a-millimetre-apart")
    }
    assert "long enough" in remedies["collar-too-short"]
    assert "Draw a collar" in remedies["no-collar"]
    assert "together" in remedies["scrolls-a-millimetre-apart"]


def test_an_island_is_named_whole() -> None:
    result = judged("attachment", fixture("attachment/frame-fastening-forgotten"))
    assert "scroll-1 and scroll-2 hang on nothing" in result.message
    assert result.measured == 0


def test_contacts_left_unfastened_are_a_note_and_no_fault() -> None:
    svg = fixture("panel").replace(b'<circle id="rivet-1"', b'<circle id="note-1"')
    result = judged("attachment", svg)
    assert result.kind is Kind.PASS
    assert any("touch unfastened" in place.note for place in signed(result, Sign.FACT))


def test_a_scroll_held_at_one_place_can_turn_and_is_noted() -> None:
    result = judged("attachment", fixture("attachment/one-rivet-for-all"))
    notes = [place.note for place in signed(result, Sign.FACT)]
    assert "scroll-2 is held at one place only" in notes


def test_a_weld_is_refused_by_name_and_allowed_by_the_sheet() -> None:
    svg = fixture("attachment/scroll-welded-on")
    assert "weld-1 is a weld" in judged("attachment", svg).message
    welding = replace(SHEET, attachment=replace(SHEET.attachment, allowed=("rivet", "collar", "screw", "weld")))
    assert judged("attachment", svg, welding).kind is Kind.PASS


def test_a_collar_is_refused_where_the_sheet_allows_none() -> None:
    bare = replace(SHEET, attachment=replace(SHEET.attachment, allowed=("rivet",)))
    assert "collar-1 is a collar" in judged("attachment", fixture("panel"), bare).message


def test_every_fastener_is_a_spot_to_draw() -> None:
    stands = signed(judged("attachment", fixture("panel")), Sign.STANDS)
    assert len(stands) == 8
    assert all(isinstance(place.traces[0], Spot) for place in stands)


def test_a_run_in_shows_what_both_bars_share() -> None:
    (place,) = signed(judged("clearance", fixture("clearance/scrolls-run-in-a-millimetre")), Sign.MEND)
    assert isinstance(place.traces[0], Region)
    assert place.measured == pytest.approx(1.0, abs=0.02)


def test_a_narrow_gap_is_drawn_from_face_to_face() -> None:
    places = signed(judged("clearance", fixture("clearance/gap-neither-touch-nor-clear")), Sign.LOOK)
    assert len(places) == 2
    gap = places[0].traces[0]
    assert isinstance(gap, Gap)
    assert gap.length == pytest.approx(1.5, abs=0.01)


def failing() -> Sheet:
    return replace(SHEET, clearance=replace(SHEET.clearance, fails=True))


def test_a_narrow_gap_fails_where_the_sheet_says_so() -> None:
    assert judged("clearance", fixture("clearance/gap-neither-touch-nor-clear"), failing()).kind is Kind.FAIL


def test_a_rivet_through_two_bars_makes_a_lap_of_a_crossing() -> None:
    crossed = drawing("M 150,0 V 300", "M 0,150 H 300")
    assert judged("clearance", crossed).kind is Kind.FAIL
    riveted = drawing(
        "M 150,0 V 300",
        "M 0,150 H 300",
        layers='<g id="rivets"><circle id="rivet-1" cx="150" cy="150" r="2.5"/></g>',
    )
    result = judged("clearance", riveted)
    assert result.kind is Kind.PASS
    assert "front view" in result.message
    assert any("rivet-1" in place.note for place in signed(result, Sign.FACT))


def test_a_gap_under_a_collar_is_named_once_by_the_collars() -> None:
    svg = fixture("collars/scrolls-a-millimetre-apart")
    assert judged("clearance", svg).kind is Kind.PASS
    assert judged("collars", svg).measured == pytest.approx(1.0, abs=0.01)


def test_a_second_copy_is_named_once_and_judged_once() -> None:
    svg = fixture("clearance/scroll-drawn-twice")
    result = judged("clearance", svg)
    assert result.message.startswith("scroll-3 lies exactly on scroll-1")
    assert judged("scroll-count", svg).measured == 2
