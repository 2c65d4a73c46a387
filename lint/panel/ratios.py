"""Scales in words, and the ratios that exports are known for."""

from __future__ import annotations

import re
import unicodedata

from lint.lengths import parse

_WHOLE = (1, 2, 2.5, 4, 5, 8, 10, 12, 16, 20, 24, 25, 48, 50, 100)  # ISO 5455 steps, and inches to the foot
# drawn over stated, and what makes it so (drawing convention, section 3)
_EXPORTS = (
    (72 / 96, "an export at 72 per inch read at 96"),
    (96 / 72, "an export at 96 per inch read at 72"),
    (90 / 96, "an export at 90 per inch read at 96"),
    (96 / 90, "an export at 96 per inch read at 90"),
    (25.4 / 96, "millimetres written as pixels"),
    (25.4 / 72, "millimetres written as points"),
    (96 / 25.4, "pixels written as millimetres"),
    (72 / 25.4, "points written as millimetres"),
    (1 / 25.4, "inches written as millimetres"),
    (25.4, "millimetres written as inches"),
)
_NEAR = 0.004  # an export rounds coordinates and page sizes by up to a few parts in a thousand
_RATIO = re.compile(r"(\d+(?:[.,]\d+)?)\s*(?::|\bto\b|/)\s*(\d+(?:[.,]\d+)?)$")
_WITHIN = re.compile(r"(?<![\d:.,-])(\d+(?:[.,]\d+)?)\s*:\s*(\d+(?:[.,]\d+)?)(?![\d:])")
_SIZED = re.compile(r"\b(\w+)[\s-](?:size|scale)\b")
_NAMED = {"full": 1.0, "actual": 1.0, "natural": 1.0, "true": 1.0, "half": 2.0, "quarter": 4.0}
_UNIT = re.compile(r"(\d+(?:[.,]\d+)?)\s*(?:units?|px|pixels?|user units?)$")


def ratio_in(text: str, units: str) -> float | None:
    """Real size over paper size that a text states: 1:4, 1/4" = 1", full size, 25 %; None where it states none."""
    said = _tidy(text)
    if percent := re.match(r"(\d+(?:[.,]\d+)?)\s*%$", said):
        return _over(100.0, _number(percent.group(1)))
    if "=" in said:
        paper, _, real = said.partition("=")
        lengths = _length(paper, units), _length(real, units)
        return _over(lengths[1], lengths[0]) if lengths[0] and lengths[1] else None
    found = _RATIO.match(said)
    return _over(_number(found.group(2)), _number(found.group(1))) if found else _among(said)


def _among(said: str) -> float | None:
    """The one scale among other words: "scale 1:4 on A3", "drawn full size (1:1)"; None for none, or for two."""
    ratios = {_over(_number(b), _number(a)) for a, b in _WITHIN.findall(said)}
    ratios |= {_NAMED[word] for word in _SIZED.findall(said) if word in _NAMED}
    return ratios.pop() if len(ratios) == 1 else None


def unit_in(text: str, units: str) -> float | None:
    """Real mm for each page unit that a text states: "1 px = 0.5 mm", "1 unit = 1 in"; None where it states none."""
    left, equals, right = _tidy(text).partition("=")
    unit = _UNIT.match(left.strip())
    real = _length(right, units) if equals else None
    return _over(real, _number(unit.group(1))) if unit and real else None


def export_ratio(drawn_over_stated: float) -> str:
    """Why a drawing comes out at this share of its stated size, or "" where no export is known for it."""
    return next((why for ratio, why in _EXPORTS if _same(drawn_over_stated, ratio)), "")


def whole_ratio(drawn_over_stated: float) -> float | None:
    """The ordinary drawing scale that this is (0.2 for 1:5, 2 for 2:1), or None."""
    steps = (*(1 / step for step in _WHOLE), *_WHOLE)
    return next((float(step) for step in steps if _same(drawn_over_stated, step)), None)


def said_ratio(drawn_over_stated: float) -> str:
    """A drawing scale as it is written: 1:5, 2:1."""
    return f"1:{1 / drawn_over_stated:g}" if drawn_over_stated <= 1 else f"{drawn_over_stated:g}:1"


def _same(a: float, b: float) -> bool:
    return abs(a / b - 1) <= _NEAR


def _tidy(text: str) -> str:
    said = unicodedata.normalize("NFKC", text).replace("\u2236", ":").casefold().strip(" .;")
    return re.sub(
        r"^(?:drawn\s+)?(?:at\s+)?(?:scale|scaled|m)?\s*[:=]?\s*(?=\d|full|half|quarter|actual|natural|true)", "", said
    )


def _number(text: str) -> float:
    return float(text.replace(",", "."))


def _over(a: float | None, b: float) -> float | None:
    return a / b if a and b > 0 and a > 0 else None


def _length(text: str, units: str) -> float | None:
    try:
        return parse(re.sub(r"\s*(?:ft|foot|feet)$", "'", text.strip()), units)
    except ValueError:
        return None
