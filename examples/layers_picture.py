"""The picture of the drawing guide: one panel, with the name of the layer that each thing lies on."""

from __future__ import annotations

from panel_drawing import Paper

_RED = "#a3161e"
_LABELS = (  # words, where the words stand, what they point at; mm from the frame's corner
    ("joints", (-66, 6), (3, 6)),
    ("rivets", (-66, 56), (12, 56)),
    ("scrolls", (-66, 98), (33, 94)),
    ("radius", (-66, 218), (13.5, 219)),
    ("frame", (346, 30), (277, 30)),
    ("ends", (346, 74), (252, 54)),
    ("collars", (346, 118), (149, 118)),
    ("dimensions", (346, 226), (262, 250)),
)


def add_labels(paper: Paper) -> None:
    """A word for each layer, with a line to the thing that lies on it."""
    for words, (x, y), (to_x, to_y) in _LABELS:
        left = x < 0
        start = x + (len(words) * 2.6 + 4) * (1 if left else -1)
        paper.put(
            "notes",
            f'<path d="M {paper.at((start, y))} L {paper.at((to_x, to_y))}" fill="none" stroke="{_RED}" '
            f'stroke-width="{paper.long(0.6)}"/>'
            f'<circle cx="{paper.x(to_x)}" cy="{paper.y(to_y)}" r="{paper.long(1.3)}" fill="{_RED}"/>',
        )
        paper.put(
            "notes",
            f'<text x="{paper.x(x)}" y="{paper.y(y + 2.6)}" font-size="{paper.long(9)}" font-family="sans-serif" '
            f'font-weight="bold" text-anchor="middle" fill="{_RED}">{words}</text>',
        )
