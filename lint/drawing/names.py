"""The names people gave to an element: labels, data-name, title, id, class; editors' escapes undone."""

from __future__ import annotations

import ast
import re
import unicodedata

from lxml import etree

from lint.drawing.drawn import Naming
from lint.drawing.values import Attributes, line_of
from lint.errors import UnreadableDrawing

LONGEST = 10_000  # characters in one name

INKSCAPE = "http://www.inkscape.org/namespaces/inkscape"
SODIPODI = "http://sodipodi.sourceforge.net/DTD/sodipodi-0.dtd"
# Where editors keep the name that a person typed; matched by namespace, for prefixes are anybody's choice.
_LABELS = (
    f"{{{INKSCAPE}}}label",
    "{http://www.serif.com/}id",
    "{https://librecad.org}layername",
    "{http://vectornator.io}layerName",
    "{https://boxy-svg.com}name",
    "{http://www.bohemiancoding.com/sketch/ns}name",
    "data-name",
)
_LABELLED = frozenset(_LABELS)
_LAYER_MARKS = frozenset(("{https://librecad.org}layername", "{http://vectornator.io}layerName"))
# Two or more hex digits between _x and _: Illustrator writes two, older Illustrator and CorelDRAW four.
_ESCAPE = re.compile(r"_x([0-9A-Fa-f]{2,6})_")
_BYTES = re.compile(r"""^b(['"]).*\1$""", re.S)
# What editors call a shape that nobody named: path24-5, svg_12, Ellipse 3, Vector_2, _1421344023328, shape-<uuid>.
_NOBODYS = re.compile(
    r"^(?:(?:svg|path|rect|rectangle|circle|ellipse|oval|line|polyline|polygon|text|tspan|flowroot|use|image|bitmap"
    r"|shape|object|vector|curve|id|element|svgid|xmlid|union|subtract|group)?[-_ ]*[\d_-]*"
    r"|shape-[\da-f]{8}-[\da-f-]{20,30})$",
    re.IGNORECASE,
)
# Classes that only carry a style: .st0, .cls-1, .fil0, .str0, .C1, com.sun.star.drawing.CustomShape.
_STYLES = re.compile(
    r"^(?:(?:st|cls|fil|str|fnt|c|s|style|class)[-_]?\d+|com\.sun\.star\..*|BoundingBox)$", re.IGNORECASE
)
_SHAPES = frozenset(("path", "rect", "circle", "ellipse", "line", "polyline", "polygon", "text", "use", "image"))
# Turned or hidden writing directions; a name never needs them, and on a terminal they disguise it.
_BIDI = dict.fromkeys([*range(0x202A, 0x202F), *range(0x2066, 0x206A), 0x200E, 0x200F, 0x061C])


def clean(text: str) -> str:
    """White space folded, control characters and bidirectional overrides taken out."""
    if text.isascii() and text.isprintable():
        return " ".join(text.split())
    folded = " ".join(text.split()).translate(_BIDI)
    return "".join(c for c in folded if unicodedata.category(c) != "Cc")


def unescaped(text: str) -> str:
    """The name behind an id: `C_x5F_scroll` is `C_scroll`, `Layer_x0020_1` is `Layer 1`."""
    if "_x" not in text:
        return text
    return _ESCAPE.sub(_character, text)


def _character(found: re.Match[str]) -> str:
    code = int(found[1], 16)
    return chr(code) if code <= 0x10FFFF and not 0xD800 <= code < 0xE000 else found[0]


def _without_bytes_repr(text: str) -> str:
    """FreeCAD writes titles as Python prints bytes: b'rivet-left'."""
    if not _BYTES.match(text):
        return text
    try:
        value = ast.literal_eval(text)
    except (ValueError, SyntaxError, MemoryError):
        return text
    return value.decode("utf-8", "replace") if isinstance(value, bytes) else text


def title_of(element: etree._Element) -> str:
    """The text of the element's first `<title>` child, or ""."""
    for child in element.iterchildren("{*}title"):
        # A title is a few words; one with elements in it is read by its text alone.
        return clean(_without_bytes_repr(_bounded(child, "title", "".join(map(str, child.itertext()))).strip()))
    return ""


def naming(element: etree._Element, attributes: Attributes, *, root: bool = False) -> Naming:
    """All names of one element, best source first. The root's title is the drawing's, and names no layer.

    Names that an editor made up for a shape are none; its id stands in `id` all the same.
    """
    get = attributes.get
    found: list[str] = []
    if not _LABELLED.isdisjoint(attributes):
        found += [clean(_bounded(element, "label", text)) for key in _LABELS if (text := get(key))]
    if not root and len(element):
        found.append(title_of(element))
    id_ = get("id")
    if id_:
        found.append(clean(unescaped(_bounded(element, "id", id_))))
    classes = get("class")
    if classes:
        words = _bounded(element, "class", classes).split()
        found += [clean(unescaped(word)) for word in words if not _STYLES.match(word)]
    tag = str(element.tag).rpartition("}")[2]
    if tag in _SHAPES:
        found = [name for name in found if not _NOBODYS.match(name)]
    return Naming(names=tuple(dict.fromkeys(filter(None, found))), id=id_, tag=tag)


def _bounded(element: etree._Element, what: str, text: str) -> str:
    if len(text) > LONGEST:
        line = line_of(element)
        raise UnreadableDrawing(
            f"Line {line}: the {what} of one object is longer than {LONGEST:,} characters. Give it a short name.",
            line=line,
        )
    return text


def is_layer(attributes: Attributes) -> bool:
    """True where an editor says of a group of these attributes that it is a layer."""
    if attributes.get(f"{{{INKSCAPE}}}groupmode") == "layer" or attributes.get("class") == "layer":
        return True
    return not _LAYER_MARKS.isdisjoint(attributes)
