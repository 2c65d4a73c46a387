"""The forged piece against the approved drawing, as it is called at the bench."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Callable
from importlib.resources import files
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from jsonschema import Draft202012Validator

from lint.commands import grille_lint

ROOT = Path(__file__).parent.parent.parent
Row = list[str]


@pytest.fixture
def drawing(tmp_path: Path) -> Path:
    path = tmp_path / "side-gate.svg"
    path.write_bytes((ROOT / "fixtures" / "panel.svg").read_bytes())
    assert call("approve", str(path), "--by", "R. Mellor", "--on", "2026-11-20").exit_code == 0
    return path


def call(*words: str) -> Result:
    return CliRunner().invoke(grille_lint, list(words))


def filled(drawing: Path, measure: Callable[[Row], str], between: str = ",") -> Path:
    """The measuring sheet with `measure` of each row in its last column."""
    made = call("compare", str(drawing), "--measuring-sheet", str(drawing.parent / "sheet.csv"))
    assert made.exit_code == 0, made.output
    head, *rows = list(csv.reader(io.StringIO((drawing.parent / "sheet.csv").read_text())))
    target = drawing.parent / "measured.csv"
    with target.open("w", newline="") as file:
        csv.writer(file, delimiter=between).writerows([head, *([*row[:-1], measure(row)] for row in rows)])
    return target


def as_drawn(row: Row) -> str:
    return row[3]


def test_a_piece_as_drawn_is_within_every_limit(drawing: Path) -> None:
    found = call("compare", str(drawing), "--measured", str(filled(drawing, as_drawn)))
    assert found.exit_code == 0, found.output
    assert "WITHIN" in found.output


@pytest.mark.parametrize("between", [",", ";", "\t"])
def test_a_table_is_read_whatever_stands_between_its_columns(drawing: Path, between: str) -> None:
    assert call("compare", str(drawing), "--measured", str(filled(drawing, as_drawn, between))).exit_code == 0


def test_one_point_outside_is_named_with_its_difference(drawing: Path) -> None:
    sheet = filled(drawing, lambda row: '11 1/8"' if row[2] == "outside width" else row[3])
    found = call("compare", str(drawing), "--measured", str(sheet))
    assert found.exit_code == 1
    assert "outside width: 282.58 mm, drawn 280 mm (+2.58 mm), outside 1.59 mm" in " ".join(found.output.split())


def test_a_point_that_is_left_empty_is_not_within(drawing: Path) -> None:
    found = call(
        "compare", str(drawing), "--measured", str(filled(drawing, lambda row: "" if row[0] == "3" else row[3]))
    )
    assert found.exit_code == 1
    assert "1 not measured" in found.output


def test_an_opening_that_lets_the_ball_through_is_outside_whatever_its_limit(drawing: Path) -> None:
    (drawing.parent / "requirements.toml").write_text(
        'based_on = "two-corner-panel"\n[tolerances]\nopening = "30 mm"\n', encoding="utf-8"
    )
    drawing.with_name("side-gate.svg.approval.toml").unlink()
    assert call("approve", str(drawing), "--by", "R. Mellor").exit_code == 0
    sheet = filled(drawing, lambda row: "101.6 mm" if row[1] == "opening 1" else row[3])
    found = call("compare", str(drawing), "--measured", str(sheet))
    assert found.exit_code == 1
    assert "a ball of 101.6 mm passes" in " ".join(found.output.split())


def test_what_cannot_be_read_is_told_line_by_line(drawing: Path) -> None:
    sheet = filled(drawing, lambda row: {"1": "twelve", "5": "9 feet"}.get(row[0], row[3]))
    found = call("compare", str(drawing), "--measured", str(sheet))
    assert found.exit_code == 2
    assert "measured.csv:2:" in found.output
    assert "measured.csv:6:" in found.output


def test_a_drawing_without_a_record_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "gate.svg"
    path.write_bytes((ROOT / "fixtures" / "panel.svg").read_bytes())
    found = call("compare", str(path), "--measuring-sheet", str(tmp_path / "sheet.csv"))
    assert found.exit_code == 2
    assert "no approval record" in found.output


def test_a_drawing_that_changed_since_is_refused(drawing: Path) -> None:
    drawing.write_text(drawing.read_text().replace(">bolt end<", ">leaf<"))
    found = call("compare", str(drawing), "--measuring-sheet", str(drawing.parent / "sheet.csv"))
    assert found.exit_code == 2
    assert "no longer the drawing that was approved" in found.output


def test_the_results_are_given_as_json_page_and_picture(drawing: Path) -> None:
    here = drawing.parent
    sheet = filled(drawing, lambda row: "" if row[0] == "3" else row[3])
    outputs = ("--json", str(here / "r.json"), "--page", str(here / "r.html"), "--picture", str(here / "r.svg"))
    assert call("compare", str(drawing), "--measured", str(sheet), *outputs).exit_code == 1
    given = json.loads((here / "r.json").read_text())
    schema = json.loads((files("lint.report") / "schemas" / "results-1.json").read_text())
    Draft202012Validator(schema).validate(given)
    assert {r["rule"] for r in given["drawings"][0]["results"]} >= {"forged-frame", "forged-scrolls"}
    assert "forged-frame" in (here / "r.html").read_text()
    assert "forged-frame" in (here / "r.svg").read_text()


def test_the_sheet_to_print_has_every_point_and_a_picture(drawing: Path) -> None:
    page = drawing.parent / "sheet.html"
    assert call("compare", str(drawing), "--measuring-sheet", str(page)).exit_code == 0
    text = page.read_text()
    assert text.count('<td class="n">') > 30
    assert "<svg" in text
    assert "real ball" in text


def test_a_call_that_compares_nothing_says_what_it_could(drawing: Path) -> None:
    found = call("compare", str(drawing))
    assert found.exit_code == 2
    assert "--measured" in found.output
