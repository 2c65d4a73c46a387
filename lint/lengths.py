"""Lengths as a smith writes them, and as a report says them."""

from __future__ import annotations

import math
import re
import unicodedata

INCH = 25.4  # mm, exactly (international yard and pound agreement, 1959)
LONGEST = 1e6  # mm: nothing at a forge is a kilometre long
_UNITS = {"mm": 10, "cm": 100, "m": 10_000, "in": 254, "ft": 3048}  # tenths of a mm: whole, so that 24 in is 609.6
_SPOKEN = {
    "millimetre": "mm", "millimeter": "mm", "centimetre": "cm", "centimeter": "cm", "metre": "m", "meter": "m",
    "inch": "in", "inche": "in", "foot": "ft", "feet": "ft",
}  # fmt: skip
# Straight, curly and prime marks, and what editors make of them, brought to ' and ".
_MARKS = str.maketrans({
    **dict.fromkeys("\u2018\u2019\u201a\u201b\u2032\u00b4`\u02b9\u02bc\u2035", "'"),
    **dict.fromkeys("\u201c\u201d\u201e\u201f\u2033\u02ba\u2036", '"'),
    **dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2212", "-"),
    "\u2044": "/",
    "\u2215": "/",
})  # fmt: skip
_NUMBER = (
    r"(?:(?P<{0}whole>\d+)(?:\s+|\s*-\s*))?(?P<{0}top>\d+)\s*/\s*(?P<{0}below>\d+)|(?P<{0}plain>\d+(?:\.\d*)?|\.\d+)"
)
_FEET = re.compile(
    rf"(?P<feet>\d+(?:\.\d+)?)\s*(?:'|ft\.?|foot|feet)\s*-?\s*(?:(?:{_NUMBER.format('i_')})\s*(?:\"|in\.?|inch|inches)?)?",
    re.ASCII,
)
_PLAIN = re.compile(rf"(?:{_NUMBER.format('n_')})\s*(?P<unit>\"|[a-z]+\.?)?", re.ASCII)
_SIGN = re.compile(r"^(?:[ø⌀∅]|dia(?:meter|m)?\b\.?|radius\b|r(?=[\s.\d]))\s*")
_THOUSANDS = re.compile(r"\d,\d{3}(?!\d)")


def parse(text: str, units: str = "mm") -> float:
    """The length in mm that `text` states: 610, 610 mm, 61 cm, 24", 16 1/2 in, 2'-0", 1' 6 1/2", Ø6, R 1/4".

    A bare number is in `units` ("mm" or "in"); straight, curly and prime marks alike; a decimal comma is read
    as a point, but "1,200" is refused for it can be read two ways. Raises ValueError with a sentence that says
    what was expected; a length is never negative and stays under 1e6 mm.
    """
    if len(text) > 64:
        raise ValueError(f'"{text[:20]}..." is too long for a length (expected like {_like(units)}).')
    plain = _SIGN.sub("", _plain(text))
    if _THOUSANDS.search(plain):
        raise ValueError(f'"{text}" can be read two ways: write the length without a thousands mark.')
    mm = _measure(plain.replace(",", "."), units)
    if mm is None:
        raise ValueError(f'"{text}" is not a length (expected like {_like(units)}).')
    if mm >= LONGEST:
        raise ValueError(f'"{text}" is longer than a kilometre (expected like {_like(units)}).')
    return mm


def parse_pair(text: str, units: str = "mm") -> tuple[float, float]:
    """Two lengths in mm, "16x24in", "6 x 12 mm", '16" x 24"', "1/4 × 1/2 in": the first takes the unit of the
    second where it has none, both take `units` where neither has one. Raises ValueError with a sentence."""
    parts = re.split(r"\s*[x×*]\s*", text.strip(), flags=re.IGNORECASE)
    if len(parts) != 2:
        raise ValueError(f'"{text[:64]}" is not two lengths (expected like "16 x 24 in" or "6 x 12 mm").')
    second = parse(parts[1], units)
    named = re.search(r"(\"|[a-z]+)\.?$", _plain(parts[1]).replace("''", '"'))
    unit = _unit(named.group(1)) if named else None
    return parse(parts[0], unit or units), second


def say(mm: float, units: str = "mm", beside: float | None = None) -> str:
    """The length as a report says it: "118.4 mm", two decimals at most; in inches the nearest 1/32 with the
    decimal beside it where that says more, "4 21/32 in (4.661)".

    `beside` is a limit (mm) that stands next to it: more decimals are then shown, up to four, until the two
    figures no longer look equal, so that 101.598 does not read as 101.6.
    """
    if not math.isfinite(mm):
        return "no length"
    if units != "in":
        return f"{_decimal(mm, 2, beside)} mm"
    return _inches(mm, beside)


def _like(units: str) -> str:
    return '"4 in" or "101.6 mm"' if units == "in" else '"101.6 mm" or "4 in"'


def _plain(text: str) -> str:
    """One spelling for all: marks straight, ½ as " 1/2", white space folded, small letters."""
    apart = re.sub(r"([\u00bc-\u00be\u2150-\u215e])", r" \1", text.translate(_MARKS))
    return " ".join(unicodedata.normalize("NFKC", apart).translate(_MARKS).split()).casefold()


def _measure(plain: str, units: str) -> float | None:
    """The length in mm, or None where the words are no length."""
    plain = plain.replace("''", '"')
    if found := _FEET.fullmatch(plain):
        inches = _number(found, "i_")
        return None if inches is None else (float(found["feet"]) * 12 + inches) * _UNITS["in"] / 10
    found = _PLAIN.fullmatch(plain)
    unit = (_unit(found["unit"]) if found["unit"] else units) if found else None
    number = _number(found, "n_") if found else None
    return None if unit is None or number is None else number * _UNITS[unit] / 10


def _number(found: re.Match[str], prefix: str) -> float | None:
    """Whole, fraction or decimal; 0 where there is none; None for a division by nothing."""
    if found[f"{prefix}plain"]:
        return float(found[f"{prefix}plain"])
    if found[f"{prefix}top"] is None:
        return 0.0
    below = int(found[f"{prefix}below"])
    return None if below == 0 else int(found[f"{prefix}whole"] or 0) + int(found[f"{prefix}top"]) / below


def _unit(word: str) -> str | None:
    """The unit that a word or mark stands for, or None."""
    word = word.rstrip(".").casefold()
    if word == '"':
        return "in"
    singular = word[:-1] if len(word) > 3 and word.endswith("s") else word
    return word if word in _UNITS else _SPOKEN.get(singular)


def _decimal(value: float, places: int, beside: float | None) -> str:
    """`value` with at most `places` decimals, zeros dropped; more, up to four, to tell it from `beside`."""
    while beside is not None and places < 4 and value != beside and round(value, places) == round(beside, places):
        places += 1
    text = f"{value + math.copysign(1e-9, value):.{places}f}"  # 3.175 is 3.18 to a reader
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text


def _alike(inches: float, beside: float | None) -> bool:
    """Whether a limit is so near that only more decimals tell the two apart."""
    return beside is not None and 0 < abs(inches - abs(beside) / INCH) < 0.001


def _inches(mm: float, beside: float | None) -> str:
    inches = abs(mm) / INCH
    whole, top = divmod(round(inches * 32), 32)
    cut = math.gcd(top, 32)
    fraction = f"{top // cut}/{32 // cut}" if top else ""
    sign = "-" if mm < 0 and (whole or top) else ""
    words = sign + " ".join(filter(None, (str(whole) if whole or not top else "", fraction)))
    if abs(inches - (whole + top / 32)) < 0.0005 and not _alike(inches, beside):
        return f"{words} in"
    places = len(_decimal(inches, 3, beside and abs(beside) / INCH).partition(".")[2])
    return f"{words} in ({mm / INCH:.{max(places, 3)}f})"
