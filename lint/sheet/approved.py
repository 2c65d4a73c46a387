"""What was agreed: the approval record beside the drawing, handed over with the sheet.

The record is a TOML file, DRAWING.approval.toml, with one [[revision]] for each approval, the last one in force.
"""

from __future__ import annotations

import os
import tomllib
from collections.abc import Callable, Mapping
from typing import Any, TypeVar

from lint.errors import BadRecord
from lint.values import dataclass

VERSION = 1
ENDING = ".approval.toml"
_MOST = 20 * 1024 * 1024
Value = TypeVar("Value")


@dataclass(frozen=True, slots=True, kw_only=True)
class Agreed:
    """One part as it was approved. `what` are its words (C, S, rivet, mortise and tenon, an end's name); `figures`
    its numbers in mm or degrees, points from the frame's upper left outside corner."""

    kind: str
    name: str
    what: str
    figures: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """A measure that the forged piece must meet: `value` and `limit` (either side) in `unit` ("mm" or "deg"), `at`
    in mm from the frame's corner. `most` is a figure that must not be reached at all (a ball), or None.
    `basis` says where the limit comes from."""

    number: int
    what: str
    of: str
    value: float
    limit: float
    unit: str
    at: tuple[float, float]
    basis: str
    most: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Revision:
    """One approval: who, when, against which sheet, of which geometry."""

    number: int
    by: str
    on: str
    sheet: str
    sheet_digest: str
    geometry_digest: str
    waivers: tuple[tuple[str, str], ...]  # rule, reason
    parts: tuple[Agreed, ...]
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Approved:
    """The whole record: its path, the drawing it was made of, and its revisions, oldest first."""

    path: str
    drawing: str
    revisions: tuple[Revision, ...]

    @property
    def last(self) -> Revision:
        """The revision in force."""
        return self.revisions[-1]


def record_path(drawing: str) -> str:
    """Where the record of a drawing lies: side-gate.svg -> side-gate.svg.approval.toml."""
    return f"{drawing}{ENDING}"


def approved_for(drawing: str) -> Approved | None:
    """The record beside the drawing, or None where there is none. Raises BadRecord."""
    path = record_path(drawing)
    if drawing == "-" or not os.path.exists(path):
        return None
    try:
        if os.path.getsize(path) > _MOST:
            raise BadRecord(f"{path}: is larger than 20 MB, so it is no approval record.")
        with open(path, "rb") as file:
            return read_record(tomllib.load(file), path)
    except OSError as trouble:
        raise BadRecord(f"{path}: cannot be read ({trouble.strerror}).") from trouble
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as trouble:
        raise BadRecord(f"{path}: is no TOML ({trouble}). Take the record back from your history.") from trouble


def read_record(table: Mapping[str, Any], path: str) -> Approved:
    """The record from its TOML table. Raises BadRecord with the first thing that is not as it was written."""
    if table.get("version") != VERSION:
        raise BadRecord(f"{path}: version: {table.get('version')!r} (expected {VERSION}).")
    revisions = _every(table, "revision", path, _revision)
    if not revisions:
        raise BadRecord(f"{path}: holds no [[revision]], so nothing was approved.")
    return Approved(path=path, drawing=_want(table, "drawing", str, path), revisions=revisions)


def _revision(table: Mapping[str, Any], at: str) -> Revision:
    return Revision(
        number=_want(table, "number", int, at),
        by=_want(table, "by", str, at),
        on=_want(table, "on", str, at),
        sheet=_want(table, "sheet", str, at),
        sheet_digest=_want(table, "sheet_digest", str, at),
        geometry_digest=_want(table, "geometry_digest", str, at),
        waivers=_every(
            table, "waiver", at, lambda t, where: (_want(t, "rule", str, where), _want(t, "reason", str, where))
        ),
        parts=_every(table, "part", at, _agreed),
        points=_every(table, "point", at, _point),
    )


def _agreed(table: Mapping[str, Any], at: str) -> Agreed:
    kind, name, what = (_want(table, key, str, at) for key in ("kind", "name", "what"))
    return Agreed(kind=kind, name=name, what=what, figures=_figures(table, "figures", at))


def _point(table: Mapping[str, Any], at: str) -> Point:
    where = _figures(table, "at", at)
    if len(where) != 2:
        raise BadRecord(f"{at}.at: {len(where)} numbers (expected 2).")
    return Point(
        number=_want(table, "number", int, at),
        what=_want(table, "what", str, at),
        of=_want(table, "of", str, at),
        value=_number(table, "value", at),
        limit=_number(table, "limit", at),
        unit=_want(table, "unit", str, at),
        at=(where[0], where[1]),
        basis=_want(table, "basis", str, at),
        most=_number(table, "most", at) if "most" in table else None,
    )


def _every(
    table: Mapping[str, Any], key: str, at: str, read: Callable[[Mapping[str, Any], str], Value]
) -> tuple[Value, ...]:
    rows = table.get(key, [])
    if not isinstance(rows, list) or not all(isinstance(row, dict) for row in rows):
        raise BadRecord(f"{at}: {key}: expected a list of tables.")
    return tuple(read(row, f"{at}: {key} {n}") for n, row in enumerate(rows, 1))


def _want(table: Mapping[str, Any], key: str, kind: type[Value], at: str) -> Value:
    value = table.get(key)
    if not isinstance(value, kind) or isinstance(value, bool):
        raise BadRecord(f"{at}: {key}: {value!r} (expected {'words' if kind is str else 'a whole number'}).")
    return value


def _number(table: Mapping[str, Any], key: str, at: str) -> float:
    return _figure(table.get(key), f"{at}: {key}")


def _figures(table: Mapping[str, Any], key: str, at: str) -> tuple[float, ...]:
    values = table.get(key)
    if not isinstance(values, list):
        raise BadRecord(f"{at}: {key}: {values!r} (expected a list of numbers).")
    return tuple(_figure(value, f"{at}: {key}") for value in values)


def _figure(value: object, at: str) -> float:
    if not isinstance(value, int | float) or isinstance(value, bool) or not abs(value) < 1e9:
        raise BadRecord(f"{at}: {value!r} (expected a number).")
    return float(value)
