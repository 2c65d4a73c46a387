"""The measuring sheet that was filled in at the bench, read back: numbers to what was written beside them."""

from __future__ import annotations

import csv
import io
import os
import re
from collections.abc import Sequence

from lint.errors import BadRecord
from lint.lengths import parse
from lint.sheet.approved import Point
from lint.values import dataclass

_MOST = 2 * 1024 * 1024
_NUMBER = ("number", "no", "nr", "#", "point")
_MEASURED = ("measured", "forged", "found")
_LEFT_EMPTY = {"", "-", "–", "n/a", "?"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """What was measured at one point, in the point's unit (mm or deg), or None where nothing was written."""

    number: int
    value: float | None


def read_readings(path: str, points: Sequence[Point], units: str) -> dict[int, Reading]:
    """The filled-in sheet: a CSV with a column "number" and a column "measured", comma, semicolon or tab between.

    Lengths are written as smiths write them; a bare number is in `units`. Raises BadRecord with one sentence for
    each line that cannot be read, all at once.
    """
    rows = _rows(path)
    head = [cell.strip().casefold() for cell in rows[0]] if rows else []
    number_at, measured_at = (_column(head, names, path) for names in (_NUMBER, _MEASURED))
    known = {point.number: point for point in points}
    found: dict[int, Reading] = {}
    problems: list[str] = []
    for line, row in enumerate(rows[1:], 2):
        try:
            reading = _reading(row, number_at, measured_at, known, units)
        except ValueError as trouble:
            problems.append(f"{path}:{line}: {trouble}")
            continue
        if reading is not None and reading.number in found:
            problems.append(f"{path}:{line}: point {reading.number} stands there twice.")
        elif reading is not None:
            found[reading.number] = reading
    if problems:
        raise BadRecord("\n".join(problems[:50]))
    return found


def _rows(path: str) -> list[list[str]]:
    try:
        if os.path.getsize(path) > _MOST:
            raise BadRecord(f"{path}: is larger than 2 MB, so it is no measuring sheet.")
        with open(path, "rb") as file:
            data = file.read(_MOST)
    except OSError as trouble:
        raise BadRecord(f"{path}: cannot be read ({trouble.strerror}).") from trouble
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        text = data.decode("cp1252", "replace")
    first = text.split("\n", 1)[0]
    between = max(",;\t", key=first.count)
    try:
        return [row for row in csv.reader(io.StringIO(text), delimiter=between) if any(cell.strip() for cell in row)]
    except csv.Error as trouble:
        raise BadRecord(f"{path}: is no CSV table ({trouble}).") from trouble


def _column(head: list[str], names: tuple[str, ...], path: str) -> int:
    for name in names:
        if name in head:
            return head.index(name)
    raise BadRecord(
        f'{path}: has no column "{names[0]}" in its first line. '
        "Fill in the sheet that grille-lint compare --measuring-sheet writes."
    )


def _reading(row: list[str], number_at: int, measured_at: int, known: dict[int, Point], units: str) -> Reading | None:
    label = row[number_at].strip() if number_at < len(row) else ""
    if not re.fullmatch(r"\d{1,6}", label):
        raise ValueError(f"{label!r} is no point's number.")
    number = int(label)
    if number not in known:
        raise ValueError(f"the approval has no point {number}.")
    written = row[measured_at].strip() if measured_at < len(row) else ""
    if written.casefold() in _LEFT_EMPTY:
        return Reading(number=number, value=None)
    return Reading(number=number, value=_value(written, known[number].unit, units))


def _value(written: str, unit: str, units: str) -> float:
    if unit != "deg":
        return parse(written, units)
    plain = written.replace(",", ".").rstrip("°º").removesuffix("deg").strip()
    if not re.fullmatch(r"\d{1,3}(\.\d{1,6})?", plain):
        raise ValueError(f'"{written}" is no angle (expected like 90 or 89.5).')
    return float(plain)
