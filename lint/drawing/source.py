"""Bytes -> a safe tree: unpacked, decoded, bounded; nothing is ever fetched."""

from __future__ import annotations

import re
import zlib
from collections.abc import Iterator
from typing import Any

from lxml import etree

from lint.drawing import encoding, entities
from lint.drawing.values import line_of, printable
from lint.errors import UnreadableDrawing
from lint.values import dataclass

MEGABYTE = 1_000_000
LARGEST = 20 * MEGABYTE  # bytes, unpacked
MOST_ELEMENTS = 100_000
MOST_ATTRIBUTES = 1_000
DEEPEST = 200
MOST_MEMBERS = 100  # gzip members in one svgz; one is the rule
SVG = "http://www.w3.org/2000/svg"

# What people hand in by mistake, by its first bytes.
_STRANGERS = (
    (b"%PDF", "a PDF"),
    (b"\x89PNG", "a PNG picture"),
    (b"\xff\xd8\xff", "a JPEG picture"),
    (b"GIF8", "a GIF picture"),
    (b"%!PS", "a PostScript file"),
    (b"PK\x03\x04", "a ZIP archive"),
    (b"AC10", "a DWG drawing"),
    (b"RIFF", "a picture or CorelDRAW file"),
    (b"II*\x00", "a TIFF picture"),
    (b"MM\x00*", "a TIFF picture"),
    (b"  0\r\nSECTION", "a DXF drawing"),
    (b"  0\nSECTION", "a DXF drawing"),
    (b"0\nSECTION", "a DXF drawing"),
)


@dataclass(frozen=True, slots=True)
class Source:
    """The root element of the drawing, the namespace its SVG elements are in, and what was noticed on the way."""

    root: etree._Element
    namespace: str | None
    notes: tuple[str, ...]
    outside: tuple[str, ...] = ()  # style sheets that the file's head points to
    size: int = 0  # bytes, unpacked


class _NothingFetched(etree.Resolver):
    """Answers every request for another file or address with nothing."""

    def resolve(self, system_url: str, public_id: str, context: object) -> object:  # type: ignore[override]
        return self.resolve_empty(context)  # type: ignore[attr-defined]


def parse(data: bytes) -> Source:
    """The drawing's tree.

    Reads SVG and svgz (gzip) of at most 20 MB unpacked. Raises UnreadableDrawing for anything that is no sound
    SVG file or goes over a limit.
    """
    data = _unpacked(data)
    _refuse_strangers(data)
    text, notes = encoding.decode(data)
    notes += entities.checked(text)
    root = _tree(text)
    namespace, more = _namespace(root)
    outside = ("style sheet named in the head of the file",) if "<?xml-stylesheet" in text else ()
    return Source(root, namespace, notes + more, outside, len(data))


def _unpacked(data: bytes) -> bytes:
    if data[:2] != b"\x1f\x8b":
        return _bounded(data)
    parts: list[bytes] = []
    size, left = 0, data
    try:
        while (
            left[:2] == b"\x1f\x8b" and len(parts) < MOST_MEMBERS
        ):  # a gzip file may have several members, RFC 1952 section 2.2
            unpacker = zlib.decompressobj(wbits=31)
            parts.append(unpacker.decompress(left, LARGEST + 1 - size))
            size += len(parts[-1])
            if size > LARGEST:
                return _bounded(b"".join(parts))
            if not unpacker.eof:
                raise UnreadableDrawing("The packed drawing (.svgz) ends too early. Save or send it again.")
            left = unpacker.unused_data
    except zlib.error as trouble:
        message = "The packed drawing (.svgz) is damaged and cannot be unpacked. Save or send it again."
        raise UnreadableDrawing(message) from trouble
    return _bounded(b"".join(parts))


def _bounded(data: bytes) -> bytes:
    if len(data) > LARGEST:
        raise UnreadableDrawing(
            "The drawing is larger than 20 MB. Take out pictures placed in it, or save only the grille."
        )
    return data


def _refuse_strangers(data: bytes) -> None:
    if not data.strip(b" \t\r\n\x00"):
        raise UnreadableDrawing("The file is empty. Save the drawing again as SVG.")
    for start, what in _STRANGERS:
        if data.startswith(start):
            raise UnreadableDrawing(f"The file is {what}, not an SVG drawing. Save or export it as SVG.")


def _tree(text: str) -> etree._Element:
    parser = etree.XMLPullParser(
        events=("start", "end"),
        resolve_entities="internal",  # type: ignore[arg-type]  # the stubs know only bool
        no_network=True,
        load_dtd=False,
        huge_tree=True,  # our own limits are below and tighter; libxml2's would refuse pictures of 10 MB
        remove_comments=True,
        remove_pis=True,
    )
    parser.resolvers.add(_NothingFetched())
    census = _Census()
    try:
        for piece in _pieces(text):
            parser.feed(piece)
            census.take(parser.read_events())
        root = parser.close()
        census.take(parser.read_events())
    except etree.XMLSyntaxError as trouble:
        raise _not_sound(trouble) from trouble
    if not isinstance(root, etree._Element):
        raise UnreadableDrawing("The file holds no drawing. Save it again as SVG.")
    return root


def _pieces(text: str, size: int = 1 << 16) -> Iterator[bytes]:
    for start in range(0, len(text), size):
        yield text[start : start + size].encode("utf-8")


class _Census:
    """Counts elements, depth and attributes while the file is still being read, so that no limit is passed far."""

    def __init__(self) -> None:
        self.elements = 0
        self.depth = 0

    def take(self, events: Iterator[tuple[str, Any]]) -> None:
        for event, element in events:
            if event == "end":
                self.depth -= 1
                continue
            self.elements += 1
            self.depth += 1
            if self.elements > MOST_ELEMENTS:
                raise UnreadableDrawing(
                    f"The drawing has more than {MOST_ELEMENTS:,} elements. Keep only the grille in the file."
                )
            if self.depth > DEEPEST:
                line = line_of(element)
                raise UnreadableDrawing(
                    f"Line {line}: groups lie more than {DEEPEST} deep in one another. Ungroup the drawing.", line=line
                )
            if len(element.attrib) > MOST_ATTRIBUTES:
                line = line_of(element)
                raise UnreadableDrawing(
                    f"Line {line}: one element has more than {MOST_ATTRIBUTES:,} attributes. "
                    "Save the drawing again as plain SVG.",
                    line=line,
                )


def _not_sound(trouble: etree.XMLSyntaxError) -> UnreadableDrawing:
    line = trouble.lineno or None
    said = re.sub(r",? ?line \d+, column \d+.*$", "", trouble.msg or "").strip().rstrip(".")
    said = printable(said[:200])
    if said.startswith("Excessive depth"):
        return UnreadableDrawing(
            f"Line {line}: groups lie more than {DEEPEST} deep in one another. Ungroup the drawing.", line=line
        )
    where = f"Line {line}: the" if line else "The"
    return UnreadableDrawing(
        f"{where} file is not sound XML ({said or 'it ends too early'}). "
        "Open it in the editor it comes from and save it again as SVG.",
        line=line,
    )


def _namespace(root: etree._Element) -> tuple[str | None, tuple[str, ...]]:
    name = etree.QName(root)
    if name.localname != "svg":
        shown = printable(name.localname[:40])
        raise UnreadableDrawing(
            f"Line {line_of(root)}: the file is XML, but its root is <{shown}> and not <svg>. "
            "Save or export it as SVG.",
            line=line_of(root),
        )
    if name.namespace == SVG:
        return SVG, ()
    if name.namespace is None:
        return None, ("The file does not declare the SVG namespace; its elements were read as SVG.",)
    return name.namespace, ("The file declares an unknown namespace for SVG; its elements were read as SVG.",)
