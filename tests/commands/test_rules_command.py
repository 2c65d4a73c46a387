"""grille-lint rules: the words of a rule stand in one place and are shown from there."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from lint.commands.rules import rules_command
from lint.report.rule_words import HEADINGS, sections, table, title
from lint.rules import RULES


def shown(*arguments: str) -> tuple[int, str]:
    done = CliRunner().invoke(rules_command, arguments)
    return done.exit_code, done.output


def test_all_rules_are_listed_in_the_order_of_the_report() -> None:
    status, said = shown()
    assert status == 0
    assert [line.split()[0] for line in said.splitlines()[: len(RULES)]] == [rule.id for rule in RULES]


@pytest.mark.parametrize("rule", [rule.id for rule in RULES])
def test_every_rule_is_explained_under_all_its_headings(rule: str) -> None:
    status, said = shown(rule)
    assert status == 0
    folded = " ".join(said.split())
    known = next(known for known in RULES if known.id == rule)
    assert f"{rule}: {title(known)}" in folded
    assert [heading for heading, _ in sections(known)] == list(HEADINGS)
    for heading, words in sections(known):
        assert f"{heading}: {words}" in folded
        assert words.endswith(".")


def test_the_values_in_force_here_are_shown(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "requirements.toml").write_text(
        'based_on = ["two-corner-panel", "sphere-100-mm"]\nrules_off = ["balance"]\n', encoding="utf-8"
    )
    assert "In force here (requirements.toml):\n    pass_through.sphere = 100 mm" in shown("pass-through")[1]
    assert "does not ask for this rule" in shown("balance")[1]
    assert "pass_through.sphere = 125 mm" in shown("pass-through", "--sheet", "sphere-125-mm")[1]


def test_a_name_that_is_nearly_a_rule_is_told_which() -> None:
    assert shown("pass_through")[0] == 0
    assert shown("scroll-mach") == (2, 'There is no rule "scroll-mach". Did you mean scroll-match?\n')
    assert "The rules are: scale, layers" in shown("\x1b[2Jqqqq")[1]
    assert "\x1b" not in shown("\x1b[2Jqqqq")[1]


def test_a_sheet_that_is_wrong_ends_the_command(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "requirements.toml").write_text("frame = 1\n", encoding="utf-8")
    status, said = shown("frame")
    assert status == 2
    assert said.startswith("requirements.toml:1: frame: is not a section")


def test_the_table_for_the_readme_has_a_row_for_each_rule() -> None:
    rows = table().splitlines()
    assert len(rows) == len(RULES) + 2
    assert all(row.count(" | ") == 2 for row in rows)
    assert shown("--markdown") == (0, table())
