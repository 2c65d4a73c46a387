"""Words on the marks: how wide they are at most, where they break, and how they are written.

The viewer picks the sans-serif face, so widths are taken from the wider of two common metrics for each character
(DejaVu Sans and the Arial metrics of Liberation Sans, measured from the font files in 1/1000 of the letter size).
Words then fit their box in either.
"""

from __future__ import annotations

import re
import unicodedata
from xml.sax.saxutils import escape

CAPITAL = 0.72  # height of a capital over the letter size, both faces (0.729 and 0.716)
_UNLAWFUL = re.compile("[^\\t\\n\\x20-\\ud7ff\\ue000-\\ufffd\\U00010000-\\U0010ffff]")  # XML 1.0, 2.2
_HINTED = 1.02  # letters set on whole pixels run this much wider
_OTHER = 1.0  # em: anything not in the tables; no Latin letter of either face is wider

# fmt: off
_PLAIN = (
    318, 401, 460, 838, 636, 950, 780, 275, 390, 390, 500, 838, 318, 361, 318, 337, 636, 636, 636, 636, 636, 636, 636,
    636, 636, 636, 337, 337, 838, 838, 838, 556, 1015, 684, 686, 722, 770, 667, 611, 778, 752, 295, 500, 667, 557, 863,
    748, 787, 667, 787, 722, 667, 611, 732, 684, 989, 685, 667, 685, 390, 337, 390, 838, 556, 500, 613, 635, 550, 635,
    615, 352, 635, 634, 278, 278, 579, 278, 974, 634, 612, 635, 635, 411, 521, 392, 634, 592, 818, 592, 592, 525, 636,
    337, 636, 838,
)
_BOLD = (
    348, 456, 521, 838, 696, 1002, 872, 306, 457, 457, 523, 838, 380, 415, 380, 365, 696, 696, 696, 696, 696, 696, 696,
    696, 696, 696, 400, 400, 838, 838, 838, 611, 1000, 774, 762, 734, 830, 683, 683, 821, 837, 372, 556, 775, 637, 995,
    837, 850, 733, 850, 770, 720, 682, 812, 774, 1103, 771, 724, 725, 457, 365, 457, 838, 556, 500, 675, 716, 593, 716,
    678, 435, 716, 712, 343, 343, 665, 343, 1042, 712, 687, 716, 716, 493, 595, 478, 712, 652, 924, 645, 652, 582, 712,
    365, 712, 838,
)
# fmt: on


def width(text: str, height: float, bold: bool = False) -> float:
    """The most that `text` takes in width, in the unit of `height`, which is the height of its capitals."""
    table = _BOLD if bold else _PLAIN
    em = sum(table[ord(c) - 32] / 1000 if 32 <= ord(c) < 127 else _wide(c, bold) for c in text)
    return em * height / CAPITAL * _HINTED


def _wide(char: str, bold: bool) -> float:
    if unicodedata.combining(char):
        return 0.0 if ord(char) < 0x370 else 0.5
    if unicodedata.east_asian_width(char) in "WF" or ord(char) > 0xFFFF:
        return 1.4
    return _OTHER * 1.1 if bold else _OTHER


def xml(text: str) -> str:
    """`text` as it stands in an element or a quoted attribute, in ASCII; what XML forbids becomes a question mark."""
    lawful = _UNLAWFUL.sub("?", text)
    return escape(lawful, {'"': "&quot;"}).encode("ascii", "xmlcharrefreplace").decode("ascii")


def fit(text: str, room: float, height: float, bold: bool = False) -> str:
    """`text`, cut with an ellipsis where it is wider than `room`."""
    if width(text, height, bold) <= room:
        return text
    short = text
    while short and width(short + "…", height, bold) > room:
        short = short[:-1]
    return short.rstrip() + "…"


def wrap(text: str, room: float, height: float, bold: bool = False) -> tuple[str, ...]:
    """`text` in lines no wider than `room`; a word that is wider on its own is broken."""
    lines: list[str] = []
    line = ""
    for word in text.split():
        joined = f"{line} {word}" if line else word
        if width(joined, height, bold) <= room:
            line = joined
            continue
        lines += [line] if line else []
        *whole, line = _pieces(word, room, height, bold)
        lines += whole
    return (*lines, line) if line or not lines else tuple(lines)


def _pieces(word: str, room: float, height: float, bold: bool) -> list[str]:
    pieces, piece = [], ""
    for char in word:
        if piece and width(piece + char, height, bold) > room:
            pieces.append(piece)
            piece = ""
        piece += char
    return [*pieces, piece]
