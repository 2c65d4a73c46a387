"""The original's own bytes, with pieces cut out and put in: all that is not touched stays as it was written.

The tree says *what* to change, element by element in document order; this module finds where each element stands in
the text. Where the two do not agree (an entity that holds elements, an encoding unknown here), the text is
written anew from the tree first.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from lxml import etree

from lint.errors import UnreadableDrawing

_TOKEN = re.compile(
    r"<!--.*?-->|<!\[CDATA\[.*?\]\]>|<\?.*?\?>|<!DOCTYPE(?:[^\[>\"']|\"[^\"]*\"|'[^']*')*(?:(?P<inner>\[)|>)"
    r"|</(?P<close>[^\s>]+)\s*>|<(?P<open>[^\s/>!?]+)(?P<attributes>(?:[^>\"']|\"[^\"]*\"|'[^']*')*?)(?P<empty>/?)>",
    re.S,
)
_ATTRIBUTE = re.compile(r"\s+(?P<name>[^\s=]+)\s*=\s*(?P<quote>[\"'])(?P<value>.*?)(?P=quote)", re.S)
_DECLARED = re.compile(rb"""^<\?xml[^>]*?encoding\s*=\s*["']([A-Za-z0-9._-]+)["']""")


Edit = tuple[int, int, str]  # from, to, and what stands there instead


@dataclass(frozen=True, slots=True)
class Span:
    """Where one element stands in the text: its start tag from `start` to `inside`, its end tag from `close` to
    `end` (`close` is `inside` where the element is empty)."""

    name: str
    start: int
    inside: int
    close: int
    end: int
    empty: bool


@dataclass(frozen=True, slots=True)
class Text:
    """A file as text: `mark` is its byte order mark, `encoding` what it is written back in, `spans` one for each
    element in document order, `apart` the instructions and the document type with their places."""

    text: str
    encoding: str
    mark: bytes
    spans: tuple[Span, ...]
    apart: tuple[tuple[int, int], ...]
    anew: bool = False  # written anew from the tree

    def changed(self, edits: list[Edit]) -> bytes:
        """The file's bytes after `edits` (start, end, new text), which do not overlap."""
        pieces, at = [], 0
        for start, end, new in sorted(edits):
            pieces += [self.text[at:start], new]
            at = end
        whole = "".join([*pieces, self.text[at:]])
        return self.mark + whole.encode(self.encoding, "xmlcharrefreplace")


def text_of(data: bytes, root: etree._Element) -> Text:
    """`data` as text with a place for every element of `root`, the tree read from it.

    Raises UnreadableDrawing where even the tree, written anew, cannot be followed.
    """
    names = [str(element.tag) for element in root.iter("*")]
    found = _scanned(data)
    if found is not None and _agree(found, names):
        return found
    found = _scanned(etree.tostring(root, encoding="utf-8"))
    if found is None or not _agree(found, names):
        raise UnreadableDrawing("The drawing's elements cannot be told apart; save it again as plain SVG.")
    return replace(found, anew=True)


def attribute_edits(text: Text, span: Span, values: dict[str, str | None], add: bool = True) -> list[Edit]:
    """The edits that give the element's start tag these attributes (None takes one away), already escaped; those that
    it does not have yet are put in where `add` is true."""
    edits, left = [], dict(values)
    for match in _ATTRIBUTE.finditer(text.text, span.start, span.inside):
        name = match["name"]
        if name not in left:
            continue
        value = left.pop(name)
        if value is None:
            edits.append((match.start(), match.end(), ""))
        elif value != match["value"]:
            edits.append((match.start("value"), match.end("value"), value))
    new = "".join(f' {name}="{value}"' for name, value in left.items() if add and value is not None)
    at = span.start + len(text.text[span.start : span.inside - (2 if span.empty else 1)].rstrip())
    return edits + ([(at, at, new)] if new else [])


def blank(text: Text, start: int, end: int) -> Edit:
    """The edit that takes a piece out and keeps its line breaks, so that no other line changes its number."""
    return start, end, "\n" * text.text.count("\n", start, end)


def _agree(found: Text, names: list[str]) -> bool:
    if len(found.spans) != len(names):
        return False
    pairs = zip(found.spans, names, strict=True)
    return all(span.name.rpartition(":")[2] == name.rpartition("}")[2].rpartition(":")[2] for span, name in pairs)


def _scanned(data: bytes) -> Text | None:
    mark, encoding = _encoding(data)
    try:
        text = data[len(mark) :].decode(encoding)
    except (UnicodeDecodeError, LookupError):
        return None
    spans: dict[int, Span] = {}
    open_spans: list[tuple[int, re.Match[str]]] = []
    apart: list[tuple[int, int]] = []
    count = 0
    for token in _TOKEN.finditer(text):
        if token["inner"]:
            return None  # entities and default attributes: only the tree knows what they make
        if token["open"]:
            if token["empty"]:
                spans[count] = Span(token["open"], token.start(), token.end(), token.end(), token.end(), True)
            else:
                open_spans.append((count, token))
            count += 1
        elif token["close"]:
            if not open_spans:
                return None
            number, opened = open_spans.pop()
            spans[number] = Span(opened["open"], opened.start(), opened.end(), token.start(), token.end(), False)
        elif token[0].startswith(("<?", "<!DOCTYPE")):
            apart.append(token.span())
    if open_spans:
        return None
    return Text(text, encoding, mark, tuple(spans[n] for n in range(count)), tuple(apart))


def _encoding(data: bytes) -> tuple[bytes, str]:
    for mark, name in ((b"\xef\xbb\xbf", "utf-8"), (b"\xff\xfe", "utf-16-le"), (b"\xfe\xff", "utf-16-be")):
        if data.startswith(mark):
            return mark, name
    declared = _DECLARED.match(data)
    return b"", declared[1].decode("ascii").lower() if declared else "utf-8"
