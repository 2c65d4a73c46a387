"""Every limit of the README on the command line: a sentence, exit status 2, and no more memory than is allowed.

The reader's own limits are held in tests/drawing/test_source.py; here the whole command meets them. Memory is
measured, time is not: that is the machine's.
"""

from __future__ import annotations

import gzip
import json
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.commands.terminal import CALL, environment

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="memory as Linux counts it")

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" width="340mm" height="300mm" viewBox="0 0 340 300">'
FRAME = '<g id="frame"><path d="M36 24V254H304V24Z" fill="none" stroke="black" stroke-width="12"/></g>'
STROKE = 'fill="none" stroke="black" stroke-width="6"'
GIBIBYTE = 1 << 20  # kB


def svg(body: str, before: str = "") -> bytes:
    return f"{before}{HEAD}{FRAME}{body}</svg>".encode()


def scrolls(body: str) -> bytes:
    return svg(f'<g id="scrolls" {STROKE}>{body}</g>')


def fan(levels: int) -> str:
    """Clones of clones, ten of each."""
    ten = "".join(f'<g id="g{n + 1}">' + f'<use href="#g{n}"/>' * 10 + "</g>" for n in range(levels))
    return f'<defs><circle id="g0" r="2"/>{ten}</defs><use href="#g{levels}"/>'


REFUSED: dict[str, tuple[Callable[[], bytes], str]] = {
    "bytes": (lambda: svg(f"<!--{' ' * 20_000_000}-->"), "larger than 20 MB"),
    "unpacked bytes": (lambda: gzip.compress(b"<svg>" + b" " * 300_000_000, 1), "larger than 20 MB"),
    "elements": (lambda: svg("<g/>" * 100_000), "more than 100,000 elements"),
    "attributes": (
        lambda: svg("<g " + " ".join(f'a{n}="1"' for n in range(50_000)) + "/>"),
        "more than 1,000 attributes",
    ),
    "nesting": (lambda: svg("<g>" * 100_000), "more than 200 deep"),
    "clones": (lambda: svg(fan(12)), "more than 20,000 objects"),
    "segments": (lambda: svg(f'<path d="M0 0{"h1v1" * 251_000}" stroke="red"/>'), "more than 500,000 path segments"),
    "judged segments": (lambda: scrolls(f'<path d="M50 50{"h1v1" * 75_100}"/>'), "more than 150,000"),
    "a name": (lambda: svg(f'<g id="{"n" * 10_001}"/>'), "longer than 10,000 characters"),
    "a text": (lambda: svg(f"<text>{'n' * 10_001}</text>"), "longer than 10,000 characters"),
    "a number": (lambda: scrolls('<path d="M0 0H1e999"/>'), "too large"),
    "a long number": (lambda: scrolls(f'<path d="M0 0H{"1" * 1000}"/>'), "a number of 1,000 characters"),
    "a place": (lambda: scrolls('<path d="M0 0H900000" transform="scale(10)"/>'), "more than a kilometre"),
    "entities": (
        lambda: svg("<text>&b;</text>", f'<!DOCTYPE svg [<!ENTITY a "{"x" * 99_999}"><!ENTITY b "{"&a;" * 99}">]>'),
        "grow to more than 1 MB",
    ),
    "another file": (
        lambda: svg("<text>&a;</text>", '<!DOCTYPE svg [<!ENTITY a SYSTEM "file:///etc/passwd">]>'),
        "no other file is read",
    ),
    "a style sheet": (
        lambda: svg(f"<style>{''.join(f'path:not(.a{n}) ~ *{{stroke:red}}' for n in range(90_000))}</style>"),
        "style sheet",
    ),
}


def measured(folder: Path, data: bytes) -> tuple[int, dict[str, object], int]:
    """(exit status, the drawing's JSON, the largest resident set of the command and its workers in kB)."""
    (folder / "drawing.svg").write_bytes(data)
    words = [*CALL, "check", "drawing.svg", "--json", "-", "--markup", "marked"]
    with (folder / "out").open("wb") as out:
        run = subprocess.Popen(words, cwd=folder, env=environment(), stdout=out)
        _, status, usage = os.wait4(run.pid, 0)  # ru_maxrss is that of the largest process waited for: getrusage(2)
        run.returncode = os.waitstatus_to_exitcode(status)
    (drawing,) = json.loads((folder / "out").read_bytes())["drawings"]
    return run.returncode, drawing, usage.ru_maxrss


@pytest.mark.parametrize("limit", REFUSED)
def test_a_drawing_over_a_limit_is_refused_in_a_sentence(limit: str, tmp_path: Path) -> None:
    make, said = REFUSED[limit]
    status, drawing, memory = measured(tmp_path, make())
    assert (status, drawing["verdict"]) == (2, "unreadable")
    assert said in str(drawing["error"])
    assert memory < GIBIBYTE


GREEDY: dict[str, Callable[[], bytes]] = {
    "a stroke retraced": lambda: scrolls(f'<path d="M50 50{"H250H50" * 20_000}"/>'),
    "clones just under the limit": lambda: svg(
        f'<defs><path id="c" d="M0 0h5" {STROKE}/></defs><g id="scrolls">'
        + "".join(f'<use href="#c" x="{n % 200}" y="{n // 200}"/>' for n in range(19_900))
        + "</g>"
    ),
    "a stroke as wide as a town": lambda: scrolls('<path d="M0 0C99 99 200 0 90 90" style="stroke-width:900000"/>'),
}


@pytest.mark.parametrize("drawing", GREEDY)
def test_a_drawing_that_asks_for_too_much_costs_itself_only(drawing: str, tmp_path: Path) -> None:
    """Whether it is judged or given up in a sentence is the machine's; never without an answer, never over 1 GiB."""
    status, answer, memory = measured(tmp_path, GREEDY[drawing]())
    assert status in (1, 2)
    assert answer["verdict"] == "fail" or str(answer["error"]).endswith(".")
    assert "stumbled" not in str(answer.get("error"))
    assert memory < GIBIBYTE * 1.05


def test_a_worker_may_not_take_more_memory_than_a_drawing_may_have() -> None:
    from lint.commands.workers import Lost, work_through

    def hoard(_: int) -> int:
        kept = [bytearray(1 << 24) for _ in range(128)]
        return len(kept)

    (done,) = work_through(hoard, [0], 1)
    assert isinstance(done, Lost)
    assert "more memory than a drawing may have" in done.why
