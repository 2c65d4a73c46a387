"""The last word of a command that cannot go on."""

from __future__ import annotations

import sys
from typing import NoReturn

import click


def refuse(sentence: str) -> NoReturn:
    """Say on standard error why nothing more is done, and end with exit status 2."""
    click.echo(sentence, err=True)
    sys.exit(2)
