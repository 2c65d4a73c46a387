"""The CSS properties that a drawing is read by: what each may say, and what it starts as."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import lru_cache
from typing import Any

from lint.drawing.values import colour, split_length

LONGEST = 10_000  # characters of one value

Value = Any  # what a property's parser makes of its text; each property's own kind, see PARSERS


def _paint(text: str) -> Value:
    """A colour as `values.colour` gives it, or ("url", id, fallback)."""
    if not text.startswith("url("):
        return colour(text) or ("#000000" if text in ("context-fill", "context-stroke") else None)
    found = re.match(r"""url\(\s*["']?\s*#([^"')]{1,1000})["']?\s*\)\s*(.{0,100})$""", text, re.S)
    if not found:
        return ("url", "", colour(text.rpartition(")")[2]) or "none")
    return ("url", found[1], colour(found[2]) or "none")


def _opacity(text: str) -> Value:
    parts = split_length(text)
    if parts is None or parts[1] not in ("", "%"):
        return None
    return parts[0] / (100 if parts[1] else 1)


def _width(text: str) -> Value:
    parts = split_length(text)
    return None if parts is None or parts[0] < 0 else parts


_SIZES = {
    "xx-small": 9.6,
    "x-small": 12.0,
    "small": 14.2,
    "medium": 16.0,
    "large": 19.2,
    "x-large": 24.0,
    "xx-large": 32.0,
}


def _font_size(text: str) -> Value:
    if text in _SIZES:
        return (_SIZES[text], "px")
    if text in ("smaller", "larger"):
        return (1.2 if text == "larger" else 1 / 1.2, "em")
    return _width(text)


def _font(text: str) -> Value:
    """The size in the shorthand: `bold 12px/14px Arial`."""
    for word in text.split()[:12]:
        size = _font_size(word.partition("/")[0])
        if size and size[1]:
            return size
    return None


def _one_of(*words: str) -> Callable[[str], Value]:
    return lambda text: text if text in words else None


def _any(text: str) -> Value:
    return text or None


def _visibility(text: str) -> Value:
    return {"visible": "visible", "hidden": "hidden", "collapse": "hidden"}.get(text)


def _dashes(text: str) -> Value:
    """True where any dash has a length."""
    if text in ("none", "0"):
        return False
    parts = [split_length(word) for word in re.split(r"[\s,]+", text.strip())[:1000]]
    if None in parts or any(part[0] < 0 for part in parts if part):
        return None
    return any(part[0] > 0 for part in parts if part)


def _literal(text: str) -> Value:
    return split_length(text) and text


_GEOMETRY = ("x", "y", "cx", "cy", "r", "rx", "ry", "width", "height")

INHERITED: dict[str, Value] = {
    "fill": "#000000",
    "stroke": "none",
    "stroke-width": (1.0, ""),
    "stroke-linecap": "butt",
    "stroke-linejoin": "miter",
    "stroke-dasharray": False,
    "fill-rule": "nonzero",
    "fill-opacity": 1.0,
    "stroke-opacity": 1.0,
    "visibility": "visible",
    "color": "#000000",
    "font-size": (16.0, "px"),
    "text-anchor": "start",
}
PARSERS: dict[str, Callable[[str], Value]] = {
    "fill": _paint,
    "stroke": _paint,
    "stroke-width": _width,
    "stroke-linecap": _one_of("butt", "round", "square"),
    "stroke-linejoin": lambda text: (
        {"miter-clip": "miter", "arcs": "miter"}.get(text, text)
        if text in ("miter", "round", "bevel", "miter-clip", "arcs")
        else None
    ),
    "stroke-dasharray": _dashes,
    "fill-rule": _one_of("nonzero", "evenodd"),
    "fill-opacity": _opacity,
    "stroke-opacity": _opacity,
    "visibility": _visibility,
    "color": colour,
    "font-size": _font_size,
    "font": _font,
    "text-anchor": _one_of("start", "middle", "end"),
    "display": _any,
    "opacity": _opacity,
    "vector-effect": _any,
    "stop-color": colour,
    "transform": _any,
    "transform-origin": _any,
    "transform-box": _any,
    "d": _any,
    **dict.fromkeys(_GEOMETRY, _literal),
}
# Written as attributes these are no styles but the shape itself, read where the shape is.
CSS_ONLY = frozenset((*_GEOMETRY, "d", "transform", "transform-box", "font"))
ATTRIBUTES = frozenset(PARSERS) - CSS_ONLY
KEEP_CASE = frozenset(("fill", "stroke", "d", "transform", "transform-origin"))


def value_of(name: str, text: str) -> Value:
    """What the property's text means; "inherit" as it is; None where it is not valid (and so counts as not written).

    Raises BadNumber for a number beyond the limits.
    """
    return _remembered(name, text) if len(text) <= 200 else _parsed(name, text)


@lru_cache(maxsize=4096)
def _remembered(name: str, text: str) -> Value:
    return _parsed(name, text)


def _parsed(name: str, text: str) -> Value:
    text = text.strip()
    if len(text) > LONGEST and name not in ("d", "transform"):
        return None
    lower = text.lower()
    if lower in ("inherit", "initial", "unset", "revert"):
        return "inherit" if lower == "inherit" or (lower == "unset" and name in INHERITED) else ("initial",)
    return PARSERS[name](text if name in KEEP_CASE else lower)
