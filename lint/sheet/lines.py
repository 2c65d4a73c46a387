"""On which line of a sheet a key stands: tomllib does not say, and a person wants to go there."""

from __future__ import annotations

import re

_TABLE = re.compile(r"\s*\[\[?\s*([^\[\]]+?)\s*\]\]?\s*(?:#.*)?$")
_KEY = re.compile(r"""\s*((?:"[^"\n]*"|'[^'\n]*'|[\w-]+)(?:\s*\.\s*(?:"[^"\n]*"|'[^'\n]*'|[\w-]+))*)\s*=""")
_INLINE = re.compile(r"""[{,]\s*("[^"\n]*"|'[^'\n]*'|[\w-]+)\s*=""")
_PART = re.compile(r""""([^"\n]*)"|'([^'\n]*)'|([^\s."']+)""")


class Lines:
    """Key paths of one file and their 1-based lines; a good guess, never needed to be right. The text is looked
    through when a line is first asked for: a sound sheet never asks."""

    def __init__(self, text: str) -> None:
        self._text = text
        self._found: dict[str, int] = {}

    def _look_through(self) -> None:
        table, waivers = "", 0
        for number, line in enumerate(self._text.splitlines(), 1):
            if len(line) > 2000:
                continue
            if head := _TABLE.match(line):
                table = _path(head[1])
                if line.lstrip().startswith("[["):
                    waivers += 1
                    table = f"{table} {waivers}"
                self._found.setdefault(table, number)
            elif key := _KEY.match(line):
                self._keep(table, key[1], line[key.end() :], number)

    def _keep(self, table: str, key: str, rest: str, number: int) -> None:
        path = _path(key) if not table else f"{table}.{_path(key)}"
        self._found.setdefault(path, number)
        if rest.lstrip().startswith("{"):
            for inner in _INLINE.finditer(rest):
                self._found.setdefault(f"{path}.{_path(inner[1])}", number)

    def of(self, key: str) -> int | None:
        """The line of a key path, of what holds it where the key itself is not found, or None."""
        if not self._found:
            self._look_through()
        while key:
            if line := self._found.get(key) or self._found.get(key.replace("-", "_")):
                return line
            key = key.rpartition(".")[0]
        return None


def _path(words: str) -> str:
    parts = [a or b or c.replace("-", "_") for a, b, c in _PART.findall(words)]
    return ".".join(parts)
