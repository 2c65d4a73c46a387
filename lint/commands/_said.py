"""The last word of a command that cannot go on."""

from __future__ import annotations

import sys
from typing import NoReturn

import click

from lint.shown import plain


def refuse(sentence: str) -> NoReturn:
    """Say on standard error why nothing more is done, and end with exit status 2. Several sentences may stand on
    lines of their own; nothing in them steers a terminal."""
    complain(sentence)
    sys.exit(2)


def complain(sentence: str) -> None:
    """Say on standard error what could not be done."""
    click.echo(plain(sentence, keep="\n"), err=True)
