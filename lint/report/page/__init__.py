"""One page for an instructor with many drawings: who may go to the forge, and what each other one has to change.

The page is one file: no server, no request, no name from a file that could run. It works from disk, with a
keyboard, and printed. Marked-up drawings lie in it packed, and are unpacked by the browser when they are looked at.
"""

from __future__ import annotations

import base64
import zlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from importlib.resources import files
from pathlib import PurePath
from typing import Any

from lint.shown import shown

MARK = {"pass": "✓", "fail": "✕", "review": "?", "notApplicable": "–", "waived": "w"}
WORD = {"pass": "passes", "fail": "fails", "review": "look", "notApplicable": "does not apply", "waived": "waived"}
VERDICTS = {  # in the order of the page: what a verdict is called, and what it means for the candidate
    "pass": "may go to the forge",
    "review": "to be looked at",
    "fail": "to change",
    "unreadable": "could not be read",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One drawing on the page: its part of the JSON output, its title, and its marked-up SVG (None for none)."""

    drawing: Mapping[str, Any]
    title: str
    marked: bytes | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class _Cell:
    """What one rule says of one drawing: a mark in the table, and the words behind it."""

    rule: str
    kind: str
    mark: str
    word: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Change:
    """What one rule asks to be changed or looked at."""

    rule: str
    kind: str
    figures: str
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    """One drawing as a row of the table; `packed` is its marked-up copy, deflated, in base 64."""

    number: int
    title: str
    path: str
    verdict: str
    verdict_word: str
    cells: tuple[_Cell, ...]
    changes: tuple[_Change, ...]
    error: str
    packed: str
    fails: int


def page(entries: Sequence[Entry], *, rules: Sequence[str], heading: str, sheets: Sequence[str], caution: str) -> str:
    """The whole page as HTML. `rules` are the columns, `sheets` the names of the requirement sheets in force."""
    from jinja2 import Environment, PackageLoader, StrictUndefined  # loaded only where a page is asked for

    here = files("lint.report.page")
    environment = Environment(
        loader=PackageLoader("lint.report", "page"), autoescape=True, undefined=StrictUndefined, trim_blocks=True
    )
    rows = tuple(_row(number, entry, rules) for number, entry in enumerate(entries, 1))
    groups = [(word, VERDICTS[word], tuple(row for row in rows if row.verdict == word)) for word in VERDICTS]
    return environment.get_template("page.html").render(
        heading=heading,
        rows=rows,
        groups=groups,
        rules=rules,
        sheets=", ".join(sheets),
        caution=caution,
        kinds=WORD,
        marks=MARK,
        style=(here / "page.css").read_text(),
        script=(here / "page.js").read_text(),
    )


def _row(number: int, entry: Entry, rules: Sequence[str]) -> _Row:
    drawing = entry.drawing
    results = {result["rule"]: result for result in drawing.get("results", ())}
    changes = [_change(r) for r in results.values() if r["kind"] in ("fail", "review") and not r.get("waived")]
    changes.sort(key=lambda change: change.kind)  # "fail" stands before "review"
    return _Row(
        number=number,
        title=shown(entry.title or PurePath(drawing["path"]).stem, 80),
        path=shown(drawing["path"], 120),
        verdict=drawing["verdict"],
        verdict_word=VERDICTS[drawing["verdict"]],
        cells=tuple(_cell(rule, results.get(rule)) for rule in rules),
        changes=tuple(changes),
        error=shown(drawing.get("error") or "", 400),
        packed=base64.b64encode(zlib.compress(entry.marked, 9)).decode() if entry.marked else "",
        fails=sum(change.kind == "fail" for change in changes),
    )


def _change(result: Mapping[str, Any]) -> _Change:
    """What one rule asks to be changed, with its figure beside the one that is asked for."""
    figure, asked = shown(result.get("figure") or "", 80), shown(result.get("asked") or "", 120)
    figures = f"{figure}, asked {asked}" if figure and asked else figure
    sentence = shown(result["remedy"] or result["message"], 400)
    return _Change(rule=result["rule"], kind=result["kind"], figures=figures, sentence=sentence)


def _cell(rule: str, result: Mapping[str, Any] | None) -> _Cell:
    if result is None:
        return _Cell(rule=rule, kind="notApplicable", mark="", word="not judged", lines=())
    waived = result.get("waived")
    kind = "waived" if waived else result["kind"]
    lines = [result["message"], result.get("remedy") or ""]
    if waived:
        lines.append(f"Waived: {waived['reason']}")
    return _Cell(
        rule=rule,
        kind=kind,
        mark=MARK[kind],
        word=WORD[kind],
        lines=tuple(shown(line, 400) for line in lines if line),
    )
