"""From what each file states to one Sheet: later files win, and the whole must make sense."""

from __future__ import annotations

import hashlib
import json
import re
import unicodedata
from collections.abc import Mapping, Sequence
from dataclasses import asdict, fields, is_dataclass
from typing import Any, get_type_hints

from lint.sheet.keys import KEYS, TABLES
from lint.sheet.read import Stated
from lint.sheet.sheet import Sheet
from lint.sheet.values import wrong

COLOUR = re.compile(r"#(?:[0-9a-f]{3}|[0-9a-f]{6})", re.IGNORECASE)
_SEPARATORS = str.maketrans(dict.fromkeys("_-.:/#()", " "))
_UNSEEN = {"name", "title", "path", "digest", "waive", "origins", "sources", "warnings", "approved"}


def whole(files: Sequence[Stated], path: str | None) -> Sheet:
    """One Sheet of all that `files` state, what is based on before what builds on it.

    BadSheet where a value is missing, or where two values do not go together.
    """
    values: dict[str, Any] = {}
    origins: dict[str, str] = {}
    for file in files:
        values |= file.values
        origins |= dict.fromkeys(file.values, file.path)
    _refuse_missing(values, files[-1].path)
    _refuse_senseless(values, origins)
    warnings = _warnings(values, files)
    layers = {name: role for name, role in _table(values, "layers").items() if not COLOUR.fullmatch(name)}
    colours = {six(name): role for name, role in _table(values, "layers").items() if COLOUR.fullmatch(name)}
    sheet = dict(
        {name: _section(kind, name, values) for name, kind in get_type_hints(Sheet).items() if is_dataclass(kind)},
        **{name: values[name] for name in ("name", "title", "units", "rules_off")},
        path=path,
        layers={name.strip(): role for name, role in layers.items()},
        colours=colours,
        waive=tuple(waiver for file in files for waiver in file.waive),
        origins=origins,
        sources=_sources(files, origins),
        warnings=warnings,
    )
    return Sheet(digest=_digest(sheet), **sheet)


def _table(values: Mapping[str, Any], table: str) -> dict[str, Any]:
    return {key[len(table) + 1 :]: value for key, value in values.items() if key.startswith(f"{table}.")}


def _section(kind: Any, name: str, values: Mapping[str, Any]) -> Any:
    """One section as its class."""
    keys = {field.name: f"{name}.{field.name}" for field in fields(kind)}
    return kind(**{n: _table(values, key) if key in TABLES else values[key] for n, key in keys.items()})


def _refuse_missing(values: Mapping[str, Any], path: str) -> None:
    missing = [key for key in KEYS if key not in values]
    if missing:
        some = ", ".join(missing[:3]) + (", ..." if len(missing) > 3 else "")
        mend = 'Put based_on = "two-corner-panel" at its top to take what it does not say from there.'
        raise wrong(f"{path}: does not say {len(missing)} of {len(KEYS)} values ({some}). {mend}")


def _refuse_senseless(values: Mapping[str, Any], origins: Mapping[str, str]) -> None:
    """Values that are each possible, but not together."""
    senseless = [f"{origins[key]}: {key}: {sentence}" for key, sentence in _senseless(values)]
    if senseless:
        raise wrong(*senseless)


def _senseless(values: Mapping[str, Any]) -> list[tuple[str, str]]:
    found = []
    if values["pass_through.band"] >= values["pass_through.sphere"]:
        found.append(("pass_through.band", "is as large as pass_through.sphere itself (expected less)."))
    if values["clearance.clear"] <= values["tolerances.contact"]:
        found.append(
            ("clearance.clear", "is no more than tolerances.contact (expected more: what touches is not close).")
        )
    found += _spoken_twice(_table(values, "scroll_ends.vocabulary"))
    return found


def _spoken_twice(vocabulary: Mapping[str, tuple[str, ...]]) -> list[tuple[str, str]]:
    """Words that would name two ends."""
    owner: dict[str, str] = {}
    found = []
    for name, synonyms in vocabulary.items():
        for word in (name, *synonyms):
            first = owner.setdefault(as_names_are(word), name)
            if first != name:
                key = f"scroll_ends.vocabulary.{name}"
                found.append((key, f'"{word}" already names the end "{first}" (expected each word for one end).'))
    return found


def _sources(files: Sequence[Stated], origins: Mapping[str, str]) -> dict[str, str]:
    """The note of each value, from the file that set the value: a new value does not keep an old note."""
    notes: dict[str, str] = {}
    for key, origin in origins.items():
        table = next((t for t in TABLES if key.startswith(f"{t}.")), key)
        file = next(f for f in reversed(files) if f.path == origin)
        if note := file.sources.get(key) or file.sources.get(table):
            notes[key] = note
    for key in ("pass_through.sphere", "pass_through.strict"):
        if origins[key] == origins["pass_through.source"]:
            notes.setdefault(key, _value(files, "pass_through.source"))
    return notes


def _value(files: Sequence[Stated], key: str) -> str:
    return next(str(f.values[key]) for f in reversed(files) if key in f.values)


def _warnings(values: dict[str, Any], files: Sequence[Stated]) -> tuple[str, ...]:
    """Sentences on the sheet itself. A limit without a source loses the source of the limit it replaced."""
    said = []
    last = next(f for f in reversed(files) if "pass_through.sphere" in f.values)
    after = files[files.index(last) :]
    if not any("pass_through.source" in file.values for file in after):
        values["pass_through.source"] = f"no source stated in {last.path}"
        said.append(
            f"{last.path}: pass_through.sphere has no source; say where the limit comes from in pass_through.source."
        )
    if "pass-through" in values["rules_off"]:
        said.append(f"{files[-1].path}: this sheet switches pass-through off: no opening is held to a limit.")
    return tuple(said)


def six(colour: str) -> str:
    """ "#C00" as "#cc0000"."""
    small = colour.casefold()
    return small if len(small) == 7 else "#" + "".join(c * 2 for c in small[1:])


def as_names_are(name: str) -> str:
    """As names on a drawing are compared: NFKC, case folded, separators as spaces, white space folded."""
    return " ".join(unicodedata.normalize("NFKC", name).casefold().translate(_SEPARATORS).split())


def _plain(value: Any) -> Any:
    return asdict(value) if is_dataclass(value) and not isinstance(value, type) else value


def _digest(sheet: Mapping[str, Any]) -> str:
    """SHA-256 over all that a rule can see; notes, names and waivers leave it alone."""
    seen = {key: _plain(value) for key, value in sheet.items() if key not in _UNSEEN}
    seen["pass_through"] = {key: value for key, value in seen["pass_through"].items() if key != "source"}
    return hashlib.sha256(json.dumps(seen, sort_keys=True, ensure_ascii=True).encode()).hexdigest()
