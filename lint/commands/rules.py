"""grille-lint rules [RULE]"""

from __future__ import annotations

from textwrap import wrap

import click

from lint.commands._said import refuse
from lint.errors import BadSheet
from lint.report.rule_words import sections, table, title
from lint.report.sheet_words import values_of
from lint.rules import RULES
from lint.rules._rule import Rule
from lint.sheet import sheet_for
from lint.shown import shown

_WIDTH = 100


@click.command("rules")
@click.argument("rule", required=False)
@click.option(
    "--sheet",
    "named",
    metavar="NAME",
    help="The sheet whose values are shown: a file, or one that comes with the tool.",
)
@click.option("--markdown", is_flag=True, help="All rules as a Markdown table.")
def rules_command(rule: str | None, named: str | None, markdown: bool) -> None:
    """List the rules, or explain one RULE: when it passes, why, how it is measured, its default and the mend."""
    if markdown:
        click.echo(table(), nl=False)
    elif rule is None:
        for known in RULES:
            click.echo(f"{known.id:<16}{title(known)}")
        click.echo("\nOne rule in full: grille-lint rules RULE")
    else:
        click.echo(explained(_known(rule), named))


def explained(rule: Rule, named: str | None = None) -> str:
    """One rule in full, and what the sheet in force here asks of it. Ends the command where that is wrong."""
    lines = [f"{rule.id}: {title(rule)}"]
    for heading, words in sections(rule):
        lines += ["", f"{heading}:", *_indented(words)]
    try:
        sheet = sheet_for("-", named)
    except BadSheet as trouble:
        refuse(str(trouble))
    asked = values_of(sheet, rule.id.replace("-", "_"))
    if asked:
        lines += ["", f"In force here ({shown(sheet.path or sheet.name)}):"]
        lines += [f"    {key} = {value}" for key, value in asked]
    if rule.id in sheet.rules_off:
        lines += ["", f"The sheet {shown(sheet.path or sheet.name)} does not ask for this rule."]
    return "\n".join(lines)


def _indented(words: str) -> list[str]:
    return wrap(words, _WIDTH, initial_indent="    ", subsequent_indent="    ", break_on_hyphens=False)


def _known(name: str) -> Rule:
    """The rule of that name; a near miss is named."""
    wanted = name.strip().casefold().replace("_", "-")
    found = next((rule for rule in RULES if rule.id == wanted), None)
    if found is None:
        from difflib import get_close_matches

        ids = [rule.id for rule in RULES]
        near = get_close_matches(wanted, ids, 1, 0.5)
        hint = f"Did you mean {near[0]}?" if near else f"The rules are: {', '.join(ids)}."
        refuse(f'There is no rule "{shown(name)}". {hint}')
    return found
