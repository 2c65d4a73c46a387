"""Words from a file made fit to print: they steer no terminal, turn no line round, and do not run on."""

from __future__ import annotations

import re
import unicodedata

LONGEST = 80  # characters of a name
_JOINERS = "\u200c\u200d"  # needed to write Persian or Hindi; they move nothing else
_LONE = re.compile("[\ud800-\udfff]")
_UNPRINTABLE = {"Cc", "Cf", "Cs", "Co", "Zl", "Zp"}


def shown(name: str, most: int = LONGEST) -> str:
    """A name fit to print, cut to `most` characters: `plain`, and white space folded."""
    folded = " ".join(name[: most * 4].split())
    words = plain(folded)
    if len(words) <= most and len(name) <= most * 4:
        return words
    return f"{words[: most - 3]}..."


def plain(text: str, keep: str = "") -> str:
    """The text with every control character, bidirectional override, lone surrogate and line separator written
    out as \\x1b or \\u202e, save those in `keep`."""
    if text.isascii() and text.isprintable():
        return text
    return "".join(c if c in keep or c in _JOINERS or not _unprintable(c) else _written_out(c) for c in text)


def encodable(text: str) -> str:
    """The text without lone surrogates, which a file name that is no UTF-8 brings: UTF-8 cannot hold them."""
    return _LONE.sub("\ufffd", text)


def _unprintable(c: str) -> bool:
    return unicodedata.category(c) in _UNPRINTABLE


def _written_out(c: str) -> str:
    if ord(c) < 256:
        return f"\\x{ord(c):02x}"
    return f"\\u{ord(c):04x}" if ord(c) < 0x10000 else f"\\U{ord(c):08x}"
