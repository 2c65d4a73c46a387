"""The one drawing of a call, read and held to its sheet, for the commands that make the smith's papers."""

from __future__ import annotations

import os
import traceback
from collections.abc import Iterator
from contextlib import contextmanager

from lint.commands._job import Wanted, verdict_on
from lint.commands._said import refuse
from lint.errors import Refused
from lint.report.findings import reason
from lint.shown import shown
from lint.verdict import Verdict


def judged(path: str, wanted: Wanted) -> Verdict:
    """The verdict on the drawing. Raises Refused with one sentence, file and line in it, where it cannot be read."""
    verdict = verdict_on(path, wanted)
    if verdict.panel is None:
        line = f":{verdict.line}" if verdict.line else ""
        raise Refused(f"{shown(path)}{line}: {reason(verdict)}")
    return verdict


def failing(verdict: Verdict) -> tuple[str, ...]:
    """The rules that the drawing fails and that no waiver covers."""
    return tuple(result.rule for result in verdict.results if result.stops)


@contextmanager
def or_refuse(path: str) -> Iterator[None]:
    """What is refused within is said in its sentence, and ends the command with exit status 2; so does a fault of
    our own, never with a traceback unless GRILLE_LINT_TRACEBACK asks for one."""
    try:
        yield
    except Refused as trouble:
        refuse(str(trouble))
    except Exception:
        if os.environ.get("GRILLE_LINT_TRACEBACK"):
            traceback.print_exc()
        refuse(
            f"{shown(path)}: the tool stumbled over something in this drawing that it should have understood. "
            "Please send the drawing to its maintainers. Nothing was written."
        )
