"""What a stranger's file may do in the reader's browser, and is left out of the marked-up copy.

Scripts, event handlers, whatever is fetched from elsewhere, and animation of a reference. The instructor opens files
that others sent: the copy shows the drawing and does nothing else.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from lxml import etree

_ELEMENTS = {
    "script": "a script",
    "handler": "a script",
    "listener": "a script",
    "iframe": "an embedded page",
    "embed": "an embedded page",
    "object": "an embedded page",
    "audio": "sound or video",
    "video": "sound or video",
    "link": "an external reference",
    "base": "an external reference",
    "meta": "an embedded page",
    "form": "an embedded page",
    "applet": "an embedded page",
}
_ANIMATIONS = {"animate", "set", "animateTransform", "animateMotion", "animateColor"}
_REFERENCES = {"href", "src", "action", "formaction", "data", "poster", "ping", "srcset", "srcdoc", "base", "absref"}
_PICTURE = re.compile(r"data:image/(?:png|jpe?g|gif|webp)[;,]", re.I)
_URL = re.compile(r"url\(\s*+([\"']?+)\s*+(?!#)[^)]*\)|image-set\([^)]*\)", re.I)
_IMPORT = re.compile(r"@import\b[^;]*(?:;|$)|@font-face\s*\{[^}]*\}", re.I | re.S)
_ESCAPED = re.compile(r"\\([0-9a-fA-F]{1,6})\s?|\\(.)", re.S)
_DOCTYPE_HOME = re.compile(r"SYSTEM|PUBLIC")
_W3C = re.compile(r"[\"']https?://www\.w3\.org/[^\"']*[\"']\s*$")


@dataclass(slots=True)
class LeftOut:
    """Elements to cut, by number in document order; attributes and element text to change; and the words for it,
    each with how often."""

    cut: list[int] = field(default_factory=list)
    attributes: dict[int, dict[str, str | None]] = field(default_factory=dict)
    texts: dict[int, str] = field(default_factory=dict)
    words: dict[str, int] = field(default_factory=dict)

    def note(self, word: str) -> None:
        """Count one more of a kind."""
        self.words[word] = self.words.get(word, 0) + 1


def active_parts(root: etree._Element) -> LeftOut:
    """All that the marked-up copy of `root` leaves out."""
    out = LeftOut()
    below_cut: set[etree._Element] = set()
    for number, element in enumerate(root.iter("*")):
        if element.getparent() in below_cut:
            below_cut.add(element)
            continue
        word = _whole(element)
        if word and number:
            out.cut.append(number)
            below_cut.add(element)
            out.note(word)
            continue
        _attributes(element, number, out)
        if _local(element.tag) == "style" and element.text:
            _sheet(element, number, out)
    return out


def stylesheet_instruction(piece: str) -> bool:
    """True for an instruction that has a browser fetch a style sheet."""
    return piece.startswith("<?xml-stylesheet")


def foreign_doctype(piece: str) -> bool:
    """True for a document type that is kept anywhere but at w3.org."""
    return (
        piece.startswith("<!DOCTYPE") and bool(_DOCTYPE_HOME.search(piece)) and not _W3C.search(piece.rstrip(">[ \n"))
    )


def _local(name: object) -> str:
    return str(name).rpartition("}")[2].rpartition(":")[2]


def _whole(element: etree._Element) -> str:
    name = _local(element.tag)
    if name in _ANIMATIONS:
        target = element.get("attributeName", "").rpartition(":")[2].strip().lower()
        return "an animated reference" if target in _REFERENCES or target.startswith("on") else ""
    return _ELEMENTS.get(name.lower(), "")


def _links(element: etree._Element) -> list[tuple[str, str]]:
    return [(str(n), str(v)) for n, v in element.attrib.items() if _local(n).lower() in _REFERENCES]


def _fetches(element: etree._Element, name: str, value: str) -> bool:
    value = "".join(value.split())
    if not value or value.startswith("#"):
        return False
    if _local(name).lower() in {"href", "src"}:
        picture = _local(element.tag) in {"image", "feImage"} and bool(_PICTURE.match(value))
        return not picture
    return _local(element.tag) not in {"svg", "g"} or ":" in value


def _attributes(element: etree._Element, number: int, out: LeftOut) -> None:
    changes: dict[str, str | None] = {}
    links = dict(_links(element))
    for name, value in ((str(n), str(v)) for n, v in element.attrib.items()):
        if _local(name).lower().startswith("on") and "}" not in name:
            changes[name] = None
            out.note("an event handler")
        elif name in links and _fetches(element, name, value):
            changes[name] = None
            out.note("an external reference")
        elif _URL.search(_unescaped(value)):
            changes[name] = _URL.sub("none", _unescaped(value))
            out.note("an external reference")
    if changes:
        out.attributes[number] = changes


def _sheet(element: etree._Element, number: int, out: LeftOut) -> None:
    text = "".join(str(piece) for piece in element.itertext())
    plain = _unescaped(text)
    if not (_IMPORT.search(plain) or _URL.search(plain)):
        return
    out.texts[number] = _URL.sub("none", _IMPORT.sub("", plain))
    out.note("an external reference")


def _unescaped(text: str) -> str:
    """CSS escapes undone where they could hide a word (`\\75rl(`); text without a backslash is as it was."""
    if "\\" not in text:
        return text
    return _ESCAPED.sub(lambda m: chr(min(int(m[1], 16), 0x10FFFF)) if m[1] else m[2], text)
