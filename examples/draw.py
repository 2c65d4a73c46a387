"""Draws the examples of the Quarry Lane Forge evening class: python examples/draw.py

Every panel is built from true spirals that touch, so that each is a drawing which a candidate could bring.
"""

from __future__ import annotations

from pathlib import Path

from layers_picture import add_labels
from panel_drawing import Paper, beyond, touches
from scrollwork import Spiral, c_scroll, s_scroll

HERE = Path(__file__).parent
Point = tuple[float, float]
FOUR_ENDS = ("ribbon", "fishtail", "halfpenny snub", "bolt end")


def c_pairs(paper: Paper, top: float, height: float, rows: int) -> list[Spiral]:
    """C scrolls back to back in `rows` rows, filling the frame's width from `top` down over `height` mm."""
    row = height / rows
    cell = c_scroll((paper.width - 2 * paper.frame_bar) / 2 - paper.bar, row - paper.bar, power=1.5, turns=1.3)
    middle, half = paper.width / 2, paper.bar / 2
    placed = []
    for j in range(rows):
        y = top + row * (j + 0.5)
        placed += [cell.placed(middle - half, y, flip_x=True), cell.placed(middle + half, y)]
    return placed


def s_pair(paper: Paper, top: float, height: float) -> list[Spiral]:
    """A pair of S scrolls either side of a picket in the middle, from `top` down over `height` mm."""
    half = ((paper.width - 2 * paper.frame_bar) - paper.bar) / 2
    cell = s_scroll(half - paper.bar, height - paper.bar, power=1.0)
    away, y = paper.bar / 2 + half / 2, top + height / 2
    return [cell.placed(paper.width / 2 - away, y, flip_x=True), cell.placed(paper.width / 2 + away, y)]


def rivet_to(paper: Paper, scroll: Spiral, *sides: str) -> None:
    """Rivets where the scroll touches what lies on these sides of it."""
    for side in sides:
        for point in touches(scroll, side):
            paper.ring("rivets", "rivet", beyond(point, side, paper.bar / 2), 2.5)


def name_ends(paper: Paper, scrolls: list[Spiral], names: list[str], *, size: float = 5, layer: str = "ends") -> None:
    """Each end's name, set inside its own curl."""
    ends: list[Point] = []
    for scroll in scrolls:
        ends += [tuple(scroll.points[0]), tuple(scroll.points[-1])]
    for end, name in zip(ends, names, strict=True):
        paper.words(layer, "end", (end[0], end[1] + 9), name, size)


def two_c_panel(title: str = "Two C scrolls") -> Paper:
    """The least a sheet asks: one pair of C scrolls, back to back, and four ends. Full size, mm."""
    paper = Paper(title, 280, 236, 12, 6)
    fill_two_c(paper)
    return paper


def fill_two_c(paper: Paper, ends: tuple[str, ...] = FOUR_ENDS) -> None:
    """Frame, scrolls, fastenings, ends and sizes of the two C scrolls."""
    paper.u_frame()
    scrolls = c_pairs(paper, 12, 212, 1)
    for scroll in scrolls:
        paper.scroll(scroll)
    paper.collar((140, 118), 18, 12)
    rivet_to(paper, scrolls[0], "top", "left", "bottom")
    rivet_to(paper, scrolls[1], "top", "right", "bottom")
    name_ends(paper, scrolls, list(ends))
    paper.overall("280", "236")
    paper.size((12, 131), (140, 131), "128", height=6)


def s_pair_panel() -> Paper:
    """A pair of S scrolls either side of a picket; drawn full size on a page in inches."""
    inch = 25.4
    paper = Paper("S pair and picket", 12 * inch, 14 * inch, inch / 2, inch / 4, size_unit="in")
    paper.u_frame()
    scrolls = s_pair(paper, 0.5 * inch, 13 * inch)
    for scroll in scrolls:
        paper.scroll(scroll)
    paper.line("bars", "picket", [(6 * inch, 0.5 * inch), (6 * inch, 13.5 * inch)], inch / 4)
    for point in touches(scrolls[1], "left"):
        paper.collar((6 * inch, point[1]), 1.15 * inch, 0.5 * inch)
    rivet_to(paper, scrolls[0], "top", "left", "bottom")
    rivet_to(paper, scrolls[1], "top", "right", "bottom")
    name_ends(paper, scrolls, ["snub end", "leaf", "fish tail", "ribbon"])
    paper.overall('12"', "1'-2\"", height=7)
    left, bottom = 0.5 * inch, 13.5 * inch
    paper.size((left, bottom - 88), (left + 5.375 * inch, bottom - 88), '5 3/8"', height=6)
    return paper


def six_c_window() -> Paper:
    """Six C scrolls in three rows for a window, on A4 paper at 1:4."""
    paper = Paper("Window grille, six C scrolls", 300, 684, 12, 6, ratio=4.0, margin=(80, 70, 80, 110))
    paper.u_frame()
    scrolls = c_pairs(paper, 12, 660, 3)
    for k, scroll in enumerate(scrolls):
        paper.scroll(scroll, reverse=k % 3 == 1)
        rivet_to(paper, scroll, "left" if k % 2 == 0 else "right")
    for scroll in scrolls[:2]:
        rivet_to(paper, scroll, "top")
    for scroll in scrolls[-2:]:
        rivet_to(paper, scroll, "bottom")
    for row in range(3):
        paper.collar((150, 12 + 220 * (row + 0.5)), 20, 16)
    for scroll in scrolls[:4]:
        for x, y in touches(scroll, "bottom"):
            paper.collar((x, y + 3), 16, 20)
    name_ends(paper, scrolls, [*FOUR_ENDS, "ribbon", "ribbon", "snub", "snub", *FOUR_ENDS], size=9)
    paper.overall("300 mm", "684 mm", height=14)
    paper.size((12, 474), (150, 474), "138", height=12)
    paper.words("scale", "scale", (250, 752), "1:4", 20)
    return paper


def porch_panel() -> Paper:
    """Two C scrolls with two kinds of end: what the design repository's waiver is for."""
    paper = Paper("Porch, side panel", 280, 236, 12, 6)
    fill_two_c(paper, ("ribbon", "ribbon", "fishtail", "fishtail"))
    return paper


def mixed_panel() -> Paper:
    """C scrolls over S scrolls with a cross bar and a picket; ends two by two, samples beside the panel."""
    paper = Paper("Mixed panel with samples", 300, 566, 12, 6, margin=(40, 24, 170, 40))
    paper.u_frame()
    upper, lower = c_pairs(paper, 12, 228, 1), s_pair(paper, 246, 308)
    for scroll in [*upper, *lower]:
        paper.scroll(scroll)
    paper.line("bars", "bar", [(12, 243), (288, 243)], 6)
    paper.line("bars", "picket", [(150, 246), (150, 554)], 6)
    paper.collar((150, 126), 18, 12)
    for point in touches(lower[1], "left"):
        paper.collar((150, point[1]), 26, 12)
    rivet_to(paper, upper[0], "top", "left", "bottom")
    rivet_to(paper, upper[1], "top", "right", "bottom")
    rivet_to(paper, lower[0], "top", "left", "bottom")
    rivet_to(paper, lower[1], "top", "right", "bottom")
    name_ends(paper, [*upper, *lower], ["ribbon", "ribbon", "ribbon", "ribbon", *["fishtail"] * 4])
    for k, names in enumerate((["halfpenny", "bevelled"], ["leaf", "ball"])):
        sample = c_scroll(90, 150, power=1.5, turns=1.2).placed(350, 130 + 220 * k)
        paper.scroll(sample, layer="samples", word="sample")
        name_ends(paper, [sample], names)
    paper.overall("300", "566")
    paper.size((12, 142), (150, 142), "138", height=6)
    paper.size((12, 480), (147, 480), "135", height=6)
    return paper


def first_attempt() -> Paper:
    """A first attempt with honest mistakes: too open, one scroll longer than its partner, an end twice, no joints."""
    paper = Paper("First attempt", 360, 290, 12, 6)
    w, h, b = 360.0, 290.0, 12.0
    paper.line("frame", "frame", [(b / 2, 0), (b / 2, h - b / 2), (w - b / 2, h - b / 2), (w - b / 2, 0)], b)
    paper.line("frame", "frame", [(b, b / 2), (w - b, b / 2)], b)
    paper.inside_arc((b, h - b), 6, 1)
    left = c_scroll(162, 260, power=1.5, turns=1.3).placed(177, 145, flip_x=True)
    right = c_scroll(156, 252, power=1.5, turns=1.3).placed(183, 145)
    for scroll in (left, right):
        paper.scroll(scroll)
    paper.collar((180, 145), 18, 12)
    rivet_to(paper, left, "top", "left", "bottom")
    name_ends(paper, [left, right], ["ribbon", "fishtail", "ribbon", "halfpenny"])
    paper.overall("360", "300")
    paper.line("doodles", "sketch", [(20, 310), (60, 318)], 1)
    return paper


def layers_guide() -> Paper:
    """The two C scrolls once more, every layer named: the picture of the drawing guide."""
    paper = Paper("What lies on which layer", 280, 236, 12, 6, margin=(100, 24, 105, 40))
    fill_two_c(paper)
    add_labels(paper)
    return paper


def main() -> None:
    """Write every example, and the panel that the fixtures are made from."""
    papers = {
        HERE / "two-c-panel.svg": two_c_panel(),
        HERE / "s-pair-panel.svg": s_pair_panel(),
        HERE / "six-c-window.svg": six_c_window(),
        HERE / "mixed-panel.svg": mixed_panel(),
        HERE / "first-attempt.svg": first_attempt(),
        HERE / "pictures" / "layers.svg": layers_guide(),
        HERE / "design-repository" / "window" / "two-c-panel.svg": two_c_panel("Window, two C scrolls"),
        HERE / "design-repository" / "porch" / "side-panel.svg": porch_panel(),
        HERE.parent / "fixtures" / "panel.svg": two_c_panel("A panel that passes every rule"),
    }
    for path, paper in papers.items():
        path.write_bytes(paper.svg())


if __name__ == "__main__":
    main()
