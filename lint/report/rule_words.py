"""A rule in words: one text for the command line, for SARIF's help and for the README's table."""

from __future__ import annotations

from lint.rules import RULES
from lint.rules._rule import Rule

HEADINGS = ("Passes when", "Why", "Measured", "Default and its source", "Mend")


def title(rule: Rule) -> str:
    """The first line of the rule's words: one sentence."""
    first = rule.words.strip().partition("\n")[0].strip()
    return sentence(first) if first and not first.endswith(":") else sentence(rule.id)


def sections(rule: Rule) -> tuple[tuple[str, str], ...]:
    """(heading, sentences) of all headings that the rule has."""
    said = ((heading, rule.section(heading)) for heading in HEADINGS)
    return tuple((heading, sentence(words[:1].upper() + words[1:])) for heading, words in said if words)


def table() -> str:
    """All rules as a Markdown table: name, when it passes, the default and its source."""
    rows = ["| rule | passes when | default and its source |", "| --- | --- | --- |"]
    for rule in RULES:
        said = dict(sections(rule))
        cells = (f"`{rule.id}`", said.get("Passes when", ""), said.get("Default and its source", ""))
        rows.append(f"| {' | '.join(cell.replace('|', chr(92) + '|') for cell in cells)} |")
    return "\n".join(rows) + "\n"


def sentence(words: str) -> str:
    """The words with a full stop."""
    words = words.strip()
    return words if words.endswith((".", "!", "?")) else f"{words}."
