"""The marks on the drawing, layer by layer, as they are made; and labels set where there is room."""

from __future__ import annotations

from dataclasses import dataclass, field

from lint.report.markup.chart import Chart
from lint.report.markup.lettering import width, xml
from lint.report.markup.pen import MEDIUM, SMALL, THIN, WHITE, Ink, Pen, Point, group
from lint.report.markup.room import Room, edge
from lint.report.shown import shown

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
_LINE = 1.5  # base line to base line, in lettering heights


@dataclass(slots=True)
class Sketch:
    """Takes marks for each layer; hands out ids in the order of making."""

    pen: Pen
    chart: Chart
    room: Room
    units: str
    layers: dict[str, list[str]] = field(default_factory=lambda: {name: [] for name, _ in LAYERS})

    def add(self, layer: str, title: str, body: str) -> None:
        """One mark with the words a viewer shows on it."""
        if body:
            marks = self.layers[layer]
            marks.append(group(f"lint-{layer}-{len(marks) + 1}", shown(title, 300), body))

    def label(
        self,
        layer: str,
        title: str,
        lines: tuple[str, ...],
        at: Point,
        colour: str,
        *,
        reach: float = 22,
        lead: bool = True,
    ) -> bool:
        """Words near a place, with a leader; False where there is no room within `reach` sheet mm."""
        middle = self.room.place(at, self.size(lines), reach=reach, leader=lead, cover=0.25)
        if middle is None:
            return False
        leader = self.leader(at, edge(at, middle, self.size(lines)), colour) if lead else ""
        self.add(layer, title, leader + self.written(lines, middle, colour))
        return True

    def size(self, lines: tuple[str, ...], height: float = SMALL) -> Point:
        """Width and height of the box that `lines` need, page units."""
        wide = max(width(line, height) for line in lines) + 2 * _PAD
        high = height * (1 + _LINE * (len(lines) - 1)) + 2 * _PAD
        return wide * self.pen.unit, high * self.pen.unit

    def written(self, lines: tuple[str, ...], middle: Point, colour: str, *, start: bool = False) -> str:
        """Lines of words about `middle` on a pale ground; from the box's left edge where `start`."""
        wide, high = self.size(lines)
        left, top = middle[0] - wide / 2, middle[1] - high / 2
        body = self.pen.box(left, top, wide, high, Ink(fill=WHITE, opacity=0.8))
        anchor, x = ("start", left + _PAD * self.pen.unit) if start else ("middle", middle[0])
        for row, line in enumerate(lines):
            base = top + (_PAD + SMALL + row * SMALL * _LINE) * self.pen.unit
            body += self.pen.words(line, (x, base), fill=colour, anchor=anchor)
        return body

    def leader(self, at: Point, to: Point, colour: str) -> str:
        """A leader from a place to a box: a dot at the place (ISO 128: a leader that ends on a surface)."""
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
