"""What people read."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lint.report.findings import MOST
from lint.report.terminal import report
from lint.report.terse import terse
from lint.result import Kind, Result, Sign, Source
from lint.sheet import load
from lint.shown import plain, shown
from tests.report.hand_made import HOSTILE, WAIVER, failing, panel, place, scroll, unreadable, verdict

REVIEW = Result(
    rule="balance",
    kind=Kind.REVIEW,
    message="The layout repeats within 9 mm only.",
    remedy="Look whether the panel is meant to be unbalanced.",
    measured=9.0,
    required=3.175,
    unit="mm",
    figure="9 mm",
    asked="within 3.18 mm",
)
NOT_JUDGED = Result(
    rule="frame", kind=Kind.NOT_APPLICABLE, message="There is no scale. Mend scale first.", because="scale"
)


def folded(text: str) -> str:
    return " ".join(text.split())


def test_a_fail_says_figure_limit_message_mend_and_place() -> None:
    said = folded(report([verdict(failing())]))
    assert "porch/side-gate.svg: FAIL" in said
    assert "FAIL pass-through 118.4 mm (asked: under 101.6 mm)" in said
    assert "A ball of 101.6 mm passes: the largest circle is 118.4 mm." in said
    assert "Mend: Close the opening, or set a bar in it." in said
    # 213.2 - 10 and 324.8 - 20: places are from the frame's corner, not from the page's
    assert "1. at 203.2, 304.8: largest circle 118.4 mm (line 41, path12, layer scrolls)" in said


def test_the_head_says_title_scale_true_size_sheet_and_limit() -> None:
    said = folded(report([verdict()]))
    assert "Side gate. Scale: 406.4 mm (page). True size of the frame: 406.4 mm wide, 609.6 mm high." in said
    assert "Sheet two-corner-panel; openings are held to a ball of 101.6 mm." in said


def test_what_wants_something_is_named_before_all_else() -> None:
    said = report([verdict(failing(), REVIEW)]).splitlines()
    assert said[1:3] == ["  To mend: pass-through.", "  To look at: balance."]


def test_an_id_keeps_its_small_letter_where_it_begins_a_sentence() -> None:
    source = Source(line=10, id="scroll", layer="scrolls")
    said = terse([verdict(failing(place("scroll-1 has no partner"), place("scroll lies alone", source=source)))])
    assert ": scroll-1 has no partner, at 203.2, 304.8 mm." in said
    assert ": scroll lies alone, at" in said


def test_a_drawing_without_a_scale_says_so() -> None:
    unscaled = replace(panel().scale, known=False, sources=())
    assert "No scale is stated, so no length is judged." in report([verdict(panel=panel(scale=unscaled))])


def test_an_inch_sheet_gives_places_in_inches() -> None:
    inches = replace(load("two-corner-panel"), units="in")
    said = folded(report([verdict(failing(), sheet=inches)]))
    assert "at 8.00, 12.00: largest circle" in said  # 203.2 and 304.8 mm over 25.4
    assert "16 in wide, 24 in high" in said


@pytest.mark.parametrize(
    ("other", "word"),
    [(failing(), "FAIL"), (REVIEW, "review"), (NOT_JUDGED, "not judged"), (failing(waived=WAIVER), "waived")],
)
def test_every_kind_of_result_has_a_word_without_any_colour(other: Result, word: str) -> None:
    said = report([verdict(other)])
    assert re.search(rf"^  {word} +{other.rule}\b", said, re.MULTILINE)
    coloured = report([verdict(other)], colour=True)
    assert re.sub(r"\x1b\[[0-9;]*m", "", coloured) == said


def test_a_waived_fail_shows_its_reason_and_does_not_fail() -> None:
    said = folded(report([verdict(failing(waived=WAIVER))]))
    assert "side-gate.svg: PASS" in said
    assert "Waived by requirements.toml: hung above 3 m, agreed" in said
    assert "118.4 mm" in said


def test_a_pass_shows_its_figure_too() -> None:
    assert "pass        scroll-match    1 mm" in report([verdict()])


def test_it_ends_with_the_caution_and_promises_nothing() -> None:
    said = folded(report([verdict(), verdict(failing())]))
    assert said.rstrip().endswith("with a real ball under a push.")
    assert "local code and licensed practice decide" in said
    assert "2 drawings: 1 pass, 1 fail." in said
    assert not re.search(r"\bsafe\b|meets? (the )?code", said, re.IGNORECASE)


def test_openings_in_the_playground_band_are_named() -> None:
    """CPSC Pub. 325, B.2.5.1: more than 3.5 in and less than 9 in (88.9 and 228.6 mm)."""
    hole = panel().openings[0]
    for diameter, named in ((88.9, False), (88.95, True), (228.5, True), (228.6, False)):
        held = panel(openings=(replace(hole, diameter=diameter),))
        assert ("able to trap a head" in folded(report([verdict(panel=held)]))) is named


def test_an_unreadable_drawing_says_why_and_where() -> None:
    said = report([unreadable()])
    assert said.startswith("broken.svg: UNREADABLE\n  Line 12: The file ends inside <path>.\n")


def test_at_most_two_hundred_findings_are_listed_and_the_rest_counted() -> None:
    many = failing(*[place(f"circle {n} mm") for n in range(MOST + 37)])
    said = report([verdict(many, replace(REVIEW, places=(place(sign=Sign.LOOK),)))])
    assert f"{MOST}. at " in said
    assert f"{MOST + 1}. at " not in said
    assert "and 37 more places." in said  # what fails is listed before what is looked at
    assert "and 1 more place." in said


def test_notes_are_bounded_too() -> None:
    said = report([verdict(panel=panel(notes=tuple(f"Note number {n}." for n in range(500))))])
    assert said.count("Note: Note number") == 20
    assert "Note: 480 more notes are not listed." in said


def test_only_what_must_change_or_be_looked_at_is_a_finding() -> None:
    result = failing(place("one gap"), place("gap two", sign=Sign.STANDS), place("gap three", sign=Sign.FACT))
    said = report([verdict(result)])
    assert "1. at 203.2, 304.8: one gap" in said
    assert "gap two" not in said
    assert "gap three" not in said


def hostile_text(render: str) -> str:
    source = Source(line=41, id=HOSTILE, layer=HOSTILE)
    result = failing(
        place(HOSTILE, source=source), message=f"{HOSTILE}.", remedy=HOSTILE, figure=HOSTILE, asked=HOSTILE
    )
    held = panel(title=HOSTILE, notes=(HOSTILE,), scrolls=(scroll(HOSTILE),))
    one = verdict(
        result, failing(waived=replace(WAIVER, reason=HOSTILE)), path=f"{HOSTILE}.svg", panel=held, active=(HOSTILE,)
    )
    broken = replace(unreadable(HOSTILE), error=HOSTILE)
    return report([one, broken]) if render == "report" else terse([one, broken])


@pytest.mark.parametrize("render", ["report", "terse"])
def test_no_control_character_or_override_of_a_drawing_reaches_the_terminal(render: str) -> None:
    said = hostile_text(render)
    assert {c for c in said if unicodedata.category(c) in ("Cc", "Cf", "Cs", "Zl", "Zp")} == {"\n"}
    assert "\\x1b" in said
    assert "\\u202e" in said


def test_a_name_is_cut_to_eighty_characters() -> None:
    assert shown("a" * 80) == "a" * 80
    assert shown("a" * 81) == "a" * 77 + "..."
    assert len(shown("\u202e" * 10_000)) == 80


@settings(max_examples=50)
@given(st.text(max_size=400))
def test_whatever_a_name_holds_it_is_one_printable_line(name: str) -> None:
    assert len(shown(name)) <= 80
    assert not any(unicodedata.category(c) in ("Cc", "Cs", "Zl", "Zp") for c in shown(name) + plain(name))
    shown(name).encode("utf-8")


def test_words_of_other_languages_stay_as_they_are() -> None:
    for name in ("Schnörkel 2", "volutes à gauche", "渦巻き", "می\u200cخواهم", "קישוט"):
        assert shown(name) == name


def test_terse_is_one_line_for_each_finding_in_the_gnu_form() -> None:
    """GNU Coding Standards, Formatting Error Messages: `sourcefile:lineno: message`."""
    said = terse([verdict(failing(place("largest circle 118.4 mm"), place("largest circle 110 mm")), REVIEW)])
    assert said.splitlines() == [
        "porch/side-gate.svg:1: review balance: The layout repeats within 9 mm only. "
        "Look whether the panel is meant to be unbalanced.",
        "porch/side-gate.svg:41: fail pass-through: Largest circle 118.4 mm, at 203.2, 304.8 mm. "
        "Close the opening, or set a bar in it.",
        "porch/side-gate.svg:41: fail pass-through: Largest circle 110 mm, at 203.2, 304.8 mm. "
        "Close the opening, or set a bar in it.",
    ]


def test_terse_says_nothing_of_what_stands_and_marks_what_is_waived() -> None:
    assert terse([verdict(), verdict(NOT_JUDGED)]) == ""
    (line,) = terse([verdict(failing(waived=WAIVER))]).splitlines()
    assert ": waived pass-through: Largest circle 118.4 mm" in line
    assert line.endswith("Waived: hung above 3 m, agreed")
    assert terse([unreadable()]) == "broken.svg:12: unreadable: The file ends inside <path>.\n"


def test_terse_is_bounded_and_every_line_has_the_form() -> None:
    said = terse([verdict(failing(*[place()] * 5000))])
    lines = said.splitlines()
    assert len(lines) == MOST + 1
    assert all(re.match(r"[^:]+:\d+: (fail|review|waived|unreadable) ", line) for line in lines)
    assert "4800 more places not listed." in lines[-1]


def test_a_place_that_wants_another_mend_than_the_first_says_its_own() -> None:
    one, other = place(), place(remedy="Draw a line from edge to edge.")
    drawn = verdict(replace(failing(), places=(one, other)))
    lines = terse([drawn]).splitlines()
    assert lines[0].endswith("Close the opening, or set a bar in it.")
    assert lines[1].endswith("Draw a line from edge to edge.")
    said = report([drawn])
    assert said.count("Mend: Close the opening") == 1
    assert said.index("2. at") < said.index("Mend: Draw a line from edge to edge.")
