"""TOML -> the values that one file states; every fault of the file named in one go."""

from __future__ import annotations

import os
import re
import stat
import tomllib
from dataclasses import field, replace
from typing import Any

from lint.result import Waiver
from lint.sheet.keys import APART, KEYS, RULE_IDS, SECTIONS, TABLES
from lint.sheet.lines import Lines
from lint.sheet.values import every, one_of, text, wrong
from lint.values import dataclass

LARGEST = 128 * 1024  # bytes; the default sheet is an eighth of it
LONGEST_LINE = 2000  # characters; tomllib takes time by the square of a dotted key's length
_MOST_PROBLEMS = 100


@dataclass(frozen=True, slots=True, kw_only=True)
class Stated:
    """What one file states. `values` maps a key path to its value in mm and degrees, `sources` one to a note;
    `based_on` names what it builds on; `units` is None where the file does not say."""

    path: str
    values: dict[str, Any]
    sources: dict[str, str]
    waive: tuple[Waiver, ...]
    based_on: tuple[str, ...]
    units: str | None

    @property
    def nameless(self) -> Stated:
        """The same without name and title: a limit that is built upon does not name the whole."""
        kept = {key: value for key, value in self.values.items() if key not in ("name", "title")}
        return replace(self, values=kept)


def read_file(path: str) -> bytes:
    """The bytes of a sheet. BadSheet where it is no ordinary file, too large, or cannot be read."""
    try:
        state = os.stat(path)
        if not stat.S_ISREG(state.st_mode):
            raise wrong(f"{path}: is not an ordinary file (expected a requirement sheet in TOML).")
        if state.st_size > LARGEST:
            raise wrong(f"{path}: has {state.st_size:,} bytes (a sheet has {LARGEST:,} at most).")
        with open(path, "rb") as file:
            return file.read(LARGEST + 1)
    except (OSError, ValueError) as trouble:
        why = trouble.strerror if isinstance(trouble, OSError) else "the name is no file name"
        raise wrong(f"{path}: cannot be read ({why}).") from trouble


def parse_toml(data: bytes, path: str) -> dict[str, Any]:
    """The file as TOML has it. BadSheet with the line where it is no TOML."""
    try:
        words = data.decode("utf-8-sig")
        if long := next((n for n, line in enumerate(words.splitlines(), 1) if len(line) > LONGEST_LINE), None):
            raise wrong(f"{path}:{long}: the line has more than {LONGEST_LINE:,} characters; break it up.")
        return tomllib.loads(words)
    except UnicodeDecodeError as trouble:
        raise wrong(f"{path}: is not written in UTF-8 (byte {trouble.start}); save it as UTF-8.") from trouble
    except RecursionError as trouble:
        raise wrong(f"{path}: nests too deep (expected tables and plain lists).") from trouble
    except ValueError as trouble:
        raise wrong(_no_toml(path, str(trouble))) from trouble


def _no_toml(path: str, trouble: str) -> str:
    found = re.search(r"^(.*?) \(at line (\d+), column (\d+)\)$", trouble, re.DOTALL)
    where, what = (f"{path}:{found[2]}", found[1]) if found else (path, trouble)
    hint = " Put lengths and words in quotes." if "Invalid value" in what or "Expected newline" in what else ""
    return f"{where}: is no TOML: {what[:200]}.{hint}"


def read_sheet(data: bytes, path: str, units: str | None = None) -> Stated:
    """What the file states. `units` is the unit of a bare number where the file does not name one.

    BadSheet holds one sentence for each fault: file, line, key path, what was found, what was expected.
    """
    taking = _Taking(path=path, lines=Lines(data.decode("utf-8-sig", "replace")), tree=parse_toml(data, path))
    based_on = taking.based_on()
    own = taking.one("units", taking.tree["units"], "mm") if "units" in taking.tree else None
    taking.values_in(own or units or "mm")
    taking.sources_in()
    waive = taking.waivers()
    if taking.problems:
        left_out = len(taking.problems) - _MOST_PROBLEMS
        more = (f"{path}: {left_out} more faults.",) if left_out > 0 else ()
        raise wrong(*taking.problems[:_MOST_PROBLEMS], *more)
    return Stated(
        path=path, values=taking.values, sources=taking.sources, waive=waive, based_on=based_on, units=own or units
    )


@dataclass(slots=True, kw_only=True)
class _Taking:
    """One pass over one file: what was taken, and what was wrong."""

    path: str
    lines: Lines
    tree: dict[str, Any]
    values: dict[str, Any] = field(default_factory=dict)
    sources: dict[str, str] = field(default_factory=dict)
    problems: list[str] = field(default_factory=list)

    def wrong(self, key: str, sentence: str) -> None:
        line = self.lines.of(key)
        where = f"{self.path}:{line}" if line else self.path
        self.problems.append(f"{where}: {key[:120]}: {sentence}")

    def one(self, key: str, value: object, units: str, reader: Any = None) -> Any:
        """The value under a known key, or None with a problem."""
        try:
            return (reader or KEYS[key])(value, units)
        except ValueError as trouble:
            self.wrong(key, str(trouble))
            return None

    def values_in(self, units: str) -> None:
        """Every key of every section, known or not."""
        for key, value in self.flat():
            table = next((t for t in TABLES if key.startswith(f"{t}.")), None)
            if table is None and key not in KEYS:
                self.wrong(key, self.no_such(key))
                continue
            self.values[key] = self.one(key, value, units, TABLES[table] if table else None)

    def flat(self) -> list[tuple[str, object]]:
        """(key path, value), hyphens in the names of sections and keys read as underscores."""
        found: list[tuple[str, object]] = []
        for head, value in self.tree.items():
            name = head.replace("-", "_")
            if name in APART or (name == "units" and value not in ("mm", "in")):  # which was said already
                continue
            if name in TABLES or name in SECTIONS:
                found += self.section(name, value)
            else:
                found.append((name if name in KEYS else head, value))
        return found

    def section(self, name: str, value: object) -> list[tuple[str, object]]:
        if not isinstance(value, dict):
            self.wrong(name, f"is not a section (expected [{name}] and keys under it).")
            return []
        if name in TABLES:
            return [(f"{name}.{word}", stated) for word, stated in value.items()]
        found: list[tuple[str, object]] = []
        for head, stated in value.items():
            key = f"{name}.{head.replace('-', '_')}"
            if key in TABLES:
                found += self.section(key, stated)
            else:
                found.append((key, stated))
        return found

    def no_such(self, key: str) -> str:
        """What to say of an unknown key: the nearest known one, or what the section has."""
        from difflib import get_close_matches  # only for a sheet that is wrong

        known = [*KEYS, *TABLES, *APART]
        section, _, name = key.rpartition(".")
        if not section and key not in SECTIONS and isinstance(self.tree.get(key), dict):
            near = get_close_matches(key, (*SECTIONS, *TABLES, "sources"), 1, 0.5)
            return (
                f"no such section (did you mean [{near[0]}]?)."
                if near
                else f"no such section (known: {', '.join(SECTIONS)})."
            )
        near = get_close_matches(key, known, 1, 0.75) or [k for k in known if k.endswith(f".{name or key}")][:1]
        if near:
            return f"no such key (did you mean {near[0]}?)."
        inside = [k.rpartition(".")[2] for k in known if section and k.startswith(f"{section}.")]
        return f"no such key (known in [{section}]: {', '.join(inside)})." if inside else "no such key."

    def based_on(self) -> tuple[str, ...]:
        """The sheets that this one builds on, in order."""
        value = self.tree.get("based_on", [])
        names = self.one("based_on", [value] if isinstance(value, str) else value, "mm", every(text))
        return tuple(names or ())

    def sources_in(self) -> None:
        """[sources]: a note for any key, under the key's own path."""
        tree = self.tree.get("sources", {})
        if not isinstance(tree, dict):
            return self.wrong("sources", "is not a section (expected [sources.frame] and keys under it).")
        for key, note in _leaves(tree):
            path = _underscored(key)
            if path not in KEYS and path not in TABLES and not any(path.startswith(f"{t}.") for t in TABLES):
                self.wrong(f"sources.{key}", self.no_such(path))
            else:
                self.sources[path] = self.one(f"sources.{key}", note, "mm", text)
        return None

    def waivers(self) -> tuple[Waiver, ...]:
        """[[waive]]: what may fail, where, and why."""
        stated = self.tree.get("waive", [])
        if not isinstance(stated, list) or not all(isinstance(item, dict) for item in stated):
            self.wrong("waive", "is not a list of waivers (expected [[waive]] with drawing, rule and reason).")
            return ()
        return tuple(filter(None, (self.waiver(number, item) for number, item in enumerate(stated, 1))))

    def waiver(self, number: int, item: dict[str, Any]) -> Waiver | None:
        key, said = f"waive {number}", dict[str, str]()
        for unknown in item.keys() - {"drawing", "rule", "reason"}:
            self.wrong(f"{key}.{unknown}", "no such key (a waiver has drawing, rule and reason).")
        for name in ("drawing", "rule", "reason"):
            if name not in item:
                self.wrong(key, f"has no {name} (a waiver needs a drawing, a rule and a reason).")
            elif value := self.one(f"{key}.{name}", item[name], "mm", one_of(*RULE_IDS) if name == "rule" else text):
                said[name] = value
        return Waiver(**said, sheet=self.path) if len(said) == 3 else None


def _leaves(tree: dict[str, Any], above: str = "", depth: int = 3) -> list[tuple[str, object]]:
    """(path, value) of all that is no table; below `depth` a table is a value (and so refused)."""
    found: list[tuple[str, object]] = []
    for name, value in tree.items():
        path = f"{above}.{name}" if above else name
        found += _leaves(value, path, depth - 1) if isinstance(value, dict) and depth > 1 else [(path, value)]
    return found


def _underscored(key: str) -> str:
    """The key path with hyphens read as underscores, save in the instructor's own words."""
    for table in TABLES:
        if key.replace("-", "_").startswith(f"{table}."):
            return table + key[len(table) :]
    return key.replace("-", "_")
