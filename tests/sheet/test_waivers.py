"""What may fail, where, and why."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lint.sheet import idle_waivers, load
from lint.sheet.sheet import Sheet
from lint.sheet.waivers import fitting_nothing, matches, waiver_for


def sheet_with(folder: Path, *waivers: tuple[str, str]) -> Sheet:
    said = "".join(f'[[waive]]\ndrawing = "{glob}"\nrule = "{rule}"\nreason = "agreed"\n' for glob, rule in waivers)
    (folder / "requirements.toml").write_text('based_on = "two-corner-panel"\n' + said, encoding="utf-8")
    return load(str(folder / "requirements.toml"))


# The globs' meaning is that of Git's pathspec and of POSIX 2.13: * stays inside one folder, ** takes any number.
@pytest.mark.parametrize(
    ("path", "glob", "fits"),
    [
        ("porch/side.svg", "porch/*.svg", True),
        ("porch/old/side.svg", "porch/*.svg", False),
        ("porch/old/side.svg", "porch/**/*.svg", True),
        ("porch/side.svg", "porch/**/*.svg", True),
        ("porch/side.svg", "**", True),
        ("a/b/c/side.svg", "**/c/*", True),
        ("side.svg", "**/side.svg", True),
        ("side.svg", "./side.svg", True),
        ("porch/side.svg", "side.svg", False),
        ("side-1.svg", "side-[0-9].svg", True),
        ("../side.svg", "*.svg", False),
    ],
)
def test_a_star_stays_inside_its_folder_and_two_stars_do_not(path: str, glob: str, fits: bool) -> None:
    assert matches(path, glob) is fits


@settings(max_examples=50)
@given(
    st.lists(st.sampled_from(["a", "b", "ab"]), min_size=1),
    st.lists(st.sampled_from(["a", "*", "**", "?b"]), min_size=1),
)
def test_a_glob_agrees_with_a_slow_twin(path: list[str], glob: list[str]) -> None:
    def slow(path: list[str], glob: list[str]) -> bool:
        """By the definition, trying everything."""
        if not glob:
            return not path
        if glob[0] == "**":
            return any(slow(path[n:], glob[1:]) for n in range(len(path) + 1))
        part = glob[0].replace("*", ".*").replace("?", ".")
        return bool(path) and re.fullmatch(part, path[0]) is not None and slow(path[1:], glob[1:])

    path, glob = path[:6], glob[:6]
    assert matches("/".join(path), "/".join(glob)) is slow(path, glob)


def test_a_hostile_glob_is_no_work() -> None:
    assert not matches("a/" * 400 + "b", "**/a/" * 200 + "c")
    assert not matches("a" * 200, "*a" * 100 + "b")


def test_a_waiver_holds_for_its_rule_and_drawings_relative_to_its_sheet(tmp_path: Path) -> None:
    sheet = sheet_with(tmp_path, ("porch/*.svg", "balance"))
    found = waiver_for(sheet, str(tmp_path / "porch" / "side.svg"), "balance")
    assert found is not None
    assert (found.reason, found.sheet) == ("agreed", sheet.path)
    assert waiver_for(sheet, str(tmp_path / "porch" / "side.svg"), "frame") is None
    assert waiver_for(sheet, str(tmp_path / "gate" / "side.svg"), "balance") is None
    assert waiver_for(sheet, "-", "balance") is None


def test_a_waiver_holds_from_whichever_folder_the_check_is_run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "porch").mkdir()
    monkeypatch.chdir(tmp_path / "porch")
    sheet_with(tmp_path, ("porch/*.svg", "balance"))
    assert waiver_for(load("../requirements.toml"), "side.svg", "balance") is not None


def test_a_waiver_that_fits_nothing_is_reported(tmp_path: Path) -> None:
    sheet = sheet_with(
        tmp_path, ("gone.svg", "balance"), ("a.svg", "frame"), ("a.svg", "balance"), ("b.svg", "balance")
    )
    (tmp_path / "b.svg").touch()
    said = fitting_nothing(sheet, {str(tmp_path / "a.svg"): frozenset({"balance"})})
    assert len(said) == 2
    assert '"gone.svg", balance: no drawing has this path' in said[0]
    assert '"a.svg", frame: the rule does not fail there' in said[1]


def test_idle_waivers_of_every_sheet_in_a_run_are_told_once(tmp_path: Path) -> None:
    (tmp_path / "porch").mkdir()
    sheet_with(tmp_path, ("gone.svg", "balance"), ("a.svg", "frame"))
    sheet_with(tmp_path / "porch", ("b.svg", "collars"))
    failing = {str(tmp_path / name): frozenset({"frame"}) for name in ("a.svg", "c.svg", "porch/b.svg")}
    said = idle_waivers(failing)
    assert len(said) == 2
    assert '"gone.svg", balance: no drawing has this path' in said[0]
    assert '"b.svg", collars: the rule does not fail there' in said[1]
