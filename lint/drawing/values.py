"""What a CSS or SVG value means: numbers, lengths in user units, colours."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from functools import lru_cache

from lxml import etree

LONGEST_NUMBER = 64  # characters
LARGEST_NUMBER = 1e9

NUMBER = r"[+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?"
# Possessive, so that a long run of digits is walked once.
_LENGTH = re.compile(
    r"\s*+([+-]?+(?:[0-9]++(?:\.[0-9]*+)?+|\.[0-9]++)(?:[eE][+-]?+[0-9]++)?+)((?:px|pt|pc|mm|cm|in|q|em|ex|rem|%)?+)\s*+",
    re.I,
)

# CSS Values and Units 3, section 6.2: absolute lengths, in px.
PX = {"": 1.0, "px": 1.0, "in": 96.0, "cm": 96 / 2.54, "mm": 96 / 25.4, "q": 96 / 101.6, "pt": 96 / 72, "pc": 16.0}


def line_of(element: etree._Element) -> int:
    """The line of the file on which the element's tag ends; 0 for an element that was not read from a file."""
    line: int | None = element.sourceline  # type: ignore[assignment]  # the stubs say "..."
    return line or 0


Attributes = Mapping[str, str]  # name: text, in the order of the file


def attributes(element: etree._Element) -> Attributes:
    """The element's attributes."""
    return dict(element.items())  # type: ignore[arg-type]  # the stubs allow for bytes


def printable(text: str) -> str:
    """The text with a question mark for every control character and override of the writing direction."""
    return text if text.isprintable() else "".join(c if c.isprintable() else "?" for c in text)


class BadNumber(ValueError):
    """A number that is not finite, or longer or larger than any drawing needs. Its text is a clause."""


def number(text: str) -> float:
    """The number that `text` is. Raises BadNumber where it is too long, too large or not finite."""
    if len(text) > LONGEST_NUMBER:
        raise BadNumber(f"a number of {len(text):,} characters (at most {LONGEST_NUMBER} are read)")
    value = float(text)
    if not -LARGEST_NUMBER < value < LARGEST_NUMBER:
        raise BadNumber(f"the number {text[:40]}, which is too large (numbers stay below 1e9)")
    return value


def split_length(text: str) -> tuple[float, str] | None:
    """A length as (figure, unit in lower case), or None where it is none: "0.35 px" is none, by CSS."""
    found = _LENGTH.fullmatch(text)
    return (number(found[1]), found[2].lower()) if found else None


def length(text: str | None, *, of: float = 0.0, font_size: float = 16.0) -> float | None:
    """A length in user units; `of` is what a percentage refers to. None where `text` is no length."""
    parts = split_length(text) if text else None
    if parts is None:
        return None
    figure, unit = parts
    if not unit:  # as most are
        return figure
    if unit == "%":
        return figure / 100 * of
    if unit in ("em", "rem"):
        return figure * font_size
    if unit == "ex":
        return figure * font_size / 2
    return figure * PX[unit]


_HEX = re.compile(r"^#([0-9a-fA-F]{3,8})$")
_RGB = re.compile(
    r"^rgb\(\s*+([0-9]{1,3}(?:\.[0-9]{1,12})?%?)\s*+,\s*+([0-9]{1,3}(?:\.[0-9]{1,12})?%?)\s*+,\s*+([0-9]{1,3}(?:\.[0-9]{1,12})?%?)\s*+\)$"
)
_SHORT = {"black": "#000000", "white": "#ffffff", "red": "#ff0000", "blue": "#0000ff", "none": "none"}


@lru_cache(maxsize=1024)
def colour(text: str) -> str | None:
    """ "#rrggbb", "none" for a paint that cannot be seen, "currentcolor", or None where it is no colour."""
    text = text.strip().lower()
    if text in _SHORT:
        return _SHORT[text]
    if text in ("transparent", "currentcolor"):
        return "none" if text == "transparent" else text
    found = _HEX.match(text)
    if found:
        return _from_hex(found[1])
    found = _RGB.match(text)
    if found:
        return _from_rgb(found[1], found[2], found[3])
    return _by_name(text.partition(" icc-color")[0].strip())


def _from_hex(digits: str) -> str | None:
    if len(digits) in (3, 4):
        digits = "".join(d * 2 for d in digits)
    if len(digits) == 8:
        return "none" if digits.endswith("00") else "#" + digits[:6]
    return "#" + digits if len(digits) == 6 else None


def _from_rgb(*channels: str) -> str:
    figures = (float(c[:-1]) * 2.55 if c.endswith("%") else float(c) for c in channels)
    return "#" + "".join(f"{min(round(figure), 255):02x}" for figure in figures)


def _by_name(text: str) -> str | None:
    if len(text) > 200:
        return None
    from tinycss2.color4 import parse_color  # type: ignore[import-untyped]  # 147 names, rgb(), hsl(), lab(): loaded where a file uses them

    parsed = parse_color(text)
    if parsed is None or isinstance(parsed, str):
        return None
    if parsed.alpha == 0:
        return "none"
    try:
        channels = [min(max(c, 0.0), 1.0) for c in parsed.to("srgb").coordinates if c is not None]
    except (ValueError, NotImplementedError):
        return "#000000"
    if len(channels) != 3 or not all(map(math.isfinite, channels)):
        return "#000000"
    return "#" + "".join(f"{round(c * 255):02x}" for c in channels)
