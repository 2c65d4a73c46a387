"""The rules of ends and sizes, with their figures."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from lint.drawing import read
from lint.panel import build
from lint.panel.panel import Panel
from lint.result import Gap, Kind, Result, Sign
from tests.panel.pages import SHEET, judged

PANEL = (Path(__file__).parents[2] / "fixtures" / "panel.svg").read_text()


def panel(*changes: tuple[str, str]) -> Panel:
    text = PANEL
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    return build(read(text.encode()), SHEET)


def mends(result: Result) -> list[str]:
    return [place.note for place in result.places if place.sign is Sign.MEND]


@pytest.mark.parametrize(
    ("changes", "how"),
    [
        ((), "all different"),
        (((">fishtail<", ">ribbon<"), (">bolt end<", ">halfpenny<")), "by scroll"),
        (((">halfpenny snub<", ">ribbon<"), (">bolt end<", ">fishtail<")), "two by two"),
        (((">halfpenny snub<", ">ribbon<"),), "mixed"),
    ],
)
def test_the_report_says_how_the_ends_lie(changes: tuple[tuple[str, str], ...], how: str) -> None:
    sheet = replace(SHEET, scroll_ends=replace(SHEET.scroll_ends, least=2))
    result = judged(panel(*changes), "scroll-ends", sheet)
    assert result.kind is Kind.PASS
    assert how in result.message


def test_every_end_without_a_name_is_a_place_of_its_own() -> None:
    text = re.sub(r'    <text id="end-[34]".*?</text>\n', "", PANEL)
    result = judged(build(read(text.encode()), SHEET), "scroll-ends")
    assert len(mends(result)) == 2
    assert result.measured == 2


@pytest.mark.parametrize(
    ("figure", "kind"),
    [("280", Kind.PASS), ("281.4", Kind.PASS), ("281.5", Kind.FAIL), ("278.7", Kind.PASS), ("278.5", Kind.FAIL)],
)
def test_a_figure_may_be_off_by_half_a_hundredth(figure: str, kind: Kind) -> None:
    """0.5 % of 281.4 is 1.407 mm, of 278.7 1.39 mm: more than 1/32 in."""
    assert judged(panel((">280<", f">{figure}<")), "dimensions").kind is kind


@pytest.mark.parametrize(("figure", "kind"), [("128.79", Kind.PASS), ("127.21", Kind.PASS), ("128.85", Kind.FAIL)])
def test_a_short_figure_may_be_off_by_a_thirty_second_of_an_inch(figure: str, kind: Kind) -> None:
    assert judged(panel((">128<", f">{figure}<")), "dimensions").kind is kind


def test_a_wrong_figure_gives_both_and_draws_the_length() -> None:
    result = judged(panel((">280<", ">300<")), "dimensions")
    assert result.measured == pytest.approx(280)
    assert result.required == 300
    assert '"300" is stated and 280 mm is drawn of width' in result.message
    bad = [place for place in result.places if place.sign is Sign.MEND]
    assert [trace.length for place in bad for trace in place.traces if isinstance(trace, Gap)] == [pytest.approx(280)]


def test_inches_written_without_a_mark_are_recognised() -> None:
    """280 mm are 11.0236 in."""
    assert "same figure in inches" in judged(panel((">280<", ">11.024<")), "dimensions").message


def test_inches_and_millimetres_side_by_side_are_said() -> None:
    result = judged(panel((">280<", ">11.024 in<")), "dimensions")
    assert result.kind is Kind.PASS
    assert "both used" in result.message


@pytest.mark.parametrize(
    ("line", "text", "said"), [(1, 2, "overall width"), (3, 4, "overall height"), (5, 6, "scrolls like")]
)
def test_a_length_that_has_to_be_stated_and_is_not(line: int, text: int, said: str) -> None:
    left = re.sub(rf'    <(?:line id="size-{line}"[^\n]*/>|text id="size-{text}"[^\n]*</text>)\n', "", PANEL)
    result = judged(build(read(left.encode()), SHEET), "dimensions")
    assert [said in note for note in mends(result)] == [True]


def test_a_pass_shows_its_figures() -> None:
    for rule_id in ("scale", "layers", "scroll-ends", "dimensions"):
        result = judged(panel(), rule_id)
        assert result.kind is Kind.PASS
        assert result.figure
        assert result.asked
        assert result.measured is not None


def test_a_missing_size_says_its_own_mend_beside_a_wrong_one() -> None:
    drawn = (Path(__file__).parents[2] / "examples" / "first-attempt.svg").read_bytes()
    found = judged(build(read(drawn), SHEET), "dimensions")
    assert found.remedy == "Write 290 mm, or draw it 300 mm long."
    wrong, *missing = [place for place in found.places if place.sign is Sign.MEND]
    assert wrong.remedy == ""  # the result's own says it
    assert missing
    assert all(place.remedy.startswith("Draw the width or the height") for place in missing)
