"""The files that a check writes: marked-up copies, JSON, SARIF, the instructor's page."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from hashlib import sha256
from pathlib import Path

from lint.commands._job import Checked
from lint.errors import Refused
from lint.report.files import STDOUT, write_whole
from lint.shown import shown

_LONGEST_STEM = 230  # bytes: most file systems take 255 for a name


@dataclass(frozen=True, slots=True, kw_only=True)
class Outputs:
    """Where each output goes; None where it is not asked for, "-" for standard output."""

    markup: str | None = None
    json: str | None = None
    sarif: str | None = None
    page: str | None = None

    def refuse_one_file(self) -> None:
        """Raises Refused where two outputs would go to one file."""
        files = [
            os.path.realpath(file) if file not in STDOUT else "-" for file in (self.json, self.sarif, self.page) if file
        ]
        if len(set(files)) < len(files):
            raise Refused("Two outputs cannot go to one file: give each a name of its own.")

    @property
    def prints(self) -> bool:
        """True where an output takes standard output for itself."""
        return "-" in (self.json, self.sarif, self.page)


def write_outputs(outputs: Outputs, checked: Sequence[Checked], inputs: Sequence[str]) -> list[str]:
    """Write every output that is asked for, each whole or not at all and never over one of the `inputs`; a sentence
    for each that could not be."""
    troubles = []
    for write in _writes(outputs, checked, inputs):
        try:
            write()
        except Refused as trouble:
            troubles.append(str(trouble))
    return troubles


def _writes(outputs: Outputs, checked: Sequence[Checked], inputs: Sequence[str]) -> Iterator[Callable[[], None]]:
    if outputs.markup is not None:
        names = marked_names([one.path for one in checked])
        kept = [path for path in inputs if not path.endswith(".marked.svg")]
        for one in checked:
            if one.marked is not None:
                yield partial(_write_marked, os.path.join(outputs.markup, names[one.path]), one.marked, kept)
    for file, make in ((outputs.json, _json), (outputs.sarif, _sarif), (outputs.page, _page)):
        if file is not None:
            yield partial(_write_made, file, make, checked, inputs)


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
    """The drawing's name without its ending; cut where ".marked.svg" makes it longer than a file's name may be."""
    if path == "-":
        return "standard-input"
    stem = Path(path).stem.removesuffix(".marked")
    whole = os.fsencode(stem)
    if len(whole) <= _LONGEST_STEM:
        return stem
    return (
        f"{os.fsdecode(whole[: _LONGEST_STEM - 9]).encode('utf-8', 'ignore').decode()}-{sha256(whole).hexdigest()[:8]}"
    )


def _write_marked(target: str, marked: bytes, kept: Sequence[str]) -> None:
    _make_folder(os.path.dirname(target))
    write_whole(target, marked, kept)


def _write_made(
    file: str, make: Callable[[Sequence[Checked]], str], checked: Sequence[Checked], inputs: Sequence[str]
) -> None:
    write_whole(file, make(checked), inputs)


def _make_folder(folder: str) -> None:
    try:
        os.makedirs(folder or ".", exist_ok=True)
    except (OSError, ValueError) as trouble:
        if os.path.exists(folder):
            raise Refused(f"{shown(folder)}: is no folder, so no marked-up copy can be put into it.") from trouble
        why = (trouble.strerror if isinstance(trouble, OSError) else "") or "the name is no file name"
        raise Refused(f"{shown(folder)}: the folder cannot be made ({why}).") from trouble


def _json(checked: Sequence[Checked]) -> str:
    from lint.report.as_json import whole_json

    return whole_json([one.json for one in checked if one.json], sheets(checked))


def _sarif(checked: Sequence[Checked]) -> str:
    from lint.report.sarif import whole_sarif

    return whole_sarif([one.sarif for one in checked if one.sarif])


def _page(checked: Sequence[Checked]) -> str:
    from lint.report.caution import CAUTION
    from lint.report.page import Entry, page
    from lint.rules import RULES

    entries = [Entry(drawing=one.json, title=one.title, marked=one.marked) for one in checked if one.json]
    return page(
        entries,
        rules=[rule.id for rule in RULES],
        heading="Drawings checked",
        sheets=sheets(checked),
        caution=CAUTION,
    )


def sheets(checked: Sequence[Checked]) -> list[str]:
    """The names of the sheets in force, each once."""
    return list(dict.fromkeys(one.sheet for one in checked if one.sheet))
