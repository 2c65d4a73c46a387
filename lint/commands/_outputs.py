"""The files that a check writes: marked-up copies, JSON, SARIF, the instructor's page."""

from __future__ import annotations

import os
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from lint.commands._job import Checked
from lint.errors import Refused
from lint.report.files import write_whole
from lint.report.shown import shown


@dataclass(frozen=True, slots=True, kw_only=True)
class Outputs:
    """Where each output goes; None where it is not asked for, "-" for standard output."""

    markup: str | None = None
    json: str | None = None
    sarif: str | None = None
    page: str | None = None

    @property
    def prints(self) -> bool:
        """True where an output takes standard output for itself."""
        return "-" in (self.json, self.sarif, self.page)


def write_outputs(outputs: Outputs, checked: Sequence[Checked], drawings: Sequence[str]) -> list[str]:
    """Write every output that is asked for, each whole or not at all; a sentence for each that could not be."""
    troubles = []
    for writer in (_write_markup, _write_json, _write_sarif, _write_page):
        try:
            writer(outputs, checked, drawings)
        except Refused as trouble:
            troubles.append(str(trouble))
    return troubles


def marked_names(drawings: Sequence[str]) -> dict[str, str]:
    """The name of each drawing's marked-up copy below the folder, folders kept where names would meet."""
    plain = {path: f"{_stem(path)}.marked.svg" for path in drawings}
    if len(set(plain.values())) == len(plain):
        return plain
    whole = [os.path.abspath(path) for path in drawings if path != "-"]
    above = os.path.commonpath([os.path.dirname(path) for path in whole]) if whole else ""
    names = {}
    for path in drawings:
        folder = "" if path == "-" else os.path.relpath(os.path.dirname(os.path.abspath(path)), above)
        names[path] = os.path.normpath(os.path.join(folder, f"{_stem(path)}.marked.svg"))
    if len(set(names.values())) < len(names):  # drawing.svg beside drawing.svgz
        names = {
            path: f"{name[: -len('.marked.svg')]}.{n}.marked.svg" for n, (path, name) in enumerate(names.items(), 1)
        }
    return names


def _stem(path: str) -> str:
    return "standard-input" if path == "-" else Path(path).stem.removesuffix(".marked")


def _write_markup(outputs: Outputs, checked: Sequence[Checked], drawings: Sequence[str]) -> None:
    if outputs.markup is None:
        return
    names = marked_names([one.path for one in checked])
    for one in checked:
        if one.marked is not None:
            target = os.path.join(outputs.markup, names[one.path])
            _make_folder(os.path.dirname(target))
            write_whole(target, one.marked, never_over=[d for d in drawings if not d.endswith(".marked.svg")])


def _make_folder(folder: str) -> None:
    try:
        os.makedirs(folder or ".", exist_ok=True)
    except (OSError, ValueError) as trouble:
        if os.path.exists(folder):
            raise Refused(f"{shown(folder)}: is no folder, so no marked-up copy can be put into it.") from trouble
        why = (trouble.strerror if isinstance(trouble, OSError) else "") or "the name is no file name"
        raise Refused(f"{shown(folder)}: the folder cannot be made ({why}).") from trouble


def _write_json(outputs: Outputs, checked: Sequence[Checked], drawings: Sequence[str]) -> None:
    if outputs.json is not None:
        from lint.report.as_json import whole_json

        write_whole(outputs.json, whole_json([one.json for one in checked if one.json], sheets(checked)), drawings)


def _write_sarif(outputs: Outputs, checked: Sequence[Checked], drawings: Sequence[str]) -> None:
    if outputs.sarif is not None:
        from lint.report.sarif import whole_sarif

        write_whole(outputs.sarif, whole_sarif([one.sarif for one in checked if one.sarif]), drawings)


def _write_page(outputs: Outputs, checked: Sequence[Checked], drawings: Sequence[str]) -> None:
    if outputs.page is not None:
        from lint.report.caution import CAUTION
        from lint.report.page import Entry, page
        from lint.rules import RULES

        entries = [Entry(drawing=one.json, title=one.title, marked=one.marked) for one in checked if one.json]
        made = page(
            entries,
            rules=[rule.id for rule in RULES],
            heading="Drawings checked",
            sheets=sheets(checked),
            caution=CAUTION,
        )
        write_whole(outputs.page, made, drawings)


def sheets(checked: Sequence[Checked]) -> list[str]:
    """The names of the sheets in force, each once."""
    return list(dict.fromkeys(one.sheet for one in checked if one.sheet))
