"""A panel on paper: objects put into named layers, then written as an SVG that any editor opens."""

from __future__ import annotations

from dataclasses import dataclass, field
from xml.sax.saxutils import escape, quoteattr

import numpy as np
from scrollwork import Spiral, path_data

INKSCAPE = "http://www.inkscape.org/namespaces/inkscape"
STEEL, DARK = "#8d949b", "#1d2329"
LAYERS = ("frame", "scrolls", "bars", "collars", "rivets", "joints", "radius", "ends", "samples", "dimensions", "scale")
Point = tuple[float, float]


@dataclass
class Paper:
    """`unit` is real mm for each page unit, `margin` mm of real panel round it; `size_unit` the page's own unit."""

    title: str
    width: float  # of the frame outside, mm
    height: float
    frame_bar: float
    bar: float
    ratio: float = 1.0  # real over paper
    size_unit: str = "mm"
    margin: tuple[float, float, float, float] = (30.0, 24.0, 30.0, 40.0)  # left, top, right, bottom
    description: str = ""
    layers: dict[str, list[str]] = field(default_factory=dict)
    numbers: dict[str, int] = field(default_factory=dict)

    @property
    def unit(self) -> float:
        """Real mm for each page unit."""
        return self.ratio * (25.4 if self.size_unit == "in" else 1.0)

    def at(self, point: Point) -> str:
        """A point of the panel (mm from the frame's upper left outside corner) in page units."""
        return f"{self.x(point[0])},{self.y(point[1])}"

    def x(self, mm: float) -> str:
        return _say((mm + self.margin[0]) / self.unit)

    def y(self, mm: float) -> str:
        return _say((mm + self.margin[1]) / self.unit)

    def long(self, mm: float) -> str:
        return _say(mm / self.unit)

    def put(self, layer: str, markup: str) -> None:
        self.layers.setdefault(layer, []).append(markup)

    def next_id(self, word: str) -> str:
        self.numbers[word] = self.numbers.get(word, 0) + 1
        return f"{word}-{self.numbers[word]}"

    def line(self, layer: str, word: str, points: list[Point], width: float, *, closed: bool = False) -> None:
        """A bar drawn as a centreline with its width (mm)."""
        data = "M " + " L ".join(self.at(p) for p in points) + (" Z" if closed else "")
        self.put(layer, f'<path id="{self.next_id(word)}" d="{data}" {_stroke(STEEL, self.long(width))}/>')

    def scroll(self, scroll: Spiral, *, layer: str = "scrolls", word: str = "scroll", reverse: bool = False) -> None:
        """A scroll as a centreline with the bar's width."""
        moved = Spiral(scroll.points + np.array(self.margin[:2]), scroll.heading, scroll.along)
        data = path_data(moved, unit=self.unit, digits=6 if self.unit > 2 else 4, reverse=reverse)
        self.put(layer, f'<path id="{self.next_id(word)}" d="{data}" {_stroke(STEEL, self.long(self.bar))}/>')

    def u_frame(self) -> None:
        """A frame in two members: a U forged in one piece, and a top bar tenoned between its legs."""
        w, h, b = self.width, self.height, self.frame_bar
        self.line("frame", "frame", [(b / 2, 0), (b / 2, h - b / 2), (w - b / 2, h - b / 2), (w - b / 2, 0)], b)
        self.line("frame", "frame", [(b, b / 2), (w - b, b / 2)], b)
        for x in (b / 2, w - b / 2):
            self.ring("joints", "joint", (x, b / 2), b / 3)
        for x, way in ((b, 1), (w - b, -1)):
            self.inside_arc((x, h - b), b / 2, way)

    def inside_arc(self, corner: Point, radius: float, way: int) -> None:
        """The arc that traces the inside of a lower corner; `way` is 1 at the left, -1 at the right."""
        x, y = corner
        data = f"M {self.at((x, y - radius))} A {self.long(radius)},{self.long(radius)} 0 0 {int(way < 0)} "
        data += self.at((x + way * radius, y))
        self.put("radius", f'<path id="{self.next_id("radius")}" d="{data}" {_stroke("#1f5fa8", self.long(0.7))}/>')

    def ring(self, layer: str, word: str, at: Point, radius: float) -> None:
        """A small circle: a joint or a rivet."""
        self.put(
            layer,
            f'<circle id="{self.next_id(word)}" cx="{self.x(at[0])}" cy="{self.y(at[1])}" r="{self.long(radius)}" '
            f'fill="#ffffff" stroke="{DARK}" stroke-width="{self.long(0.5)}"/>',
        )

    def collar(self, at: Point, across: float, along: float) -> None:
        """A collar `across` by `along` mm, centred."""
        self.put(
            "collars",
            f'<rect id="{self.next_id("collar")}" x="{self.x(at[0] - across / 2)}" y="{self.y(at[1] - along / 2)}" '
            f'width="{self.long(across)}" height="{self.long(along)}" fill="#e9ecef" stroke="{DARK}" '
            f'stroke-width="{self.long(0.5)}"/>',
        )

    def words(self, layer: str, word: str, at: Point, text: str, size: float, *, turn: float = 0) -> None:
        """A line of text, centred on a point; `size` mm high on the real panel."""
        turned = f' transform="rotate({turn} {self.x(at[0])} {self.y(at[1])})"' if turn else ""
        self.put(
            layer,
            f'<text id="{self.next_id(word)}" x="{self.x(at[0])}" y="{self.y(at[1])}" font-size="{self.long(size)}" '
            f'font-family="sans-serif" text-anchor="middle" fill="{DARK}"{turned}>{escape(text)}</text>',
        )

    def size(self, a: Point, b: Point, text: str, *, height: float) -> None:
        """A dimension: a line with arrowheads, and its length beside it."""
        self.put(
            "dimensions",
            f'<line id="{self.next_id("size")}" x1="{self.x(a[0])}" y1="{self.y(a[1])}" x2="{self.x(b[0])}" '
            f'y2="{self.y(b[1])}" {_stroke("#1f5fa8", self.long(0.5))} marker-start="url(#arrow)" '
            'marker-end="url(#arrow)"/>',
        )
        x, y, gap = (a[0] + b[0]) / 2, (a[1] + b[1]) / 2, height * 0.35
        upright = abs(a[0] - b[0]) < abs(a[1] - b[1])
        self.words("dimensions", "size", (x - gap, y) if upright else (x, y - gap), text, height, turn=-90 * upright)

    def overall(self, wide: str, high: str, *, height: float = 6) -> None:
        """The overall sizes, below and at the left of the frame."""
        below, left = self.height + 14, -10
        self.size((0, below), (self.width, below), wide, height=height)
        self.size((left, self.height), (left, 0), high, height=height)

    def svg(self) -> bytes:
        """The whole drawing."""
        wide = (self.width + self.margin[0] + self.margin[2]) / self.unit
        high = (self.height + self.margin[1] + self.margin[3]) / self.unit
        self.words("notes", "note", (self.width / 2, -8), self.title, 7)
        others = [name for name in self.layers if name not in (*LAYERS, "notes")]
        body = "\n".join(
            self._layer(n, name) for n, name in enumerate((*LAYERS, *others, "notes"), 1) if name in self.layers
        )
        about = f"  <desc>{escape(self.description)}</desc>\n" if self.description else ""
        text = (
            '<?xml version="1.0" encoding="UTF-8"?>\n'
            f'<svg xmlns="http://www.w3.org/2000/svg" xmlns:inkscape="{INKSCAPE}" '
            f'width="{_say(wide)}{self.size_unit}" height="{_say(high)}{self.size_unit}" '
            f'viewBox="0 0 {_say(wide)} {_say(high)}">\n  <title>{escape(self.title)}</title>\n{about}'
            '  <defs><marker id="arrow" viewBox="0 0 10 10" refX="10" refY="5" markerWidth="9" markerHeight="9" '
            'orient="auto-start-reverse"><path d="M0 1.5L10 5L0 8.5Z" fill="#1f5fa8"/></marker></defs>\n'
            f"{body}\n</svg>\n"
        )
        return text.encode()

    def _layer(self, number: int, name: str) -> str:
        inside = "\n    ".join(self.layers[name])
        start = f'  <g id="layer{number}" inkscape:groupmode="layer" inkscape:label={quoteattr(name)}>'
        return f"{start}\n    {inside}\n  </g>"


def _stroke(colour: str, width: str) -> str:
    return f'fill="none" stroke="{colour}" stroke-width="{width}"'


def _say(number: float) -> str:
    return f"{number:.5f}".rstrip("0").rstrip(".") or "0"


def touches(scroll: Spiral, side: str) -> list[Point]:
    """Where the scroll's centreline reaches its own extent on one side: one point for each separate place."""
    axis, best = {"left": (0, np.min), "right": (0, np.max), "top": (1, np.min), "bottom": (1, np.max)}[side]
    values = scroll.points[:, axis]
    edge = best(values)
    close = np.flatnonzero(np.abs(values - edge) < 0.02)
    groups = np.split(close, np.flatnonzero(np.diff(close) > 1) + 1)
    picks = [group[np.argmin(np.abs(values[group] - edge))] for group in groups]
    return [(float(scroll.points[i, 0]), float(scroll.points[i, 1])) for i in picks]


def beyond(point: Point, side: str, by: float) -> Point:
    """The point moved outward on a side, by mm: from the centreline to the face that touches."""
    dx, dy = {"left": (-1, 0), "right": (1, 0), "top": (0, -1), "bottom": (0, 1)}[side]
    return (point[0] + dx * by, point[1] + dy * by)
