"""One value of a sheet: what it must be, and the sentence that says so where it is not."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable

from lint.errors import BadSheet
from lint.lengths import parse, parse_pair
from lint.sheet.sheet import Section

Reader = Callable[[object, str], object]  # (value as TOML has it, units of the sheet) -> value; ValueError says why not
LONGEST_TEXT = 1000

# Words that give a role (drawing convention, section 1); a plural s is dropped before they are looked up.
ROLES = {
    "frame": "frame", "scroll": "scroll", "bar": "bar", "picket": "bar", "sample": "sample", "collar": "collar",
    "band": "collar", "rivet": "rivet", "screw": "screw", "weld": "weld", "joint": "joint", "tenon": "joint",
    "mortise": "joint", "end": "end", "finial": "end", "radius": "radius", "radii": "radius", "fillet": "radius",
    "dimension": "dimension", "dim": "dimension", "size": "dimension", "scale": "scale", "note": "note",
    "title": "note", "border": "note", "guide": "note", "construction": "note", "template": "note",
    "background": "note",
}  # fmt: skip


def wrong(*problems: str) -> BadSheet:
    """The error that says these sentences, with what could steer a terminal written out."""
    return BadSheet(tuple(printable(problem) for problem in problems))


def printable(words: str) -> str:
    """The words with every character that does not print written as \\x1b or \\u202e."""
    return "".join(c if c.isprintable() else repr(c)[1:-1] for c in words)


def length(value: object, units: str) -> float:
    """A length in mm from "4 in" or a bare number in `units`."""
    if isinstance(value, str):
        return parse(value, units)
    if isinstance(value, int | float) and not isinstance(value, bool):
        number(value, units)
        return parse(format(value, "f"), units)
    raise ValueError(f'{_found(value)} is not a length (expected like "4 in" or "101.6 mm").')


def above_zero(reader: Reader) -> Reader:
    """The same reader, refusing nothing at all as an answer."""

    def read(value: object, units: str) -> object:
        result = reader(value, units)
        if result == 0:
            raise ValueError(f"{_found(value)} is nothing (expected more than 0).")
        return result

    return read


def number(value: object, units: str) -> float:
    """A finite number that is not negative: a ratio, degrees, bar widths."""
    if not isinstance(value, int | float) or isinstance(value, bool):
        raise ValueError(f"{_found(value)} is not a number (expected like 1.5).")
    if not 0 <= value < 1e9:  # nan is not, either
        raise ValueError(f"{_found(value)} is out of range (expected 0 or more).")
    return float(value)


def at_most(limit: float) -> Reader:
    """A number from 0 to `limit`."""

    def read(value: object, units: str) -> object:
        result = number(value, units)
        if result > limit:
            raise ValueError(f"{_found(value)} is too large (expected {limit:g} or less).")
        return result

    return read


def count(value: object, units: str) -> int:
    """A whole number from 0 to 1000."""
    if not isinstance(value, int) or isinstance(value, bool):
        raise ValueError(f"{_found(value)} is not a whole number (expected like 2).")
    if not 0 <= value <= 1000:
        raise ValueError(f"{_found(value)} is out of range (expected 0 to 1000).")
    return value


def flag(value: object, units: str) -> bool:
    """true or false."""
    if not isinstance(value, bool):
        raise ValueError(f"{_found(value)} is neither true nor false (expected one of them, without quotes).")
    return value


def text(value: object, units: str) -> str:
    """Words, not empty, without control characters."""
    if not isinstance(value, str):
        raise ValueError(f"{_found(value)} is not text (expected words in quotes).")
    if not value.strip() or len(value) > LONGEST_TEXT:
        raise ValueError(f"{_found(value)} is empty or longer than {LONGEST_TEXT} characters (expected words).")
    if any(unicodedata.category(c) == "Cc" and c not in "\t\n" for c in value):
        raise ValueError(f"{_found(value)} has control characters in it (expected words).")
    return value


def one_of(*words: str) -> Reader:
    """One of these words."""

    def read(value: object, units: str) -> object:
        if value in words:
            return value
        from difflib import get_close_matches  # only for a sheet that is wrong

        near = get_close_matches(value, words, 1, 0.6) if isinstance(value, str) and len(value) < 100 else []
        hint = f"; did you mean {near[0]}?" if near else ""
        raise ValueError(f"{_found(value)} is not known here (expected one of: {', '.join(words)}{hint}).")

    return read


def every(reader: Reader, least: int = 0) -> Reader:
    """A list, each of its values read by `reader`, none of them twice."""

    def read(value: object, units: str) -> object:
        if not isinstance(value, list):
            raise ValueError(f"{_found(value)} is not a list (expected like [...]).")
        if not least <= len(value) <= 1000:
            raise ValueError(f"the list has {len(value)} values (expected {least} to 1000).")
        result = tuple(reader(item, units) for item in value)
        if len(set(result)) < len(result):
            raise ValueError("the list names one value twice (expected each once).")
        return result

    return read


def section(value: object, units: str) -> Section:
    """A bar's section: "6 x 12 mm" is width as seen x depth; "Ø12" or "12 mm dia" is round bar."""
    words = text(value, units).strip()
    if found := re.fullmatch(r"(?:(?:[Øø⌀]|dia\.?)\s*(.+)|(.+?)\s*(?:[Øø⌀]|dia\.?|round))", words):
        return Section(width=parse(found[1] or found[2], units), depth=None)
    try:
        width, depth = parse_pair(words, units)
    except ValueError as trouble:
        raise ValueError(f'"{words}" is not a section (expected like "6 x 12 mm" or "12 mm dia").') from trouble
    if not width or not depth:
        raise ValueError(f'"{words}" is no bar (expected like "6 x 12 mm" or "12 mm dia").')
    return Section(width=width, depth=depth)


def role(value: object, units: str) -> str:
    """A role by any of its words, singular or plural."""
    word = text(value, units).strip().casefold()
    found = ROLES.get(word) or ROLES.get(word.removesuffix("s"))
    if found is None:
        raise ValueError(f"{_found(value)} is no role (expected one of: {', '.join(sorted(set(ROLES.values())))}).")
    return found


def standard(value: object, units: str) -> str:
    """ "common practice", or a class of ISO 2768-1 or ISO 13920."""
    return str(
        one_of("common practice", *(f"ISO 2768-{c}" for c in "fmcv"), *(f"ISO 13920-{c}" for c in "ABCD"))(value, units)
    )


def _found(value: object) -> str:
    """The value as the sheet has it, short enough for a sentence."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, dict):
        return "a table"
    if isinstance(value, list):
        return "a list"
    words = f'"{value}"' if isinstance(value, str) else str(value)
    return words if len(words) <= 60 else f"{words[:56]}...{words[-1]}"
