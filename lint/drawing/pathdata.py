"""The grammar of path data (SVG 1.1, 8.3.9): a string -> commands with their numbers, up to the first error."""

from __future__ import annotations

import itertools
import math
import re
from collections.abc import Iterator

from lint.drawing.values import LARGEST_NUMBER, LONGEST_NUMBER, BadNumber, number
from lint.values import dataclass

# Possessive quantifiers throughout: each character is looked at once, whatever the string.
_NUMBER = r"[+-]?+(?:[0-9]++(?:\.[0-9]*+)?+|\.[0-9]++)(?:[eE][+-]?+[0-9]++)?+"
_BLANKS = r"[ \t\r\n\f]*+"
_GAP = rf"{_BLANKS}(?:,{_BLANKS})?+"
_LIST = re.compile(rf"{_BLANKS}(?:{_NUMBER}(?:{_GAP}{_NUMBER})*+)?+{_BLANKS}")
# Numbers apart, as most editors write them: of the letters and no longer than one may be.
_WORD = rf"[-+.0-9eE]{{1,{LONGEST_NUMBER}}}+"
_ALL_APART = rf"{_BLANKS}{_WORD}(?:[, \t\r\n\f]{_BLANKS}{_WORD})*+{_BLANKS}"
_APART = re.compile(_ALL_APART)
_LETTERS = "MmZzLlHhVvCcSsQqTtAa"
_COMMAND = re.compile(rf"{_BLANKS}([{_LETTERS}])(?:({_ALL_APART})(?=[{_LETTERS}]|\Z)|([^{_LETTERS}]*+))")
_FIGURE = re.compile(_NUMBER)
_NEXT = re.compile(rf"{_GAP}({_NUMBER})")
# The two flags are one digit each and may be glued to what follows: "a1 1 0 0110 10".
_ARC = re.compile(
    rf"{_GAP}({_NUMBER}){_GAP}({_NUMBER}){_GAP}({_NUMBER}){_GAP}([01]){_GAP}([01]){_GAP}({_NUMBER}){_GAP}({_NUMBER})"
)
MOST_SEGMENTS = 500_000  # in one path; an arc counts as the eight pieces it may become
COUNT = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "A": 7, "Z": 0}


@dataclass(frozen=True, slots=True)
class Fault:
    """Where path data stops being path data: `at` counts characters from 0, `expected` says what should stand there."""

    at: int
    expected: str


Command = tuple[str, list[float]]


class TooMany(ValueError):
    """More segments than any drawing needs."""


def commands(data: str) -> tuple[list[Command], Fault | None]:
    """The commands of `data` with all complete sets of numbers before the first error, and the error.

    Raises BadNumber for a number that is too long, too large or not finite, TooMany over 500,000 segments.
    """
    found: list[Command] = []
    segments = 0
    at, end = 0, len(data.rstrip(" \t\r\n\f"))
    while at < end:
        step = _COMMAND.match(data, at)
        if not step:
            return found, Fault(_after_blanks(data, at), "a command letter")
        letter, apart, other = step.groups()
        if not found and letter not in "Mm":
            return found, Fault(step.start(1), "M or m, for a path begins with a move")
        numbers, fault = _numbers(letter, apart or other, step.end(1), apart is not None)
        if numbers or letter in "Zz":
            found.append((letter, numbers))
        segments += len(numbers) // (COUNT[letter.upper()] or 1) * (8 if letter in "Aa" else 1)
        if segments > MOST_SEGMENTS:
            raise TooMany
        if fault:
            return found, fault
        at = step.end()
    return found, None


def _after_blanks(data: str, at: int) -> int:
    return len(data) - len(data[at:].lstrip(" \t\r\n\f"))


def _numbers(letter: str, args: str, start: int, apart: bool) -> tuple[list[float], Fault | None]:
    each = COUNT[letter.upper()]
    if each == 0:
        blank = not args.strip(" \t\r\n\f")
        return [], None if blank else Fault(_after_blanks(args, 0) + start, "a command letter")
    if len(args) > 2 * each * MOST_SEGMENTS:  # so many characters may be too many numbers to hold in memory
        _count(args, each * MOST_SEGMENTS)
    if each == 7:
        numbers, at = _arcs(args)
    else:
        numbers, at = _listed(args, apart)
    over = len(numbers) % each
    if over or not numbers or args[at:].strip(" \t\r\n\f"):
        what = "a number" if over or not numbers else "a number or a command letter"
        return numbers[: len(numbers) - over], Fault(start + _after_blanks(args, at), what)
    return numbers, None


def _count(args: str, most: int) -> None:
    if sum(1 for _ in itertools.islice(_FIGURE.finditer(args), most + 1)) > most:
        raise TooMany


def _listed(args: str, apart: bool) -> tuple[list[float], int]:
    """The numbers of a list up to its first error, and where that is; `apart` where blanks or commas part them all."""
    if apart:
        try:
            return _bounded(args.replace(",", " ").split()), len(args)
        except ValueError:  # glued to one another, or none
            pass
    if _LIST.fullmatch(args):
        return _checked(_FIGURE.findall(args)), len(args)
    return _up_to_error(args)


def _checked(texts: list[str]) -> list[float]:
    numbers = _bounded(texts)
    if max(map(len, texts), default=0) > LONGEST_NUMBER:
        raise BadNumber(f"a number of {max(map(len, texts)):,} characters (at most {LONGEST_NUMBER} are read)")
    return numbers


def _bounded(texts: list[str]) -> list[float]:
    numbers = list(map(float, texts))
    if not math.hypot(*numbers) < LARGEST_NUMBER:  # quicker than a look at each, and seldom so
        for text in texts:
            number(text)
    return numbers


def _up_to_error(args: str) -> tuple[list[float], int]:
    texts: list[str] = []
    at = 0
    for found in _run(_NEXT, args):
        if not texts and "," in found[0][: found.start(1) - found.start()]:
            break  # a comma may stand between numbers, not before the first
        texts.append(found[1])
        at = found.end()
    return _checked(texts), at


def _arcs(args: str) -> tuple[list[float], int]:
    texts: list[str] = []
    at = 0
    for found in _run(_ARC, args):
        texts += found.groups()
        at = found.end()
    return _checked(texts), at


def _run(pattern: re.Pattern[str], text: str) -> Iterator[re.Match[str]]:
    found = pattern.match(text)
    while found:
        yield found
        found = pattern.match(text, found.end())


def points(data: str) -> tuple[list[float], Fault | None]:
    """The numbers of a `points` attribute, in whole pairs, and the first error."""
    numbers, at = _listed(data, _APART.fullmatch(data) is not None)
    over = len(numbers) % 2
    fault = Fault(at, "a number") if over or data[at:].strip(" \t\r\n\f") else None
    return numbers[: len(numbers) - over], fault
