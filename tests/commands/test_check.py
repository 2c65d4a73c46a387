"""grille-lint check: what it reads, prints, writes, and how it ends."""

from __future__ import annotations

import gzip
import json
from pathlib import Path

import pytest

from tests.commands.terminal import FAILS, FIXTURES, PASSES, call, copy, in_words

CAUTION = "local code and licensed practice decide"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    copy(PASSES, tmp_path / "good.svg")
    return tmp_path


def test_a_sound_drawing_passes_with_exit_status_0(folder: Path) -> None:
    done = call(folder, "check", "good.svg")
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith("good.svg: PASS\n")
    assert CAUTION in " ".join(done.stdout.split())


def test_a_rule_that_fails_is_exit_status_1_and_an_unreadable_drawing_2(folder: Path) -> None:
    copy(FAILS, folder / "bad.svg")
    assert call(folder, "check", "good.svg", "bad.svg").returncode == 1
    done = call(folder, "check", "good.svg", "bad.svg", "gone.svg")
    assert done.returncode == 2
    assert "3 drawings: 1 pass, 1 fail, 1 unreadable." in done.stdout


def test_no_two_empty_lines_stand_together_in_a_report(folder: Path) -> None:
    assert "\n\n\n" not in call(folder, "check", "good.svg", "good.svg", "gone.svg").stdout


def test_standard_input_is_a_drawing_like_any_other(folder: Path) -> None:
    done = call(folder, "check", "-", "--json", "-", "--markup", "marked", input=PASSES.read_text())
    assert done.returncode == 0
    assert json.loads(done.stdout)["drawings"][0]["path"] == "-"
    assert (folder / "marked" / "standard-input.marked.svg").exists()


def test_a_folder_is_searched_without_marked_up_copies_hidden_files_and_loops(folder: Path) -> None:
    for name in ("b.marked.svg", ".hidden.svg", ".git/x.svg", "deep/down.SVG", "notes.txt"):
        copy(PASSES, folder / name)
    (folder / "deep" / "round").symlink_to(folder, target_is_directory=True)
    done = call(folder, "check", ".", "--json", "-")
    paths = [drawing["path"] for drawing in json.loads(done.stdout)["drawings"]]
    assert paths == ["./good.svg", "./deep/down.SVG"]


def test_an_empty_folder_is_said_and_is_exit_status_2(tmp_path: Path) -> None:
    done = call(tmp_path, "check", ".")
    assert (done.returncode, done.stdout) == (2, "")
    assert "There is no drawing" in done.stderr


def test_a_packed_drawing_gives_the_same_results(folder: Path) -> None:
    (folder / "packed.svgz").write_bytes(gzip.compress(PASSES.read_bytes()))
    drawings = json.loads(call(folder, "check", "good.svg", "packed.svgz", "--json", "-").stdout)["drawings"]
    assert drawings[0]["results"] == drawings[1]["results"]


def test_a_marked_up_copy_is_checked_as_its_original_and_written_over_itself_only(folder: Path) -> None:
    assert call(folder, "check", "good.svg", "--markup", ".").returncode == 0
    once = (folder / "good.marked.svg").read_bytes()
    results = [
        json.loads(call(folder, "check", name, "--json", "-", "--markup", ".").stdout)["drawings"][0]["results"]
        for name in ("good.svg", "good.marked.svg")
    ]
    assert [(r["rule"], r["kind"], r["measured"]) for r in results[0]] == [
        (r["rule"], r["kind"], r["measured"]) for r in results[1]
    ]
    assert (folder / "good.marked.svg").read_bytes() == once
    assert (folder / "good.svg").read_bytes() == PASSES.read_bytes()
    assert sorted(path.name for path in folder.iterdir()) == ["good.marked.svg", "good.svg"]


def test_drawings_of_one_name_keep_their_folders_in_the_mark_up(tmp_path: Path) -> None:
    for name in ("porch/gate.svg", "garden/gate.svg"):
        copy(PASSES, tmp_path / name)
    assert call(tmp_path, "check", "porch", "garden", "--markup", "marked").returncode == 0
    marked = sorted(str(path.relative_to(tmp_path / "marked")) for path in (tmp_path / "marked").rglob("*.svg"))
    assert marked == ["garden/gate.marked.svg", "porch/gate.marked.svg"]


def test_a_wrong_sheet_is_said_once_and_stands_in_every_output(folder: Path) -> None:
    copy(PASSES, folder / "second.svg")
    (folder / "requirements.toml").write_text("sphere = 3\n")
    done = call(folder, "check", ".", "--sarif", "out.sarif")
    assert done.returncode == 2
    assert done.stderr.count("sphere: no such key") == 1
    assert done.stdout.count("Its requirement sheet is wrong") == 2
    assert (folder / "out.sarif").read_text().count("sphere: no such key") == 2
    drawings = json.loads(call(folder, "check", ".", "--json", "-").stdout)["drawings"]
    assert [drawing["verdict"] for drawing in drawings] == ["unreadable", "unreadable"]
    assert all("sphere: no such key" in drawing["error"] for drawing in drawings)
    assert call(folder, "check", ".", "--terse").stdout.count("sphere: no such key") == 2


def test_a_wrong_call_is_said_once_and_nothing_is_written(folder: Path) -> None:
    for words, said in (
        (("--layer", "doodles"), "expected NAME=ROLE"),
        (("--json", "out", "--sarif", "./out"), "Two outputs cannot go to one file"),
        (("--json", "-", "--sarif", "-"), "Two outputs cannot go to one file"),
    ):
        done = call(folder, "check", "good.svg", "good.svg", *words)
        assert (done.returncode, done.stdout) == (2, "")
        assert said in done.stderr
    assert [path.name for path in folder.iterdir()] == ["good.svg"]


def test_a_waiver_that_does_nothing_is_told_but_not_for_a_drawing_that_was_not_read(folder: Path) -> None:
    (folder / "broken.svg").write_text("<svg")
    waivers = (("good.svg", "balance"), ("broken.svg", "balance"))
    (folder / "requirements.toml").write_text(
        'based_on = "two-corner-panel"\n'
        + "".join(f'[[waive]]\ndrawing = "{name}"\nrule = "{rule}"\nreason = "agreed"\n' for name, rule in waivers)
    )
    done = call(folder, "check", ".")
    assert '"good.svg", balance: the rule does not fail there' in done.stderr
    assert "broken.svg" not in done.stderr


@pytest.mark.parametrize("drawing", sorted((FIXTURES / "unreadable").glob("*.svg*")), ids=lambda path: path.name)
def test_what_must_be_refused_is_unreadable_in_every_output(drawing: Path, tmp_path: Path) -> None:
    done = call(tmp_path, "check", str(drawing), "--json", "r.json", "--sarif", "r.sarif", "--page", "r.html")
    assert done.returncode == 2
    assert ": UNREADABLE\n" in in_words(done)
    assert "stumbled" not in done.stdout
    assert "Line 1: Line" not in done.stdout
    (only,) = json.loads((tmp_path / "r.json").read_text())["drawings"]
    assert (only["verdict"], only["error"].endswith(".")) == ("unreadable", True)
    assert json.loads((tmp_path / "r.sarif").read_text())["runs"]
    assert (tmp_path / "r.html").exists()
