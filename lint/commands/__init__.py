"""The command line. Each command is a module of its own, loaded only when it is called."""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from importlib import import_module
from io import TextIOWrapper
from typing import Any

import click

from lint import __version__

COMMANDS = {
    "check": "Check drawings against the requirement sheet. The main job.",
    "start": "Write a blank drawing, true size, with every layer in place.",
    "stock": "List the stock: every bar, collar and rivet, and the bars to buy.",
    "patterns": "Draw full-size patterns to print and forge against.",
    "approve": "Write the approval record of a drawing that passes.",
    "compare": "Hold the forged piece to the approved drawing.",
    "rules": "List the rules, or explain one.",
    "sheet": "Show the requirement sheet in force, with the source of every value.",
}


class _Commands(click.Group):
    """A group that imports a command when it is asked for, so that a check loads only what a check needs."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in COMMANDS:
            return None
        command: click.Command = getattr(import_module(f"lint.commands.{cmd_name}"), f"{cmd_name}_command")
        gc.freeze()  # nor is there later: what is loaded is looked through no more, here and in workers
        gc.enable()
        return command

    def make_context(self, *args: Any, **kwargs: Any) -> click.Context:
        with _ending_in_words():  # help and version are printed here
            _mend_streams()
            return super().make_context(*args, **kwargs)

    def invoke(self, ctx: click.Context) -> Any:
        with _ending_in_words():
            return super().invoke(ctx)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))


@click.group(cls=_Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="grille-lint", message="%(prog)s %(version)s")
def grille_lint() -> None:
    """Read the drawing of a forged grille, measure it, and check it against the requirement sheet.

    Draw the panel in any vector editor, name its layers (frame, scrolls, collars, rivets, ends, ...), save it as
    SVG, and check it. The figures are those of the drawing: local code and licensed practice decide.
    """


def _mend_streams() -> None:
    """Make sure that what is printed arrives, or that it is said that it cannot."""
    if sys.stderr is None:  # closed by the caller
        sys.stderr = open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115  # until the end
    if sys.stdout is None:
        click.echo("Standard output is closed, so nothing can be reported.", err=True)
        sys.exit(2)
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):  # a name in a drawing may hold what the terminal has no letter for
            stream.reconfigure(errors="backslashreplace")


@contextmanager
def _ending_in_words() -> Iterator[None]:
    """A full disk behind standard output, a reader that went away, or a fault of our own is exit status 2 and no
    traceback; an interruption is 130, as the shell has it."""
    try:
        yield
        sys.stdout.flush()
    except KeyboardInterrupt:
        sys.exit(130)
    except BrokenPipeError:
        give_up_stdout()
        sys.exit(2)
    except OSError as trouble:
        give_up_stdout()
        click.echo(f"The report could not be written whole ({trouble.strerror}).", err=True)
        sys.exit(2)
    except (click.ClickException, click.Abort, click.exceptions.Exit):
        raise
    except Exception:
        if os.environ.get("GRILLE_LINT_TRACEBACK"):
            raise
        click.echo("The tool stumbled: the fault is its own. Please tell its maintainers what you called.", err=True)
        sys.exit(2)


def give_up_stdout() -> None:
    """Nobody reads standard output any more: keep the interpreter from complaining at its end."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
