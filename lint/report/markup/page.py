"""The sheet of paper: what the drawing's page shows, how large a unit is on paper, and the page grown for the marks.

All in page units: the user units inside the root element. SVG 1.1, 7.7 and 7.8 (viewBox, preserveAspectRatio) and
7.10 (units: 1 in = 96 px = 25.4 mm).
"""

from __future__ import annotations

import re
from dataclasses import dataclass

Box = tuple[float, float, float, float]  # left, top, width, height

_MM = {"mm": 1.0, "cm": 10.0, "in": 25.4, "pt": 25.4 / 72, "pc": 25.4 / 6, "q": 0.25, "px": 25.4 / 96, "": 25.4 / 96}
_LENGTH = re.compile(r"\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,3})?)\s*([a-zA-Z%]*)\s*")
_LARGEST = 1e9


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """What the page shows (`view`, None where the file does not say), and mm on paper for each page unit
    (`mm_per_unit`, None where the file states no size). `width` and `height` are (number, unit) as written, None
    where absent or relative; `down` is mm per unit along y where preserveAspectRatio="none" lets it differ."""

    view: Box | None
    mm_per_unit: float | None
    down: float | None = None
    width: tuple[float, str] | None
    height: tuple[float, str] | None


def paper(width: str | None, height: str | None, viewbox: str | None, fit: str | None) -> Paper:
    """The page by the root's attributes as written. What cannot be read counts as absent."""
    wide, high = _length(width), _length(height)
    box = _box(viewbox)
    if box is None:
        if wide is None or high is None:
            return Paper(view=None, mm_per_unit=None, width=wide, height=high)
        view = (0.0, 0.0, _px(wide), _px(high))
        return Paper(view=view, mm_per_unit=_MM["px"], width=wide, height=high)
    if wide is None and high is None:
        return Paper(view=box, mm_per_unit=None, width=None, height=None)
    across = _mm(wide) if wide else _mm(high or (1.0, "")) * box[2] / box[3]
    down = _mm(high) if high else across * box[3] / box[2]
    if (fit or "").split()[:1] == ["none"]:
        sx, sy = across / box[2], down / box[3]
        return Paper(view=box, mm_per_unit=sx, down=sy, width=wide, height=high)
    view, scale = _fitted(box, across, down, fit or "")
    return Paper(view=view, mm_per_unit=scale, width=wide, height=high)


def grown(page: Paper, to: Box, say: str) -> dict[str, str]:
    """The root's width, height and viewBox for a page that shows `to` at the same scale.

    `say` is the format of a coordinate. Width and height are left out where the file states no size.
    """
    size = {"viewBox": " ".join(plain(v, say) for v in to)}
    unit = (page.width or page.height or (0.0, ""))[1]
    if page.mm_per_unit is None or (page.width is None and page.height is None):
        return size
    each = page.mm_per_unit / _MM[unit.lower()]
    box = [float(plain(v, say)) for v in to]
    below = page.height[1] if page.height else unit
    size["width"] = plain(box[2] * each, ".6f") + unit
    size["height"] = plain(box[3] * (page.down or page.mm_per_unit) / _MM[below.lower()], ".6f") + below
    return size


def plain(value: float, say: str) -> str:
    """A number in format `say`, without trailing zeros or a minus before nought."""
    text = format(value, say)
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text in {"-0", ""} else text


def _fitted(box: Box, across: float, down: float, fit: str) -> tuple[Box, float]:
    sx, sy = across / box[2], down / box[3]
    words = fit.split()
    align = words[0] if words else "xMidYMid"
    scale = max(sx, sy) if "slice" in words else min(sx, sy)
    seen = (across / scale, down / scale)
    spare = (seen[0] - box[2], seen[1] - box[3])
    share = (_share(align[1:4]), _share(align[5:8]))
    return (box[0] - spare[0] * share[0], box[1] - spare[1] * share[1], *seen), scale


def _share(word: str) -> float:
    return {"Min": 0.0, "Max": 1.0}.get(word, 0.5)


def _length(text: str | None) -> tuple[float, str] | None:
    match = _LENGTH.fullmatch(text or "")
    if not match or match[2].lower() not in _MM:
        return None
    number = float(match[1])
    return (number, match[2]) if 0 < number < _LARGEST else None


def _mm(length: tuple[float, str]) -> float:
    return length[0] * _MM[length[1].lower()]


def _px(length: tuple[float, str]) -> float:
    return _mm(length) / _MM["px"]


def _box(text: str | None) -> Box | None:
    try:
        x, y, w, h = (float(word) for word in (text or "").replace(",", " ").split())
    except ValueError:
        return None
    good = max(abs(x), abs(y)) < _LARGEST and 0 < w < _LARGEST and 0 < h < _LARGEST
    return (x, y, w, h) if good else None
