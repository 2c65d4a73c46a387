"""A rule is one file, one fixture, one line, and its own words."""

from __future__ import annotations

from pathlib import Path

import pytest

from lint.rules import RULES
from lint.rules._rule import Rule

ROOT = Path(__file__).parent.parent
HEADINGS = ("Passes when", "Why", "Measured", "Default and its source", "Mend")


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_a_rule_explains_itself_under_every_heading(rule: Rule) -> None:
    assert [heading for heading in HEADINGS if not rule.section(heading)] == []


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_a_rule_has_a_drawing_that_breaks_it(rule: Rule) -> None:
    assert list((ROOT / "fixtures" / rule.id).glob("*.svg")), f"fixtures/{rule.id}/ holds no drawing"


def test_every_rule_file_is_in_the_list() -> None:
    files = {path.stem.replace("_", "-") for path in (ROOT / "lint" / "rules").glob("[!_]*.py")}
    assert files == {rule.id for rule in RULES}
