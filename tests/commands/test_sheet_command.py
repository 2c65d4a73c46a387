"""grille-lint sheet: what is asked here, and who says so."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from lint.commands.sheet import sheet_command
from lint.sheet import bundled, load, load_default


def shown(*arguments: str) -> tuple[int, str]:
    done = CliRunner().invoke(sheet_command, arguments)
    return done.exit_code, done.output


def test_the_default_sheet_is_shown_with_the_source_of_every_value(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    status, said = shown()
    assert status == 0
    folded = " ".join(said.replace("\n#", " ").split())
    for key, note in load_default().sources.items():
        assert " ".join(note.split()) in folded, key
    assert 'sphere = "101.6 mm" # 4 in' in folded
    assert "no source stated" not in said


def test_what_is_shown_is_a_sheet_in_itself(tmp_path: Path) -> None:
    (tmp_path / "requirements.toml").write_text(shown("sphere-100-mm")[1], encoding="utf-8")
    assert load(str(tmp_path / "requirements.toml")).digest == load("sphere-100-mm").digest


def test_a_changed_value_names_the_file_that_changed_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "porch").mkdir()
    (tmp_path / "porch" / "a.svg").touch()
    (tmp_path / "requirements.toml").write_text(
        'based_on = "two-corner-panel"\n[scroll_ends]\nleast = 2\n', encoding="utf-8"
    )
    for which in (".", "porch", "porch/a.svg", "requirements.toml"):
        said = shown(which)[1]
        assert "# no source stated [requirements.toml]\nleast = 2\n" in said
        assert said.startswith("# Requirement sheet in force: requirements.toml\n")


def test_the_bundled_sheets_are_listed() -> None:
    status, said = shown("--list")
    assert status == 0
    for name in bundled():
        assert f"\n{name} " in f"\n{said}"


@pytest.mark.parametrize("which", ["gone", "gone.toml", "gone/a.svg"])
def test_what_is_not_there_is_refused(which: str) -> None:
    status, said = shown(which)
    assert status == 2
    assert said.count("\n") == 1
    assert which in said
