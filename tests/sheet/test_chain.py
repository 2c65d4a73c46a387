"""Which sheet is in force, and what it is built on."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from lint.errors import BadSheet
from lint.sheet import load, load_default, rests_on, sheet_for
from tests.sheet.written import BASED, write


def test_the_nearest_sheet_above_the_drawing_is_taken(tmp_path: Path) -> None:
    write(tmp_path, BASED + 'name = "outer"\n')
    write(tmp_path / "porch", BASED + 'name = "inner"\n')
    (tmp_path / "gate" / "old").mkdir(parents=True)
    assert sheet_for(str(tmp_path / "porch" / "a.svg")).name == "inner"
    assert sheet_for(tmp_path / "gate" / "old" / "a.svg").name == "outer"
    assert sheet_for(tmp_path / "a.svg", "sphere-100-mm").name == "sphere-100-mm"


def test_without_a_sheet_above_it_the_default_holds(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    assert sheet_for("-") is load_default()
    assert sheet_for("a.svg") is load_default()


def test_a_saved_sheet_is_read_anew_also_where_it_is_built_upon(tmp_path: Path) -> None:
    base = write(tmp_path, BASED + "[scroll_ends]\nleast = 2\n", "class.toml")
    path = write(tmp_path, 'based_on = "class.toml"\n')
    first = load(str(path))
    assert load(str(path)) is first
    base.write_text(BASED + "[scroll_ends]\nleast = 30\n", encoding="utf-8")
    assert load(str(path)).scroll_ends.least == 30


def test_what_a_sheet_rests_on_is_known(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    write(tmp_path / "class", BASED, "class.toml")
    write(tmp_path, 'based_on = ["class/class.toml", "sphere-100-mm"]\n')
    assert rests_on("requirements.toml") == (os.path.join("class", "class.toml"), "requirements.toml")


@pytest.mark.parametrize(
    ("based_on", "words"),
    [
        ('"requirements.toml"', "goes round"),
        ('"missing.toml"', "No such file"),
        ('"two-corner-pannel"', "is no sheet"),
        ('"/dev/zero.toml"', "No such file"),
    ],
)
def test_a_base_that_is_none_is_refused(tmp_path: Path, based_on: str, words: str) -> None:
    path = write(tmp_path, f"based_on = {based_on}\n")
    with pytest.raises(BadSheet, match=words):
        load(str(path))


def test_a_bush_of_sheets_is_cut_short(tmp_path: Path) -> None:
    """Eight files that each name the next one forty times over would be 40^8 readings."""
    for n in range(7):
        spelt = ",\n".join(f'"{"./" * k}s{n + 1}.toml"' for k in range(40))
        write(tmp_path, f"based_on = [{spelt}]\n", f"s{n}.toml")
    write(tmp_path, BASED, "s7.toml")
    with pytest.raises(BadSheet, match=r"rests on more than 64 files|nests deeper"):
        load(str(tmp_path / "s0.toml"))
