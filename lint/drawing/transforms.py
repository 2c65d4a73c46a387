"""Transforms as six letters (a, b, c, d, e, f), as SVG writes them: x' = a x + c y + e, y' = b x + d y + f."""

from __future__ import annotations

import math
import re
from collections.abc import Callable

import numpy as np

from lint.drawing.values import length, number
from lint.geometry.chain import Floats

Matrix = tuple[float, float, float, float, float, float]
IDENTITY: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
LONGEST = 100_000  # characters in one transform list

_STEP = re.compile(r"[\s,]*+([A-Za-z][A-Za-z0-9]*+)\s*+\(([^()]*+)\)")
_ARGUMENT = re.compile(
    r"[\s,]*+([+-]?+(?:[0-9]++(?:\.[0-9]*+)?+|\.[0-9]++)(?:[eE][+-]?+[0-9]++)?+)(px|deg|rad|turn|grad)?+"
)
_DEGREES = {"": 1.0, "deg": 1.0, "rad": 180 / math.pi, "turn": 360.0, "grad": 0.9, "px": 1.0}


class BadTransform(ValueError):
    """A transform list that cannot be read; its text is a clause."""


def times(m: Matrix, n: Matrix) -> Matrix:
    """The matrix that applies `n` first, then `m`."""
    a, b, c, d, e, f = m
    g, h, i, j, k, o = n
    return (a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * o + e, b * k + d * o + f)


def parse(text: str) -> Matrix:
    """The matrix of a transform list (SVG 1.1, 7.6; the CSS spellings with px and deg too).

    Raises BadTransform, and BadNumber for a figure beyond the limits.
    """
    if len(text) > LONGEST:
        raise BadTransform("its transform is too long to be read")
    whole, at = IDENTITY, 0
    text = text.strip().removesuffix(",")
    if text.lower() in ("", "none"):
        return IDENTITY
    while at < len(text):
        step = _STEP.match(text, at)
        if not step:
            raise BadTransform(f"its transform cannot be read at '{text[at : at + 30]}'")
        whole = times(whole, _one(step[1].lower(), step[2]))
        at = step.end()
    return whole


def _one(name: str, inside: str) -> Matrix:
    figures = _figures(inside)
    counts, build = _STEPS.get(name, ((), None))
    if build is None or len(figures) not in counts:
        raise BadTransform(f"its transform '{name[:20]}' has {len(figures)} figures or is not known")
    return build(*figures)


def _figures(inside: str) -> list[float]:
    figures, at = [], 0
    inside = inside.strip()
    while at < len(inside):
        found = _ARGUMENT.match(inside, at)
        if not found:
            raise BadTransform(f"its transform cannot be read at '{inside[at : at + 30]}'")
        figures.append(number(found[1]) * _DEGREES[found[2] or ""])
        at = found.end()
    return figures


def _turn(degrees: float, x: float, y: float) -> Matrix:
    quarter = degrees % 360.0
    exact = {0.0: (1.0, 0.0), 90.0: (0.0, 1.0), 180.0: (-1.0, 0.0), 270.0: (0.0, -1.0)}.get(quarter)
    cos, sin = exact or (math.cos(math.radians(degrees)), math.sin(math.radians(degrees)))
    return cos, sin, -sin, cos, x - cos * x + sin * y, y - sin * x - cos * y


def _skew(across: float, down: float) -> Matrix:
    return 1.0, math.tan(math.radians(down)), math.tan(math.radians(across)), 1.0, 0.0, 0.0


# Name, how many figures it takes, its matrix: SVG 1.1, 7.6; the one-sided ones are CSS Transforms 1, 13.1.
_STEPS: dict[str, tuple[tuple[int, ...], Callable[..., Matrix]]] = {
    "matrix": ((6,), lambda *six: six),
    "translate": ((1, 2), lambda x, y=0.0: (1.0, 0.0, 0.0, 1.0, x, y)),
    "translatex": ((1,), lambda x: (1.0, 0.0, 0.0, 1.0, x, 0.0)),
    "translatey": ((1,), lambda y: (1.0, 0.0, 0.0, 1.0, 0.0, y)),
    "scale": ((1, 2), lambda x, y=None: (x, 0.0, 0.0, x if y is None else y, 0.0, 0.0)),
    "scalex": ((1,), lambda x: (x, 0.0, 0.0, 1.0, 0.0, 0.0)),
    "scaley": ((1,), lambda y: (1.0, 0.0, 0.0, y, 0.0, 0.0)),
    "rotate": ((1, 3), lambda degrees, x=0.0, y=0.0: _turn(degrees, x, y)),
    "skewx": ((1,), lambda degrees: _skew(degrees, 0.0)),
    "skewy": ((1,), lambda degrees: _skew(0.0, degrees)),
}


def as_array(m: Matrix) -> Floats:
    """[[a, c, e], [b, d, f]], as Chain.transformed takes it."""
    a, b, c, d, e, f = m
    return np.array([[a, c, e], [b, d, f]])


def stretch(m: Matrix) -> tuple[float, bool]:
    """(factor by which lengths grow, True where it is the same in all directions to 1e-4 of itself)."""
    a, b, c, d, _, _ = m
    factor = math.sqrt(abs(a * d - b * c))
    half_sum, half_difference = math.hypot(a + d, b - c) / 2, math.hypot(a - d, b + c) / 2
    largest, smallest = half_sum + half_difference, abs(half_sum - half_difference)
    return factor, largest - smallest <= 1e-4 * largest


def flattens(m: Matrix) -> bool:
    """True where the matrix leaves a line or a point of the plane, to within rounding."""
    if m is IDENTITY:  # as in most drawings
        return False
    a, b, c, d, _, _ = m
    size = max(abs(a), abs(b), abs(c), abs(d))
    return size < 1e-15 or abs(a * d - b * c) < 1e-12 * size * size


def about(own: Matrix, origin: str, box: str, viewport: tuple[float, float], font_size: float) -> Matrix:
    """`own` about the transform origin that CSS states (CSS Transforms 1, section 6), where it is stated on the page.

    Raises BadTransform where the origin is a part of the object's own box.
    """
    words = origin.replace(",", " ").split() or ["0"]
    keywords = {"left": "0", "top": "0", "center": "50%", "right": "100%", "bottom": "100%"}
    if words[0] in ("top", "bottom"):
        words[:2] = words[1::-1] if len(words) > 1 else ["center", words[0]]
    words = [keywords.get(word, word) for word in words] + (["50%"] if len(words) == 1 else [])
    x, y = (length(word, of=of, font_size=font_size) for word, of in zip(words[:2], viewport, strict=True))
    if x is None or y is None or (box not in ("", "view-box") and any("%" in word for word in words)):
        raise BadTransform(f"the origin of its transform ('{origin[:30]}') cannot be followed")
    return times(times((1.0, 0.0, 0.0, 1.0, x, y), own), (1.0, 0.0, 0.0, 1.0, -x, -y))
