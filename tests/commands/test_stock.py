"""The stock command, as a smith calls it."""

from __future__ import annotations

import csv
import io
import json
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from lint.commands import grille_lint

FIXTURES = Path(__file__).parents[2] / "fixtures"
PANEL = FIXTURES / "panel.svg"


def call(*words: str) -> Result:
    return CliRunner().invoke(grille_lint, ["stock", *words])


@pytest.fixture
def panel(tmp_path: Path) -> Path:
    copy = tmp_path / "panel.svg"
    shutil.copy(PANEL, copy)
    return copy


def test_a_sound_drawing_gets_its_list(panel: Path) -> None:
    result = call(str(panel))
    assert result.exit_code == 0
    # fixtures/panel.svg: U of 280 x 242 outside, 12 mm bar, two fillets of 6: 2 x 242 + 268 - 24 + 2 x 0.644 by hand
    # is not the drawing's own figure, so only the parts are asked for here
    for word in ("frame-1", "frame-2", "scroll-1", "collar-1", "8 rivets", "Jigs, one former each: 1", "Cautions"):
        assert word in result.output
    assert "Not approved" not in result.output


def test_a_drawing_that_fails_gets_its_list_and_the_list_says_so() -> None:
    result = call(str(FIXTURES / "frame-joints" / "no-marks.svg"))
    assert result.exit_code == 0
    assert "Not approved: the drawing fails frame-joints" in result.output


def test_lists_are_written_beside_the_printed_one(panel: Path, tmp_path: Path) -> None:
    names = [tmp_path / name for name in ("list.csv", "list.json", "list.html")]
    result = call(str(panel), "--csv", str(names[0]), "--json", str(names[1]), "--page", str(names[2]))
    assert result.exit_code == 0
    assert "Stock list" in result.output
    rows = list(csv.DictReader(io.StringIO(names[0].read_bytes().decode("utf-8"), newline="")))
    told = json.loads(names[1].read_text("utf-8"))
    assert [row["name"] for row in rows if row["what"] in {"frame", "scroll"}] == [bar["name"] for bar in told["bars"]]
    assert names[2].read_text("utf-8").startswith("<!DOCTYPE html>")
    assert panel.read_bytes() == PANEL.read_bytes()


def test_a_list_for_a_pipe_is_printed_alone(panel: Path) -> None:
    result = call(str(panel), "--json", "-")
    assert result.exit_code == 0
    assert json.loads(result.output)["version"] == 1


def test_a_drawing_from_standard_input_is_read() -> None:
    result = CliRunner().invoke(grille_lint, ["stock", "-"], input=PANEL.read_bytes())
    assert result.exit_code == 0
    assert "scroll-1" in result.output


def test_a_drawing_at_one_to_four_has_the_same_list() -> None:
    def cuts(path: Path) -> list[float]:
        return [bar["cut"] for bar in json.loads(call(str(path), "--json", "-").output)["bars"]]

    assert cuts(FIXTURES / "false-alarms" / "at-one-to-four.svg") == cuts(PANEL)


def test_a_scale_that_contradicts_the_dimensions_is_refused(panel: Path) -> None:
    result = call(str(panel), "--scale", "1:2")
    assert result.exit_code == 2
    assert "does not agree" in result.stderr
    assert "dimensions" in result.stderr


@pytest.mark.parametrize(
    ("path", "words"),
    [
        (FIXTURES / "scale" / "no-size-at-all.svg", "scale"),
        (FIXTURES / "there-is-none.svg", "cannot be read"),
        (FIXTURES, "a folder"),
    ],
)
def test_what_cannot_be_listed_ends_with_a_sentence_and_2(path: Path, words: str) -> None:
    result = call(str(path))
    assert result.exit_code == 2
    assert words in result.stderr
    assert result.stderr.strip().endswith(".")
    assert "Traceback" not in result.stderr


def test_every_unreadable_drawing_ends_with_a_sentence_and_2() -> None:
    paths = sorted((FIXTURES / "unreadable").glob("*.svg*"))
    assert paths
    for path in paths:
        result = call(str(path))
        assert result.exit_code == 2, path
        assert path.name in result.stderr
        assert isinstance(result.exception, SystemExit)


def test_the_drawing_itself_is_never_written_over(panel: Path) -> None:
    result = call(str(panel), "--page", str(panel))
    assert result.exit_code == 2
    assert panel.read_bytes() == PANEL.read_bytes()


def test_two_lists_do_not_go_to_one_file(panel: Path, tmp_path: Path) -> None:
    both = str(tmp_path / "one")
    result = call(str(panel), "--csv", both, "--json", both)
    assert result.exit_code == 2
    assert not Path(both).exists()


def test_a_folder_that_is_not_there_is_named(panel: Path, tmp_path: Path) -> None:
    result = call(str(panel), "--csv", str(tmp_path / "nowhere" / "list.csv"))
    assert result.exit_code == 2
    assert "nowhere" in result.stderr


def test_an_inch_sheet_lists_in_inches(tmp_path: Path) -> None:
    (tmp_path / "requirements.toml").write_text('based_on = "two-corner-panel"\nunits = "in"\n', encoding="utf-8")
    drawing = tmp_path / "s.svg"
    shutil.copy(FIXTURES.parent / "examples" / "s-pair-panel.svg", drawing)  # drawn 12 x 14 in, of 1/2 in bar
    result = call(str(drawing))
    assert result.exit_code == 0
    assert "lengths in inches" in result.output
    assert "1/2 x 1/2" in result.output
    assert " lb" in result.output
