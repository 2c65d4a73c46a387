"""The marks on the drawing, layer by layer, as they are made; and labels set where there is room."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from lint.report.markup import symbols
from lint.report.markup.chart import Chart
from lint.report.markup.lettering import width, xml
from lint.report.markup.pen import BLUE, MEDIUM, SMALL, THIN, WHITE, Ink, Pen, Point, group
from lint.report.markup.room import Room, edge
from lint.shown import shown

# id and label of each layer, from the bottom to the top
LAYERS = (
    ("facts", "facts and figures"),
    ("stands", "checked, stands"),
    ("look", "look at"),
    ("mend", "must change"),
    ("numbers", "numbers"),
    ("sheet", "mark sheet"),
)
_PAD = 0.7  # sheet mm between words and the edge of their box
_TICK = 3.8  # sheet mm that a tick takes before the words
_LINE = 1.5  # base line to base line, in lettering heights


@dataclass(slots=True)
class Check:
    """A place that was checked and stands, until a label or a symbol takes its tick."""

    at: Point
    title: str
    dot: str = ""  # drawn at the place where a tick of its own points to it
    taken: bool = False


@dataclass(slots=True)
class Sketch:
    """Takes marks for each layer; hands out ids in the order of making. `apart` are the facts that the sheet tells
    for want of room beside their place, each by the letter of its turn; those found on the way are added."""

    pen: Pen
    chart: Chart
    room: Room
    units: str
    checks: list[Check] = field(default_factory=list)
    apart: list[str] = field(default_factory=list)
    layers: dict[str, list[str]] = field(default_factory=lambda: {name: [] for name, _ in LAYERS})

    def checked(self, at: Point, near: float = 2.0) -> tuple[str, ...]:
        """What was checked and stands within `near` sheet mm of a place, taken: its tick is drawn by who asks."""
        found = [c for c in self.checks if not c.taken and math.dist(c.at, at) <= near * self.pen.unit]
        for check in found:
            check.taken = True
        return tuple(check.title for check in found)

    def marked(self, at: Point) -> None:
        """The place has a mark of its own: a tick needs no dot there."""
        for check in self.checks:
            if math.dist(check.at, at) <= self.pen.unit:
                check.dot = ""

    def add(self, layer: str, title: str, body: str) -> None:
        """One mark with the words a viewer shows on it."""
        if body:
            marks = self.layers[layer]
            marks.append(group(f"lint-{layer}-{len(marks) + 1}", shown(title, 300), body))

    def label(
        self,
        title: str,
        lines: tuple[str, ...],
        at: Point,
        *,
        reach: float = 22,
        tick: bool = True,
        stands: Point | None = None,
    ) -> bool:
        """A fact's words near its place, with a leader, and the ticks of what stands there (or at `stands`); False
        where there is no room within `reach` sheet mm that covers neither words nor metal."""
        stands = stands or at
        ticked = tick and any(not c.taken and math.dist(c.at, stands) <= 2.0 * self.pen.unit for c in self.checks)
        size = self.size(lines, ticked)
        middle = self.room.place(at, size, reach=reach, cover=0.02)
        if middle is None:
            return False
        titles = (title, *self.checked(stands)) if ticked else (title,)
        leader = self.leader(at, edge(at, middle, size), BLUE)
        self.add("facts", "; ".join(titles), leader + self.written(lines, middle, BLUE, ticked=ticked))
        return True

    def fact(
        self, title: str, words: str, at: Point, lines: tuple[str, ...], *, reach: float = 22, tick: bool = True
    ) -> None:
        """A fact beside its place, as `lines`; without room there, a letter that leads to its `words` on the sheet."""
        if words not in self.apart and self.label(title, lines, at, reach=reach, tick=tick):
            return
        if words not in self.apart:
            self.apart.append(words)
        size = (2 * symbols.LETTER + 0.4) * self.pen.unit
        middle = self.room.place(at, (size, size)) or at
        leader = self.leader(at, edge(at, middle, (size, size)), BLUE)
        self.add("facts", title, leader + symbols.letter(self.pen, middle, self.apart.index(words)))

    def size(self, lines: tuple[str, ...], ticked: bool = False) -> Point:
        """Width and height of the box that `lines` need, page units; with room for a tick before them."""
        wide = max(width(line, SMALL) for line in lines) + 2 * _PAD + (_TICK if ticked else 0.0)
        high = max(SMALL * (1 + _LINE * (len(lines) - 1)) + 2 * _PAD, _TICK if ticked else 0.0)
        return wide * self.pen.unit, high * self.pen.unit

    def written(
        self, lines: tuple[str, ...], middle: Point, colour: str, *, start: bool = False, ticked: bool = False
    ) -> str:
        """Lines of words about `middle` on a pale ground; from the box's left edge where `start`."""
        wide, high = self.size(lines, ticked)
        left, top = middle[0] - wide / 2, middle[1] - high / 2
        body = self.pen.box(left, top, wide, high, Ink(fill=WHITE, opacity=0.85))
        if ticked:
            body += symbols.tick(self.pen, (left + _TICK / 2 * self.pen.unit, middle[1]), 1.5)
        room = _TICK * self.pen.unit if ticked else 0.0
        flush = start or ticked
        anchor, x = ("start", left + room + _PAD * self.pen.unit) if flush else ("middle", middle[0])
        first = middle[1] + (SMALL - SMALL * _LINE * (len(lines) - 1)) / 2 * self.pen.unit
        for row, line in enumerate(lines):
            base = first + row * SMALL * _LINE * self.pen.unit
            body += self.pen.words(line, (x, base), fill=colour, anchor=anchor)
        return body

    def leader(self, at: Point, to: Point, colour: str) -> str:
        """A leader from a place to a box: a dot at the place (ISO 128: a leader that ends on a surface), beside it
        where the place is a word of the drawing."""
        at = self.room.past_words(at, to)
        thin = Ink(stroke=colour, width=THIN if colour != WHITE else MEDIUM)
        casing = Ink(stroke=WHITE, width=THIN + 0.5)
        dot = self.pen.circle(at, 0.45 * self.pen.unit, Ink(fill=colour))
        return self.pen.line(at, to, casing) + self.pen.line(at, to, thin) + dot

    def written_layers(self) -> str:
        """The layers that hold marks, as groups that an editor shows as layers."""
        parts = []
        for name, words in LAYERS:
            if self.layers[name]:
                inner = "\n".join(self.layers[name])
                layer = f'inkscape:groupmode="layer" inkscape:label="{xml("marks: " + words)}"'
                parts.append(f'<g id="lint-{name}" {layer}><title>{xml("Marks: " + words)}</title>\n{inner}\n</g>')
        return "\n".join(parts)
