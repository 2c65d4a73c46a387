"""A sheet in words: TOML that can be read back, with the source of every value above it."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass
from textwrap import wrap
from typing import Any

from lint.lengths import INCH, say
from lint.sheet.keys import COUNTED, TABLES
from lint.sheet.sheet import Section, Sheet
from lint.shown import plain

_WIDTH = 100


def as_toml(sheet: Sheet) -> str:
    """The whole sheet as TOML, each value under the note of where it comes from and the file that sets it.

    Read back, it gives the same values to the last digit.
    """
    lines = [f"# Requirement sheet in force: {_origin(sheet)}"]
    for warning in sheet.warnings:
        lines += _note(warning)
    for key in ("name", "title", "units", "rules_off"):
        lines.append(f"{key} = {_plain(getattr(sheet, key))}")
    for field in fields(sheet):
        part = getattr(sheet, field.name)
        if is_dataclass(part):
            lines += ["", *_section(sheet, field.name, part)]
    lines += ["", *_layers(sheet), *_waivers(sheet)]
    return plain("\n".join(lines) + "\n", keep="\n")


def values_of(sheet: Sheet, section: str) -> tuple[tuple[str, str], ...]:
    """(key, value with its unit) of one section, for a person: ("pass_through.sphere", "101.6 mm")."""
    part = getattr(sheet, section, None)
    if not is_dataclass(part):
        return ()
    keys = [field.name for field in fields(part) if f"{section}.{field.name}" not in TABLES]
    return tuple((f"{section}.{key}", _for_people(sheet, f"{section}.{key}", getattr(part, key))) for key in keys)


def _origin(sheet: Sheet) -> str:
    return sheet.path or f"{sheet.name}, which comes with grille-lint"


def _section(sheet: Sheet, name: str, part: Any) -> Iterator[str]:
    tables = []
    yield f"[{name}]"
    for field in fields(part):
        key, value = f"{name}.{field.name}", getattr(part, field.name)
        if key in TABLES:
            tables.append((key, value))
            continue
        yield from _note(_source(sheet, key))
        yield f"{field.name} = {_value(sheet, key, value)}{_counted(sheet, key, value)}"
    for key, table in tables:
        yield from ("", *_table(sheet, key, table))


def _table(sheet: Sheet, key: str, table: Mapping[str, Any]) -> Iterator[str]:
    yield f"[{key}]"
    for name, value in table.items():
        yield from _note(_source(sheet, f"{key}.{name}"))
        yield f"{_quoted(name)} = {_plain(value)}"


def _layers(sheet: Sheet) -> Iterator[str]:
    yield "[layers]"
    for name, role in (*sheet.layers.items(), *sheet.colours.items()):
        yield f"{_quoted(name)} = {_quoted(role)}"


def _waivers(sheet: Sheet) -> Iterator[str]:
    for waiver in sheet.waive:
        yield from ("", *_note(f"in {waiver.sheet}"), "[[waive]]", f"drawing = {_quoted(waiver.drawing)}")
        yield from (f"rule = {_quoted(waiver.rule)}", f"reason = {_quoted(waiver.reason)}")


def _source(sheet: Sheet, key: str) -> str:
    if key == "pass_through.source":
        return ""
    note = sheet.sources.get(key, "no source stated")
    return f"{note} [{sheet.origins.get(key, 'not stated')}]"


def _note(words: str) -> list[str]:
    folded = " ".join(plain(words).split())
    return wrap(folded, _WIDTH, initial_indent="# ", subsequent_indent="#   ", break_on_hyphens=False)


def _value(sheet: Sheet, key: str, value: Any) -> str:
    """The value as TOML: a length with its unit, all else as it is."""
    if isinstance(value, Section):
        return _quoted(_bar(sheet, value))
    if isinstance(value, float) and key not in COUNTED:
        return _quoted(_length(value, sheet.units))
    if key in ("stock.sizes", "stock.lengths"):
        return f"[{', '.join(_quoted(_length(size, sheet.units)) for size in value)}]"
    return _plain(value)


def _counted(sheet: Sheet, key: str, value: Any) -> str:
    """What a plain number counts, or an inch size beside millimetres, as a comment."""
    if COUNTED.get(key):
        return f"  # {COUNTED[key]}"
    if isinstance(value, float) and key not in COUNTED and sheet.units == "mm":
        inches = say(value, "in")
        return "" if "(" in inches or value == 0 else f"  # {inches}"
    return ""


def _bar(sheet: Sheet, bar: Section) -> str:
    width = _length(bar.width, sheet.units)
    return f"{width} dia" if bar.depth is None else f"{width} x {_length(bar.depth, sheet.units)}"


def _length(mm: float, units: str) -> str:
    """To the last digit: inches where they come out even, else millimetres."""
    inches = say(mm, "in")
    if units == "in" and "(" not in inches and abs(round(mm / INCH * 32) * INCH / 32 - mm) < 1e-12:
        return inches
    return f"{mm:.15g} mm" if float(f"{mm:.15g}") == mm else f"{mm!r} mm"


def _for_people(sheet: Sheet, key: str, value: Any) -> str:
    if isinstance(value, float) and key not in COUNTED:
        return say(value, sheet.units)
    if isinstance(value, tuple):
        return plain(", ".join(str(item) for item in value))
    if isinstance(value, bool):
        return "yes" if value else "no"
    words = f"{value:g}" if isinstance(value, float) else str(value)
    return plain(" ".join(filter(None, (words, COUNTED.get(key, "")))))


def _plain(value: Any) -> str:
    if isinstance(value, tuple):
        return f"[{', '.join(_plain(item) for item in value)}]"
    if isinstance(value, bool):
        return str(value).lower()
    return _quoted(value) if isinstance(value, str) else repr(value)


def _quoted(words: str) -> str:
    """A TOML basic string: JSON's escapes are TOML's too, and what does not print is escaped as well."""
    return "".join(c if c.isprintable() else _escaped(c) for c in json.dumps(words, ensure_ascii=False))


def _escaped(c: str) -> str:
    return f"\\u{ord(c):04x}" if ord(c) < 0x10000 else f"\\U{ord(c):08x}"
