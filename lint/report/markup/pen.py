"""The pen: strokes, shapes and words as SVG text, their sizes following the page.

Positions are page units; sizes are *sheet mm*: millimetres on a sheet of the size the marks are laid out for
(`Pen.unit` page units each). Line widths are of the ISO 128 series, lettering heights (of capitals) of ISO 3098. Every
element carries its whole look in `style`, so that a style sheet of the drawing does not reach it.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from lint.report.markup.lettering import CAPITAL, xml
from lint.report.markup.page import plain

Point = tuple[float, float]

RED = "#b3121d"
PURPLE = "#6a1b9a"
YELLOW = "#ffd500"
DARK = "#4a3c00"  # the outline that makes yellow print
BLUE = "#0b4f9c"
BLACK = "#1a1a1a"
GREY = "#6b6b6b"
PALE = "#e4e4e4"
WHITE = "#ffffff"

THIN, MEDIUM, WIDE, BROAD = 0.25, 0.35, 0.5, 0.7  # mm, ISO 128
SMALL, HEAD = 2.5, 5.0  # mm, ISO 3098
FACE = "Arial,'Liberation Sans',Helvetica,sans-serif"


@dataclass(frozen=True, slots=True, kw_only=True)
class Ink:
    """A look: colours or "none", line width and dashes in sheet mm, opacity of the fill."""

    stroke: str = "none"
    width: float = MEDIUM
    fill: str = "none"
    dash: tuple[float, ...] = ()
    opacity: float = 1.0


@dataclass(frozen=True, slots=True)
class Pen:
    """`unit` page units make one sheet mm; `say` is the format of a coordinate in page units."""

    unit: float
    say: str

    @classmethod
    def of(cls, unit: float) -> Pen:
        """A pen whose coordinates are good to a hundredth of a sheet mm."""
        return cls(unit, f".{max(0, min(9, 2 - math.floor(math.log10(unit))))}f")

    def n(self, value: float) -> str:
        """A coordinate as text."""
        return plain(value, self.say)

    def path(self, d: str, ink: Ink) -> str:
        """A path from its data."""
        return f'<path d="{d}" style="{self.style(ink)}"/>'

    def lines(self, rings: Iterable[Sequence[Point]], ink: Ink, closed: bool = False) -> str:
        """Polylines as one path."""
        return self.path(" ".join(self.trail(ring, closed) for ring in rings), ink)

    def line(self, a: Point, b: Point, ink: Ink) -> str:
        """A straight stroke."""
        return self.lines([(a, b)], ink)

    def trail(self, points: Sequence[Point], closed: bool = False) -> str:
        """Path data through points."""
        tail = "Z" if closed else ""
        return "M" + "L".join(f"{self.n(x)},{self.n(y)}" for x, y in points) + tail

    def box(self, x: float, y: float, width: float, height: float, ink: Ink) -> str:
        """A rectangle."""
        size = f'x="{self.n(x)}" y="{self.n(y)}" width="{self.n(width)}" height="{self.n(height)}"'
        return f'<rect {size} style="{self.style(ink)}"/>'

    def circle(self, at: Point, radius: float, ink: Ink) -> str:
        """A circle; `radius` in page units."""
        place = f'cx="{self.n(at[0])}" cy="{self.n(at[1])}" r="{self.n(radius)}"'
        return f'<circle {place} style="{self.style(ink)}"/>'

    def words(
        self,
        text: str,
        at: Point,
        *,
        height: float = SMALL,
        fill: str = BLACK,
        bold: bool = False,
        anchor: str = "start",
    ) -> str:
        """One line of words; `at` is on the base line, `height` that of its capitals in sheet mm."""
        if not text:
            return ""
        size = plain(height / CAPITAL * self.unit, f".{len(self.n(0.123456789))}f")
        weight = "bold" if bold else "normal"
        look = (
            f"font-family:{FACE};font-size:{size}px;font-weight:{weight};font-style:normal;letter-spacing:0;"
            f"text-anchor:{anchor};fill:{fill};stroke:none"
        )
        return f'<text x="{self.n(at[0])}" y="{self.n(at[1])}" style="{look}">{xml(text)}</text>'

    def style(self, ink: Ink) -> str:
        """An ink as CSS."""
        fill = ink.fill + (f";fill-opacity:{ink.opacity:g}" if ink.fill != "none" and ink.opacity < 1 else "")
        if ink.stroke == "none":
            return f"fill:{fill};stroke:none"
        dash = ",".join(self.n(v * self.unit) for v in ink.dash) or "none"
        width = self.n(ink.width * self.unit)
        return f"fill:{fill};stroke:{ink.stroke};stroke-width:{width};stroke-dasharray:{dash};stroke-linejoin:round"

    def shift(self, at: Point, right: float, down: float) -> Point:
        """A point moved by sheet mm."""
        return at[0] + right * self.unit, at[1] + down * self.unit


def group(number: str, title: str, body: str) -> str:
    """One mark: a group with its own id and the words that a viewer shows on it."""
    return f'<g id="{number}"><title>{xml(title)}</title>{body}</g>'
