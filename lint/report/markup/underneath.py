"""The drawing under the marks: earlier marks taken off, active content left out, and new marks put in its text."""

from __future__ import annotations

import gzip
import re
from dataclasses import dataclass

from lxml import etree

from lint.drawing.marked import GROWN, MARKS, PAGE, same_page, strangers
from lint.drawing.source import parse
from lint.report.markup.lettering import xml
from lint.report.markup.sanitise import LeftOut, active_parts, foreign_doctype, stylesheet_instruction
from lint.report.markup.splice import Edit, Span, Text, attribute_edits, blank, text_of
from lint.shown import shown

_SIZE = ("width", "height", "viewBox")
_LEFT_OUT = "data-lint-left-out"  # on the marks' group: what an earlier marking left out of the copy
_SVG = "http://www.w3.org/2000/svg"
_INKSCAPE = "http://www.inkscape.org/namespaces/inkscape"
_BARE = "no namespace"  # kept with the page's size where the root had no xmlns
_ENTITIES = "a document type with entities (they are written out)"

_SHOWN = {
    name: f"{name}:{value}"
    for name, value in (
        ("display", "inline"),
        ("visibility", "visible"),
        ("opacity", "1"),
        ("filter", "none"),
        ("mask", "none"),
        ("clip-path", "none"),
        ("transform", "none"),
    )
}


@dataclass(frozen=True, slots=True)
class Underneath:
    """`root` is the drawing's tree without earlier marks, `text` its text; `left_out` counts each kind of active
    content that the copy leaves out, `edits` take it out."""

    root: etree._Element
    text: Text
    left_out: dict[str, int]
    edits: tuple[Edit, ...]
    own: dict[str, str | None]  # changes to the root's own attributes

    def with_marks(self, layers: str, size: dict[str, str]) -> bytes:
        """The file with the layers of marks in one group at its end, and the root of this size."""
        kept = "|".join(_plain(self.root.get(name)) for name in _SIZE)
        after = {name: size.get(name, self.root.get(name)) for name in _SIZE}
        bare = "}" not in str(self.root.tag)
        page = {PAGE: kept + (f"|{_BARE}" if bare else ""), GROWN: "|".join(_plain(after[name]) for name in _SIZE)}
        changes = {**self.own, **{k: xml(v) for k, v in {**size, **page}.items()}}
        if bare:
            changes["xmlns"] = _SVG  # a browser shows no SVG without its namespace
        forced = any("!" in "".join(str(t) for t in e.itertext()) for e in self.root.iter("{*}style"))
        group = _group(layers, page, self.left_out)
        group = _held(group) if forced else group
        span = self.text.spans[0]
        edits = [*self.edits, *attribute_edits(self.text, span, changes), *_insert(span, group)]
        return self.text.changed(edits)


def underneath(data: bytes) -> Underneath:
    """The drawing in `data` (SVG or svgz) as it was before any marks, and what to leave out of a copy of it.

    Raises UnreadableDrawing where `data` cannot be read.
    """
    root = parse(data).root
    plain = gzip.decompress(data) if data.startswith(b"\x1f\x8b") else data
    before: dict[str, int] = {}
    groups = [(n, e) for n, e in enumerate(root.iter("*")) if n and MARKS in e.attrib]
    if groups:
        before = _counted(groups[0][1].get(_LEFT_OUT, ""))
        plain = _unmarked(text_of(plain, root), root, groups)
        root = parse(plain).root
    text = text_of(plain, root)
    out = active_parts(root)
    if text.anew and (b"<!ENTITY" in plain or b"<!ATTLIST" in plain):
        out.note(_ENTITIES)
    edits = [*_apart(text, out), *_edits(text, root, out)]
    for word, count in before.items():
        out.words[word] = out.words.get(word, 0) + count
    return Underneath(
        root, text, dict(sorted(out.words.items())), tuple(edits), _named(root, out.attributes.get(0, {}))
    )


def _plain(value: str | None) -> str:
    return value.replace("|", " ") if value else "-"


def _group(layers: str, page: dict[str, str], left_out: dict[str, int]) -> str:
    words = "|".join(f"{word}={count}" for word, count in left_out.items())
    attributes = {"id": "lint-marks", MARKS: "1", **page, **({_LEFT_OUT: words} if words else {})}
    said = " ".join(f'{name}="{xml(value)}"' for name, value in attributes.items())
    layer = 'inkscape:groupmode="layer" inkscape:label="marks of the check"'
    look = "display:inline;visibility:visible;opacity:1;fill-rule:nonzero;stroke-linecap:butt;stroke-opacity:1"
    start = f'<g xmlns="{_SVG}" xmlns:inkscape="{_INKSCAPE}" {said} {layer} style="{look}">'
    return f"{start}<title>Marks of the check</title>\n{layers}\n</g>\n"


def _held(marks: str) -> str:
    """The marks with a look that no `!important` of the drawing's own style sheets overrides (CSS 2.1, 6.4.2: a
    style attribute's own wins)."""

    def firm(match: re.Match[str]) -> str:
        declared = [part for part in match[1].split(";") if part.partition(":")[0] not in _SHOWN]
        return f'style="{";".join(f"{part}!important" for part in [*_SHOWN.values(), *declared])}"'

    shown_always = ";".join(f"{part}!important" for part in _SHOWN.values())
    return re.sub(r'<g id="', f'<g style="{shown_always}" id="', re.sub(r'style="([^"]*)"', firm, marks))


def _counted(words: str) -> dict[str, int]:
    pairs = [word.rpartition("=") for word in words.split("|")[:20]]
    return {shown(word): int(count) for word, _, count in pairs if re.fullmatch("[0-9]{1,6}", count)}


def _insert(span: Span, group: str) -> list[Edit]:
    if span.empty:
        return [(span.inside - 2, span.inside, f">{group}</{span.name}>")]
    return [(span.close, span.close, group)]


def _unmarked(text: Text, root: etree._Element, groups: list[tuple[int, etree._Element]]) -> bytes:
    """The file without its marks; what somebody drew among them stays."""
    numbers = {element: number for number, element in enumerate(root.iter("*"))}
    edits: list[Edit] = []
    end = -1
    for number, group in groups:
        span = text.spans[number]
        if span.start < end:
            continue
        end = span.end
        kept = [text.spans[numbers[stranger]] for stranger in strangers(group)]
        after = span.end + (text.text[span.end : span.end + 1] == "\n")
        edits.append((span.start, after, "".join(text.text[s.start : s.end] for s in kept)))
    kept_page, grown_page = (root.get(n) or groups[0][1].get(n) for n in (PAGE, GROWN))
    back: dict[str, str | None] = {PAGE: None, GROWN: None}
    if kept_page and grown_page and same_page(tuple(root.get(n) for n in _SIZE), grown_page):
        pairs = zip(_SIZE, kept_page.split("|"), strict=False)
        back |= {name: None if value == "-" else xml(value) for name, value in pairs}
    if kept_page and kept_page.endswith(f"|{_BARE}"):
        back["xmlns"] = None
    return text.changed([*edits, *attribute_edits(text, text.spans[0], back)])


def _edits(text: Text, root: etree._Element, out: LeftOut) -> list[Edit]:
    edits: list[Edit] = []
    elements = list(root.iter("*")) if out.attributes else []
    for number in out.cut:
        edits.append(blank(text, text.spans[number].start, text.spans[number].end))
    for number, changes in out.attributes.items():
        if number:
            named = _named(elements[number], changes)
            edits += attribute_edits(text, text.spans[number], named, add=False)
    for number, words in out.texts.items():
        span = text.spans[number]
        lost = text.text.count("\n", span.inside, span.close) - words.count("\n")
        edits.append((span.inside, span.close, xml(words) + "\n" * max(0, lost)))
    return edits


def _named(element: etree._Element, changes: dict[str, str | None]) -> dict[str, str | None]:
    """Changes by the names as written: a name in a namespace under each prefix that stands for it."""
    named: dict[str, str | None] = {}
    for name, value in changes.items():
        space, _, local = name.rpartition("}")
        said = None if value is None else xml(value)
        prefixes = [str(p) for p, uri in element.nsmap.items() if p and uri == space[1:]]
        if space == "{http://www.w3.org/XML/1998/namespace":
            prefixes.append("xml")
        named |= {f"{prefix}:{local}": said for prefix in prefixes} if space else {local: said}
    return named


def _apart(text: Text, out: LeftOut) -> list[Edit]:
    edits = []
    for start, end in text.apart:
        piece = text.text[start:end]
        if stylesheet_instruction(piece) or foreign_doctype(piece):
            out.note("an external reference")
            edits.append(blank(text, start, end))
    return edits
