"""Words, and where they stand: the extent is estimated from the font size, for no font is read."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import field

from lxml import etree

from lint.drawing.drawn import Extent
from lint.drawing.names import SODIPODI, clean
from lint.drawing.style import Cascade, Style
from lint.drawing.transforms import Matrix
from lint.drawing.values import length
from lint.errors import UnreadableDrawing
from lint.values import dataclass

LONGEST = 10_000  # characters of one text
ASCENT, DESCENT = 0.8, 0.2  # of the font size; common practice for sans-serif faces
LINE = 1.25  # line spacing in font sizes, common practice
WORD_GAP = 0.5  # of the font size: pieces set farther apart on one line are two words

_BLANKS = re.compile(r"\s+")

Point = tuple[float, float]

# Advance widths in parts of the font size, of a plain sans-serif face (from memory, rounded).
_WIDTHS = {
    **dict.fromkeys("ijl'|!.,:;I ", 0.27),
    **dict.fromkeys('ftr()[]{}/-"“”′″', 0.34),
    **dict.fromkeys("mwMW%@", 0.85),
    **dict.fromkeys("ABCDEFGHKLNOPQRSTUVXYZ&", 0.69),
}


def advance(text: str, size: float) -> float:
    """The estimated width of `text` in the unit of `size`."""
    return size * sum([_WIDTHS.get(c, 0.56 if ord(c) < 0x2E80 else 1.0) for c in text])


@dataclass(slots=True)
class _Chunk:
    """Letters that follow one another from one stated position (SVG 1.1, 10.5)."""

    x: float
    y: float
    size: float
    anchor: str
    text: str = ""
    width: float = 0.0

    def extent(self) -> Extent:
        left = self.x - self.width * {"start": 0.0, "middle": 0.5, "end": 1.0}[self.anchor]
        return left, self.y - ASCENT * self.size, left + self.width, self.y + DESCENT * self.size


@dataclass(slots=True)
class _Typesetting:
    """The state of setting one `<text>`: what was set so far and where the next letter goes."""

    cascade: Cascade
    viewport: tuple[float, float]
    on_path: Callable[[etree._Element], Point | None]
    chunks: list[_Chunk] = field(default_factory=list)
    pieces: list[str] = field(default_factory=list)
    count: int = 0


@dataclass(frozen=True, slots=True)
class Setting:
    """The folded words and the extents of their pieces, in the text's own units."""

    words: str
    boxes: tuple[Extent, ...]

    def extent(self, matrix: Matrix) -> Extent:
        """Left, top, right, bottom on the page."""
        return _on_page(self.boxes, matrix)


def words(
    element: etree._Element,
    style: Style,
    cascade: Cascade,
    viewport: tuple[float, float],
    on_path: Callable[[etree._Element], Point | None],
) -> Setting | None:
    """What a `<text>` says; pieces that are kerned apart are joined, lines are parted by a blank.

    None where it says nothing. Raises UnreadableDrawing over 10,000
    characters.
    """
    setting = _Typesetting(cascade, viewport, on_path)
    if str(element.tag).endswith("flowRoot"):
        _start_in_region(element, style, setting)
    _set(element, style, setting)
    said = clean("".join(setting.pieces))
    if not said:
        return None
    boxes = [chunk.extent() for chunk in setting.chunks if chunk.text.strip()] or [setting.chunks[0].extent()]
    return Setting(said, tuple(boxes))


def _start_in_region(element: etree._Element, style: Style, setting: _Typesetting) -> None:
    for rect in element.iter("{*}rect"):
        x, y = (length(rect.get(name)) or 0.0 for name in ("x", "y"))
        setting.chunks.append(_Chunk(x, y + style.font_size, style.font_size, "start"))
        return


def _set(element: etree._Element, style: Style, setting: _Typesetting) -> None:
    _place(element, style, setting)
    _letters(element.text, style, setting)
    for child in element.iterchildren():
        if isinstance(child.tag, str):
            tag = child.tag.rpartition("}")[2]
            if tag in ("tspan", "textPath", "a", "tref", "altGlyph", "flowPara", "flowSpan", "flowDiv", "flowLine"):
                below = setting.cascade.style(child, style)
                if below.displayed and below.visible:
                    _set(child, below, setting)
        _letters(child.tail, style, setting)


def _figures(text: str | None, of: float, size: float) -> list[float]:
    if not text:
        return []
    found = [length(word, of=of, font_size=size) for word in text.replace(",", " ").split()[:LONGEST]]
    return [figure for figure in found if figure is not None]


def _place(element: etree._Element, style: Style, setting: _Typesetting) -> None:
    """Starts a chunk where the element states a position or a new line, and for the first letters of all."""
    size = style.font_size
    last = setting.chunks[-1] if setting.chunks else None
    at = (last.x + last.width, last.y) if last else (0.0, 0.0)
    if new_line := last is not None and _is_line(element):
        at = (last.x, last.y + LINE * size) if last.text else (last.x, last.y)
    on_path = setting.on_path(element) if str(element.tag).endswith("textPath") else None
    width, height = setting.viewport
    get = setting.cascade.attributes[element].get
    xs, ys = _figures(get("x"), width, size), _figures(get("y"), height, size)
    dx, dy = _figures(get("dx"), width, size)[:1], _figures(get("dy"), height, size)[:1]
    if last and not (xs or ys or dx or dy or new_line or on_path):
        return
    at = on_path or at
    x = (xs[0] if xs else at[0]) + sum(dx)
    y = (ys[0] if ys else at[1]) + sum(dy)
    if last and setting.pieces and (new_line or _apart((x, y), (last.x + last.width, last.y), size)):
        setting.pieces.append(" ")
    setting.chunks.append(_Chunk(x, y, size, style.inherited["text-anchor"]))
    if len(xs) > 1:  # a position for each letter: the chunk reaches to the last one
        setting.chunks[-1].width = max(xs) - min(xs)


def _is_line(element: etree._Element) -> bool:
    return element.get(f"{{{SODIPODI}}}role") == "line" or str(element.tag).endswith("flowPara")


def _apart(a: Point, b: Point, size: float) -> bool:
    return abs(a[0] - b[0]) > WORD_GAP * size or abs(a[1] - b[1]) > WORD_GAP * size


def _letters(text: str | None, style: Style, setting: _Typesetting) -> None:
    if not text or not setting.chunks:
        return
    if not text.strip() and "\n" in text:
        return  # the file's own indentation between pieces
    setting.count += len(text)
    if setting.count > LONGEST:
        raise UnreadableDrawing(f"One text of the drawing is longer than {LONGEST:,} characters. Shorten it.")
    folded = _BLANKS.sub(" ", text)
    if not setting.pieces:
        folded = folded.lstrip()
    chunk = setting.chunks[-1]
    width = advance(folded, style.font_size)
    chunk.width = width + chunk.width if chunk.text else max(chunk.width, width)
    chunk.size = max(chunk.size, style.font_size)
    chunk.text += folded
    setting.pieces.append(folded)


def _on_page(boxes: tuple[Extent, ...], matrix: Matrix) -> Extent:
    a, b, c, d, e, f = matrix
    xs = [a * x + c * y + e for left, top, right, bottom in boxes for x in (left, right) for y in (top, bottom)]
    ys = [b * x + d * y + f for left, top, right, bottom in boxes for x in (left, right) for y in (top, bottom)]
    return min(xs), min(ys), max(xs), max(ys)
