"""The patterns command, as a smith calls it."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from lint.commands import grille_lint

FIXTURES = Path(__file__).parents[2] / "fixtures"
PANEL = FIXTURES / "panel.svg"


def call(*words: str) -> Result:
    return CliRunner().invoke(grille_lint, ["patterns", *words])


@pytest.fixture
def panel(tmp_path: Path) -> Path:
    copy = tmp_path / "panel.svg"
    shutil.copy(PANEL, copy)
    return copy


@pytest.mark.parametrize("paper", ["a4", "a3", "letter", "tabloid", "sheet"])
def test_patterns_are_written_for_each_paper(panel: Path, tmp_path: Path, paper: str) -> None:
    out = tmp_path / f"{paper}.html"
    result = call(str(panel), "--paper", paper, "--out", str(out))
    assert result.exit_code == 0
    assert "100 %" in result.output
    html = out.read_text("utf-8")
    assert "Former 1: C scroll" in html
    assert "The whole panel" in html
    assert panel.read_bytes() == PANEL.read_bytes()


def test_without_a_name_the_page_lies_beside_the_drawing(panel: Path) -> None:
    assert call(str(panel)).exit_code == 0
    assert (panel.parent / "panel.patterns.html").exists()


def test_a_larger_paper_takes_fewer_sheets(panel: Path, tmp_path: Path) -> None:
    counts = {}
    for paper in ("a4", "a3", "sheet"):
        out = tmp_path / f"{paper}.html"
        call(str(panel), "--paper", paper, "--out", str(out))
        counts[paper] = len(re.findall(r'<svg class="sheet"', out.read_text("utf-8")))
    assert counts["a4"] > counts["a3"] >= counts["sheet"] == 2  # one family, one panel


def test_a_drawing_that_fails_gets_patterns_that_say_so(tmp_path: Path) -> None:
    out = tmp_path / "p.html"
    assert call(str(FIXTURES / "frame-joints" / "no-marks.svg"), "--out", str(out)).exit_code == 0
    assert "Not approved: the drawing fails frame-joints" in out.read_text("utf-8")


@pytest.mark.parametrize(
    ("path", "words"),
    [
        (FIXTURES / "scale" / "no-size-at-all.svg", "scale"),
        (FIXTURES / "layers" / "no-object-says-what-it-is.svg", "nothing to make a pattern of"),
        (FIXTURES / "there-is-none.svg", "cannot be read"),
    ],
)
def test_what_cannot_be_drawn_ends_with_a_sentence_and_2(path: Path, words: str, tmp_path: Path) -> None:
    out = tmp_path / "p.html"
    result = call(str(path), "--out", str(out))
    assert result.exit_code == 2
    assert words in result.stderr
    assert not out.exists()


def test_an_unknown_paper_is_refused(panel: Path) -> None:
    assert call(str(panel), "--paper", "a5").exit_code == 2


def test_the_drawing_itself_is_never_written_over(panel: Path) -> None:
    assert call(str(panel), "--out", str(panel)).exit_code == 2
    assert panel.read_bytes() == PANEL.read_bytes()


def test_samples_have_a_pattern_of_their_own(tmp_path: Path) -> None:
    drawing = Path(__file__).parents[2] / "examples" / "mixed-panel.svg"
    out = tmp_path / "p.html"
    assert call(str(drawing), "--out", str(out)).exit_code == 0
    assert "sample-1" in out.read_text("utf-8")


def test_an_inch_sheet_marks_every_two_inches(tmp_path: Path) -> None:
    (tmp_path / "requirements.toml").write_text('based_on = "two-corner-panel"\nunits = "in"\n', encoding="utf-8")
    drawing, out = tmp_path / "s.svg", tmp_path / "p.html"
    shutil.copy(FIXTURES.parent / "examples" / "s-pair-panel.svg", drawing)
    assert call(str(drawing), "--out", str(out), "--paper", "letter").exit_code == 0
    assert "Ticks every 2 in from the start" in out.read_text("utf-8")
